#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/weigh/weighing.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage weigh` has to say of one plan.
struct WeighAnswer {
  answers::PlanRun planned;
  answers::Weighing weighing;
  std::vector<std::string> warnings{};  ///< of the plan, to go with the answer
};

/// For people: whether all limits of mass are kept, what to move, each vehicle's scales over the
/// trip, what room is left, a row for each day, cautions. At most 80 columns. Masses are rounded
/// up, room down.
std::string weigh_text(const WeighAnswer& answer, const TextOptions& options);

/// For programs: "drystage.weigh/1". Metric.
std::string weigh_json(const WeighAnswer& answer);

/// One row per day, vehicle and scale, for spreadsheets: RFC 4180. Metric.
std::string weigh_csv(const WeighAnswer& answer);

}  // namespace drystage::report
