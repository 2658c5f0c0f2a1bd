#include "answers/distance.h"

#include <algorithm>

namespace drystage::answers {

double lacking(const ReserveOutlook& outlook) {
  return std::max(0.0, -outlook.slack) + outlook.short_of;
}

double distance(const Trial& trial) {
  double sum = 0;
  for (std::size_t r = 0; r < trial.verdict.reserves.size(); ++r) {
    const double scale = std::max(1.0, trial.course.reserves[r].capacity);
    sum += lacking(trial.verdict.reserves[r]) / scale;
  }
  return sum;
}

}  // namespace drystage::answers
