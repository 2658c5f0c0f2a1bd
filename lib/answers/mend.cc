#include "answers/mend.h"

#include <algorithm>
#include <utility>

#include "answers/changes.h"
#include "answers/distance.h"

namespace drystage::answers {
namespace {

// Changes made together at the most: beyond this it is another plan, not a mend.
constexpr int most_changes = 6;

Trial with(const Trial& trial, const Option& option) {
  plan::Plan plan = trial.plan;
  option.apply(plan);
  if (!option.moves_time) return try_plan(plan, trial.course.timeline);
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan));
  if (!timeline->problems.empty()) return trial;
  return try_plan(plan, std::move(timeline));
}

double lacking(const Verdict& verdict, int reserve) {
  return lacking(verdict.reserves[static_cast<std::size_t>(reserve)]);
}

/// Whether a change loads a vehicle beyond its limit, or further beyond it, on any day.
bool overloads(const Trial& before, const Trial& after) {
  for (std::size_t v = 0; v < before.plan.vehicles.size(); ++v) {
    const std::optional<double> limit_kg = before.plan.vehicles[v].limit_kg;
    const double kg = after.record.heaviest[v].kg;
    if (limit_kg && kg > *limit_kg && kg > before.record.heaviest[v].kg) return true;
  }
  return false;
}

struct Step {
  Change change;
  Trial trial;
};

/// The smallest change that puts the first failing reserve right, or else the one that brings the
/// plan nearest to holding. `only_whole` asks for one that makes the whole plan hold.
std::optional<Step> best_step(const Trial& trial, bool only_whole) {
  const int reserve = trial.verdict.first_breach->reserve;
  const double below = -trial.verdict.reserves[static_cast<std::size_t>(reserve)].slack;
  std::optional<Step> best;
  double best_distance = distance(trial);
  for (const Option& option : options_for(trial, reserve, lacking(trial.verdict, reserve))) {
    // What adds less than the reserve lies below its margin cannot be enough.
    if (only_whole && option.adds < below) continue;
    Trial tried = with(trial, option);
    if (overloads(trial, tried)) continue;
    const bool cured = lacking(tried.verdict, reserve) <= 0;
    if (tried.verdict.holds || (cured && !only_whole)) return Step{option.change, std::move(tried)};
    const double after = distance(tried);
    if (only_whole || after >= best_distance - 1e-9) continue;
    best_distance = after;
    best = Step{option.change, std::move(tried)};
  }
  return best;
}

/// Adds a change to a list; more of the same thing is put together.
void add(std::vector<Change>& changes, const Change& change) {
  const auto same = std::ranges::find_if(changes, [&](const Change& other) {
    return !change.name.many.empty() && other.name.many == change.name.many;
  });
  if (same == changes.end()) {
    changes.push_back(change);
    return;
  }
  same->name.count += change.name.count;
  same->size += change.size;
}

}  // namespace

std::optional<Mend> smallest_mend(const Trial& trial) {
  if (trial.verdict.holds) return std::nullopt;
  std::vector<Change> changes;
  std::optional<Step> step = best_step(trial, true);
  if (step) {
    changes.push_back(step->change);
  } else {
    Trial current = trial;
    for (int n = 0; n < most_changes && !current.verdict.holds; ++n) {
      step = best_step(current, false);
      if (!step) return std::nullopt;
      add(changes, step->change);
      current = step->trial;
    }
    if (!current.verdict.holds) return std::nullopt;
  }
  return Mend{.changes = std::move(changes),
              .verdict = step->trial.verdict,
              .course = step->trial.course,
              .record = step->trial.record};
}

}  // namespace drystage::answers
