#pragma once

#include <functional>
#include <string>
#include <vector>

#include "report/card/card.h"
#include "support/plan_text.h"

namespace drystage::support {

/// All that goes onto the card of a plan, without warnings. Throws when the plan cannot be laid
/// out.
report::CardAnswer card_answer(const plan::Plan& plan);
report::CardAnswer card_answer(const PlanText& text);

/// The shipped plan with this title; throws when there is none.
plan::Plan shipped_plan(const std::string& title);

/// All that goes onto the card of a shipped plan, by its title, and of all of them. Each is worked
/// out once in a process, for it takes long.
const report::CardAnswer& shipped_answer(const std::string& title);
std::vector<std::reference_wrapper<const report::CardAnswer>> shipped_answers();

/// That of "Dune mapping, Marrabel to Tessarin": fourteen days, two people, one truck, and too
/// little drinking water.
const report::CardAnswer& desert_crossing();

}  // namespace drystage::support
