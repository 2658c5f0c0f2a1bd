#include "support/card_answer.h"

#include <map>
#include <stdexcept>

#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "answers/onward/way_out.h"
#include "support/laid_out.h"
#include "support/trip.h"

namespace drystage::support {

report::CardAnswer card_answer(const plan::Plan& plan) {
  report::CardAnswer answer;
  answer.needs.planned = travel(plan);
  answer.needs.needs = answers::morning_needs(answer.needs.planned);
  answer.needs.turn_back = answers::turn_back_points(answer.needs.planned);
  answer.without_unconfirmed = answers::without_unconfirmed(answer.needs.planned);
  answer.levels = answers::levels(answer.needs.planned);
  answer.ways_out = answers::ways_out(answer.needs.planned, answer.needs.needs);
  answer.leavings = answers::leavings(answer.needs.planned);
  return answer;
}

report::CardAnswer card_answer(const PlanText& text) { return card_answer(text.plan()); }

plan::Plan shipped_plan(const std::string& title) {
  for (plan::Plan& plan : all_scenarios()) {
    if (plan.trip.title == title) return std::move(plan);
  }
  throw std::out_of_range("no shipped plan is called " + title);
}

const report::CardAnswer& shipped_answer(const std::string& title) {
  static std::map<std::string, report::CardAnswer> known;
  const auto found = known.find(title);
  if (found != known.end()) return found->second;
  return known.emplace(title, card_answer(shipped_plan(title))).first->second;
}

std::vector<std::reference_wrapper<const report::CardAnswer>> shipped_answers() {
  std::vector<std::reference_wrapper<const report::CardAnswer>> out;
  for (const plan::Plan& plan : all_scenarios()) out.emplace_back(shipped_answer(plan.trip.title));
  return out;
}

const report::CardAnswer& desert_crossing() {
  return shipped_answer("Dune mapping, Marrabel to Tessarin");
}

}  // namespace drystage::support
