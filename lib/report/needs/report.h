#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/odds/needs_on_trips.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage needs` has to say of one plan.
struct NeedsAnswer {
  answers::PlanRun planned;
  answers::Needs needs;
  answers::TurnBack turn_back;
  std::vector<std::string> warnings{};  ///< of the plan, to go with the answer
  /// What must be there is enough on so many drawn trips as well, if that was asked.
  std::optional<answers::NeedsOnTrips> on_trips{};
};

/// For people: whether every morning has what it must have, the table of mornings, where each
/// reserve must last to, the last places to turn back, cautions. At most 80 columns unless wide.
/// Figures are rounded so that nothing looks better than it is.
std::string needs_text(const NeedsAnswer& answer, const TextOptions& options);

/// For programs: "drystage.needs/1". Metric; what no amount is enough for is null.
std::string needs_json(const NeedsAnswer& answer);

/// One row per day and reserve, for spreadsheets: RFC 4180, and no cell of text that a spreadsheet
/// would take for a formula. Metric; what no amount is enough for is empty.
std::string needs_csv(const NeedsAnswer& answer);

}  // namespace drystage::report
