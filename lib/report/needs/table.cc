#include <fmt/core.h>

#include <algorithm>
#include <numeric>
#include <optional>

#include "engine/route_point.h"
#include "plan/utf8.h"
#include "report/needs/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr int column_gap = 2;

/// A column of figures, one for each day, at least as wide as its head.
struct NeedsColumn {
  std::string head;
  std::vector<std::string> cells;
  int width = plan::columns(head);

  void add(std::string cell) {
    width = std::max(width, plan::columns(cell));
    cells.push_back(std::move(cell));
  }
};

/// What the table shows of one reserve.
struct NeedsOfReserve {
  std::string title;
  NeedsColumn must{.head = "must", .cells = {}};
  NeedsColumn has{.head = "has", .cells = {}};
  NeedsColumn spare{.head = "spare", .cells = {}};
  std::vector<bool> lacking;

  [[nodiscard]] int figures() const { return must.width + 1 + has.width + 1 + spare.width; }
  [[nodiscard]] int width() const { return column_gap + std::max(figures(), plan::columns(title)); }

  [[nodiscard]] std::string three(const std::string& a, const std::string& b,
                                  const std::string& c) const {
    return right(a, must.width) + " " + right(b, has.width) + " " + right(c, spare.width);
  }
};

NeedsOfReserve needs_of_reserve(const NeedsAnswer& answer, std::size_t i, units::System system) {
  const engine::ReserveInfo& info = reserve_of(answer.planned, answer.needs.reserves[i]);
  NeedsOfReserve out;
  out.title = info.title + ", " + unit(info, system);
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    const answers::Need& need = answer.needs.need(day, i);
    NeedFigures figures = need_figures(info, need, system);
    out.must.add(std::move(figures.must));
    out.has.add(std::move(figures.has));
    out.spare.add(std::move(figures.spare));
    out.lacking.push_back(need.lacks());
  }
  return out;
}

class NeedsTable {
 public:
  NeedsTable(const NeedsAnswer& answer, const TextOptions& options)
      : answer_(answer), options_(options) {
    int n = 0;
    for (const engine::DayInfo& day : answer_.planned.course.timeline->days) {
      number_.add(std::to_string(++n));
      date_.add(short_date(day.schedule.date));
      at_.add(engine::route_point_name(answer_.planned.plan, day.schedule.from));
      in_bush_.push_back(engine::place_at(day.schedule.from) < 0);
    }
  }

  /// All reserves in as many blocks as they take; on one screen one block, of those on which life
  /// depends and those that lack something.
  [[nodiscard]] std::string text() const {
    std::string out;
    std::string enough;
    std::string too_little;
    std::vector<NeedsOfReserve> side_by_side;
    int room = most_room();
    for (const std::size_t i : needs_order(answer_)) {
      NeedsOfReserve columns = needs_of_reserve(answer_, i, options_.system);
      if (!options_.wide) fit_title(columns);
      const bool full = columns.width() > room && !side_by_side.empty();
      if (!options_.all && (full || !is_urgent(i))) {
        const auto lack = first_lack(i);
        units::add_to(lack ? too_little : enough, reserve_words(reserve(i)));
        if (lack) too_little += fmt::format(" (day {})", *lack + 1);
        continue;
      }
      if (!options_.wide && full) {
        out += block(side_by_side, room) + "\n";
        side_by_side.clear();
        room = most_room();
      }
      room -= columns.width();
      side_by_side.push_back(std::move(columns));
    }
    out += block(side_by_side, room) + legend();
    if (!too_little.empty()) {
      out += paragraph("Not shown, too little: " + too_little + ". --all shows them.");
    }
    if (!enough.empty()) out += paragraph("Not shown, enough: " + enough + ". --all shows them.");
    return out;
  }

 private:
  [[nodiscard]] std::optional<std::size_t> first_lack(std::size_t i) const {
    for (std::size_t day = 0; day < number_.cells.size(); ++day) {
      if (answer_.needs.need(day, i).lacks()) return day;
    }
    return std::nullopt;
  }

  [[nodiscard]] const engine::ReserveInfo& reserve(std::size_t i) const {
    return reserve_of(answer_.planned, answer_.needs.reserves[i]);
  }

  [[nodiscard]] bool is_urgent(std::size_t i) const {
    return reserve(i).life_supporting || first_lack(i).has_value();
  }

  /// Columns for reserves beside the narrowest that the rest can be.
  [[nodiscard]] int most_room() const {
    return table_columns() - number_.width - 1 - date_.width - 1 - least_place_columns;
  }

  /// A name may be longer than a page is wide.
  void fit_title(NeedsOfReserve& columns) const {
    const int most = std::max(columns.figures(), most_room() - column_gap);
    if (plan::columns(columns.title) > most) columns.title = left(columns.title, most);
  }

  [[nodiscard]] std::string block(const std::vector<NeedsOfReserve>& shown, int room) const {
    const int places = options_.wide ? at_.width : std::min(at_.width, least_place_columns + room);
    const int fixed = number_.width + 1 + date_.width + 1 + places;
    std::string first(static_cast<std::size_t>(fixed), ' ');
    std::string second =
        right("d", number_.width) + " " + left("date", date_.width) + " " + left(at_.head, places);
    for (const NeedsOfReserve& columns : shown) {
      first += right(columns.title, columns.width());
      second += right(columns.three("must", "has", "spare"), columns.width());
    }
    std::string out = strong(first, options_.color) + "\n" + strong(second, options_.color) + "\n";
    for (std::size_t day = at(answer_.needs.first_day); day < number_.cells.size(); ++day) {
      out += right(number_.cells[day], number_.width) + " " + date_.cells[day] + " " +
             place_cell(at_.cells[day], in_bush_[day], places);
      for (const NeedsOfReserve& columns : shown) {
        const std::string cells =
            right(columns.three(columns.must.cells[day], columns.has.cells[day],
                                columns.spare.cells[day]),
                  columns.width());
        out += columns.lacking[day] ? alarming(cells, options_.color) : cells;
      }
      out += "\n";
    }
    return out;
  }

  [[nodiscard]] std::string legend() const {
    std::string text =
        "Must: the least each morning that reaches the next confirmed supply, margin intact.";
    if (options_.all) {
      text +=
          " With no more than must, fill up there: must does not count what comes after that "
          "supply.";
    }
    text += " ! too little.";
    const auto& all = answer_.needs.table;
    if (std::ranges::any_of(all, is_endless)) text += " - no amount is enough.";
    const auto too_much = [](const answers::Need& need) { return !need.fits && !is_endless(need); };
    if (std::ranges::any_of(all, too_much)) text += " + more than can be held.";
    if (options_.all) text += " Must is rounded up, has and spare down.";
    return paragraph(text);
  }

  const NeedsAnswer& answer_;
  const TextOptions& options_;
  NeedsColumn number_{.head = "d", .cells = {}};
  NeedsColumn date_{.head = "date", .cells = {}};
  NeedsColumn at_{.head = "at", .cells = {}};
  std::vector<bool> in_bush_{};
};

}  // namespace

std::vector<std::size_t> needs_order(const NeedsAnswer& answer) {
  std::vector<std::size_t> order(answer.needs.reserves.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    return !reserve_of(answer.planned, answer.needs.reserves[i]).life_supporting;
  });
  return order;
}

std::string needs_table(const NeedsAnswer& answer, const TextOptions& options) {
  return NeedsTable(answer, options).text();
}

}  // namespace drystage::report
