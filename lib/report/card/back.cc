#include <fmt/core.h>

#include <string>
#include <utility>
#include <vector>

#include "answers/base/dip_table.h"
#include "report/card/advice.h"
#include "report/card/dip_tables.h"
#include "report/card/pieces.h"
#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

class Back {
 public:
  explicit Back(const Sheet& sheet) : sheet_(sheet) {}

  void write() {
    const std::vector<Advice> all = first_steps(sheet_.answer, sheet_.system);
    write_lines(all.front());
    write_way_out(sheet_);
    sheet_.title("What to do first. Local advice, and what rescuers tell you, come before it");
    for (std::size_t i = 1; i < all.size(); ++i) {
      if (all[i].in_lines) {
        write_lines(all[i]);
      } else {
        entry(all[i].title, units::listed(all[i].steps, {}, " "));
      }
    }
    write_blanks();
    write_places();
    write_dips();
  }

 private:
  void write_lines(const Advice& advice) {
    sheet_.title(advice.title);
    for (std::size_t s = 0; s < advice.steps.size(); ++s) {
      sheet_.flow.add(item(sheet_.typesetter, fmt::format("{}.", s + 1), advice.steps[s],
                           sheet_.width_pt(), sheet_.small()));
    }
  }

  /// A name in bold, and beside it what is said of it; above it, where the name is long.
  void entry(const std::string& name, const std::string& words) {
    const double name_pt = 9.4 * sheet_.small().size_pt;
    const drawing::Typesetter& typesetter = sheet_.typesetter;
    const double width = sheet_.width_pt();
    if (typesetter.width(name, sheet_.small_strong()) > name_pt - 4) {
      sheet_.flow.add(
          with_next(drawing::paragraph(typesetter, name, sheet_.small_strong(), width)));
      sheet_.say(words);
      return;
    }
    std::vector<drawing::Block> lines =
        drawing::paragraph(typesetter, words, sheet_.small(), width, name_pt);
    if (lines.empty()) return;
    lines.front().marks.emplace_back(
        typesetter.text(name, sheet_.small_strong(), {.x = 0, .y = 0}, name_pt));
    sheet_.flow.add(std::move(lines));
  }

  /// What is needed when the alarm is raised, to be filled in by hand.
  void write_blanks() {
    const double each = sheet_.width_pt() / 3;
    constexpr double inset_pt = 3;
    drawing::Block out;
    double x = 0;
    for (const char* words : {"Emergency number", "Who is told, telephone",
                              "OVERDUE: raise the alarm on (day, hour)"}) {
      const drawing::Rect box{.x = x, .y = inset_pt, .width = each, .height = writing_height_pt};
      out.marks.emplace_back(drawing::outline(box, {.width_pt = 0.7}));
      out.marks.emplace_back(sheet_.typesetter.text(
          words, sheet_.small_strong(), {.x = x + inset_pt, .y = inset_pt}, each - 2 * inset_pt));
      out.height_pt = box.bottom() + inset_pt;
      x += each;
    }
    sheet_.flow.add(std::move(out));
  }

  void write_places() {
    sheet_.title("What is sure where");
    const std::vector<PlaceLine> lines = place_lines(sheet_.planned(), sheet_.system);
    if (lines.empty()) sheet_.say("No place on this trip supplies anything.");
    for (const PlaceLine& line : lines) {
      std::string words = fmt::format("{}, {}: {}.", capital(line.days), line.name,
                                      line.sure.empty() ? "nothing is sure" : line.sure);
      if (!line.unsure.empty()) words += " NOT CONFIRMED: " + line.unsure + ".";
      sheet_.say(words);
    }
    const std::string others = other_places(sheet_.planned());
    if (!others.empty()) sheet_.say("Nothing to be had, for their position: " + others + ".");
  }

  void write_dips() {
    const auto tables = answers::dip_tables(sheet_.plan(), stick_marks(sheet_.system));
    if (tables.empty()) return;
    sheet_.title("What the dipstick says. Between two depths the lesser one counts");
    for (const answers::DipTable& table : tables) sheet_.say(dip_line(table, sheet_.system));
  }

  const Sheet& sheet_;
};

}  // namespace

void write_back(const Sheet& sheet) { Back(sheet).write(); }

}  // namespace drystage::report
