#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/mishaps/mishaps.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage mishaps` has to say of one plan.
struct MishapsAnswer {
  answers::PlanRun planned;  ///< the plan without mishap
  answers::Sweep sweep;
  std::optional<answers::PairSweep> pairs{};  ///< when they were asked for and begun
  std::vector<std::string> warnings{};        ///< of the plan, to go with the answer
  answers::SweepOptions narrowed{};           ///< what was asked to be tried
  bool two = false;                           ///< pairs were asked for
};

/// Something that was asked for was not done before it was stopped.
bool partial(const MishapsAnswer& answer);

/// Every single mishap that was asked for has been tried, there was one to try, and neither any of
/// them nor the plan itself runs a reserve dry on which life hangs.
bool survives_any_one(const MishapsAnswer& answer);

/// For people: the verdict, the worst that can happen, a matrix of failures by days, pairs, remarks
/// and the line that matters; cautions. At most 80 columns unless wide.
std::string mishaps_text(const MishapsAnswer& answer, const TextOptions& options);

/// For programs: "drystage.mishaps/1" as docs/format.md describes it. Metric.
std::string mishaps_json(const MishapsAnswer& answer);

/// One row per failure and moment, for spreadsheets, in the manner of run_csv. Metric.
std::string mishaps_csv(const MishapsAnswer& answer);

}  // namespace drystage::report
