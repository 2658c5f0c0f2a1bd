#include "engine/remarks.h"

#include <algorithm>
#include <iterator>

#include "engine/calendar_checks.h"
#include "engine/drinking.h"
#include "engine/fuel_checks.h"

namespace drystage::engine {

std::vector<plan::Diagnostic> remarks(const plan::Plan& plan, const Timeline& timeline) {
  std::vector<plan::Diagnostic> out = calendar_remarks(plan, timeline);
  std::ranges::move(fuel_remarks(plan), std::back_inserter(out));
  std::ranges::move(
      drinking_remarks(plan, timeline.days.front().schedule, timeline.conditions.drinking_factors),
      std::back_inserter(out));
  return out;
}

}  // namespace drystage::engine
