#include "engine/timeline.h"

#include <algorithm>
#include <utility>

#include "engine/company_checks.h"
#include "engine/drinking.h"

namespace drystage::engine {
namespace {

/// What was observed is of the plan as it was before anything came between.
std::vector<double> factors_of(const plan::Plan& plan, const Layout& layout,
                               const Timeline& timeline) {
  const bool observed = std::ranges::any_of(
      plan.people, [](const plan::Person& person) { return person.drinking_l_day.has_value(); });
  if (!observed) return std::vector<double>(plan.people.size(), 1);
  return drinking_factors(plan, layout.detours.empty()
                                    ? timeline.days.front().schedule
                                    : lay_out(plan, {}, timeline.almanac.get()).days.front());
}

std::shared_ptr<Almanac> almanac_of(const Layout& layout) {
  if (layout.almanac != nullptr) return layout.almanac;
  return layout.same != nullptr ? layout.same->almanac : std::make_shared<Almanac>();
}

}  // namespace

Timeline lay_timeline(const plan::Plan& plan, const Layout& layout) {
  std::shared_ptr<Almanac> almanac = almanac_of(layout);
  Timeline out{lay_calendar(plan, {.most_step_h = layout.most_step_h,
                                   .detours = layout.detours,
                                   .same = layout.same,
                                   .same_days = layout.same_days,
                                   .almanac = almanac.get()}),
               {},
               almanac};
  if (layout.same == nullptr && layout.detours.empty() && out.problems.empty()) {
    out.problems = company_problems(plan, out);
  }
  if (!out.problems.empty()) return out;
  make_room(out.conditions, out);
  out.conditions.drinking_factors = factors_of(plan, layout, out);
  const int days = static_cast<int>(out.days.size());
  const int same_days =
      layout.same == nullptr
          ? 0
          : std::min({layout.same_days, days, static_cast<int>(layout.same->days.size())});
  if (same_days > 0) take_days(out.conditions, layout.same->conditions, out, 0, same_days);
  fill_days(out.conditions, plan, out, *out.almanac, same_days, days);
  return out;
}

Timeline lay_timeline(const plan::Plan& plan, double most_step_h) {
  return lay_timeline(plan, Layout{.most_step_h = most_step_h});
}

}  // namespace drystage::engine
