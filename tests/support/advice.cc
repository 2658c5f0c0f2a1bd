#include "support/advice.h"

#include <algorithm>

#include "report/card/advice.h"
#include "support/card_answer.h"

namespace drystage::support {

using report::Advice;

std::vector<Advice> first_steps_of(const PlanText& plan, units::System system) {
  return report::first_steps(card_answer(plan), system);
}

std::string steps_for(const std::vector<Advice>& all, const std::string& title) {
  const auto found = std::ranges::find(all, title, &Advice::title);
  if (found == all.end()) return "nothing is titled " + title;
  std::string out;
  for (const std::string& step : found->steps) out += step + "\n";
  return out;
}

}  // namespace drystage::support
