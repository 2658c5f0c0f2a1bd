// Who and what comes along from when until when, and what is left on the way, as it is written.
#include <gtest/gtest.h>

#include <string>

#include "support/plan_text.h"

namespace drystage {
namespace {

using support::PlanText;

PlanText convoy() {
  PlanText text;
  text.people = {PlanText::person("Ada", "4 L/day"),
                 "{name: Ben, mass: 80 kg, height: 180 cm, age: 40, sex: male, rides_in: wagon}",
                 "{name: Cleo, mass: 60 kg, height: 170 cm, age: 30, sex: female, rides_in: wagon, "
                 "until: 2}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, trailer: {mass: 500 kg}, tanks: [{name: "
      "tank, holds: 90 L, filled: 90 L}, {name: jerry, holds: 20 L, filled: 20 L, for: any}]}",
      "{name: wagon, fuel: diesel, from: 2, until: Camp, mass: {empty: 2000 kg}, tanks: [{name: "
      "wagon tank, holds: 90 L, filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Camp", "air"),
                 PlanText::place("Mesa", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Camp, distance: 100 km, surfaces: sealed}",
                    "side_trip: {to: Mesa, distance: 60 km, surfaces: {track: 20 km, sand: 40 km}, "
                    "climb: 300 m, descent: 100 m, nights: 2, leaves: [trailer, jerry, can]}",
                    "stay: {nights: 1}"};
  return text;
}

TEST(ReadCompany, AMomentIsADayOrAPlace) {
  const plan::Plan plan = convoy().plan();
  EXPECT_TRUE(plan.vehicles[0].along.is_all_the_way());
  EXPECT_EQ(plan.vehicles[1].along.from.day, 1);
  EXPECT_EQ(plan.vehicles[1].along.until.place, 1);
}

TEST(ReadCompany, WhoRidesInAVehicleComesAndGoesWithIt) {
  const plan::Plan plan = convoy().plan();
  EXPECT_TRUE(plan.people[0].along.is_all_the_way());
  EXPECT_EQ(plan.people[1].along, plan.vehicles[1].along);
  // But what they say themselves wins.
  EXPECT_EQ(plan.people[2].along.from.day, 1);
  EXPECT_EQ(plan.people[2].along.until.day, 1);
}

TEST(ReadCompany, ASideTripIsADriveAStayAndADriveBack) {
  const plan::Plan plan = convoy().plan();
  ASSERT_EQ(plan.itinerary.size(), 7U);
  const auto& out = std::get<plan::Drive>(plan.itinerary[3]);
  const auto& stay = std::get<plan::Stay>(plan.itinerary[4]);
  const auto& back = std::get<plan::Drive>(plan.itinerary[5]);
  EXPECT_EQ(out.to, 2);
  EXPECT_EQ(back.to, 1);
  EXPECT_EQ(stay.nights, 2);
  EXPECT_DOUBLE_EQ(back.distance_km, 60);
  EXPECT_EQ(back.surfaces.front().surface, plan::Surface::sand);
  EXPECT_DOUBLE_EQ(*back.climb_m, 100);
  EXPECT_DOUBLE_EQ(*back.descent_m, 300);
  EXPECT_EQ(out.leaves.trailers, std::vector<int>{0});
  EXPECT_EQ(out.leaves.containers, std::vector<int>{0});
  EXPECT_EQ(out.leaves.tanks, (std::vector<plan::TankReference>{{.vehicle = 0, .tank = 1}}));
  EXPECT_TRUE(back.leaves.empty());
}

TEST(ReadCompany, ASideTripWithoutNightsHasNoStay) {
  PlanText text = convoy();
  text.itinerary[3] = "side_trip: {to: Mesa, distance: 60 km, surfaces: track}";
  EXPECT_EQ(text.plan().itinerary.size(), 6U);
}

TEST(ReadCompany, ACanForAnyIsForThoseThatBurnTheSame) {
  PlanText text = convoy();
  text.vehicles.push_back(
      "{name: buggy, fuel: petrol, mass: {empty: 700 kg}, tanks: [{name: t, holds: 20 L, filled: "
      "20 "
      "L}]}");
  EXPECT_EQ(text.plan().vehicles[0].tanks[1].also_for, std::vector<int>{1});
}

}  // namespace
}  // namespace drystage
