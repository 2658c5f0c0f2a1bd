#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/size/sizing.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage size` has to say of one plan.
struct SizeAnswer {
  answers::PlanRun planned;  ///< the plan's own
  answers::Sizing sizing;
  answers::SizeOptions options{};
  std::vector<answers::TradeOff> trade_off{};  ///< empty where nothing was found, or not asked for
  std::vector<std::string> warnings{};         ///< of the plan, to go with the answer
  std::string written{};      ///< the file that the sized plan went to; empty: none
  std::string not_written{};  ///< which file it should have gone to, and why it did not
  /// Of the set that was found, when it leans on supplies that nobody has confirmed.
  std::optional<answers::Verdict> without_unconfirmed{};
};

/// Something that was asked for was not done before it was stopped.
bool partial(const SizeAnswer& answer);

/// For people: what the least set weighs, a row for each thing with what one fewer would do, what
/// the plan has against it, the trade between mass and safety; or what the set that comes nearest
/// lacks. At most 80 columns unless wide. Masses are rounded up, and so is what is lacking.
std::string size_text(const SizeAnswer& answer, const TextOptions& options);

/// For programs: "drystage.size/1". Metric.
std::string size_json(const SizeAnswer& answer);

/// One row per line of the set, for spreadsheets, in the manner of run_csv. Metric.
std::string size_csv(const SizeAnswer& answer);

}  // namespace drystage::report
