// What must be on board as a place is left: by hand where use is constant, and by the engine.
#include "answers/onward/leaving.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>

#include "answers/onward/needs.h"
#include "support/card_answer.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using answers::Leaving;
using support::PlanText;
using ::testing::SizeIs;

std::vector<Leaving> of(const std::vector<Leaving>& all, int reserve) {
  std::vector<Leaving> out;
  std::ranges::copy_if(all, std::back_inserter(out),
                       [&](const Leaving& leaving) { return leaving.reserve == reserve; });
  return out;
}

/// Red Tables has water that the plan does not take.
PlanText with_a_well() {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  return plan;
}

double drink_l(const answers::PlanRun& planned, const engine::TimeStep& step) {
  return planned.course.timeline->conditions.steps[step.index].drink_l;
}

TEST(Leaving, IsWhatIsDrunkUpToTheNextSupplyAndTheMargin) {
  const auto trip = support::travel(with_a_well());
  const int water = support::reserve_index(trip.course, "drinking_water");
  const auto all = of(answers::leavings(trip), water);
  ASSERT_THAT(all, SizeIs(2));
  // Base is left at eight on day 1, and Red Tables reached the same day.
  EXPECT_EQ(all[0].place, 0);
  EXPECT_EQ(all[0].until_place, 1);
  EXPECT_NEAR(all[0].leaves.hour, 8, 1e-9);
  // Red Tables on day 4, at eight: four litres a day, spread over the day as the run has it, and
  // the litre that is the margin.
  EXPECT_EQ(all[1].place, 1);
  EXPECT_EQ(all[1].until_place, 2);
  EXPECT_EQ(all[1].leaves.day, 3);
  EXPECT_EQ(all[1].arrives_day, 0);
  EXPECT_LT(all[1].must_have, 1 + 4);
  EXPECT_GT(all[1].must_have, 1);
  double drunk = 0;
  for (const engine::TimeStep& step : trip.course.timeline->steps) {
    if (step.drive >= 0 && step.day == 3) drunk += drink_l(trip, step);
  }
  EXPECT_NEAR(all[1].must_have, 1 + drunk, 0.001);
  EXPECT_TRUE(all[1].fits);
}

TEST(Leaving, OnTheFirstMorningIsWhatMustBeThereThatMorningLessWhatIsDrunkBefore) {
  const auto trip = support::travel(support::three_places());
  const int water = support::reserve_index(trip.course, "drinking_water");
  const auto all = of(answers::leavings(trip), water);
  ASSERT_THAT(all, SizeIs(1));
  const answers::Needs needs = answers::morning_needs(trip);
  const auto i =
      static_cast<std::size_t>(std::ranges::find(needs.reserves, water) - needs.reserves.begin());
  double drunk = 0;
  for (const engine::TimeStep& step : trip.course.timeline->steps) {
    if (step.day == 0 && step.from_h < 8 - 1e-9) drunk += drink_l(trip, step);
  }
  EXPECT_NEAR(all[0].must_have, needs.need(0, i).must_have - drunk, 0.001);
}

/// What must be there in the next morning must be there on leaving too, unless more is had between.
TEST(Leaving, AgreesWithTheNeedsOfTheMorningAfter) {
  int compared = 0;
  for (const plan::Plan& plan : support::all_scenarios()) {
    const auto trip = support::travel(plan);
    const answers::Needs needs = answers::morning_needs(trip);
    for (const Leaving& leaving : answers::leavings(trip)) {
      const auto i = static_cast<std::size_t>(std::ranges::find(needs.reserves, leaving.reserve) -
                                              needs.reserves.begin());
      const auto next = static_cast<std::size_t>(leaving.leaves.day) + 1;
      if (next >= trip.record.days() || leaving.until_place != needs.need(next, i).until_place ||
          needs.need(next, i).until_day == leaving.leaves.day) {
        continue;
      }
      const answers::Need& after = needs.need(next, i);
      const bool topped_up =
          std::ranges::any_of(trip.course.orders, [&](const engine::OrderInfo& order) {
            return order.reserve == leaving.reserve && order.day == leaving.leaves.day &&
                   order.hour > leaving.leaves.hour;
          });
      // The night may be spent where it lasts to.
      const auto& day = trip.course.timeline->days[next - 1];
      if (topped_up || engine::place_at(day.schedule.to) == leaving.until_place) continue;
      // Who joins on the way brings some.
      const auto& steps = trip.course.timeline->steps;
      const auto company_at = [&](int at_day, double hour) {
        return steps[engine::step_at(*trip.course.timeline, at_day, hour)].company;
      };
      if (company_at(leaving.leaves.day, leaving.leaves.hour) !=
          company_at(static_cast<int>(next), 0)) {
        continue;
      }
      ++compared;
      EXPECT_GE(leaving.must_have, after.must_have - 1e-6)
          << plan.trip.title << ", day " << next << ", reserve " << leaving.reserve;
    }
  }
  EXPECT_GT(compared, 10);
}

TEST(Leaving, CountsASupplyThatGivesSoMuchWhereThePlanTakesSome) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {most: 20 L}");
  const auto without = support::travel(plan);
  const int water = support::reserve_index(without.course, "drinking_water");
  EXPECT_THAT(of(answers::leavings(without), water), SizeIs(1));
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  EXPECT_THAT(of(answers::leavings(support::travel(plan)), water), SizeIs(2));
}

TEST(Leaving, DoesNotCountWhatNobodyHasConfirmed) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const auto trip = support::travel(plan);
  const int water = support::reserve_index(trip.course, "drinking_water");
  EXPECT_THAT(of(answers::leavings(trip), water), SizeIs(1));
}

}  // namespace
}  // namespace drystage
