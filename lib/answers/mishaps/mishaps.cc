#include "answers/mishaps/mishaps.h"

#include <algorithm>
#include <mutex>
#include <utility>

#include "answers/base/in_parallel.h"
#include "answers/mishaps/sweep_plan.h"

namespace drystage::answers {
namespace {

/// Counts what is done and tells the watcher, one at a time.
class Tally {
 public:
  Tally(const Watch& watch, std::size_t total) : watch_(watch), total_(total) {}

  void one_more() {
    const std::scoped_lock lock(mutex_);
    ++done_;
    if (watch_.progress) watch_.progress(done_, total_);
  }

 private:
  const Watch& watch_;
  std::size_t total_;
  std::size_t done_ = 0;
  std::mutex mutex_;
};

/// Keeps what has been done, in order.
std::vector<Finding> finished(std::vector<std::optional<Finding>> findings) {
  std::vector<Finding> out;
  for (std::optional<Finding>& finding : findings) {
    if (finding) out.push_back(std::move(*finding));
  }
  return out;
}

}  // namespace

Outcome Sweep::worst() const {
  Outcome out = plan_itself.outcome;
  for (const Finding& finding : findings) out = std::max(out, finding.outcome);
  return out;
}

Sweep sweep_mishaps(const PlanRun& planned, const SweepOptions& options, const Watch& watch) {
  const SweepPlan plan(planned, options);
  Sweep out;
  for (const Mishap& mishap : plan.mishaps()) out.failures.push_back(mishap.failure);
  out.asked = plan.strikes().size();
  out.plan_itself = plan.plan_itself();
  std::vector<std::optional<Finding>> findings(out.asked);
  Tally tally(watch, out.asked);
  in_parallel(out.asked, [&](std::size_t s) {
    if (watch.stopped()) return;
    findings[s] = plan.finding_with_retreat(plan.strikes()[s]);
    tally.one_more();
  });
  out.findings = finished(std::move(findings));
  out.remarks = plan.remarks();
  return out;
}

}  // namespace drystage::answers
