#include "report/mishaps/findings.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <tuple>

#include "plan/mishaps.h"
#include "plan/utf8.h"
#include "report/text/capital.h"
#include "report/text/layout.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

bool runs_dry(Outcome outcome) {
  return outcome == Outcome::runs_out || outcome == Outcome::runs_out_vital;
}

/// Greater is worse: what is wanted and not there, else how far below the margin, for the size of
/// the reserve; of what is alike, what is dry longer, and what turning back does not mend.
auto harm(const answers::PlanRun& planned, const Finding& finding) {
  double lacking = 0;
  if (finding.reserve >= 0) {
    const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
    lacking = (runs_dry(finding.outcome) ? finding.short_of : finding.stood_in - finding.slack) /
              (info.capacity > 0 ? info.capacity : 10);
  }
  const int beyond_mending = !finding.retreat_saves ? 1 : *finding.retreat_saves ? 0 : 2;
  return std::tuple(finding.outcome, lacking, finding.dry_for_h, beyond_mending);
}

std::string hours(double h) {
  if (h >= 2 * day_h) {
    return units::format_number(rounded(h / day_h, 1, Toward::up), units::decimals(1)) + " days";
  }
  const int digits = h < 10 ? 1 : 0;
  return units::format_number(rounded(h, digits, Toward::up), units::decimals(digits)) + " h";
}

std::string place_words(const Finding& finding) {
  if (finding.where.empty()) return {};
  return (finding.in_bush ? ", in the " : ", at ") + name_words(finding.where);
}

std::string margin_words(const engine::ReserveInfo& info, const Finding& finding,
                         units::System system) {
  if (finding.stood_in > 0) {
    return fmt::format("the drinking containers run empty. {} of utility water are drunk",
                       difference_words(info, finding.stood_in, system));
  }
  const bool above = info.sense == engine::Sense::keep_above;
  return fmt::format("{} {} {} {} its margin", name_words(reserve_words(info)),
                     above ? "falls" : "rises", difference_words(info, -finding.slack, system),
                     above ? "below" : "above");
}

std::string runs_out_words(const engine::ReserveInfo& info) {
  return name_words(reserve_words(info)) +
         (info.sense == engine::Sense::keep_above ? " runs out" : " is gone");
}

std::string dry_words(const answers::PlanRun& planned, const Finding& finding,
                      units::System system) {
  const engine::ReserveInfo& info = reserve_of(planned, finding.reserve);
  std::string text = runs_out_words(info);
  if (finding.dry_day >= 0) {
    text += " on " + strike_words(planned, finding.dry_day, finding.dry_hour);
  }
  text += place_words(finding);
  std::string how_much;
  if (finding.short_of > 0)
    how_much = "short by " + difference_words(info, finding.short_of, system);
  // Where the fuel ends, they stay; how long is not the fuel's affair.
  const bool time_matters = info.endurance != engine::Endurance::km;
  if (time_matters && finding.dry_for_h > 0) {
    units::add_to(how_much, "for " + hours(finding.dry_for_h), ", ");
  }
  return how_much.empty() ? text : text + ". " + capital(how_much);
}

}  // namespace

Tally tally(const answers::Sweep& sweep) {
  std::vector<int> worst(sweep.failures.size(), -1);
  for (const Finding& finding : sweep.findings) {
    int& of_it = worst[at(finding.failure)];
    of_it = std::max(of_it, static_cast<int>(finding.outcome));
  }
  const auto count = [&worst](Outcome outcome) {
    return static_cast<std::size_t>(std::ranges::count(worst, static_cast<int>(outcome)));
  };
  return {.tried = worst.size() - static_cast<std::size_t>(std::ranges::count(worst, -1)),
          .vital = count(Outcome::runs_out_vital),
          .dry = count(Outcome::runs_out),
          .margin = count(Outcome::eats_margin)};
}

std::vector<const Finding*> worst_moments(const MishapsAnswer& answer) {
  std::vector<const Finding*> of_failure(answer.sweep.failures.size(), nullptr);
  for (const Finding& finding : answer.sweep.findings) {
    if (finding.outcome == Outcome::holds) continue;
    const Finding*& worst = of_failure[at(finding.failure)];
    if (worst == nullptr || harm(answer.planned, finding) > harm(answer.planned, *worst)) {
      worst = &finding;
    }
  }
  std::erase(of_failure, nullptr);
  std::ranges::stable_sort(of_failure, [&answer](const Finding* a, const Finding* b) {
    return harm(answer.planned, *a) > harm(answer.planned, *b);
  });
  return of_failure;
}

std::string strike_words(const answers::PlanRun& planned, int day, double hour) {
  constexpr double minutes_per_hour = 60;
  const double minutes = rounded(hour * minutes_per_hour, 0, Toward::down);
  return fmt::format("day {}, {}, {}", day + 1, short_date(date_of(planned, day)),
                     clock(minutes / minutes_per_hour));
}

std::string finding_words(const answers::PlanRun& planned, const Finding& finding,
                          units::System system) {
  if (finding.reserve < 0) return "every reserve holds.";
  if (!runs_dry(finding.outcome)) {
    return margin_words(reserve_of(planned, finding.reserve), finding, system) + ".";
  }
  std::string text = dry_words(planned, finding, system) + ".";
  if (finding.retreat_saves) {
    text += *finding.retreat_saves ? " Turning back at once saves it."
                                   : " Turning back at once does not save it.";
  }
  return text;
}

std::string short_words(const answers::PlanRun& planned, const Finding& finding) {
  const std::string text = runs_out_words(reserve_of(planned, finding.reserve));
  return finding.dry_day < 0 ? text : fmt::format("{} on day {}", text, finding.dry_day + 1);
}

std::string_view kind_name(plan::MishapKind kind) {
  const auto* const word =
      std::ranges::find(plan::mishap_words, kind, &plan::Word<plan::MishapKind>::value);
  return word != plan::mishap_words.end() ? word->text : std::string_view{};
}

std::string_view outcome_name(Outcome outcome) {
  switch (outcome) {
    case Outcome::holds:
      return "holds";
    case Outcome::eats_margin:
      return "eats_margin";
    case Outcome::runs_out:
      return "runs_out";
    case Outcome::runs_out_vital:
      return "runs_out_vital";
  }
  return {};
}

}  // namespace drystage::report
