#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/odds/report.h"
#include "report/odds/words.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

class OddsPage {
 public:
  OddsPage(const OddsAnswer& answer, const TextOptions& options)
      : answer_(answer), odds_(answer.odds), planned_(answer.planned), options_(options) {}

  [[nodiscard]] std::string text() const {
    std::string out = headline(odds_verdict_words(answer_), is_good(), options_.color);
    out += paragraph(odds_dry_words(answer_));
    out += paragraph(odds_help_words(answer_));
    // Drivers and helps come once all trips have been run.
    if (odds_.partial) {
      out += paragraph(odds_.compared == 0
                           ? "Stopped early: so the intervals are wider."
                           : "Stopped early: what makes trips differ, and what would help, is not "
                             "told in full.");
    }
    out += "\n" + title_line(planned_);
    out += warning_lines(answer_.warnings);
    out += paragraph(odds_trips_words(answer_));
    out += "\n" + chances();
    if (!odds_.helps.empty()) out += "\n" + helps();
    out += drivers();
    if (answer_.told_worst > 0) out += "\n" + worst();
    const std::string end = "\n" + paragraph(std::string(odds_cautions)) + caution_lines(options_);
    const std::string days = "\n" + levels();
    const auto lines = [](const std::string& of) { return std::ranges::count(of, '\n'); };
    const bool fits = lines(out) + lines(days) + lines(end) <= screen_lines(planned_.record.days());
    out += options_.all || fits ? days : "\nLevels of each day: --all.\n";
    return out + end;
  }

 private:
  [[nodiscard]] const engine::ReserveInfo& info(std::size_t r) const {
    return planned_.course.reserves[r];
  }
  [[nodiscard]] bool is_good() const {
    return answer_.at_most ? odds_accepted(answer_) : odds_.life_breach.chance <= 0;
  }

  [[nodiscard]] std::vector<std::size_t> told() const {
    return told_reserves(answer_, options_.all);
  }

  [[nodiscard]] std::string chances() const {
    constexpr int name = 22;
    std::string out = fmt::format("{:<22}{:>22}{:>22}   first below\n", "of 100 trips",
                                  "below margin", "runs out");
    const std::vector<std::size_t> shown = told();
    for (const std::size_t r : shown) {
      const answers::ReserveOdds& its = odds_.reserves[r];
      const auto cell = [](const models::Chance& chance) {
        return fmt::format("{:>7} {:>13}", percent_words(chance.chance),
                           "(" + interval_words(chance) + ")");
      };
      // Of cold, which is kept below, too warm.
      const bool above = info(r).sense == engine::Sense::keep_above;
      out += left(capital(reserve_words(info(r))) + (above ? "" : ": warm"), name - 1) + " " +
             right(cell(its.breach), 22);
      out += right(above ? cell(its.dry) : "", 22);
      const int early = day_of_share(its.first_breach_days, 0.05);
      const int middle = day_of_share(its.first_breach_days, 0.5);
      const int late = day_of_share(its.first_breach_days, 0.95);
      if (middle >= 0) {
        out += early == late ? fmt::format("   day {}", middle + 1)
                             : fmt::format("   day {}-{}", early + 1, late + 1);
      }
      out += "\n";
    }
    out += wrap(
               "In brackets: where the true chance lies, 95 times in 100. First below: of 10 "
               "trips that fall below, 9 do so first on these days.",
               page_columns()) +
           "\n";
    std::string kept;
    for (std::size_t r = 0; r < odds_.reserves.size(); ++r) {
      if (std::ranges::find(shown, r) == shown.end()) units::add_to(kept, reserve_words(info(r)));
    }
    if (!kept.empty())
      out += paragraph("Below its margin on hardly any of these trips, or on none: " + kept + ".");
    return out;
  }

  /// As many as fit beside each other; the rest with --wide.
  [[nodiscard]] std::string levels() const {
    constexpr int head = 12;
    constexpr int cell = 6;
    constexpr int band = 3 * cell + 2;
    std::vector<std::size_t> shown = told();
    const std::size_t most =
        options_.wide ? shown.size() : static_cast<std::size_t>(table_columns() - head) / band;
    const bool cut = shown.size() > most;
    if (cut) shown.resize(most);
    std::string out = left("", head);
    for (const std::size_t r : shown) {
      out += "  " +
             left(fmt::format("{} {}", info(r).title, unit(info(r), options_.system)), band - 2);
    }
    out.erase(out.find_last_not_of(' ') + 1);
    out += "\n" + left("day", head);
    for (std::size_t i = 0; i < shown.size(); ++i) {
      out += "  " + right("5 %", cell) + right("half", cell) + right("95 %", cell);
    }
    out += "\n";
    const int first = planned_.course.first_judged_day();
    const auto days = static_cast<int>(planned_.record.days());
    for (int day = first; day < days; ++day) {
      out += left(fmt::format("{:>3} {}", day + 1, short_date(date_of(planned_, day)).substr(0, 6)),
                  head);
      for (const std::size_t r : shown) {
        const answers::LevelBand& its = odds_.reserves[r].bands[at(day)];
        out += "  ";
        for (const double level : {its.p5, its.p50, its.p95}) {
          out += right(std::isnan(level) ? "-" : amount(info(r), level, options_.system), cell);
        }
      }
      out += "\n";
    }
    out += wrap(
               "The lowest level of each day (cold: the warmest): 5, 50 and 95 of 100 trips are "
               "below it.",
               page_columns()) +
           "\n";
    if (cut) out += "Others: --wide.\n";
    return out;
  }

  /// Nothing where nothing is told.
  [[nodiscard]] std::string drivers() const {
    constexpr std::size_t most = 4;
    constexpr int name = 22;
    std::string out;
    for (const std::size_t r : told()) {
      if (!options_.all && !info(r).life_supporting) continue;
      std::string line;
      std::size_t count = 0;
      for (const answers::Driver& driver : odds_.drivers) {
        if (at(driver.reserve) != r || driver.share < 0.01) continue;
        if (++count > most && !options_.all) break;
        units::add_to(line,
                      fmt::format("{} {:.0f} % ({:.0f} to {:.0f})", source_words(driver.source),
                                  100 * driver.share, std::max(0.0, 100 * driver.low),
                                  std::min(100.0, 100 * driver.high)));
      }
      if (!line.empty()) {
        out +=
            wrap_after(left(capital(reserve_words(info(r))), name - 1) + " ", line, page_columns());
      }
    }
    if (out.empty()) return odds_.drivers.empty() ? "" : "\nWhat makes trips differ: --all.\n";
    return "\nWhat makes trips differ\n" + out +
           wrap(
               "Share of the variance of what is to spare at the tightest moment that goes "
               "with this one thing as usual.",
               page_columns()) +
           "\n";
  }

  [[nodiscard]] std::string helps() const {
    constexpr int name = 46;
    constexpr int of = 18;
    std::string out = left("What would help", name) + left("below margin of", of) +
                      right("now", 7) + right("then", 8) + "\n";
    std::size_t count = 0;
    for (const answers::OddsHelp& help : odds_.helps) {
      constexpr std::size_t most = 3;
      if (!options_.all && ++count > most) break;
      const std::string what = engine::words(help.name) + (help.overloads ? ": too heavy" : "");
      const std::string figures = left(reserve_words(info(at(help.reserve))), of) +
                                  right(percent_words(help.breach_before.chance), 7) +
                                  right(percent_words(help.breach.chance), 8) + "\n";
      // What is longer than its column has a line of its own.
      const bool fits = what.size() < name;
      out +=
          (fits ? left(what, name) : wrap(what, page_columns()) + "\n" + left("", name)) + figures;
    }
    return out + fmt::format("Each alone, over the first {} trips.\n", odds_.compared);
  }

  [[nodiscard]] std::string worst() const {
    if (odds_.worst.empty()) {
      return paragraph("The worst trips: none of these trips falls below a margin.");
    }
    std::string out = "The worst trips\n";
    for (const answers::WorstTrip& trip : odds_.worst) {
      std::string what =
          trip.dry_day >= 0
              ? fmt::format(
                    "{} runs out on day {}, short by {}", reserve_words(info(at(trip.reserve))),
                    trip.dry_day + 1,
                    difference_words(info(at(trip.reserve)), trip.short_of, options_.system))
              : fmt::format("{} is below its margin from day {}",
                            reserve_words(info(at(trip.reserve))), trip.breach_day + 1);
      what =
          capital(what) + ". " +
          capital(story_words(planned_, trip.draw, trip.happened, options_.system, trip.reserve)) +
          ".";
      out += wrap_after(fmt::format("{:>8}  ", trip.trip), what, page_columns());
    }
    return out + "One of them day by day: --trip NUMBER.\n";
  }

  const OddsAnswer& answer_;
  const answers::Odds& odds_;
  const answers::PlanRun& planned_;
  const TextOptions& options_;
};

}  // namespace

bool odds_accepted(const OddsAnswer& answer) {
  return !answer.at_most || answer.odds.life_breach.high <= *answer.at_most;
}

std::string odds_text(const OddsAnswer& answer, const TextOptions& options) {
  return OddsPage(answer, options).text();
}

DrawnTrip drawn_trip(const answers::PlanRun& planned, const answers::TripDraw& draw,
                     const std::vector<answers::Happened>& happened, std::uint64_t trip,
                     std::uint64_t seed, units::System system) {
  DrawnTrip out{.trip = trip, .seed = seed, .story = story_words(planned, draw, happened, system)};
  for (const answers::Happened& one : happened) {
    out.befell.push_back({.day = one.day, .what = happening_words(planned, one)});
  }
  return out;
}

}  // namespace drystage::report
