// The last places to turn back, by hand: where the halves are, where the way back becomes possible
// again, and what counts as a supply behind.
#include "answers/onward/turn_back.h"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage::answers::turn_back_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr double minute_h = 1.0 / 60;
constexpr double day_h = 24;

double trip_h(const Moment& moment) { return day_h * moment.day + moment.hour; }

/// One who drinks 1 L an hour, day and night; on the road from midnight as long as it takes.
PlanText thirst(double filled_l, const std::vector<std::string>& itinerary) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.containers = {
      fmt::format("{{name: can, holds: 200 L, filled: {} L, for: drinking}}", filled_l)};
  plan.driving = "{most_per_day: 24 h, daylight_only: no, depart: \"00:00\"}";
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}"),
                 PlanText::place("Half", "air"), PlanText::place("Far", "air"),
                 PlanText::place("Well", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}"};
  plan.itinerary.insert(plan.itinerary.end(), itinerary.begin(), itinerary.end());
  return plan;
}

std::string leg(const std::string& to, double km, const std::string& more = "") {
  return fmt::format("drive: {{to: {}, distance: {} km, surfaces: sealed, speed: 20 km/h{}}}", to,
                     km, more);
}

std::vector<SupplyStretch> stretches_of(const Trip& trip, const std::string& reserve) {
  std::vector<SupplyStretch> out;
  for (const SupplyStretch& stretch : turn_back_points(trip).stretches) {
    if (stretch.reserve == support::reserve_index(trip.course, reserve)) out.push_back(stretch);
  }
  return out;
}

SupplyStretch only(const Trip& trip, const std::string& reserve) {
  const auto all = stretches_of(trip, reserve);
  EXPECT_EQ(all.size(), 1U);
  return all.at(0);
}

SupplyStretch only(const PlanText& plan) { return only(travel(plan), "drinking_water"); }

TEST(TurnBack, IsPossibleForHalfOfWhatThereIs) {
  const SupplyStretch stretch = only(thirst(12, {leg("Far", 200)}));
  ASSERT_TRUE(stretch.last);
  EXPECT_FALSE(stretch.always);
  EXPECT_NEAR(trip_h(*stretch.last), 6, minute_h);
  EXPECT_NEAR(stretch.last->done_km, 120, 20 * minute_h);
  EXPECT_NEAR(stretch.last->to_go_km, 80, 20 * minute_h);
  EXPECT_EQ(stretch.from_place, 0);
  EXPECT_EQ(stretch.to_place, -1);
}

TEST(TurnBack, WaitsTwoWeeksForASupplyThatIsShutAndNoLonger) {
  // Base sells water on the first day, and then not for long. Who comes back on the second waits
  // fourteen days, of which the fifteenth of March is the last: 14 x 24 L until it begins, at 1 L
  // an hour. (An hour's drive less three minutes: nobody comes back at midnight to the minute.)
  const auto with = [](double filled_l, const std::string& sells_again) {
    PlanText plan = thirst(12, {leg("Far", 19), "stay: {nights: 1}", leg("Half", 19)});
    plan.containers = {
        fmt::format("{{name: can, holds: 500 L, filled: {} L, for: drinking}}", filled_l)};
    plan.places[0] = PlanText::place(
        "Base", "air", "drinking_water: {open_dates: [2027-03-01, " + sells_again + "]}");
    return only(plan);
  };
  EXPECT_TRUE(with(14 * 24 + 1, "2027-03-15").always);
  for (const SupplyStretch& stretch :
       {with(14 * 24 - 1, "2027-03-15"), with(500, "2027-03-16"), with(500, "2028-03-15")}) {
    EXPECT_FALSE(stretch.always);
    // On the first day there is water after the drive.
    ASSERT_TRUE(stretch.last);
    EXPECT_NEAR(trip_h(*stretch.last), 24 - 19.0 / 20, minute_h);
  }
}

TEST(TurnBack, LosesTheMarginTwice) {
  // Twelve litres of which three must be there.
  PlanText plan = thirst(12, {leg("Far", 200)});
  plan.margins = {"drinking_water: 3 L"};
  EXPECT_NEAR(trip_h(*only(plan).last), 4.5, minute_h);
}

TEST(TurnBack, IsAlwaysPossibleWithEnough) {
  const SupplyStretch stretch = only(thirst(21, {leg("Far", 200)}));
  EXPECT_TRUE(stretch.always);
  EXPECT_FALSE(stretch.last);
  EXPECT_FALSE(stretch.again);
}

TEST(TurnBack, IsNotAlwaysPossibleWhereItFailsInTheLastHour) {
  // The last place lies between two full hours, the end of the way too.
  const Trip trip = travel(thirst(12, {leg("Far", 128)}));
  const SupplyStretch stretch = only(trip, "drinking_water");
  EXPECT_FALSE(stretch.always);
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 6, minute_h);
  const TurnBack answer = turn_back_points(trip);
  ASSERT_EQ(answer.windows.size(), 1U);
  EXPECT_NEAR(trip_h(answer.windows.at(0).last), 6, minute_h);
  EXPECT_EQ(answer.windows.at(0).decides, stretch.reserve);
}

TEST(TurnBack, IsNeverPossibleBelowTheMargin) {
  PlanText plan = thirst(12, {leg("Far", 200)});
  plan.margins = {"drinking_water: 13 L"};
  const Trip trip = travel(plan);
  const SupplyStretch stretch = only(trip, "drinking_water");
  EXPECT_FALSE(stretch.always);
  EXPECT_FALSE(stretch.last);
  EXPECT_TRUE(turn_back_points(trip).windows.empty());
}

TEST(TurnBack, HasNoStretchWithoutASupplyBehind) {
  PlanText plan = thirst(12, {leg("Far", 200)});
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {confirmed: no}");
  EXPECT_TRUE(turn_back_points(travel(plan)).stretches.empty());
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {most: 50 L}");
  EXPECT_TRUE(turn_back_points(travel(plan)).stretches.empty());
}

TEST(TurnBack, CountsWaitingAtAnEmptyPlace) {
  // An hour out, a day's wait, an hour back: on the way back it may not be more than 12 hours.
  const SupplyStretch stretch = only(thirst(12, {leg("Half", 20), "stay: {nights: 2}"}));
  // The trip ends for this answer when there is no more to drive.
  EXPECT_TRUE(stretch.always);
  const SupplyStretch on = only(thirst(12, {leg("Half", 20), "stay: {nights: 2}", leg("Far", 20)}));
  ASSERT_TRUE(on.last);
  EXPECT_NEAR(trip_h(*on.last), 11, minute_h);
  EXPECT_EQ(engine::place_at(on.last->at), 1);
}

TEST(TurnBack, IsByTheRoadThatIsGivenOnceALegIsDriven) {
  // Home from Half there is a road three times as short, and none from half-way there.
  const std::string home = ", back: {distance: 40 km, surfaces: sealed, speed: 20 km/h}";
  const SupplyStretch stretch = only(thirst(10, {leg("Half", 120, home), leg("Far", 200)}));
  ASSERT_TRUE(stretch.last);
  // Out and back the same way are ten hours after 5; at 6 the road from Half takes only 2.
  EXPECT_NEAR(trip_h(*stretch.last), 5, minute_h);
  ASSERT_TRUE(stretch.again);
  EXPECT_NEAR(trip_h(*stretch.again), 6, minute_h);
  EXPECT_EQ(engine::place_at(stretch.again->at), 1);
}

TEST(TurnBack, IsPossibleAgainUntilItIsNot) {
  const std::string home = ", back: {distance: 40 km, surfaces: sealed, speed: 20 km/h}";
  const SupplyStretch stretch = only(thirst(10, {leg("Half", 120, home), leg("Far", 200)}));
  // Four litres are left at Half, two hours from home: an hour on from there, and back.
  ASSERT_EQ(stretch.windows.size(), 2U);
  EXPECT_NEAR(trip_h(stretch.windows[0].from), 0, minute_h);
  EXPECT_NEAR(trip_h(stretch.windows[0].last), 5, minute_h);
  EXPECT_NEAR(trip_h(stretch.windows[1].from), 6, minute_h);
  EXPECT_NEAR(trip_h(stretch.windows[1].last), 7, minute_h);
  EXPECT_NEAR(stretch.windows[1].last.done_km, 20, 20 * minute_h);
  for (const Window& window : stretch.windows) EXPECT_EQ(window.decides, stretch.reserve);
}

TEST(TurnBack, IsNotPossibleAgainForOneInstant) {
  // At Half there is just enough for the two hours home, and beyond it there is not.
  const std::string home = ", back: {distance: 40 km, surfaces: sealed, speed: 20 km/h}";
  const SupplyStretch stretch = only(thirst(8, {leg("Half", 120, home), leg("Far", 200)}));
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 4, minute_h);
  EXPECT_FALSE(stretch.again);
  EXPECT_EQ(stretch.windows.size(), 1U);
}

TEST(TurnBack, FailsAtAPlaceFromWhichTheRoadHomeIsLonger) {
  const std::string home = ", back: {distance: 200 km, surfaces: sealed, speed: 20 km/h}";
  const SupplyStretch stretch = only(thirst(14, {leg("Half", 120, home), leg("Far", 200)}));
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 6, minute_h);
  EXPECT_FALSE(stretch.again);
}

TEST(TurnBack, FailsWithinAnHourThatEndsWhereTheRoadHomeIsShorter) {
  // The moment lies in the same step as the arrival.
  const std::string home = ", back: {distance: 40 km, surfaces: sealed, speed: 20 km/h}";
  const SupplyStretch stretch = only(thirst(11, {leg("Half", 116, home), leg("Far", 200)}));
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 5.5, minute_h);
  ASSERT_TRUE(stretch.again);
  EXPECT_NEAR(trip_h(*stretch.again), 5.8, minute_h);
}

TEST(TurnBack, BeginsAnewAtEverySupply) {
  const Trip trip =
      travel(thirst(14, {leg("Well", 100), "resupply: {drinking_water: 7 L}", leg("Far", 200)}));
  const auto all = stretches_of(trip, "drinking_water");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].to_place, 3);
  EXPECT_TRUE(all[0].always);
  EXPECT_NEAR(trip_h(all[0].arrives), 5, 1e-9);
  EXPECT_EQ(all[1].from_place, 3);
  ASSERT_TRUE(all[1].last);
  // 9 + 7 litres there.
  EXPECT_NEAR(trip_h(*all[1].last), 5 + 8, minute_h);
}

TEST(TurnBack, CountsASupplyThatTheRoadLeadsThrough) {
  const Trip trip = travel(thirst(18, {leg("Well", 100), leg("Far", 200)}));
  const auto all = stretches_of(trip, "drinking_water");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[1].from_place, 3);
  EXPECT_NEAR(trip_h(all[1].leaves), 5, 1e-9);
  // 13 litres are left there: six and a half hours on, and as many back.
  ASSERT_TRUE(all[1].last);
  EXPECT_NEAR(trip_h(*all[1].last), 11.5, minute_h);
}

TEST(TurnBack, CountsASupplyOnTheWayBackThatWasShutOnTheWayOut) {
  // A Monday; the well opens on Tuesday, when the party is a long way further on.
  PlanText plan = thirst(60, {leg("Well", 100), leg("Far", 600)});
  plan.places[3] = PlanText::place("Well", "air", "drinking_water: {open: [tue, wed, thu]}");
  const SupplyStretch stretch = only(plan);
  EXPECT_EQ(stretch.from_place, 0);
  // The whole way back to Base would be 30 hours after 30; the well is five hours nearer.
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 32.5, minute_h);
}

TEST(TurnBack, WaitsWhereTheSupplyBehindIsShut) {
  // Out on a Monday; Base is shut on Tuesday and opens on Wednesday when the day begins. Whoever
  // comes back on Tuesday waits for it.
  PlanText plan = thirst(40, {leg("Far", 600)});
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {open: [mon, wed, thu]}");
  const SupplyStretch shut = only(plan);
  // Forty litres last until Tuesday 16:00 only: nobody may come back later than Monday midnight.
  ASSERT_TRUE(shut.last);
  EXPECT_NEAR(trip_h(*shut.last), 12, minute_h);
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {}");
  EXPECT_NEAR(trip_h(*only(plan).last), 20, minute_h);
}

TEST(TurnBack, IsPossibleAgainWhereAStopBringsWhatIsLacking) {
  // It gives no more, so that it is no supply to turn back to; the plan takes it.
  PlanText plan =
      thirst(12, {leg("Half", 130), "resupply: {drinking_water: 10 L}", leg("Far", 40)});
  plan.places[1] = PlanText::place("Half", "air", "drinking_water: {most: 10 L}");
  const SupplyStretch stretch = only(plan);
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 6, minute_h);
  ASSERT_TRUE(stretch.again);
  EXPECT_NEAR(trip_h(*stretch.again), 6.5, minute_h);
}

TEST(TurnBack, CountsOnNothingThatNobodyHasConfirmed) {
  PlanText plan =
      thirst(12, {leg("Half", 130), "resupply: {drinking_water: 10 L}", leg("Far", 40)});
  plan.places[1] = PlanText::place("Half", "air", "drinking_water: {confirmed: no}");
  const SupplyStretch stretch = only(plan);
  ASSERT_TRUE(stretch.last);
  EXPECT_NEAR(trip_h(*stretch.last), 6, minute_h);
  EXPECT_FALSE(stretch.again);
}

TEST(TurnBack, IsPossibleAgainAfterTheHeat) {
  // Two days of heat, as people drink by the models.
  PlanText plan = thirst(0, {leg("Half", 60), "stay: {nights: 4}", leg("Far", 20)});
  plan.people = {PlanText::person("Ada", "")};
  plan.containers = {"{name: can, holds: 200 L, filled: 40 L, for: drinking}"};
  plan.margins = {"drinking_water: 4 days"};
  plan.weather = {"{from: 2027-03-02, to: 2027-03-03, max: 46 °C, min: 34 °C}"};
  const SupplyStretch stretch = only(plan);
  // A margin of days in such heat is more than there is, and afterwards it is not.
  ASSERT_TRUE(stretch.last);
  EXPECT_EQ(stretch.last->day, 0);
  ASSERT_TRUE(stretch.again);
  EXPECT_EQ(stretch.again->day, 3);
}

TEST(EvenPoint, IsHalfWayWhereTheWayIsTheSame) {
  const SupplyStretch stretch = only(thirst(100, {leg("Half", 90), leg("Well", 140)}));
  EXPECT_TRUE(stretch.always);
  ASSERT_TRUE(stretch.even);
  EXPECT_NEAR(trip_h(*stretch.even), 230.0 / 20 / 2, minute_h);
  EXPECT_NEAR(stretch.even_need, 230.0 / 20 / 2, 2 * minute_h);
}

TEST(EvenPoint, HoldsTheMarginToo) {
  PlanText plan = thirst(100, {leg("Half", 90), leg("Well", 140)});
  plan.margins = {"drinking_water: 1 day"};
  const SupplyStretch stretch = only(plan);
  EXPECT_NEAR(trip_h(*stretch.even), 230.0 / 20 / 2, minute_h);
  EXPECT_NEAR(stretch.even_need, 230.0 / 20 / 2 + 24, 2 * minute_h);
}

TEST(EvenPoint, LiesWhereTheTimesAreTheSameByUnlikeRoads) {
  // Eight hours on the way out at 20 km/h; home from Half at 40 km/h.
  const std::string home = ", back: {distance: 60 km, surfaces: sealed, speed: 40 km/h}";
  const SupplyStretch stretch = only(thirst(100, {leg("Half", 60, home), leg("Well", 100)}));
  // After 3 hours at Half: 1.5 home, 5 on. Then t more: 1.5 + t = 5 - t.
  ASSERT_TRUE(stretch.even);
  EXPECT_NEAR(trip_h(*stretch.even), 3 + 1.75, minute_h);
  EXPECT_NEAR(stretch.even_need, 3.25, 2 * minute_h);
}

TEST(EvenPoint, ByFuelIsWhereTheUseIsTheSame) {
  PlanText plan = thirst(100, {});
  plan.places[0] = PlanText::place("Base", "air", "diesel: {}");
  plan.places[3] = PlanText::place("Well", "air", "diesel: {}");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 120 L, "
      "filled: 120 L}], observed: [{surface: sealed, uses: 10 L/100km}, {surface: sand, uses: 30 "
      "L/100km}]}"};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Half, distance: 120 km, surfaces: sand, speed: 20 km/h}",
                    "drive: {to: Well, distance: 200 km, surfaces: sealed, speed: 50 km/h}"};
  const SupplyStretch stretch = only(travel(plan), "fuel:truck");
  // 36 L over the sand and 20 on the road: 28 each, in the sand.
  ASSERT_TRUE(stretch.even);
  EXPECT_NEAR(stretch.even->done_km, 28 / 0.30, 0.5);
  EXPECT_NEAR(stretch.even_need, 28, 0.15);
}

TEST(Windows, EndWithTheReserveThatDecides) {
  PlanText plan = thirst(20, {leg("Far", 300)});
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {}, diesel: {}");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 120 L, "
      "filled: 32 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  const Trip trip = travel(plan);
  const TurnBack answer = turn_back_points(trip);
  // Water for 20 hours and fuel for 320 km, which is 16 hours.
  EXPECT_NEAR(trip_h(*only(trip, "drinking_water").last), 10, minute_h);
  EXPECT_NEAR(trip_h(*only(trip, "fuel:truck").last), 8, minute_h);
  ASSERT_EQ(answer.windows.size(), 1U);
  EXPECT_NEAR(trip_h(answer.windows[0].from), 0, 1e-9);
  EXPECT_NEAR(trip_h(answer.windows[0].last), 8, minute_h);
  EXPECT_EQ(answer.windows[0].decides, support::reserve_index(trip.course, "fuel:truck"));
}

TEST(Windows, OpenAgainAtASupply) {
  const Trip trip =
      travel(thirst(12, {leg("Well", 130), "resupply: {drinking_water: fill}", leg("Far", 100)}));
  const TurnBack answer = turn_back_points(trip);
  ASSERT_EQ(answer.windows.size(), 2U);
  EXPECT_NEAR(trip_h(answer.windows[0].last), 6, minute_h);
  EXPECT_EQ(answer.windows[0].decides, support::reserve_index(trip.course, "drinking_water"));
  EXPECT_NEAR(trip_h(answer.windows[1].from), 6.5, minute_h);
  EXPECT_NEAR(trip_h(answer.windows[1].last), 11.5, minute_h);
  EXPECT_EQ(answer.windows[1].decides, -1);
}

}  // namespace
}  // namespace drystage::answers::turn_back_test
