// What is loaded when setting out, against the masses of the engine.
#include "report/card/load.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "answers/base/laid_trip.h"
#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Family;
using report::LoadLine;
using report::VehicleLoad;
using support::PlanText;
using ::testing::DoubleNear;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// What the engine weighs a vehicle at, before the first step and after what is taken on at the
/// outset.
std::vector<double> weighed_kg(const answers::PlanRun& planned) {
  engine::Record record = engine::blank_record(planned.course);
  auto standing = engine::Engine::begin(planned.course, record);
  engine::Engine::go_on(planned.course, standing,
                        answers::morning_step(*planned.course.timeline, 0));
  std::vector<double> out;
  for (std::size_t v = 0; v < planned.plan.vehicles.size(); ++v) {
    out.push_back(standing.run.vehicle_kg(static_cast<int>(v)));
  }
  return out;
}

std::vector<double> totals_kg(const std::vector<VehicleLoad>& loads) {
  std::vector<double> out;
  for (const VehicleLoad& load : loads) {
    if (load.vehicle >= 0) out.push_back(load.total_kg());
  }
  return out;
}

void expect_same(const std::vector<double>& a, const std::vector<double>& b) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i], b[i], 1e-6);
}

const LoadLine& line_called(const VehicleLoad& load, const std::string& name) {
  const auto found = std::ranges::find(load.lines, name, &LoadLine::name);
  if (found == load.lines.end()) throw std::out_of_range("no line is called " + name);
  return *found;
}

engine::Company all_there(const plan::Plan& plan) {
  engine::Company out;
  out.vehicles.assign(plan.vehicles.size(), 1);
  out.parted.assign(plan.vehicles.size(), 0);
  out.trailers.assign(plan.vehicles.size(), 0);
  out.people.assign(plan.people.size(), 1);
  return out;
}

TEST(Load, OfShippedPlansSumsUpToTheEnginesMass) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    const support::Trip trip = support::travel(plan);
    // Who joins on the way has packed too, and is weighed where they join.
    if (trip.course.timeline->companies.front() != all_there(plan)) continue;
    expect_same(totals_kg(report::loads_at_outset(trip)), weighed_kg(trip));
  }
}

TEST(Load, HasWhatIsEatenOrUsedUpThoughItsMassIsNotKnown) {
  PlanText text;
  text.food = {"{item: stores, kept: dry, meals: 60}"};
  text.consumables = {
      "{name: tablets, unit: doses, stores: [{name: box, holds: 20, filled: 12}], use: {per_day: "
      "1}}"};
  const std::vector<VehicleLoad> loads = report::loads_at_outset(support::travel(text));
  const LoadLine& food = line_called(loads.front(), "stores");
  EXPECT_EQ(food.amount, 60);
  EXPECT_EQ(food.content_kg, 0);
  const LoadLine& box = line_called(loads.front(), "box");
  EXPECT_EQ(box.note, "tablets");
  EXPECT_EQ(box.unit, "doses");
  EXPECT_EQ(box.amount, 12);
}

RC_GTEST_PROP(Load, OfAnyPlanSumsUpToTheEnginesMass, ()) {
  const support::Trip trip = support::travel(support::random_plan(support::rapidcheck_pick()));
  const std::vector<VehicleLoad> loads = report::loads_at_outset(trip);
  expect_same(totals_kg(loads), weighed_kg(trip));
  // Nothing that is carried is ever lighter than at its heaviest.
  for (const VehicleLoad& load : loads) {
    const auto v = static_cast<std::size_t>(load.vehicle);
    RC_ASSERT(load.total_kg() <= trip.record.heaviest[v].kg + 1e-6);
  }
  // Every container, tank, item of food and store of a consumable is on one list.
  std::size_t lines = 0;
  for (const VehicleLoad& load : loads) lines += load.lines.size();
  std::size_t things = trip.plan.water.containers.size() + trip.plan.food.size();
  for (const plan::Vehicle& vehicle : trip.plan.vehicles) things += vehicle.tanks.size();
  for (const plan::Consumable& each : trip.plan.consumables) things += each.stores.size();
  RC_ASSERT(lines >= things);
  RC_ASSERT(!::testing::Test::HasFailure());
}

/// One vehicle with one of each thing.
PlanText one_of_each() {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: "
      "{drinking: 4 L/day, meals: 3}}"};
  plan.containers = {"{name: can, holds: 20 L, filled: 15 L, for: drinking, empty_mass: 1.2 kg}",
                     "{name: spare, holds: 10 L, filled: 10 L, for: drinking, opened: last}",
                     "{name: wash, holds: 30 L, filled: 0 L, for: utility, quality: brackish}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg, gear: 100 kg, limit: 3000 kg}, tanks: "
      "[{name: tank, holds: 80 L, filled: 80 L, unusable: 3 L}, {name: jerry, holds: 20 L, filled: "
      "10 L, empty_mass: 4 kg}]}"};
  plan.food = {"{item: stores, kept: dry, mass: 12 kg, meals: 60}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, mass: 29 kg, filled: 80 %}"};
  plan.charging = {"{name: roof, solar: 100 W, mass: 7 kg}"};
  plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K, mass: 5 kg}"};
  return plan;
}

TEST(Load, HasOneOfEachWithItsMass) {
  const support::Trip trip = support::travel(one_of_each());
  const std::vector<VehicleLoad> loads = report::loads_at_outset(trip);
  ASSERT_EQ(loads.size(), 1U);
  const VehicleLoad& load = loads.front();
  EXPECT_EQ(line_called(load, "can").content_kg, 15) << "a litre of water is a kilogram";
  EXPECT_EQ(line_called(load, "can").empty_kg, 1.2);
  EXPECT_FALSE(line_called(load, "can").full);
  EXPECT_TRUE(line_called(load, "spare").full);
  EXPECT_EQ(line_called(load, "spare").note, "drinking, opened last");
  EXPECT_EQ(line_called(load, "wash").content_kg, 0);
  EXPECT_THAT(line_called(load, "wash").note, HasSubstr("not to be drunk"));
  // EN 590 allows diesel 0.820 to 0.845 kg/L.
  EXPECT_GE(line_called(load, "tank").content_kg, 80 * 0.820);
  EXPECT_LE(line_called(load, "tank").content_kg, 80 * 0.845);
  EXPECT_EQ(line_called(load, "jerry").empty_kg, 4);
  EXPECT_EQ(line_called(load, "stores").content_kg, 12);
  EXPECT_EQ(line_called(load, "stores").unit, "meals");
  EXPECT_EQ(line_called(load, "box").content_kg, 6);
  EXPECT_EQ(line_called(load, "box").empty_kg, 5);
  EXPECT_EQ(line_called(load, "bank").empty_kg, 29);
  EXPECT_DOUBLE_EQ(line_called(load, "bank").amount, 80);
  EXPECT_EQ(line_called(load, "roof").empty_kg, 7);
  EXPECT_EQ(load.people_kg, 70);
  const double fuel_kg =
      line_called(load, "tank").content_kg + line_called(load, "jerry").content_kg;
  EXPECT_THAT(
      load.total_kg(),
      DoubleNear(2000 + 100 + 70 + 15 + 1.2 + 10 + fuel_kg + 4 + 12 + 6 + 5 + 29 + 7, 1e-9));
}

TEST(Load, HasWhatIsTakenOnAtTheOutset) {
  PlanText plan = one_of_each();
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}, diesel: {}, food: {}")};
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill, diesel: fill, food: 10 meals}",
                    "stay: {nights: 3}"};
  const support::Trip trip = support::travel(plan);
  const std::vector<VehicleLoad> loads = report::loads_at_outset(trip);
  const VehicleLoad& load = loads.front();
  EXPECT_EQ(line_called(load, "can").amount, 20);
  EXPECT_TRUE(line_called(load, "jerry").full);
  EXPECT_EQ(line_called(load, "food bought at the outset").amount, 10);
  expect_same(totals_kg(loads), weighed_kg(trip));
}

TEST(Load, WithoutVehiclesWeighsNobody) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  const support::Trip trip = support::travel(plan);
  const std::vector<VehicleLoad> loads = report::loads_at_outset(trip);
  ASSERT_EQ(loads.size(), 1U);
  EXPECT_EQ(loads.front().vehicle, -1);
  EXPECT_EQ(loads.front().people_kg, 0);
  EXPECT_EQ(line_called(loads.front(), "can").content_kg, 20);
}

TEST(Load, GoesWithTheVehicleThatCarriesIt) {
  const support::Trip trip = support::travel([] {
    for (plan::Plan& plan : support::all_scenarios()) {
      if (plan.vehicles.size() == 2) return std::move(plan);
    }
    throw std::out_of_range("no shipped plan has two vehicles");
  }());
  for (const VehicleLoad& load : report::loads_at_outset(trip)) {
    for (const LoadLine& line : load.lines) {
      if (line.family != Family::drinking_water) continue;
      const auto& can = trip.plan.water.containers[static_cast<std::size_t>(line.index)];
      EXPECT_EQ(can.name, line.name);
      EXPECT_EQ(can.vehicle, load.vehicle);
    }
  }
}

}  // namespace
}  // namespace drystage
