#pragma once

#include <string>
#include <vector>

#include "drawing/paper.h"
#include "report/card/card.h"
#include "support/plan_text.h"

namespace drystage::support {

/// All that goes onto the card of a plan, without warnings. Throws when the plan cannot be laid
/// out.
report::CardAnswer card_answer(const plan::Plan& plan);
report::CardAnswer card_answer(const PlanText& text);

/// The shipped plan with this title; throws when there is none.
plan::Plan shipped_plan(const std::string& title);

/// The papers that a card is made for, and what they are called.
struct NamedPaper {
  std::string name;
  drawing::Paper paper;
};
std::vector<NamedPaper> papers();

/// The front of a card by itself, as pages.
std::vector<drawing::Page> front_pages(const report::CardAnswer& answer,
                                       const drawing::Paper& paper,
                                       units::System system = units::System::metric);

/// The words of all texts of all pages, a line for each text, in the order in which they are drawn.
std::vector<std::string> words_on(const std::vector<drawing::Page>& pages);

}  // namespace drystage::support
