#include "answers/offers/mend.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <utility>
#include <vector>

#include "answers/base/distance.h"
#include "answers/offers/changes.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

// Changes made together at the most: beyond this it is another plan, not a mend.
constexpr int most_changes = 6;

double lacking(const Verdict& verdict, int reserve) {
  return lacking(verdict.reserves[at(reserve)]);
}

/// Whether a change loads a vehicle beyond its limit, or further beyond it, on any day.
bool overloads(const PlanRun& before, const PlanRun& after) {
  const auto& scales = before.course.scales;
  for (std::size_t s = 0; s < scales.size(); ++s) {
    const double kg = after.record.heaviest[s].kg;
    if (kg > scales[s].limit_kg && kg > before.record.heaviest[s].kg) return true;
  }
  return false;
}

/// The run of the plan with all of some changes made.
PlanRun with(const PlanRun& planned, const std::vector<Option>& options) {
  plan::Plan plan = planned.plan;
  for (const Option& option : options) option.apply(plan);
  if (std::ranges::none_of(options, &Option::moves_time)) {
    return run_plan(std::move(plan), planned.course.timeline, &planned.course, 0, planned.rates);
  }
  auto timeline = std::make_shared<const engine::Timeline>(
      engine::lay_timeline(plan, {.almanac = planned.course.timeline->almanac}));
  if (!timeline->problems.empty()) return planned;
  return run_plan(std::move(plan), std::move(timeline), nullptr, 0, planned.rates);
}

struct Step {
  Option option;
  PlanRun planned;
};

/// The smallest change that puts the worst failing reserve right, or else the one that brings the
/// plan nearest to holding. `only_whole` asks for one that makes the whole plan hold.
std::optional<Step> best_step(const PlanRun& planned, bool only_whole) {
  const int reserve = planned.verdict.worst_of_reserves()->reserve;
  const double below = -planned.verdict.reserves[at(reserve)].slack;
  std::optional<Step> best;
  double best_distance = distance(planned);
  for (const Option& option : options_for(planned, reserve, lacking(planned.verdict, reserve))) {
    // What adds less than the reserve lies below its margin cannot be enough.
    if (only_whole && option.adds < below) continue;
    PlanRun tried = with(planned, std::vector{option});
    if (overloads(planned, tried)) continue;
    const bool cured = !tried.verdict.breaks(reserve);
    if (tried.verdict.reserves_hold() || (cured && !only_whole))
      return Step{option, std::move(tried)};
    const double after = distance(tried);
    if (only_whole || after >= best_distance - 1e-9) continue;
    best_distance = after;
    best = Step{option, std::move(tried)};
  }
  return best;
}

/// Adds a change to others; more of the same kind is put together.
void add(std::vector<Option>& parts, const Option& option) {
  const auto same = std::ranges::find_if(
      parts, [&](const Option& other) { return option.steps > 0 && other.kind == option.kind; });
  if (same == parts.end()) {
    parts.push_back(option);
  } else {
    *same = same->of_steps(same->steps + option.steps);
  }
}

/// Changes that together make a plan hold, made to it.
struct Together {
  std::vector<Option> parts;
  PlanRun planned;
};

/// One part left out, or one step of it, if the plan holds all the same; the heaviest first.
bool make_smaller(const PlanRun& planned, Together& together) {
  std::vector<std::size_t> order(together.parts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::ranges::greater{},
                           [&](std::size_t p) { return together.parts[p].change.size; });
  for (const bool whole : {true, false}) {
    for (const std::size_t p : order) {
      std::vector<Option> parts = together.parts;
      if (whole) {
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(p));
      } else if (parts[p].steps > 1) {
        parts[p] = parts[p].of_steps(parts[p].steps - 1);
      } else {
        continue;
      }
      PlanRun tried = with(planned, parts);
      if (!tried.verdict.reserves_hold() || overloads(planned, tried)) continue;
      together = {.parts = std::move(parts), .planned = std::move(tried)};
      return true;
    }
  }
  return false;
}

/// Several changes, one after another, each for the reserve that fails first; and then of each no
/// more than it takes.
std::optional<Together> several(const PlanRun& planned) {
  Together out{.parts = {}, .planned = planned};
  for (int n = 0; n < most_changes && !out.planned.verdict.reserves_hold(); ++n) {
    std::optional<Step> step = best_step(out.planned, false);
    if (!step) return std::nullopt;
    add(out.parts, step->option);
    out.planned = std::move(step->planned);
  }
  if (!out.planned.verdict.reserves_hold()) return std::nullopt;
  while (make_smaller(planned, out)) {
  }
  return out;
}

Mend mend_of(Together together) {
  Mend out{.changes = {},
           .parts = together.parts,
           .moves_days = std::ranges::any_of(together.parts, &Option::moves_days),
           .verdict = together.planned.verdict,
           .course = together.planned.course,
           .record = together.planned.record};
  for (const Option& part : together.parts) {
    out.changes.push_back(part.change);
    if (part.name_in) out.changes.back().name = part.name_in(together.planned);
  }
  return out;
}

}  // namespace

std::optional<Mend> smallest_mend(const PlanRun& planned) {
  if (planned.verdict.reserves_hold()) return std::nullopt;
  if (std::optional<Step> step = best_step(planned, true)) {
    return mend_of({.parts = {std::move(step->option)}, .planned = std::move(step->planned)});
  }
  std::optional<Together> together = several(planned);
  if (!together) return std::nullopt;
  return mend_of(*std::move(together));
}

}  // namespace drystage::answers
