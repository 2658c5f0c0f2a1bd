#include "support/card_answer.h"

#include <stdexcept>

#include "answers/needs.h"
#include "answers/turn_back.h"
#include "answers/way_out.h"
#include "report/card/front.h"
#include "support/laid_out.h"
#include "support/trip.h"

namespace drystage::support {

report::CardAnswer card_answer(const plan::Plan& plan) {
  report::CardAnswer answer;
  answer.needs.trial = travel(plan);
  answer.needs.needs = answers::morning_needs(answer.needs.trial);
  answer.needs.turn_back = answers::turn_back_points(answer.needs.trial);
  answer.without_unconfirmed = answers::without_unconfirmed(answer.needs.trial);
  answer.levels = answers::levels(answer.needs.trial);
  answer.ways_out = answers::ways_out(answer.needs.trial, answer.needs.needs);
  answer.leavings = answers::leavings(answer.needs.trial);
  return answer;
}

report::CardAnswer card_answer(const PlanText& text) { return card_answer(text.plan()); }

plan::Plan shipped_plan(const std::string& title) {
  for (plan::Plan& plan : all_scenarios()) {
    if (plan.trip.title == title) return std::move(plan);
  }
  throw std::out_of_range("no shipped plan is called " + title);
}

std::vector<NamedPaper> papers() {
  return {{"a4", drawing::a4}, {"letter", drawing::letter}, {"strip", drawing::strip}};
}

std::vector<drawing::Page> front_pages(const report::CardAnswer& answer,
                                       const drawing::Paper& paper, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  report::write_front(flow, typesetter, answer, system);
  return flow.pages(typesetter, answer.needs.trial.plan.trip.title);
}

std::vector<std::string> words_on(const std::vector<drawing::Page>& pages) {
  std::vector<std::string> out;
  for (const drawing::Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      if (const auto* text = std::get_if<drawing::Text>(&mark)) out.push_back(text->words);
    }
  }
  return out;
}

}  // namespace drystage::support
