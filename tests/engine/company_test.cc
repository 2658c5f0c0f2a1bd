// Who joins and goes home, and what is left standing: levels, masses and days by hand.
#include "engine/company.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using support::PlanText;
using support::Trip;

constexpr double rounding = 1e-9;
constexpr double diesel_kg_l = 0.835;  // common practice

std::string rider(const std::string& name, const std::string& more) {
  return "{name: " + name +
         ", mass: 80 kg, height: 175 cm, age: 40, sex: male, observed: {drinking: 4 L/day, meals: "
         "3}, " +
         more + "}";
}

std::string vehicle(const std::string& name, const std::string& more = "") {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2000 kg, limit: 9000 kg}, tanks: [{name: " + name +
         " tank, holds: 100 L, filled: 90 L, unusable: 5 L}, {name: " + name +
         " can, holds: 20 L, filled: 20 L, empty_mass: 5 kg}], observed: [{surface: sealed, uses: "
         "10 L/100km}]" +
         more + "}";
}

/// Ada's truck goes by Meet and Part, 100 km apart, with two nights at each.
PlanText convoy(const std::string& wagon_more, const std::string& ben_more = "rides_in: wagon") {
  PlanText text;
  text.people = {rider("Ada", "rides_in: truck"), rider("Ben", ben_more)};
  text.vehicles = {vehicle("truck"), vehicle("wagon", wagon_more)};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, in: truck}",
                     "{name: wagon can, holds: 40 L, filled: 30 L, in: wagon, empty_mass: 2 kg}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Meet", "air"),
                 PlanText::place("Part", "air"), PlanText::place("End", "air")};
  const std::string drive = ", distance: 100 km, surfaces: sealed, speed: 50 km/h}";
  text.itinerary = {"{at: Base}",        "drive: {to: Meet" + drive,
                    "stay: {nights: 2}", "drive: {to: Part" + drive,
                    "stay: {nights: 2}", "drive: {to: End" + drive};
  text.more_of_trip = "";
  return text;
}

TEST(Company, WaterComesWithTheVehicleThatJoinsAndGoesWithIt) {
  const Trip trip = support::travel(convoy(", from: Meet, until: Part"));
  // Ada alone on day 1 till the wagon is met at 10:00; Ben counts from that day to the day they
  // part.
  EXPECT_NEAR(trip.reserve(0, "drinking_water").gained, 30, rounding);
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::used, "drinking_water"), 4 * 5 + 4 * 2, 1e-6);
  const auto joins = trip.told(EventKind::vehicle_joins);
  ASSERT_EQ(joins.size(), 1U);
  EXPECT_EQ(joins[0].day, 0);
  EXPECT_DOUBLE_EQ(joins[0].hour, 10);
  const auto leaves = trip.told(EventKind::vehicle_leaves);
  ASSERT_EQ(leaves.size(), 1U);
  EXPECT_EQ(leaves[0].day, 2);
  EXPECT_DOUBLE_EQ(leaves[0].hour, 10);
  // The first can is not empty, so the wagon goes home with its 30 L.
  EXPECT_NEAR(trip.reserve(2, "drinking_water").lost, 30, rounding);
  EXPECT_NEAR(trip.store(4, "wagon can").end, 0, rounding);
  EXPECT_NEAR(trip.store(4, "can").end, 60 - 28, 1e-6);
}

TEST(Company, FuelIsJudgedOnTheDaysOnWhichItsVehicleIsThere) {
  const Trip trip = support::travel(convoy(", from: 2, until: 4"));
  EXPECT_FALSE(trip.reserve(0, "fuel:wagon").judged);
  EXPECT_TRUE(trip.reserve(1, "fuel:wagon").judged);
  EXPECT_TRUE(trip.reserve(3, "fuel:wagon").judged);
  EXPECT_FALSE(trip.reserve(4, "fuel:wagon").judged);
  // 100 km on day 3, at 10 L/100km; the truck drives all three.
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::used, "fuel:wagon"), 10, 1e-6);
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::used, "fuel:truck"), 30, 1e-6);
  EXPECT_NEAR(trip.outlook("fuel:wagon").lowest, 105 - 10, 1e-6);
  EXPECT_EQ(trip.outlook("fuel:wagon").lowest_day, 2);
  EXPECT_TRUE(trip.verdict.holds);
}

TEST(Company, APersonDrinksAndWeighsWhileTheyAreThere) {
  const Trip with = support::travel(convoy("", "rides_in: truck, from: 2, until: Part"));
  EXPECT_NEAR(with.reserve(0, "drinking_water").used, 4, 1e-6);
  EXPECT_NEAR(with.reserve(1, "drinking_water").used, 8, 1e-6);
  EXPECT_NEAR(with.reserve(2, "drinking_water").used, 4 + 4 * 10.0 / 24, 1e-6);
  EXPECT_NEAR(with.reserve(3, "drinking_water").used, 4, 1e-6);
  // Heaviest when Ben gets in on the second morning: the truck, both, what is left of water and
  // fuel.
  const double fuel_l = 90 + 20 - 10;
  EXPECT_NEAR(with.record.heaviest[0].kg, 2000 + 5 + 160 + (60 - 4) + fuel_l * diesel_kg_l, 1e-3);
  EXPECT_EQ(with.record.heaviest[0].day, 1);
}

TEST(Company, WhoIsThereFromTheFirstPlaceToTheLastChangesNothing) {
  const Trip plain = support::travel(convoy(""));
  const Trip said = support::travel(convoy(", from: Base, until: 5"));
  EXPECT_TRUE(said.told(EventKind::vehicle_joins).empty());
  for (std::size_t day = 0; day < plain.days(); ++day) {
    for (const std::string name : {"drinking_water", "fuel:wagon", "fuel:truck", "food"}) {
      EXPECT_EQ(plain.reserve(day, name).end, said.reserve(day, name).end) << name;
      EXPECT_EQ(plain.reserve(day, name).slack, said.reserve(day, name).slack) << name;
    }
  }
}

TEST(Company, NobodyJoinsOnADayThatTheTripDoesNotHave) {
  const engine::Timeline timeline =
      engine::lay_timeline(convoy("", "rides_in: wagon, from: 2, until: 9").plan());
  ASSERT_EQ(timeline.problems.size(), 1U);
  EXPECT_EQ(timeline.problems[0].what, "\"Ben\": day 9, but the trip has 5 days");
}

std::string problem(const PlanText& text) {
  const engine::Timeline timeline = engine::lay_timeline(text.plan());
  return timeline.problems.empty() ? "" : timeline.problems.front().what;
}

TEST(Company, WhoIsLeftStandingDoesNotGoHomeElsewhere) {
  PlanText text = convoy(", until: Part");
  text.itinerary[3].insert(text.itinerary[3].find('}'), ", leaves: [wagon]");
  text.itinerary.push_back("drive: {to: Meet, distance: 80 km, surfaces: sealed}");
  EXPECT_EQ(problem(text), "\"wagon\" is not with the party when that comes to \"Part\"");
}

TEST(Company, NobodyDrivesWithoutAVehicle) {
  PlanText text = convoy(", from: 3");
  text.itinerary[1].insert(text.itinerary[1].find('}'), ", leaves: [truck]");
  text.itinerary.push_back("drive: {to: Base, distance: 80 km, surfaces: sealed}");
  EXPECT_EQ(problem(text), "on day 1 the party drives, and no vehicle is with it");
}

TEST(Company, NothingIsReadOfWhatIsNotThere) {
  const auto with_reading = [](const std::string& said) {
    return convoy(", from: Meet, until: Part").text() + "\nreadings:\n  - {evening: " + said +
           "}\n";
  };
  const auto what = [&](const std::string& said) {
    const engine::Timeline timeline = engine::lay_timeline(support::read_plan(with_reading(said)));
    return timeline.problems.empty() ? "" : timeline.problems.front().what;
  };
  EXPECT_EQ(what("1, fuel: {wagon: 70 L}"), "");
  EXPECT_EQ(what("4, fuel: {wagon: 70 L}"), "fuel: \"wagon\" is not with you then");
  EXPECT_EQ(what("2, drinking: 75 L"), "");
  EXPECT_EQ(what("4, drinking: 75 L"), "drinking: 75 L, but what is with you then holds 60 L");
}

/// A camp with a side trip of 60 km each way and one night, from which things stay behind.
PlanText camp(const std::string& leaves) {
  PlanText text = convoy("", "rides_in: wagon");
  text.places = {PlanText::place("Base", "air"), PlanText::place("Camp", "air"),
                 PlanText::place("Mesa", "air")};
  const std::string drive = ", distance: 100 km, surfaces: sealed, speed: 50 km/h}";
  text.itinerary = {"{at: Base}",
                    "drive: {to: Camp" + drive,
                    "stay: {nights: 1}",
                    "side_trip: {to: Mesa, distance: 60 km, surfaces: sealed, speed: 60 km/h, "
                    "nights: 1, leaves: [" +
                        leaves + "]}",
                    "stay: {nights: 1}",
                    "drive: {to: Base" + drive};
  return text;
}

TEST(Company, WhatIsLeftAtCampIsNotUsedAndIsPickedUpAgain) {
  const Trip trip = support::travel(camp("can, wagon, truck can"));
  // "can" is left, and with the wagon its own: nobody has water on the side trip.
  EXPECT_GT(trip.outlook("drinking_water").short_of, 0);
  const auto left = trip.told(EventKind::left_behind);
  const auto again = trip.told(EventKind::picked_up);
  ASSERT_EQ(left.size(), 1U);
  ASSERT_EQ(again.size(), 1U);
  EXPECT_EQ(left[0].day, 1);
  EXPECT_DOUBLE_EQ(left[0].hour, 8);
  EXPECT_EQ(again[0].day, 2);
  EXPECT_DOUBLE_EQ(again[0].hour, 9);
  // The wagon and its fuel stand still; the can of the truck comes back full.
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::used, "fuel:wagon"), 20, 1e-6);
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::used, "fuel:truck"), 20 + 12, 1e-6);
  EXPECT_NEAR(trip.store(1, "truck can").lost, 20, rounding);
  EXPECT_NEAR(trip.store(2, "truck can").gained, 20, rounding);
}

TEST(Company, WhoseVehicleStaysAtCampRidesWithTheOthers) {
  const Trip trip = support::travel(camp("wagon"));
  const engine::Presence& away = trip.course.presences[1];
  EXPECT_DOUBLE_EQ(away.more_kg[0], 80);
  EXPECT_DOUBLE_EQ(away.more_kg[1], -80);
}

TEST(Company, ATrailerLeftAtCampIsNotTowed) {
  PlanText with = camp("trailer, wagon");
  with.vehicles[0] =
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, trailer: {mass: 700 kg, "
      "drag_area: 0.6 m2}, tanks: [{name: truck tank, holds: 100 L, filled: 90 L}]}";
  PlanText without = camp("wagon");
  without.vehicles[0] =
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: truck "
      "tank, holds: 100 L, filled: 90 L}]}";
  const Trip towing = support::travel(with);
  const Trip alone = support::travel(without);
  // On the side trip both use the same, but for the fuel that the first has burnt more by then.
  const auto out_and_back = [](const Trip& trip) {
    return trip.reserve(1, "fuel:truck").used + trip.reserve(2, "fuel:truck").used;
  };
  EXPECT_NEAR(out_and_back(towing) / out_and_back(alone), 1, 2e-3);
  EXPECT_GT(towing.reserve(0, "fuel:truck").used, 1.1 * alone.reserve(0, "fuel:truck").used);
}

TEST(Company, WhoTurnsBackPicksUpWhatTheyLeft) {
  const plan::Plan plan = camp("can").plan();
  // Half-way to Mesa all turn round; the way back leads over Camp.
  plan::Plan turned = plan;
  turned.itinerary.push_back(turned.itinerary[3]);
  std::get<plan::Drive>(turned.itinerary.back()).to = 1;
  std::get<plan::Drive>(turned.itinerary.back()).leaves = {};
  const int back = static_cast<int>(turned.itinerary.size()) - 1;
  const engine::Schedule schedule =
      engine::lay_out(turned, {{.at_h = 24 + 8.5, .halt_h = 0, .go_on_with = back}});
  const engine::CompanyOnTheWay company = engine::company_on_the_way(turned, schedule);
  ASSERT_EQ(company.companies.size(), 3U);
  EXPECT_EQ(company.companies[1].left_by, std::vector<int>{3});
  EXPECT_TRUE(company.companies[2].left_by.empty());
}

/// Nothing is created or lost: what a store has, is used and was there from the outset.
RC_GTEST_PROP(CompanyProperty, StoresKeepWhatIsInThemWhileTheyAreAway, ()) {
  const auto pick = support::rapidcheck_pick();
  const int from = pick(1, 5);
  const int until = pick(from, 5);
  PlanText text = convoy(", from: " + std::to_string(from) + ", until: " + std::to_string(until));
  text.containers.push_back("{name: third, holds: 10 L, filled: 10 L, in: wagon}");
  if (pick(0, 1) == 1) std::swap(text.containers[0], text.containers[1]);
  if (pick(0, 1) == 1) text.itinerary[3].insert(text.itinerary[3].find('}'), ", leaves: [can]");
  text.itinerary.push_back("drive: {to: Meet, distance: 30 km, surfaces: sealed}");
  const Trip trip = support::travel(text);
  const auto& stores = trip.course.stores;
  for (std::size_t s = 0; s < stores.size(); ++s) {
    if (stores[s].family != engine::Family::drinking_water) continue;
    double used = 0;
    double most = stores[s].initial;
    for (std::size_t d = 0; d < trip.days(); ++d) {
      const engine::StoreDay& day = trip.record.store(d, s);
      used += day.used;
      RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) < rounding);
      most = std::max(most, day.end);
    }
    RC_ASSERT(most <= stores[s].initial + rounding);
    RC_ASSERT(used <= stores[s].initial + rounding);
  }
  double held = 0;
  for (std::size_t d = 0; d < trip.days(); ++d) {
    const engine::ReserveDay& day = trip.reserve(d, "drinking_water");
    RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) < 1e-6);
    held = day.end;
  }
  RC_ASSERT(held >= -rounding);
}

}  // namespace
}  // namespace drystage
