#include "answers/base/distance.h"

#include <algorithm>

#include "units/day.h"

namespace drystage::answers {

double lacking(const ReserveOutlook& outlook) {
  return std::max(0.0, -outlook.slack) + outlook.short_of + outlook.stood_in;
}

double distance(const Trial& trial) {
  double sum = 0;
  for (std::size_t r = 0; r < trial.verdict.reserves.size(); ++r) {
    const double scale = std::max(1.0, trial.course.reserves[r].capacity);
    sum += lacking(trial.verdict.reserves[r]) / scale;
  }
  for (const Breach& breach : trial.verdict.breaches) {
    if (breach.harm != Harm::load_off) continue;
    const double since_days = breach.day + breach.hour / day_h;
    sum += 1 - since_days / static_cast<double>(trial.record.days());
  }
  return sum;
}

}  // namespace drystage::answers
