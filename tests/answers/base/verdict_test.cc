#include "answers/base/verdict.h"

#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage::answers {
namespace {

using engine::Sense;
using support::PlanText;

/// Two reserves over two days, with nothing wrong.
struct Case {
  engine::CourseBase course;
  engine::Record record;

  Case() {
    for (const char* name : {"first", "second"}) {
      engine::ReserveInfo info;
      info.name = name;
      course.reserves.push_back(info);
    }
    record.reserves = 2;
    record.reserve_days.resize(4);
    for (engine::ReserveDay& day : record.reserve_days) {
      day.lowest = day.left = 10;
      day.slack = 5;
    }
  }

  engine::ReserveDay& at(std::size_t day, std::size_t reserve) {
    return record.reserve_days[day * 2 + reserve];
  }

  void breach(std::size_t day, std::size_t reserve, double hour) {
    at(day, reserve).breach_h = hour;
    at(day, reserve).slack = -1;
  }

  [[nodiscard]] Verdict judged() const { return verdict(course, record); }
};

TEST(Verdict, HoldsWhenNothingIsBroken) {
  const Verdict verdict = Case().judged();
  EXPECT_TRUE(verdict.holds);
  EXPECT_FALSE(verdict.first_breach);
}

TEST(Verdict, NamesTheEarliestDayWhicheverReserveItIs) {
  Case one;
  one.breach(1, 0, 2);
  one.breach(0, 1, 20);
  const Verdict verdict = one.judged();
  EXPECT_FALSE(verdict.holds);
  EXPECT_EQ(verdict.first_breach->day, 0);
  EXPECT_EQ(verdict.first_breach->reserve, 1);
}

TEST(Verdict, NamesTheEarliestHourOfADay) {
  Case one;
  one.breach(0, 0, 20);
  one.breach(0, 1, 19);
  EXPECT_EQ(one.judged().first_breach->reserve, 1);
}

TEST(Verdict, NamesTheFirstReserveOnATie) {
  Case one;
  one.breach(0, 0, 20);
  one.breach(0, 1, 20);
  EXPECT_EQ(one.judged().first_breach->reserve, 0);
}

TEST(Verdict, CountsABreachAtMidnight) {
  Case one;
  one.breach(0, 1, 0);
  EXPECT_FALSE(one.judged().holds);
}

TEST(Verdict, TakesTheLowestOfWhatIsKeptAboveAndTheHighestOfWhatIsKeptBelow) {
  Case one;
  one.course.reserves[1].sense = Sense::keep_below;
  one.at(1, 0).lowest = 3;
  one.at(1, 1).lowest = 17;
  const Verdict verdict = one.judged();
  EXPECT_EQ(verdict.reserves[0].lowest, 3);
  EXPECT_EQ(verdict.reserves[0].lowest_day, 1);
  EXPECT_EQ(verdict.reserves[1].lowest, 17);
}

// Five days at 4 L from 24 L: below 20 L on day 2 (by a little), and 16 L below it in the end.
TEST(Verdict, TellsTheWorstOfABreachThatIsSlightAtFirst) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 24 L, for: drinking}"};
  plan.margins = {"drinking_water: 20 L"};
  const support::Trip trip = support::travel(plan);
  ASSERT_EQ(trip.verdict.breaches.size(), 1U);
  const Breach& breach = trip.verdict.breaches[0];
  EXPECT_EQ(breach.day, 1);
  EXPECT_NEAR(breach.margin - breach.left, 4, 1e-9);
  EXPECT_EQ(breach.worst_day, 4);
  EXPECT_NEAR(breach.at_worst, 16, 1e-9);
}

TEST(Verdict, HoldsWhenAReserveComesDownExactlyToItsMargin) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.margins = {"drinking_water: 20 L"};
  EXPECT_TRUE(support::travel(plan).verdict.holds);  // five days at 4 L
  plan.margins = {"drinking_water: 20.001 L"};
  EXPECT_FALSE(support::travel(plan).verdict.holds);
}

TEST(Verdict, APlanThatRunsShortDoesNotHoldThoughItAsksForNoMargin) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 18 L, for: drinking}"};
  const support::Trip trip = support::travel(plan);
  ASSERT_GT(trip.outlook("drinking_water").short_of, 1.9);
  EXPECT_FALSE(trip.verdict.holds);
  EXPECT_EQ(trip.verdict.first_breach->day, 4);
  EXPECT_NEAR(trip.verdict.first_breach->hour, 12, 1e-9);
}

TEST(Verdict, UtilityWaterThatIsDrunkIsABreachWithoutAMarginToo) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L, for: drinking}",
                     "{name: tub, holds: 60 L, filled: 60 L, for: utility}"};
  const support::Trip trip = support::travel(plan);  // 20 L in five days
  EXPECT_FALSE(trip.verdict.holds);
  ASSERT_EQ(trip.verdict.breaches.size(), 1U);
  const Breach& breach = trip.verdict.breaches[0];
  EXPECT_EQ(breach.harm, Harm::utility_drunk);
  EXPECT_EQ(breach.reserve, 0);
  EXPECT_EQ(breach.day, 2);
  EXPECT_NEAR(breach.hour, 12, 1e-9);
  EXPECT_NEAR(breach.short_of, 10, 1e-9);
  plan.containers[0] = "{name: can, holds: 20 L, filled: 20 L, for: drinking}";
  EXPECT_TRUE(support::travel(plan).verdict.holds);
}

/// Days beside a bank of 100 Ah that a radio takes from, 12 W, at 1 A; nothing charges it but what
/// is given.
PlanText radio(const std::string& itinerary, const std::string& charging = "") {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.containers = {"{name: tub, holds: 200 L, filled: 200 L, for: drinking}"};
  plan.batteries = {
      "{name: bank, kind: lfp, capacity: 100 Ah, floor: 10 %, cut_off: 10 %, peukert: 1}"};
  plan.loads = {"{name: radio, draw: 12 W}"};
  plan.climate = {PlanText::steady_climate("air", 25)};
  if (!charging.empty()) plan.charging = {charging};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + itinerary + "}"};
  return plan;
}

TEST(Verdict, ALoadThatGoesOffAndStaysOffIsABreach) {
  // 90 Ah above the cut-off last 90 hours: to day 4 at 18:00, and then 30 hours to the end.
  const support::Trip trip = support::travel(radio("5"));
  ASSERT_EQ(trip.days(), 5U);
  EXPECT_FALSE(trip.verdict.holds);
  ASSERT_EQ(trip.verdict.breaches.size(), 1U);
  const Breach& breach = trip.verdict.breaches[0];
  EXPECT_EQ(breach.harm, Harm::load_off);
  EXPECT_EQ(breach.load, 0);
  EXPECT_EQ(trip.course.reserves[static_cast<std::size_t>(breach.reserve)].name, "battery:bank");
  EXPECT_EQ(breach.day, 3);
  EXPECT_NEAR(breach.hour, 18, 0.1);
}

TEST(Verdict, ALoadThatIsOffForTheLastHoursAloneIsNone) {
  EXPECT_TRUE(support::travel(radio("4")).verdict.holds);
}

TEST(Verdict, ALoadThatComesOnAgainIsNone) {
  PlanText plan = radio("7", "{solar: 400 W, name: panel}");
  plan.climate = {PlanText::steady_climate("air", 20, "6 kWh/m2/day")};
  plan.batteries = {
      "{name: bank, kind: lfp, capacity: 100 Ah, filled: 15 %, floor: 10 %, cut_off: 10 %}"};
  const support::Trip trip = support::travel(plan);
  ASSERT_FALSE(trip.told(engine::EventKind::cut_off).empty());
  ASSERT_FALSE(trip.told(engine::EventKind::reconnected).empty());
  EXPECT_TRUE(trip.verdict.holds);
}

TEST(ABank, SaysWhatItsLoadsDrawThoughTheSunGivesMostOfIt) {
  PlanText plan = radio("3", "{solar: 400 W, name: panel}");
  plan.climate = {PlanText::steady_climate("air", 25, "6 kWh/m2/day")};
  const support::Trip trip = support::travel(plan);
  for (std::size_t day = 0; day < trip.days(); ++day) {
    const engine::ReserveDay& row = trip.reserve(day, "battery:bank");
    EXPECT_NEAR(row.drawn, 24, 1e-6);  // 12 W at 12 V
    EXPECT_LT(row.used, 20);
    EXPECT_GT(row.used, 0);
  }
}

TEST(Verdict, AVehicleAboveItsLimitIsABreach) {
  plan::Plan plan = radio("2").plan();
  const double kg = support::travel(plan).record.heaviest[0].kg;
  plan.vehicles[0].limit_kg = kg;
  EXPECT_TRUE(support::travel(plan).verdict.holds);
  plan.vehicles[0].limit_kg = kg - 0.5;
  const Verdict verdict = support::travel(plan).verdict;
  EXPECT_FALSE(verdict.holds);
  EXPECT_TRUE(verdict.reserves_hold());
  ASSERT_EQ(verdict.breaches.size(), 1U);
  EXPECT_EQ(verdict.breaches[0].harm, Harm::overload);
  EXPECT_EQ(verdict.breaches[0].vehicle, 0);
  EXPECT_EQ(verdict.breaches[0].day, 0);
  EXPECT_NEAR(verdict.breaches[0].left - verdict.breaches[0].margin, 0.5, 1e-9);
}

TEST(Verdict, WhatIsTakenOnTheWayCountsTowardsTheLimit) {
  PlanText text = radio("2");
  text.containers = {"{name: tub, holds: 200 L, filled: 20 L, for: drinking}"};
  text.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 1}"};
  plan::Plan plan = text.plan();
  const engine::Heaviest most = support::travel(plan).record.heaviest[0];
  EXPECT_EQ(most.day, 2);
  plan.vehicles[0].limit_kg = most.kg - 100;
  const Verdict verdict = support::travel(plan).verdict;
  ASSERT_EQ(verdict.breaches.size(), 1U);
  EXPECT_EQ(verdict.breaches[0].harm, Harm::overload);
  EXPECT_EQ(verdict.breaches[0].day, 2);
}

TEST(Verdict, PutsWhatHurtsPeopleFirstHoweverLate) {
  PlanText text;
  text.containers = {"{name: can, holds: 40 L, filled: 18 L, for: drinking}",
                     "{name: tub, holds: 8 L, filled: 8 L, for: utility, quality: brackish}"};
  text.utility_use = {"washing: 4 L/day"};
  const Verdict verdict = support::travel(text).verdict;
  ASSERT_EQ(verdict.breaches.size(), 2U);
  EXPECT_EQ(verdict.breaches[0].harm, Harm::runs_out_vital);
  EXPECT_EQ(verdict.breaches[0].day, 4);
  EXPECT_NEAR(verdict.breaches[0].short_of, 2, 1e-9);  // five days at 4 L
  EXPECT_EQ(verdict.breaches[1].harm, Harm::runs_out);
  EXPECT_EQ(verdict.breaches[1].day, 2);
  EXPECT_EQ(verdict.first_breach->day, 2);
}

/// 200 km at 100 km/h and 10 L/100km from eight o'clock, with so much in the tank and a margin of 5
/// L.
Verdict of_a_drive_with(const std::string& filled) {
  PlanText text;
  text.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  text.margins = {"fuel: 5 L"};
  text.vehicles = {
      "{name: truck, fuel: diesel, idle: 0 L/h, mass: {empty: 2500 kg}, tanks: [{name: "
      "tank, holds: 80 L, filled: " +
      filled + "}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Far", "air")};
  text.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  text.itinerary = {"{at: Base}",
                    "drive: {to: Far, distance: 200 km, surfaces: sealed, speed: 100 km/h}"};
  return support::travel(text).verdict;
}

TEST(Verdict, TellsTheMarginAndTheLastDropOfOneDayApart) {
  // 7 of 12 L are used by 8:42, all by 9:12.
  const Verdict verdict = of_a_drive_with("12 L");
  EXPECT_EQ(verdict.first_breach->harm, Harm::margin_vital);
  EXPECT_NEAR(verdict.first_breach->hour, 8.7, 1e-6);
  EXPECT_EQ(verdict.first_breach->short_of, 0);
  EXPECT_EQ(verdict.breaches.at(0).harm, Harm::runs_out_vital);
  EXPECT_NEAR(verdict.breaches.at(0).hour, 9.2, 1e-6);
  EXPECT_NEAR(verdict.breaches.at(0).short_of, 8, 1e-6);
}

TEST(Verdict, SaysOfTheFirstBreachWhatWasShortThatDay) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 10 L, for: drinking}"};
  const Verdict verdict = support::travel(plan).verdict;  // five days at 4 L
  EXPECT_EQ(verdict.first_breach->harm, Harm::runs_out_vital);
  EXPECT_EQ(verdict.first_breach->day, 2);
  EXPECT_NEAR(verdict.first_breach->short_of, 2, 1e-9);
  EXPECT_NEAR(verdict.breaches.at(0).short_of, 10, 1e-9);
  // With a litre that is drunk instead before all is gone.
  plan.containers.emplace_back("{name: tub, holds: 2 L, filled: 1 L, for: utility}");
  const Verdict other = support::travel(plan).verdict;
  EXPECT_EQ(other.first_breach->harm, Harm::utility_drunk);
  EXPECT_NEAR(other.first_breach->hour, 12, 1e-9);
  EXPECT_NEAR(other.first_breach->short_of, 1, 1e-9);
}

TEST(Verdict, FindsTheMarginInTheHourInWhichAllIsGone) {
  const Verdict verdict = of_a_drive_with("7 L");
  EXPECT_NEAR(verdict.first_breach->hour, 8.2, 1e-6);
  EXPECT_NEAR(verdict.breaches.at(0).hour, 8.7, 1e-6);
}

TEST(Verdict, IsHeaviestWhereItIsSoFirst) {
  PlanText text = radio("6");
  text.containers = {"{name: tub, holds: 30.3 L, filled: 30.3 L, for: drinking}"};
  text.people = {PlanText::person("Ada", "3.1 L/day")};
  text.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  text.food = {"{item: rice, kept: dry, meals: 1}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 2}"};
  EXPECT_EQ(support::travel(text).record.heaviest[0].day, 0);
}

TEST(Verdict, DoesNotJudgeFoodOfWhichThePlanDoesNotSpeak) {
  PlanText text;
  text.containers = {"{name: can, holds: 40 L, filled: 18 L, for: drinking}"};
  text.food.clear();
  const support::Trip trip = support::travel(text);
  for (const engine::ReserveInfo& reserve : trip.course.reserves) EXPECT_NE(reserve.name, "food");
  EXPECT_EQ(trip.verdict.first_breach->day, 4);
  // A margin speaks of it.
  text.margins = {"food: 1 day"};
  EXPECT_EQ(support::travel(text).verdict.first_breach->day, 0);
}

}  // namespace
}  // namespace drystage::answers
