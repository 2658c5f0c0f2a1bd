// What another day of safety costs.

#include <oneapi/tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numeric>
#include <utility>

#include "answers/size/size.h"

namespace drystage::answers {
namespace {

constexpr int most_days_more = 4;

/// Days that can be taken off so that a day is left of a margin that is given in days; of drinking
/// water's, where that is.
int days_to_take_off(const plan::Plan& plan) {
  for (const char* family : {"drinking_water", "utility_water", "food"}) {
    const auto margin = plan.margins.find(family);
    if (margin == plan.margins.end() || margin->second.kind != plan::MarginKind::days) continue;
    return std::max(0, static_cast<int>(std::ceil(margin->second.value)) - 1);
  }
  return 0;
}

/// Sums up what the searches of several rows have done.
class Sum {
 public:
  Sum(const Watch& watch, std::size_t rows) : watch_(watch), of_row_(rows) {}

  void note(std::size_t row, std::size_t done) {
    if (!watch_.progress) return;
    const std::scoped_lock lock(mutex_);
    of_row_[row] = done;
    watch_.progress(std::accumulate(of_row_.begin(), of_row_.end(), std::size_t{0}), 0);
  }

 private:
  const Watch& watch_;
  std::mutex mutex_;
  std::vector<std::size_t> of_row_;
};

}  // namespace

std::vector<TradeOff> trade_off(const Trial& trial, const SizeOptions& options, const Sizing& own,
                                const Watch& watch) {
  std::vector<TradeOff> out;
  for (int days = -days_to_take_off(trial.plan); days <= most_days_more; ++days) {
    out.push_back({.more_days = static_cast<double>(days)});
  }
  Sum sum(watch, out.size());
  tbb::parallel_for(std::size_t{0}, out.size(), [&](std::size_t row) {
    TradeOff& each = out[row];
    if (each.more_days == 0) {
      each.sizing = own;
      return;
    }
    plan::Plan plan = trial.plan;
    plan.more_margin_days = each.more_days;
    const Trial other = try_plan(plan, trial.course.timeline);
    const Watch part{
        .progress = [&](std::size_t done, std::size_t /*total*/) { sum.note(row, done); },
        .stop = watch.stop};
    each.sizing = least_set(other, options, part);
  });
  return out;
}

}  // namespace drystage::answers
