#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/odds/odds.h"
#include "report/text/events.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage odds` has to say of one plan.
struct OddsAnswer {
  answers::PlanRun planned;
  answers::Odds odds;
  std::optional<double> at_most{};      ///< the chance that is accepted, 0 to 1
  int told_worst = 0;                   ///< how many of the worst trips were asked for
  std::vector<std::string> warnings{};  ///< of the plan, to go with the answer
};

/// Whether a margin that life depends on is broken no more often than is accepted: by the upper
/// end of the interval. Where nothing was said of that, always.
bool odds_accepted(const OddsAnswer& answer);

/// For people: how likely trouble is, with what, on which day; the levels of each day; what makes
/// trips differ and what would help. At most 80 columns.
std::string odds_text(const OddsAnswer& answer, const TextOptions& options);

/// For programs: "drystage.odds/1". Metric.
std::string odds_json(const OddsAnswer& answer);

/// One row per day and reserve, for spreadsheets: RFC 4180. Metric.
std::string odds_csv(const OddsAnswer& answer);

/// Every source of a plan's uncertainty, with what it is in this plan and where its default comes
/// from.
std::string sources_text(const plan::Plan& plan);

/// One of the trips that are drawn: what differs on it from the plan, and what happened.
DrawnTrip drawn_trip(const answers::PlanRun& planned, const answers::TripDraw& draw,
                     const std::vector<answers::Happened>& happened, std::uint64_t trip,
                     std::uint64_t seed, units::System system);

}  // namespace drystage::report
