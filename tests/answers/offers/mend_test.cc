#include "answers/offers/mend.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "answers/offers/changes.h"
#include "support/cases.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

/// Five days at 4 L from a can that is not full, with a margin of 10 L.
PlanText thirsty(double filled_l) {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + std::to_string(filled_l) +
                     " L, for: drinking}"};
  return plan;
}

Trip with(const Trip& trip, const Option& option) {
  plan::Plan plan = trip.plan;
  option.apply(plan);
  return travel(plan);
}

double lacking(const Trip& trip, std::size_t reserve) {
  const ReserveOutlook& outlook = trip.verdict.reserves[reserve];
  return std::max(0.0, -outlook.slack) + outlook.short_of;
}

/// Every single change on offer for any reserve that fails.
std::vector<Option> all_options(const Trip& trip) {
  std::vector<Option> all;
  for (std::size_t r = 0; r < trip.verdict.reserves.size(); ++r) {
    if (!trip.verdict.reserves[r].first_breach_day) continue;
    for (Option& option : options_for(trip, static_cast<int>(r), lacking(trip, r))) {
      all.push_back(std::move(option));
    }
  }
  return all;
}

/// The plan with the changes of a mend made, one after the other.
Trip mended(Trip trip, const Mend& mend) {
  for (const Change& change : mend.changes) {
    const std::vector<Option> options = all_options(trip);
    const auto option =
        std::ranges::find(options, engine::words(change.name),
                          [](const Option& each) { return engine::words(each.change.name); });
    EXPECT_NE(option, options.end()) << engine::words(change.name);
    if (option == options.end()) return trip;
    trip = with(trip, *option);
  }
  return trip;
}

TEST(Mend, OfAPlanThatHoldsIsNothing) { EXPECT_FALSE(smallest_mend(travel(thirsty(40)))); }

TEST(Mend, IsOneCanMoreWhenThatIsEnough) {
  const Trip trip = travel(thirsty(23));  // 7 L short of what is to be left
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_EQ(mend->changes.size(), 1U);
  EXPECT_EQ(engine::words(mend->changes[0].name), "one more 10 L container of drinking water");
  EXPECT_TRUE(mend->verdict.holds);
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
}

TEST(Mend, IsAsManyCansAsItTakesAndNotOneMore) {
  const Trip trip = travel(thirsty(1));  // 29 L short
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_EQ(mend->changes.size(), 1U);
  EXPECT_EQ(engine::words(mend->changes[0].name), "three more 10 L containers of drinking water");
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
  plan::Plan one_fewer = trip.plan;
  one_fewer.water.containers[0].filled_l += 20;
  EXPECT_FALSE(travel(one_fewer).verdict.holds);
}

TEST(Mend, TakesMoreAtAStopThatIsPassedAnywayBeforeItAddsACan) {
  PlanText plan = thirsty(25);
  plan.places.push_back(PlanText::place("Well", "air", "drinking_water: {}"));
  plan.itinerary = {"{at: Base}", "drive: {to: Well, distance: 10 km, surfaces: sealed}",
                    "resupply: {drinking_water: 2 L}", "stay: {nights: 5}"};
  const Trip trip = travel(plan);
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_EQ(mend->changes.size(), 1U);
  EXPECT_EQ(engine::words(mend->changes[0].name),
            "filling up with drinking water at Well on day 1, not 2 L");
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
}

TEST(Mend, IsAnotherCanWhenAVehicleRunsOutOfFuel) {
  PlanText plan = thirsty(40);
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 30 L}], observed: [{surface: gravel, uses: 15 L/100km}]}"};
  plan.margins.emplace_back("fuel: 50 km");
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 260 km, surfaces: gravel}"};
  const Trip trip = travel(plan);  // 30 - 39 L, and 7.5 L to be left
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_EQ(mend->changes.size(), 1U);
  EXPECT_EQ(engine::words(mend->changes[0].name), "one more 20 L can of diesel for truck");
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
}

TEST(Mend, OfABatteryIsPanelOrBank) {
  PlanText plan = thirsty(40);
  plan.climate = {PlanText::climate_of("air", 30, 18, "30 %", "5 kWh/m2/day")};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: instruments, energy: 240 Wh/day}"};
  const Trip trip = travel(plan);
  ASSERT_FALSE(trip.verdict.holds);
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  ASSERT_EQ(mend->changes.size(), 1U);
  EXPECT_NE(engine::words(mend->changes[0].name).find("solar panel"), std::string::npos);
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
}

TEST(Mend, MakesSeveralChangesWhenOneIsNotEnough) {
  PlanText plan = thirsty(25);
  plan.margins.emplace_back("food: 3 meals");
  plan.food = {"{item: rice, kept: dry, meals: 12}"};
  const Trip trip = travel(plan);
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  EXPECT_EQ(mend->changes.size(), 2U);
  EXPECT_TRUE(mend->verdict.holds);
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
}

TEST(Mend, FeedsPeopleWhoRunShortThoughNoMarginIsAsked) {
  PlanText plan = thirsty(40);
  plan.food = {"{item: rice, kept: dry, meals: 3}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 6}"};
  plan.margins = {};
  const Trip trip = travel(plan);
  ASSERT_FALSE(trip.verdict.holds);
  const auto mend = smallest_mend(trip);
  ASSERT_TRUE(mend);
  EXPECT_TRUE(mended(trip, *mend).verdict.holds);
  EXPECT_EQ(mended(trip, *mend).outlook("food").short_of, 0);
}

TEST(Mend, SaysSoWhenThereIsNone) {
  // An ice box that cannot stay cold: no more ice is to be had, and there is one night only.
  PlanText plan = thirsty(40);
  plan.climate = {PlanText::steady_climate("air", 45)};
  plan.cold = {"{name: box, volume: 40 L, ice: 1 kg, heat_leak: 3 W/K}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  ASSERT_FALSE(trip.verdict.holds);
  EXPECT_FALSE(smallest_mend(trip));
}

/// Random plans: what is offered really mends, and no single change on offer is smaller.
TEST(Mend, IsTheSmallestOfAllSingleChangesByExhaustiveTrial) {
  std::mt19937 chance(7);  // NOLINT(cert-msc51-cpp): the same plans each time
  const support::Pick pick = [&chance](int low, int high) {
    return low + static_cast<int>(chance() % static_cast<unsigned>(high - low + 1));
  };
  int single = 0;
  // Compilers draw different plans: each evaluates arguments in its own order. So go on until
  // enough of them could be judged.
  for (int i = 0; i < support::cases(60) || (i < 200 && single < 5); ++i) {
    PlanText text = support::random_plan(pick);
    // Food and water enough, so that what fails is not always the same.
    text.containers.emplace_back("{name: lake, holds: 9000 L, filled: 2000 L, for: drinking}");
    text.containers.emplace_back("{name: pond, holds: 9000 L, filled: 2000 L, for: utility}");
    text.food.emplace_back("{item: stores, kept: dry, meals: 5000}");
    const Trip trip = travel(text);
    if (trip.verdict.holds) continue;
    const auto mend = smallest_mend(trip);
    double smallest = engine::without_limit;
    for (const Option& option : all_options(trip)) {
      if (option.change.size < smallest && with(trip, option).verdict.holds) {
        smallest = option.change.size;
      }
    }
    if (smallest == engine::without_limit) continue;
    ASSERT_TRUE(mend) << text.text();
    ASSERT_EQ(mend->changes.size(), 1U) << text.text();
    EXPECT_EQ(mend->changes[0].size, smallest) << engine::words(mend->changes[0].name) << "\n"
                                               << text.text();
    EXPECT_TRUE(mended(trip, *mend).verdict.holds) << engine::words(mend->changes[0].name) << "\n"
                                                   << text.text();
    ++single;
  }
  EXPECT_GE(single, 5);
}

}  // namespace
}  // namespace drystage::answers
