// When a reserve is beyond its margin, or is not there, in few words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <set>

#include "report/charts/level_strip.h"
#include "report/text/words.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::breach_moments_test {
namespace {

using support::PlanText;
using support::travel;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr double day_h = 24;

std::size_t index_of(const answers::PlanRun& planned, const std::string& name) {
  return static_cast<std::size_t>(support::reserve_index(planned.course, name));
}

std::vector<std::string> words(const answers::PlanRun& planned, const std::string& name) {
  const std::size_t reserve = index_of(planned, name);
  const answers::Levels levels = answers::levels(planned);
  std::vector<std::string> out;
  for (const BreachMoment& moment : breach_moments(planned, levels.reserves[reserve], reserve)) {
    out.push_back(moment_by_day(planned, reserve, moment));
  }
  return out;
}

/// Days on 4 L each out of one can.
PlanText staying(int nights, const std::string& filled, const std::string& margin) {
  PlanText plan;
  plan.margins = {"drinking_water: " + margin};
  plan.containers = {"{name: can, holds: 60 L, filled: " + filled + ", for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
  return plan;
}

TEST(BreachMoments, AreNoneWhereAllLasts) {
  EXPECT_THAT(words(travel(staying(4, "60 L", "8 L")), "drinking_water"), IsEmpty());
}

TEST(BreachMoments, TellOfTheMarginAndThatItRunsOut) {
  const auto trip = travel(staying(4, "14 L", "8 L"));
  const std::string dry = "runs out day 4, " + clock(trip.reserve(3, "drinking_water").short_h);
  EXPECT_THAT(words(trip, "drinking_water"), ElementsAre("below margin from day 2", dry));
}

TEST(BreachMoments, TellOnceOfAMarginOfNothing) {
  const auto trip = travel(staying(4, "14 L", "0 L"));
  const std::string dry = "runs out day 4, " + clock(trip.reserve(3, "drinking_water").short_h);
  EXPECT_THAT(words(trip, "drinking_water"), ElementsAre(dry));
}

TEST(BreachMoments, TellWhenItEnds) {
  // 14 L are 8 on the second day, and the can is full again on the fourth.
  PlanText plan = staying(4, "14 L", "8 L");
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 2}"};
  EXPECT_THAT(words(travel(plan), "drinking_water"), ElementsAre("below margin days 2 to 3"));
}

TEST(BreachMoments, TellOfUtilityWaterThatIsDrunk) {
  PlanText plan = staying(4, "10 L", "0 L");
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 50 L, for: utility}");
  const auto trip = travel(plan);
  const std::string when = clock(trip.reserve(2, "drinking_water").short_h);
  EXPECT_THAT(words(trip, "drinking_water"),
              ElementsAre("utility water drunk from day 3, " + when));
}

TEST(BreachMoments, TellHowFarItHasBeenDriven) {
  PlanText plan = support::three_places();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 20 L}], observed: [{surface: gravel, uses: 20 L/100km}]}"};
  plan.margins = {"fuel: 10 L"};
  const auto trip = travel(plan);
  const std::size_t fuel = index_of(trip, "fuel:truck");
  const answers::Levels levels = answers::levels(trip);
  const TripLine line = trip_line(*trip.course.timeline);
  std::vector<std::string> told;
  for (const BreachMoment& moment : breach_moments(trip, levels.reserves[fuel], fuel)) {
    told.push_back(moment_by_way(trip, fuel, moment, line, units::System::metric));
  }
  // 20 L, at 20 L per 100 km. What is lacking again on the second leg is told once.
  EXPECT_THAT(told, ElementsAre("below margin from 50 km", "runs out after 100 km"));
}

RC_GTEST_PROP(BreachMomentsProperty, CoverTheDaysOfTheRecord, ()) {
  const answers::PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const answers::Levels levels = answers::levels(planned);
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    std::set<int> dry;
    std::set<int> breached;
    for (const BreachMoment& moment : breach_moments(planned, levels.reserves[r], r)) {
      RC_ASSERT(std::isfinite(moment.level));
      RC_ASSERT(moment.hour >= day_h * moment.day - 1e-9);
      RC_ASSERT(moment.hour <= day_h * (moment.day + 1) + 1e-9);
      for (int day = moment.day; day <= moment.last_day; ++day) {
        breached.insert(day);
        if (moment.kind == BreachMoment::Kind::runs_out) dry.insert(day);
      }
    }
    for (std::size_t d = 0; d < planned.record.days(); ++d) {
      const engine::ReserveDay& row = planned.record.reserve(d, r);
      const int day = static_cast<int>(d);
      if (row.short_of > 0) RC_ASSERT(dry.contains(day));
      if (row.breach_h >= 0) RC_ASSERT(breached.contains(day));
    }
  }
}

RC_GTEST_PROP(BreachMomentsProperty, AreOfDaysOnWhichItIsSo, ()) {
  const answers::PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const answers::Levels levels = answers::levels(planned);
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    for (const BreachMoment& moment : breach_moments(planned, levels.reserves[r], r)) {
      for (const int day : {moment.day, moment.last_day}) {
        const engine::ReserveDay& row = planned.record.reserve(static_cast<std::size_t>(day), r);
        RC_ASSERT(row.breach_h >= 0);
        if (moment.kind == BreachMoment::Kind::runs_out) RC_ASSERT(row.short_of > 0);
        if (moment.kind == BreachMoment::Kind::utility_drunk) RC_ASSERT(row.stood_in > 0);
      }
    }
  }
}

}  // namespace
}  // namespace drystage::report::breach_moments_test
