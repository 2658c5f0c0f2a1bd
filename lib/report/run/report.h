#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/mishaps/spell.h"
#include "answers/offers/mend.h"
#include "report/text/events.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage run` has to say of one plan.
struct RunAnswer {
  answers::PlanRun planned;
  std::optional<answers::Verdict> without_unconfirmed;  ///< when the plan leans on such supplies
  std::optional<answers::Mend> mend;                    ///< when it does not hold
  bool seeks_mend = true;                               ///< whether one was looked for
  std::optional<answers::Spells> spells{};              ///< unless the plan itself is run in one
  std::optional<answers::SpellFinding> shown{};         ///< the spell in which it is run
  std::optional<DrawnTrip> drawn{};                     ///< none: the plan itself
  std::vector<std::string> warnings{};                  ///< of the plan, to go with the answer
};

/// For people: the verdict first, the day table, events, the smallest mend, cautions. At most 80
/// columns unless wide.
std::string run_text(const RunAnswer& answer, const TextOptions& options);

/// For programs: "drystage.run/1" as docs/format.md describes it. Metric.
std::string run_json(const RunAnswer& answer);

/// One row per day and reserve, for spreadsheets: RFC 4180, and no cell of text that a spreadsheet
/// would take for a formula. Metric.
std::string run_csv(const RunAnswer& answer);

}  // namespace drystage::report
