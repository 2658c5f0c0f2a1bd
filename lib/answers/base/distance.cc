#include "answers/base/distance.h"

#include <algorithm>

#include "units/day.h"

namespace drystage::answers {

double lacking(const ReserveOutlook& outlook) {
  return std::max(0.0, -outlook.slack) + outlook.short_of + outlook.stood_in;
}

double distance(const PlanRun& planned) {
  double sum = 0;
  for (std::size_t r = 0; r < planned.verdict.reserves.size(); ++r) {
    const double scale = std::max(1.0, planned.course.reserves[r].capacity);
    sum += lacking(planned.verdict.reserves[r]) / scale;
  }
  for (const Breach& breach : planned.verdict.breaches) {
    if (breach.harm != Harm::load_off) continue;
    const double since_days = breach.day + breach.hour / day_h;
    sum += 1 - since_days / static_cast<double>(planned.record.days());
  }
  return sum;
}

}  // namespace drystage::answers
