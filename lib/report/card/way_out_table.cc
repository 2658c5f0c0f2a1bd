#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "drawing/table.h"
#include "engine/route_point.h"
#include "report/card/evening_figures.h"
#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::WayOut;
using answers::WaysOut;
using drawing::Block;

// Less than this is no drive.
constexpr double slight_km = 0.05;
const std::string not_with_you = "not with you then";

/// Some nights at one camp: evenings counted from 1, and of each reserve the ways of the first of
/// them, with the highest figures of all.
struct Camp {
  std::size_t first = 0;
  std::size_t last = 0;
  std::vector<WaysOut> ways;
};

/// Figures that may share a row.
bool near(double a, double b, double slight) {
  if (!std::isfinite(a) || !std::isfinite(b)) return std::isfinite(a) == std::isfinite(b);
  return std::abs(a - b) <= slight;
}

bool same_way(const WayOut& a, const WayOut& b) {
  return a.place == b.place && std::abs(a.km - b.km) < slight_km && a.own_road == b.own_road &&
         a.shut_place == b.shut_place && std::isfinite(a.least) == std::isfinite(b.least);
}

bool near(const WayOut& a, const WayOut& b, double slight) {
  return same_way(a, b) && a.fits == b.fits && near(a.least, b.least, slight) &&
         near(a.bare, b.bare, slight);
}

bool near(const WaysOut& a, const WaysOut& b, double slight) {
  return near(a.at_once, b.at_once, slight) && a.back.has_value() == b.back.has_value() &&
         (!a.back || near(*a.back, *b.back, slight));
}

void raise(WayOut& to, const WayOut& other) {
  to.least = std::max(to.least, other.least);
  to.bare = std::max(to.bare, other.bare);
}

constexpr drawing::Font way_out_font{.size_pt = 8.5};

class WayOutRows {
 public:
  explicit WayOutRows(const Sheet& sheet)
      : sheet_(sheet), planned_(sheet.planned()), ways_(sheet.answer.ways_out) {}

  void write() {
    if (planned_.course.timeline->legs.empty() || ways_.reserves.empty()) return;
    if (planned_.record.days() < 2) return;
    constexpr std::size_t most_beside = 3;
    sheet_.title("The way out");
    sheet_.say(legend());
    if (ways_.reserves.size() <= most_beside) {
      write_table();
    } else {
      write_lines();
    }
    write_shut();
    const std::string taken = taken_on_the_way();
    if (!taken.empty()) sheet_.say("Figures count on what you take on the way: " + taken + ".");
  }

 private:
  /// How to read the table; of signs those that stand in it.
  [[nodiscard]] std::string legend() const {
    std::string words =
        "Each figure is the least that gets there with its margin. In brackets: with nothing left. "
        "Only that? Raise the alarm first, then ask them: stay, or drive? Less than that: stay. ";
    bool beyond = false;
    bool unsure = false;
    for (std::size_t evening = first_; evening < planned_.record.days(); ++evening) {
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        const WaysOut& ways = ways_.ways(evening, i);
        beyond = beyond || !ways.at_once.fits || (ways.back && !ways.back->fits);
        unsure = unsure || (ways.judged && !ways.back);
      }
    }
    if (beyond) words += "+: more than can be held. ";
    if (unsure) words += "A dash (-): no sure supply. ";
    if (more_at_once()) {
      words += "On at once can take more fuel: you carry what the stays would use. ";
    }
    // On the way one's own rate is in them.
    if (!planned_.course.readings.empty()) return words;
    return words +
           "You use more than planned? Multiply these figures too: by used \u00f7 planned. My "
           "factor ______";
  }

  /// Whether going on at once takes more fuel somewhere than going on as planned, the places on the
  /// way being open.
  [[nodiscard]] bool more_at_once() const {
    for (std::size_t evening = first_; evening < planned_.record.days(); ++evening) {
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        const WaysOut& ways = ways_.ways(evening, i);
        if (info(i).id.family != engine::Family::fuel || ways.at_once.shut_place >= 0) continue;
        if (std::isfinite(ways.at_once.least) && ways.at_once.least > ways.as_planned.least &&
            figure(i, ways.at_once.least) != figure(i, ways.as_planned.least)) {
          return true;
        }
      }
    }
    return false;
  }

  /// The limited supplies that figures count on, said once.
  [[nodiscard]] std::string taken_on_the_way() const {
    std::vector<Taken> taken;
    for (std::size_t evening = first_; evening < planned_.record.days(); ++evening) {
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        const WaysOut& ways = ways_.ways(evening, i);
        for (const WayOut* way : {&ways.at_once, ways.back ? &*ways.back : nullptr}) {
          if (way == nullptr) continue;
          for (const int place : way->taking_at) {
            taken.push_back({.place = place, .reserve = ways_.reserves[i]});
          }
        }
      }
    }
    return taken_words(planned_, taken);
  }

  [[nodiscard]] std::vector<Camp> camps() const {
    std::vector<Camp> out;
    for (std::size_t evening = first_; evening < planned_.record.days(); ++evening) {
      std::vector<WaysOut> ways;
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        ways.push_back(ways_.ways(evening, i));
      }
      if (out.empty() || !add_to(out.back(), evening, ways)) {
        out.push_back({.first = evening, .last = evening, .ways = std::move(ways)});
      }
    }
    return out;
  }

  /// Adds a night to those of a camp, if it is much like them.
  [[nodiscard]] bool add_to(Camp& camp, std::size_t evening,
                            const std::vector<WaysOut>& ways) const {
    if (name_of(camp.first) != name_of(evening)) return false;
    // By a twentieth of what can be held no way is taken or left: the margin is in the figures.
    constexpr double slight_share = 0.05;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      const double slight = slight_share * info(i).capacity;
      if (!near(ways_.ways(camp.first, i), ways[i], slight)) return false;
    }
    camp.last = evening;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      raise(camp.ways[i].at_once, ways[i].at_once);
      if (ways[i].back) raise(*camp.ways[i].back, *ways[i].back);
    }
    return true;
  }

  [[nodiscard]] std::string name_of(std::size_t evening) const {
    const auto& ended = planned_.course.timeline->days[evening - 1].schedule;
    return engine::route_point_name(planned_.plan, ended.to);
  }

  [[nodiscard]] static std::string nights(const Camp& camp) {
    return camp.first == camp.last ? fmt::format("{}", camp.first)
                                   : fmt::format("{}\u2013{}", camp.first, camp.last);
  }

  [[nodiscard]] static std::string nights_words(const Camp& camp) {
    return (camp.first == camp.last ? "Night " : "Nights ") + nights(camp);
  }

  // --- figures ---

  [[nodiscard]] const engine::ReserveInfo& info(std::size_t i) const {
    return reserve_of(planned_, ways_.reserves[i]);
  }

  [[nodiscard]] std::string figure(std::size_t i, double level) const {
    return amount_toward(info(i), level, sheet_.system, Toward::up, info(i).decimals);
  }

  [[nodiscard]] std::string with_bare(std::size_t i, const WayOut& way) const {
    if (!std::isfinite(way.least)) return "no amount";
    return (way.fits ? "" : "+") + figure(i, way.least) + "\u00a0(" + figure(i, way.bare) + ")";
  }

  /// On at once and back.
  [[nodiscard]] std::vector<std::string> figures(const Camp& camp, std::size_t i) const {
    const WaysOut& ways = camp.ways[i];
    if (!ways.judged) return {"-", "-"};
    return {with_bare(i, ways.at_once), ways.back ? with_bare(i, *ways.back) : "-"};
  }

  // --- where to ---

  [[nodiscard]] std::string place(int index) const {
    return index < 0 ? "the end of the trip" : name_in(planned_.plan.places, index);
  }

  [[nodiscard]] std::string leads(const WayOut& way) const {
    if (way.km < slight_km) return "wait at " + place(way.place);
    return place(way.place) + " " +
           unbroken(
               units::format(way.km, units::Kind::distance, sheet_.system, units::decimals(0))) +
           (way.own_road ? ", in part by another road than you came" : "");
  }

  /// Where at once takes more than as planned for coming too early.
  void write_shut() const {
    constexpr double slight = 0.05;
    for (const Camp& camp : camps()) {
      for (const WaysOut& ways : camp.ways) {
        const WayOut& once = ways.at_once;
        if (once.shut_place < 0 || once.least < ways.as_planned.least + slight) continue;
        sheet_.say(fmt::format("{}: at once takes more: {} is shut on day {}.", nights_words(camp),
                               place(once.shut_place), once.shut_day + 1));
        break;
      }
    }
  }

  /// The same of all reserves: once, or with the names of those that it is said of.
  template <class Words>
  [[nodiscard]] std::string of_all(Words words) const {
    std::vector<Said> said;
    for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
      say_of(said, reserve_words(info(i)), words(i));
    }
    if (said.size() == 1) return said.front().what;
    std::string out;
    for (const auto& [what, names] : said) {
      units::add_to(out, fmt::format("{}: {}", names, what), "; ");
    }
    return out;
  }

  [[nodiscard]] std::string on_to(const Camp& camp) const {
    return of_all([&](std::size_t i) {
      return camp.ways[i].judged ? leads(camp.ways[i].at_once) : not_with_you;
    });
  }

  [[nodiscard]] std::string back_to(const Camp& camp) const {
    return of_all([&](std::size_t i) {
      const auto& back = camp.ways[i].back;
      return back ? leads(*back) : std::string("no sure supply");
    });
  }

  // --- as a table ---

  void write_table() {
    std::vector<drawing::Column> columns{{.heading = "nights"}, {.heading = "camp"}};
    for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
      const std::string name =
          capital(reserve_words(info(i))) + ", " + unit(info(i), sheet_.system);
      for (const char* heading : {"on at once", "back"}) {
        columns.push_back({.heading = heading,
                           .align = drawing::Align::right,
                           .group = name,
                           .font = way_out_font});
      }
    }
    columns.push_back({.heading = "on to"});
    columns.push_back({.heading = "back to"});
    drawing::Table table(sheet_.typesetter, sheet_.width_pt(), std::move(columns), sheet_.small());
    for (const Camp& camp : camps()) {
      std::vector<std::string> cells{nights(camp), name_of(camp.first)};
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        for (std::string& cell : figures(camp, i)) cells.push_back(std::move(cell));
      }
      cells.push_back(on_to(camp));
      cells.push_back(back_to(camp));
      table.add(std::move(cells));
    }
    sheet_.flow.repeat(table.heading());
    sheet_.flow.add(table.rows());
    sheet_.flow.repeat_nothing();
  }

  // --- as lines ---

  void write_lines() {
    for (const Camp& camp : camps()) {
      const std::string head = nights_words(camp) + ", " + name_of(camp.first);
      sheet_.flow.add(with_next(
          drawing::paragraph(sheet_.typesetter, head, sheet_.small_strong(), sheet_.width_pt())));
      for (std::size_t i = 0; i < ways_.reserves.size(); ++i) {
        const std::vector<std::string> of = figures(camp, i);
        // The last line stands with where to.
        sheet_.flow.add(with_next(drawing::paragraph(
            sheet_.typesetter,
            fmt::format("{}, {}: on at once {}; back {}.", capital(reserve_words(info(i))),
                        unit(info(i), sheet_.system), of[0], of[1]),
            body_font, sheet_.width_pt())));
      }
      sheet_.say("On: " + on_to(camp) + ". Back: " + back_to(camp) + ".");
    }
  }

  const Sheet& sheet_;
  const answers::PlanRun& planned_;
  const answers::WaysOutTable& ways_;
  std::size_t first_ = std::max<std::size_t>(1, first_evening(planned_));
};

}  // namespace

void write_way_out(const Sheet& sheet) { WayOutRows(sheet).write(); }

}  // namespace drystage::report
