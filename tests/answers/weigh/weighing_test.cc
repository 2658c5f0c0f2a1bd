// Most and least of each day, the first limit that is passed, room, and what lies nowhere.
#include "answers/weigh/weighing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::answers::weighing_test {
namespace {

using engine::ScaleKind;
using support::PlanText;
using support::Trip;
using ::testing::ElementsAre;

PlanText plan_of(const std::string& mass = "", const std::string& more = "") {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 80 kg, height: 175 cm, age: 40, sex: female, seat: seat, observed: "
      "{drinking: 4 L/day, meals: 3}}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + mass +
      "}, wheelbase: 3 m, weighed: {front: 1100 kg, rear: 900 kg}, bays: {seat: {at: 1.5 m, right: "
      "0.4 m, height: 1 m}, tray: {at: 2.7 m, height: 1 m, limit: 90 kg}, rack: {at: 1.5 m, "
      "height: 2 m, roof: yes}}, tanks: [{name: tank, holds: 60 L, filled: 0 L, at: 1.5 m}]" +
      more + "}"};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, bay: tray}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return plan;
}

const Weighed& day_of(const Weighing& weighing, std::size_t day, ScaleKind kind) {
  const VehicleWeighing& truck = weighing.vehicles[0];
  for (std::size_t i = 0; i < truck.scales.size(); ++i) {
    if (weighing.scales[truck.scales[i]].kind == kind) return truck.days[day]->scales[i];
  }
  throw std::logic_error("no such scale");
}

TEST(Weighing, HasMostAndLeastOfEachDayByHand) {
  const Weighing weighing = weigh(support::travel(plan_of()));
  ASSERT_EQ(weighing.vehicles[0].days.size(), 3U);
  for (std::size_t day = 0; day < 3; ++day) {
    // 4 L a day go out of the can, nine tenths of which lies on the rear axle.
    const double full = 40 - 4.0 * static_cast<double>(day);
    EXPECT_NEAR(day_of(weighing, day, ScaleKind::total).most_kg, 2080 + full, 1e-6);
    EXPECT_NEAR(day_of(weighing, day, ScaleKind::total).least_kg, 2080 + full - 4, 1e-6);
    EXPECT_NEAR(day_of(weighing, day, ScaleKind::rear).most_kg, 940 + 0.9 * full, 1e-6);
    EXPECT_NEAR(day_of(weighing, day, ScaleKind::rear).end_kg, 940 + 0.9 * (full - 4), 1e-6);
  }
}

TEST(Weighing, HasTheCentreOfGravityByHand) {
  const Weighing weighing =
      weigh(support::travel(plan_of("", ", track: 1.6 m, centre_height: 0.7 m")));
  const Centre& full = *weighing.vehicles[0].full;
  const double kg = 2000 + 80 + 40;
  EXPECT_NEAR(full.behind_m, (900 * 3 + 80 * 1.5 + 40 * 2.7) / kg, 1e-9);
  EXPECT_NEAR(*full.height_m, (2000 * 0.7 + 80 * 1 + 40 * 1) / kg, 1e-9);
  EXPECT_NEAR(full.right_m, 80 * 0.4 / kg, 1e-9);
  EXPECT_NEAR(*full.roll_deg, std::atan((0.8 - full.right_m) / *full.height_m) * 180 / M_PI, 1e-9);
  EXPECT_NEAR(full.front, 1 - full.behind_m / 3, 1e-9);
  EXPECT_FALSE(weigh(support::travel(plan_of())).vehicles[0].full->height_m);
}

TEST(Weighing, SaysTheFirstLimitThatIsPassedAndWhatHasMostOnIt) {
  const Weighing weighing = weigh(support::travel(plan_of(", rear_limit: 970 kg")));
  ASSERT_EQ(weighing.over.size(), 1U);
  EXPECT_EQ(weighing.scales[weighing.over[0].scale].kind, ScaleKind::rear);
  EXPECT_EQ(weighing.over[0].day, 0);
  EXPECT_NEAR(weighing.over[0].kg, 6, 1e-6);
  EXPECT_EQ(weighing.over[0].most, "Ada");
  EXPECT_NEAR(weighing.over[0].most_kg, 40, 1e-6);
}

TEST(Weighing, HasRoomForWhatFillsTheFirstLimit) {
  const Weighing weighing =
      weigh(support::travel(plan_of(", rear_limit: 994 kg, limit: 2200 kg, roof_limit: 30 kg")));
  // Rear 976: 18 kg free there. Seat: half of a load. Tray: 20 of it by the axle. Rack: 30.
  EXPECT_THAT(weighing.vehicles[0].room_kg,
              ElementsAre(::testing::DoubleNear(36, 1e-6), ::testing::DoubleNear(20, 1e-6),
                          ::testing::DoubleNear(30, 1e-6)));
}

TEST(Weighing, NamesWhatHasNoPlace) {
  PlanText plan = plan_of(", gear: 25 kg");
  plan.containers.emplace_back("{name: spare, holds: 10 L, filled: 10 L}");
  const VehicleWeighing truck = weigh(support::travel(plan)).vehicles[0];
  EXPECT_THAT(truck.unplaced, ElementsAre("spare", "gear"));
  EXPECT_NEAR(truck.unplaced_kg, 35, 1e-9);
}

TEST(Weighing, WithoutATicketHasNoAxles) {
  PlanText plan = plan_of();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 60 L, "
      "filled: 0 L}]}"};
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L}"};
  const Weighing weighing = weigh(support::travel(plan));
  ASSERT_EQ(weighing.scales.size(), 1U);
  EXPECT_FALSE(weighing.vehicles[0].full);
  EXPECT_TRUE(weighing.vehicles[0].unplaced.empty());
}

/// It finds what the run finds: the same limits are passed, by as much, from the same day on.
RC_GTEST_PROP(Weighing, AgreesWithTheRun, ()) {
  PlanText text = support::random_plan(support::rapidcheck_pick());
  for (std::string& vehicle : text.vehicles) {
    const std::size_t mass = vehicle.find("mass: {empty: ") + std::string("mass: {empty: ").size();
    const int empty_kg = std::stoi(vehicle.substr(mass));
    const bool axles = vehicle.find("weighed: ") != std::string::npos;
    const int over_kg = *rc::gen::inRange(20, 500);
    vehicle.insert(
        vehicle.find(" kg", mass) + 3,
        ", limit: " + std::to_string(empty_kg + over_kg) + " kg" +
            (axles
                 ? ", front_limit: " + std::to_string(empty_kg * 6 / 10 + over_kg / 2) +
                       " kg, rear_limit: " + std::to_string(empty_kg * 6 / 10 + over_kg / 3) + " kg"
                 : ""));
  }
  const Trip trip = support::travel(text);
  const Weighing weighing = weigh(trip);
  std::size_t overloads = 0;
  for (const Breach& breach : trip.verdict.breaches) {
    if (breach.harm != Harm::overload) continue;
    ++overloads;
    const engine::Scale& scale = trip.course.scales[static_cast<std::size_t>(breach.scale)];
    const auto same = std::ranges::find_if(weighing.over, [&](const Overload& over) {
      const engine::Scale& other = weighing.scales[over.scale];
      return other.kind == scale.kind && other.vehicle == scale.vehicle && other.bay == scale.bay;
    });
    RC_ASSERT(same != weighing.over.end());
    RC_ASSERT(std::abs(same->kg - (breach.left - breach.margin)) < 1e-3);
    RC_ASSERT(same->day == breach.day);
  }
  RC_ASSERT(overloads == weighing.over.size());
}

}  // namespace
}  // namespace drystage::answers::weighing_test
