#include <fmt/core.h>

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/utf8.h"
#include "report/size/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::SizedLine;

constexpr int cell_gap = 2;
constexpr int note_indent = 2;
constexpr int widest_amount = 22;
constexpr int widest_amount_of_many_columns = 16;
constexpr int narrowest_name = 16;

struct SizeRow {
  std::string name;
  std::vector<std::string> cells;
  std::vector<std::string> notes{};
};

/// All cans of one sort of stuff, of whatever size and whoever carries them.
struct Stuff {
  const SizedLine* last = nullptr;  ///< the last line of it
  int changes = 0;                  ///< lines in which the set is not as the plan
  double quantity = 0;
  double plan_quantity = 0;
  bool plan_full = true;
  double more_kg = 0;
};

Stuff stuff_of(const std::vector<SizedLine>& lines, const SizedLine& like) {
  Stuff out;
  for (const SizedLine& line : lines) {
    if (line.many.empty() || line.of != like.of) continue;
    out.last = &line;
    out.changes += changed(line) ? 1 : 0;
    out.quantity += line.amount * line.each;
    out.plan_quantity += line.plan_amount * line.each;
    out.plan_full = out.plan_full && line.plan_detail.empty();
    out.more_kg += line.kg - line.plan_kg;
  }
  return out;
}

/// Of cans of some sizes in place of others: "together: 60 L of drinking water in place of 100 L,
/// 41 kg less".
std::string together_words(const Stuff& stuff, const SizedLine& line, units::System system) {
  std::string text =
      fmt::format("together: {} of {}", quantity_words(stuff.quantity, line.unit, system), line.of);
  if (stuff.plan_full && same(stuff.quantity, stuff.plan_quantity)) {
    text += ", as in the plan";
  } else if (stuff.plan_full) {
    text += " in place of " + quantity_words(stuff.plan_quantity, line.unit, system);
  }
  const std::string mass = mass_change_words(stuff.more_kg, system);
  if (!mass.empty()) text += ", " + mass + (stuff.plan_full ? "" : " than in the plan");
  return text;
}

class SizeTable {
 public:
  SizeTable(const SizeAnswer& answer, const answers::SizedPlan& set, const TextOptions& options)
      : answer_(answer), options_(options) {
    head_ = {
        .name = {},
        .cells = {"plan has", answer.sizing.found ? "load" : "nearest", std::string(mass_unit())}};
    if (costs()) head_.cells.emplace_back("cost");
    if (space()) head_.cells.push_back("space, " + std::string(volume_unit()));
    for (const SizedLine& line : set.lines) {
      if (!line.kept) rows_.push_back(row(line, set.lines));
    }
    add_kept(set.lines);
    rows_.push_back(total("in all", set.totals));
    rows_.push_back(total("the plan has of the same", answer_.sizing.plan_totals));
    measure();
  }

  [[nodiscard]] std::string text() const {
    std::string out = strong(first_line(head_, head_.name), options_.color) + "\n";
    const std::size_t totals = rows_.size() - 2;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (i == totals) {
        out += std::string(static_cast<std::size_t>(name_ + figures_), '-') + "\n";
      }
      out += lines(rows_[i]);
    }
    return out;
  }

 private:
  [[nodiscard]] bool costs() const { return answer_.sizing.costs_given; }
  [[nodiscard]] bool space() const { return answer_.sizing.space_limited; }
  [[nodiscard]] std::string_view mass_unit() const {
    return units::display(units::Kind::mass, options_.system).unit;
  }
  [[nodiscard]] std::string_view volume_unit() const {
    return units::display(units::Kind::volume, options_.system).unit;
  }

  [[nodiscard]] std::string amount(const SizedLine& line, double of,
                                   const std::string& detail) const {
    const std::string text = amount_words(line, of, detail, options_.system);
    const int widest = costs() || space() ? widest_amount_of_many_columns : widest_amount;
    return options_.wide ? text : left(text, std::min(plan::columns(text), widest));
  }

  void add_figures(SizeRow& row, double kg, double cost, double space_l) const {
    row.cells.push_back(mass_number(kg, options_.system, Toward::up));
    if (costs()) row.cells.push_back(cost_number(cost));
    if (space()) row.cells.push_back(volume_number(space_l, options_.system, Toward::up));
  }

  [[nodiscard]] SizeRow row(const SizedLine& line, const std::vector<SizedLine>& all) const {
    SizeRow out{.name = line.many.empty() ? line.one : line.many,
                .cells = {amount(line, line.plan_amount, line.plan_detail),
                          amount(line, line.amount, line.detail)}};
    add_figures(out, line.kg, line.cost, line.space_l);
    // Too many of one size and too few of another say little of the two together.
    const Stuff stuff = line.many.empty() ? Stuff{} : stuff_of(all, line);
    const bool swapped = stuff.changes > 1;
    const bool enough = answer_.sizing.found.has_value();
    const bool room_left = line.each > 0 && line.each < line.holds && !same(line.each, line.holds);
    if (room_left && line.amount > 0) {
      out.notes.push_back(fmt::format("{} in each, the rest is air",
                                      quantity_words(line.each, line.unit, options_.system)));
    }
    if (!swapped) out.notes.push_back(change_words(line, enough, options_.system));
    if (line.fewer) out.notes.push_back(fewer_words(line));
    if (swapped && stuff.last == &line) {
      out.notes.push_back(together_words(stuff, line, options_.system));
    }
    if (!options_.all) on_few_lines(out.notes, line.many.empty());
    return out;
  }

  /// On one screen notes follow each other; that one size stands in place of another is seen.
  static void on_few_lines(std::vector<std::string>& notes, bool sizes) {
    if (sizes) notes.front().clear();
    std::string all;
    for (const std::string& note : notes) {
      if (!note.empty()) units::add_to(all, all.empty() ? note : capital(note), ". ");
    }
    notes = {all};
  }

  [[nodiscard]] std::string fewer_words(const SizedLine& line) const {
    const bool none = *line.fewer == "0" || *line.fewer == "none";
    const char* const with = line.many.empty() ? "with" : "with only";
    const std::string text = none ? "with none: " : fmt::format("{} {}: ", with, *line.fewer);
    if (line.one_fewer) {
      return text + failing_words(answer_.planned, *line.one_fewer, options_.system, Manner::note);
    }
    return text + (answer_.sizing.stopped ? "not tried" : "would do as well");
  }

  /// What is kept has one row together, and is listed under it, no thing across two lines.
  void add_kept(const std::vector<SizedLine>& lines) {
    answers::Totals totals;
    std::vector<std::string> names;
    std::size_t count = 0;
    for (const SizedLine& line : lines) {
      if (!line.kept) continue;
      ++count;
      totals.kg += line.kg;
      totals.cost += line.cost;
      totals.space_l += line.space_l;
      const std::string name = fmt::format(
          "{} ({}, {})", line.one, amount_words(line, line.amount, line.detail, options_.system),
          mass_words(line.kg, options_.system, Toward::up));
      const int room = page_columns() - note_indent;
      if (names.empty()) {
        names.push_back(name);
      } else if (plan::columns(names.back() + ", " + name + ",") <= room) {
        units::add_to(names.back(), name);
      } else {
        names.back() += ",";
        names.push_back(name);
      }
    }
    if (count == 0) return;
    SizeRow kept = total(count == 1 ? "kept as it is" : "kept as they are", totals);
    kept.notes = std::move(names);
    rows_.push_back(std::move(kept));
  }

  [[nodiscard]] SizeRow total(const char* name, const answers::Totals& totals) const {
    SizeRow out{.name = name, .cells = {"", ""}};
    add_figures(out, totals.kg, totals.cost, totals.space_l);
    return out;
  }

  /// Widths of the columns: as wide as what stands in them; the name has what is left.
  void measure() {
    for (std::size_t i = 0; i < head_.cells.size(); ++i) {
      int width = plan::columns(head_.cells[i]);
      for (const SizeRow& row : rows_) width = std::max(width, plan::columns(row.cells[i]));
      widths_.push_back(width);
      figures_ += cell_gap + width;
    }
    for (const SizeRow& row : rows_) name_ = std::max(name_, plan::columns(row.name));
    if (!options_.wide) {
      name_ = std::min(name_, std::max(narrowest_name, table_columns() - figures_));
    }
  }

  [[nodiscard]] std::string first_line(const SizeRow& row, std::string_view name) const {
    std::string out = left(name, name_);
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      out += right(row.cells[i], cell_gap + widths_[i]);
    }
    return out;
  }

  [[nodiscard]] std::string lines(const SizeRow& row) const {
    const std::string name = wrap(row.name, name_, note_indent);
    std::size_t end = name.find('\n');
    std::string out = first_line(row, std::string_view(name).substr(0, end)) + "\n";
    while (end != std::string::npos) {
      const std::size_t begin = end + 1;
      end = name.find('\n', begin);
      const std::string line = name.substr(begin, end - begin);
      out += left(line, std::min(name_, plan::columns(line))) + "\n";
    }
    for (const std::string& note : row.notes) {
      if (!note.empty()) out += indented(wrap(note, page_columns() - note_indent, note_indent));
    }
    return out;
  }

  /// Each line of a note stands a little to the right; those after its first do so already, and
  /// once more.
  [[nodiscard]] static std::string indented(const std::string& note) {
    const std::string blanks(note_indent, ' ');
    std::string out = blanks;
    for (const char each : note) {
      out += each;
      if (each == '\n') out += blanks;
    }
    return out + "\n";
  }

  const SizeAnswer& answer_;
  const TextOptions& options_;
  SizeRow head_;
  std::vector<SizeRow> rows_;
  std::vector<int> widths_;
  int figures_ = 0;
  int name_ = 1;
};

}  // namespace

std::string size_table(const SizeAnswer& answer, const answers::SizedPlan& set,
                       const TextOptions& options) {
  return SizeTable(answer, set, options).text();
}

}  // namespace drystage::report
