// What could help a plan, as it is offered.
#include "answers/offers/changes.h"

#include <gtest/gtest.h>

#include "support/laid_out.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace changes_test {
namespace {

/// The nights of every stay.
std::vector<int> nights_of(const plan::Plan& plan) {
  std::vector<int> out;
  for (const plan::ItineraryItem& item : plan.itinerary) {
    if (const auto* stay = std::get_if<plan::Stay>(&item)) out.push_back(stay->nights);
  }
  return out;
}

TEST(Changes, NeverTakeAwayMoreNightsThanThereAre) {
  support::PlanText text;
  text.margins = {"drinking_water: 10 L"};
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  const PlanRun planned = support::travel(text);
  int found = 0;
  for (const Option& option : options_for(planned, 0, 5)) {
    if (!option.kind.starts_with("nights -1")) continue;
    ++found;
    for (const int steps : {1, 3, 4, 12}) {
      const Option some = option.of_steps(steps);
      plan::Plan changed = planned.plan;
      some.apply(changed);
      const int fewer = std::min(steps, 3);
      EXPECT_EQ(nights_of(changed), std::vector{4 - fewer}) << steps;
      EXPECT_EQ(some.steps, fewer);
      EXPECT_EQ(some.change.name.count, fewer);
    }
  }
  EXPECT_EQ(found, 1);
}

}  // namespace
}  // namespace changes_test
}  // namespace drystage::answers
