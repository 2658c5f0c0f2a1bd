#include "report/card/way_out_table.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "drawing/table.h"
#include "engine/route_point.h"
#include "report/card/pieces.h"
#include "report/card/supply_places.h"
#include "report/needs/words.h"
#include "report/text/capital.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::WayOut;
using answers::WaysOut;
using drawing::Block;

// Less than this is no drive.
constexpr double slight_km = 0.05;

/// The figures of one reserve on one evening.
struct Figures {
  std::string as_planned;
  std::string at_once;
  std::string back;
};

class WayOutRows {
 public:
  WayOutRows(drawing::Flow& flow, const drawing::Typesetter& typesetter, const CardAnswer& answer,
             units::System system)
      : flow_(flow),
        typesetter_(typesetter),
        trial_(answer.needs.trial),
        ways_(answer.ways_out),
        system_(system),
        width_pt_(flow.paper().column_pt()) {}

  void write() {
    if (trial_.course.timeline->legs.empty() || ways_.reserves.empty()) return;
    if (trial_.record.days() < 2) return;
    flow_.add(part_title(typesetter_, "The way out, evening by evening", width_pt_));
    for (const char* words : legend) flow_.add(sentences(typesetter_, words, width_pt_));
    if (width_pt_ >= least_table_pt) {
      write_table();
    } else {
      write_lines();
    }
  }

 private:
  static constexpr double least_table_pt = 400;
  static constexpr std::array<const char*, 2> legend{
      "Compare what you found tonight with tonight's row. On as planned: must have, with all "
      "stays. "
      "On at once: setting out in the morning, without the stays that are left. Back: turning back "
      "in the morning. Each is the least that gets there with the margin whole. A way is open only "
      "if every reserve lasts on it. If you use more than the plan says, all figures are too low.",
      "In brackets: the least that gets there with nothing left over, the margin used up. Raise "
      "the "
      "alarm before you set out on that. Below both figures in brackets neither way lasts. +: more "
      "than can be held. -: no sure supply is that way."};

  // --- words ---

  [[nodiscard]] std::string figure(std::size_t i, double level, int digits) const {
    if (!std::isfinite(level)) return "no amount";
    return amount_toward(info(i), level, system_, Toward::up, digits);
  }

  [[nodiscard]] const engine::ReserveInfo& info(std::size_t i) const {
    return trial_.course.reserves[static_cast<std::size_t>(ways_.reserves[i])];
  }

  [[nodiscard]] std::string name(std::size_t i) const {
    // On one line where that is not too long.
    constexpr std::size_t short_name = 20;
    const std::string words = capital(reserve_words(info(i))) + ", " + unit(info(i), system_);
    return words.size() <= short_name ? unbroken(words) : words;
  }

  [[nodiscard]] std::string with_bare(std::size_t i, const WayOut& way) const {
    if (!std::isfinite(way.least)) return "no amount";
    const int digits = digits_for(info(i), way.least, system_);
    const std::string held = (way.fits ? "" : "+") + figure(i, way.least, digits);
    // No-break space.
    return held + "\u00a0(" + figure(i, way.bare, digits) + ")";
  }

  [[nodiscard]] Figures figures(std::size_t day, std::size_t i) const {
    const WaysOut& ways = ways_.ways(day, i);
    const double planned = ways.as_planned.least;
    return {.as_planned = std::isfinite(planned)
                              ? (ways.as_planned.fits ? "" : "+") +
                                    figure(i, planned, digits_for(info(i), planned, system_))
                              : "no amount",
            .at_once = with_bare(i, ways.at_once),
            .back = ways.back ? with_bare(i, *ways.back) : "-"};
  }

  [[nodiscard]] std::string distance(double km) const {
    return unbroken(units::format(km, units::Kind::distance, system_, units::decimals(0)));
  }

  [[nodiscard]] std::string place(int index) const {
    return index < 0 ? "the end of the trip"
                     : trial_.plan.places[static_cast<std::size_t>(index)].name;
  }

  /// "on to Wenlow, 95 km, day 8": `lead` is "on" or "back".
  [[nodiscard]] std::string leads(const std::string& lead, const WayOut& way, std::size_t i) const {
    const std::string day = unbroken(fmt::format("day {}", way.day + 1));
    std::string out = way.km < slight_km ? fmt::format("wait at {}, {}", place(way.place), day)
                                         : fmt::format("{} to {}, {}, {}", lead, place(way.place),
                                                       distance(way.km), day);
    const std::string taking = taking_words(trial_, ways_.reserves[i], way.taking_at);
    if (!taking.empty()) units::add_to(out, taking);
    return out;
  }

  /// Why at once takes more than as planned, where it is for coming too early.
  [[nodiscard]] std::string shut_words(const WaysOut& ways) const {
    constexpr double slight = 0.05;
    const WayOut& once = ways.at_once;
    if (once.shut_place < 0 || once.least < ways.as_planned.least + slight) return {};
    return fmt::format("at once takes more: {} is shut on {}", place(once.shut_place),
                       unbroken(fmt::format("day {}", once.shut_day + 1)));
  }

  /// Where the ways of a reserve lead, a sentence each.
  [[nodiscard]] std::vector<std::string> directions(std::size_t day, std::size_t i) const {
    const WaysOut& ways = ways_.ways(day, i);
    std::vector<std::string> out;
    std::string on = leads("on", ways.as_planned, i);
    const WayOut& once = ways.at_once;
    if (once.place != ways.as_planned.place || std::abs(once.km - ways.as_planned.km) > slight_km) {
      out.push_back(std::move(on));
      out.push_back(leads("at once", once, i));
    } else {
      if (once.day != ways.as_planned.day) {
        on += " (at once " + unbroken(fmt::format("day {}", once.day + 1)) + ")";
      }
      out.push_back(std::move(on));
    }
    if (const std::string shut = shut_words(ways); !shut.empty()) out.push_back(shut);
    if (!ways.back) {
      out.emplace_back("no sure supply behind");
    } else if (out.back() != leads("back", *ways.back, i)) {
      out.push_back(leads("back", *ways.back, i) +
                    (ways.back->own_road ? ", in part by another road than you came" : ""));
    }
    return out;
  }

  static std::string joined(const std::vector<std::string>& words) {
    return capital(units::listed(words, {}, "; "));
  }

  [[nodiscard]] std::string evening(std::size_t day) const {
    const engine::ScheduledDay& ended = trial_.course.timeline->days[day - 1].schedule;
    return unbroken(fmt::format("{}, {}", day, short_date(ended.date)));
  }

  [[nodiscard]] std::string camp(std::size_t day) const {
    return engine::route_point_name(trial_.plan, trial_.course.timeline->days[day - 1].schedule.to);
  }

  // --- as a table ---

  void write_table() {
    drawing::Table table(typesetter_, width_pt_,
                         {{.heading = "Evening of day"},
                          {.heading = "Camp"},
                          {.heading = "Of"},
                          {.heading = "On as planned", .align = drawing::Align::right},
                          {.heading = "On at once", .align = drawing::Align::right},
                          {.heading = "Back", .align = drawing::Align::right},
                          {.heading = "Where to"}},
                         body_font);
    const std::size_t days = trial_.record.days();
    const std::size_t count = ways_.reserves.size();
    for (std::size_t day = 1; day < days; ++day) {
      std::string before;
      for (std::size_t i = 0; i < count; ++i) {
        const Figures of = figures(day, i);
        std::string where = joined(directions(day, i));
        const bool same = where == before;
        before = where;
        table.add({i == 0 ? evening(day) : "", i == 0 ? camp(day) : "", name(i), of.as_planned,
                   of.at_once, of.back, same ? "the same" : std::move(where)});
      }
    }
    flow_.repeat(table.heading());
    std::vector<Block> rows = table.rows();
    for (std::size_t day = 1; day < days; ++day) {
      const auto first = rows.begin() + static_cast<std::ptrdiff_t>((day - 1) * count);
      add_together({first, first + static_cast<std::ptrdiff_t>(count)});
    }
    flow_.repeat_nothing();
  }

  // --- as lines ---

  void write_lines() {
    for (std::size_t day = 1; day < trial_.record.days(); ++day) {
      std::vector<Block> blocks{
          small_title(typesetter_, "Evening of day " + evening(day) + ", " + camp(day), width_pt_)};
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        const Figures of = figures(day, i);
        append(blocks, sentences(typesetter_,
                                 fmt::format("{}: on as planned {}; on at once {}; back {}. {}.",
                                             name(i), of.as_planned, of.at_once, of.back,
                                             joined(directions(day, i))),
                                 width_pt_));
      }
      add_together(std::move(blocks));
    }
  }

  static void append(std::vector<Block>& to, std::vector<Block> some) {
    std::move(some.begin(), some.end(), std::back_inserter(to));
  }

  /// Keeps an evening on one page, unless it is higher than that.
  void add_together(std::vector<Block> blocks) {
    constexpr double most_of_a_page = 0.7;
    const double height_pt =
        std::accumulate(blocks.begin(), blocks.end(), 0.0,
                        [](double sum, const Block& block) { return sum + block.height_pt; });
    if (height_pt <= most_of_a_page * flow_.paper().height_pt) {
      flow_.add(stacked(blocks));
    } else {
      flow_.add(std::move(blocks));
    }
  }

  drawing::Flow& flow_;
  const drawing::Typesetter& typesetter_;
  const answers::Trial& trial_;
  const answers::WaysOutTable& ways_;
  units::System system_;
  double width_pt_;
};

}  // namespace

void write_way_out(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const CardAnswer& answer, units::System system) {
  WayOutRows(flow, typesetter, answer, system).write();
}

}  // namespace drystage::report
