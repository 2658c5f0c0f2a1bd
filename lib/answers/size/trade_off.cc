// What another day of safety costs.

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numeric>

#include "answers/base/in_parallel.h"
#include "answers/size/ground.h"
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

/// Whether more margin changes what is taken on at a stop, and so the run itself.
bool margins_are_bought(const engine::CourseBase& course) {
  return std::ranges::any_of(course.orders, [](const engine::OrderInfo& order) {
    return order.order.take == plan::Take::needed;
  });
}

/// The rows beside the plan's own, worked out.
class Rows {
 public:
  Rows(const PlanRun& planned, const SizeOptions& options, const Watch& watch,
       std::vector<TradeOff>& rows, std::size_t own)
      : planned_(planned),
        options_(options),
        watch_(watch),
        rows_(rows),
        own_(own),
        sum_(watch, rows.size()) {}

  /// Each by itself.
  void apart() {
    const SizeGround nothing_proved{.decisions = ground_of(own_).decisions,
                                    .laid = ground_of(own_).laid};
    in_parallel(rows_.size(), [&](std::size_t row) {
      if (row != own_) work_out(row, nothing_proved);
    });
  }

  /// Rows with more margin, each from the one before.
  void from_less() {
    for (std::size_t row = own_ + 1; row < rows_.size(); ++row) {
      const Sizing& less = rows_[row - 1].sizing;
      if (!less.found && !less.given_up && !less.stopped) {
        rows_[row].sizing = less;
      } else {
        work_out(row, ground_of(row - 1));
      }
    }
  }

  /// Rows with less margin.
  void from_more() {
    for (std::size_t row = own_; row-- > 0;) {
      SizeGround ground = ground_of(row + 1);
      ground.known = ground.known.for_less_margin(ground.best);
      work_out(row, ground);
    }
  }

  /// Where a run is the same whatever the margins, a set that holds with more of them holds with
  /// less, and what is proved with less is so with more.
  void one_from_another() {
    in_parallel(2, [this](std::size_t which) { which == 0 ? from_less() : from_more(); });
  }

 private:
  [[nodiscard]] const SizeGround& ground_of(std::size_t row) const {
    return *rows_[row].sizing.ground;
  }

  void work_out(std::size_t row, const SizeGround& ground) {
    const PlanRun other =
        run_plan(planned_.plan, planned_.course.timeline, &planned_.course, rows_[row].more_days);
    const Watch part{
        .progress = [&](std::size_t done, std::size_t /*total*/) { sum_.note(row, done); },
        .stop = watch_.stop};
    rows_[row].sizing = least_set(other, options_, part, ground);
  }

  const PlanRun& planned_;
  const SizeOptions& options_;
  const Watch& watch_;
  std::vector<TradeOff>& rows_;
  std::size_t own_;
  Sum sum_;
};

}  // namespace

std::vector<TradeOff> trade_off(const PlanRun& planned, const SizeOptions& options,
                                const Sizing& own, const Watch& watch) {
  std::vector<TradeOff> out;
  const int days_off = days_to_take_off(planned.plan);
  for (int days = -days_off; days <= most_days_more; ++days) {
    out.push_back({.more_days = static_cast<double>(days)});
  }
  const auto as_planned = static_cast<std::size_t>(days_off);
  out[as_planned].sizing = own;
  Rows rows(planned, options, watch, out, as_planned);
  if (margins_are_bought(planned.course)) {
    rows.apart();
  } else {
    rows.one_from_another();
  }
  return out;
}

}  // namespace drystage::answers
