// Water and food that a vehicle keeps for those who ride in it.
#include "engine/own_stock.h"

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "engine/company_checks.h"
#include "engine/engine.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::own_stock_test {
namespace {

using support::PlanText;
using support::Trip;

constexpr double near = 1e-6;

// What they drink is the model's, in heat, on the road and at rest.
std::string rider(const std::string& name, int mass_kg, const std::string& vehicle) {
  return fmt::format(
      "{{name: {}, mass: {} kg, height: 175 cm, age: 40, sex: male, rides_in: {}, observed: "
      "{{meals: "
      "3}}}}",
      name, mass_kg, vehicle);
}

std::string vehicle(const std::string& name, const std::string& more = "") {
  return fmt::format(
      "{{name: {0}, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: {0} tank, holds: 90 L, "
      "filled: 90 L}}], observed: [{{surface: sealed, uses: 10 L/100km}}]{1}}}",
      name, more);
}

std::string container(const std::string& name, int holds_l, const std::string& in,
                      const std::string& more = "") {
  return fmt::format("{{name: {}, holds: {} L, filled: {} L, in: {}{}}}", name, holds_l, holds_l,
                     in, more);
}

std::string stores(const std::string& item, int meals, const std::string& in) {
  return fmt::format("{{item: {}, kept: dry, meals: {}, carried_by: {}}}", item, meals, in);
}

PlanText on_the_way() {
  PlanText text;
  text.climate = {PlanText::climate_of("hot", 41, 24, "25 %", "7 kWh/m2/day")};
  text.places = {PlanText::place("Base", "hot"),
                 PlanText::place("Well", "hot", "drinking_water: {}, utility_water: {}, food: {}"),
                 PlanText::place("End", "hot")};
  text.itinerary = {"{at: Base}",
                    "drive: {to: Well, distance: 100 km, surfaces: sealed}",
                    "stay: {nights: 2}",
                    "resupply: {drinking_water: fill, utility_water: fill, food: fill}",
                    "drive: {to: End, distance: 100 km, surfaces: sealed}",
                    "stay: {nights: 1}"};
  return text;
}

/// Ada and Ben in the truck; Col in the wagon, which keeps what is said of it.
PlanText both(const std::string& own) {
  PlanText text = on_the_way();
  text.people = {rider("Ada", 60, "truck"), rider("Ben", 90, "truck"), rider("Col", 75, "wagon")};
  text.vehicles = {vehicle("truck"), vehicle("wagon", own.empty() ? "" : ", own: " + own)};
  text.containers = {
      container("can", 60, "truck"), container("tank", 40, "truck", ", for: utility"),
      container("wagon can", 30, "wagon"), container("wagon tank", 12, "wagon", ", for: utility")};
  text.utility_use = {"cooking: 1.5 L/day", "radiator: {volume: 3 L, every: 1 day, for: party}"};
  text.food = {stores("stores", 40, "truck"), stores("wagon stores", 20, "wagon")};
  return text;
}

PlanText truck_alone() {
  PlanText text = both("");
  text.people.pop_back();
  text.vehicles.pop_back();
  text.containers.resize(2);
  text.food.pop_back();
  text.utility_use.back() = "radiator: {volume: 2 L, every: 1 day, for: party}";
  return text;
}

PlanText wagon_alone() {
  PlanText text = both("");
  text.people = {text.people.back()};
  text.vehicles = {vehicle("wagon")};
  text.containers = {text.containers[2], text.containers[3]};
  text.food = {text.food.back()};
  text.utility_use.back() = "radiator: {volume: 1 L, every: 1 day, for: party}";
  return text;
}

void expect_same(const Trip& trip, const std::string& name, const Trip& other,
                 const std::string& other_name) {
  ASSERT_EQ(trip.days(), other.days());
  for (std::size_t day = 0; day < trip.days(); ++day) {
    const engine::ReserveDay& one = trip.reserve(day, name);
    const engine::ReserveDay& two = other.reserve(day, other_name);
    EXPECT_NEAR(one.start, two.start, near) << name << " on day " << day;
    EXPECT_NEAR(one.used, two.used, near) << name << " on day " << day;
    EXPECT_NEAR(one.gained, two.gained, near) << name << " on day " << day;
    EXPECT_NEAR(one.lowest, two.lowest, near) << name << " on day " << day;
    EXPECT_NEAR(one.end, two.end, near) << name << " on day " << day;
    EXPECT_NEAR(one.margin, two.margin, near) << name << " on day " << day;
  }
}

TEST(OwnStock, WhoShareNothingFareAsInPlansOfTheirOwn) {
  PlanText text = both("[water, food]");
  PlanText truck_text = truck_alone();
  PlanText wagon_text = wagon_alone();
  for (PlanText* one : {&text, &truck_text, &wagon_text}) {
    one->margins = {"drinking_water: 2 days", "utility_water: 1 days", "food: 1 days"};
  }
  const Trip together = support::travel(text);
  const Trip truck = support::travel(truck_text);
  const Trip wagon = support::travel(wagon_text);
  for (const std::string name : {"drinking_water", "utility_water", "food"}) {
    expect_same(together, name, truck, name);
    expect_same(together, name + ":wagon", wagon, name);
  }
  EXPECT_GT(wagon.sum(&engine::ReserveDay::gained, "drinking_water"), 10);
}

TEST(OwnStock, MayBeWaterAloneOrFoodAlone) {
  const Trip water = support::travel(both("water"));
  const auto keeps = [](const Trip& trip, engine::Family family) {
    return engine::find_reserve(trip.course, {.family = family, .of = 1}) >= 0;
  };
  EXPECT_FALSE(keeps(water, engine::Family::food));
  EXPECT_NEAR(water.reserve(0, "drinking_water:wagon").start, 30, near);
  EXPECT_NEAR(water.reserve(0, "food").start, 60, near);
  const Trip food = support::travel(both("food"));
  EXPECT_FALSE(keeps(food, engine::Family::drinking_water));
  EXPECT_NEAR(food.reserve(0, "drinking_water").start, 90, near);
  EXPECT_NEAR(food.reserve(0, "food:wagon").start, 20, near);
}

TEST(OwnStock, HasAMarginOfItsOwn) {
  PlanText text = both("[water, food]");
  text.margins = {"drinking_water: 5 L", "drinking_water:wagon: 7 L", "food:wagon: 4 meals"};
  const Trip trip = support::travel(text);
  EXPECT_EQ(trip.reserve(0, "drinking_water").margin, 5);
  EXPECT_EQ(trip.reserve(0, "drinking_water:wagon").margin, 7);
  EXPECT_EQ(trip.reserve(0, "food:wagon").margin, 4);
}

TEST(OwnStock, IsUsedOnlyWhereTheVehicleDrives) {
  // Col's wagon stands at the well while all three go on and come back in the truck.
  PlanText text = both("[water, food]");
  text.itinerary = {
      "{at: Base}",        "drive: {to: Well, distance: 100 km, surfaces: sealed}",
      "stay: {nights: 1}", "drive: {to: End, distance: 100 km, surfaces: sealed, leaves: [wagon]}",
      "stay: {nights: 2}", "drive: {to: Well, distance: 100 km, surfaces: sealed}",
      "stay: {nights: 2}"};
  const Trip trip = support::travel(text);
  const std::string wagon = "drinking_water:wagon";
  // On day 3 nothing is used of it, all of the truck's; by day 5 it is there again.
  EXPECT_EQ(trip.reserve(2, wagon).used, 0);
  EXPECT_FALSE(trip.reserve(2, wagon).judged);
  EXPECT_GT(trip.reserve(2, "drinking_water").used, 1.3 * trip.reserve(0, "drinking_water").used);
  EXPECT_GT(trip.reserve(4, wagon).used, 1);
  EXPECT_NEAR(trip.reserve(4, wagon).start + trip.reserve(4, wagon).gained,
              trip.reserve(4, wagon).used + trip.reserve(4, wagon).end, near);
}

TEST(OwnStock, IsJudgedOnlyWhileSomebodyUsesIt) {
  // Ada and Ben go home with the truck: what was common is nobody's then, and no margin asks for
  // it.
  PlanText text = both("[water, food]");
  text.people.push_back(rider("Dee", 60, "van"));
  text.vehicles[0] = vehicle("truck", ", until: 2");
  text.vehicles.push_back(vehicle("van", ", own: [water, food]"));
  text.containers.push_back(container("van can", 90, "van"));
  text.containers.push_back(container("van tank", 20, "van", ", for: utility"));
  text.food.push_back(stores("van stores", 30, "van"));
  text.margins = {"drinking_water: 5 L", "utility_water: 1 L", "food: 2 meals"};
  const Trip trip = support::travel(text);
  EXPECT_TRUE(trip.verdict.holds);
  ASSERT_EQ(trip.days(), 3U);
  EXPECT_TRUE(trip.reserve(1, "drinking_water").judged);
  EXPECT_FALSE(trip.reserve(2, "drinking_water").judged);
  EXPECT_FALSE(trip.reserve(2, "food").judged);
  EXPECT_TRUE(trip.reserve(2, "drinking_water:van").judged);
}

TEST(OwnStock, OfUtilityWaterHasNoMarginWhereThereIsNeitherStoreNorUse) {
  PlanText text = both("water");
  text.utility_use.clear();
  std::erase_if(text.containers,
                [](const std::string& one) { return one.find("{name: tank") == 0; });
  text.margins = {"utility_water: 5 L"};
  const Trip trip = support::travel(text);
  EXPECT_TRUE(trip.verdict.holds);
  EXPECT_EQ(trip.reserve(0, "utility_water").margin, 0);
  EXPECT_EQ(trip.reserve(0, "utility_water:wagon").margin, 5);
}

TEST(OwnStock, IsCommonOnceItsVehicleIsLeftBehind) {
  const Trip trip = support::travel(both("[water, food]"));
  const engine::Course course =
      engine::compile(trip.plan, trip.course.timeline, nullptr, {.damage = {.vehicles = {1}}});
  const engine::Record record = engine::Engine::run(course);
  const auto row = [&](const std::string& name) {
    return record.reserve(0, static_cast<std::size_t>(support::reserve_index(course, name)));
  };
  EXPECT_NEAR(row("drinking_water").start, 90, near);
  EXPECT_NEAR(row("utility_water").start, 52, near);
  EXPECT_NEAR(row("food").start, 60, near);
  const Trip common = support::travel(both(""));
  EXPECT_NEAR(row("drinking_water").used, common.reserve(0, "drinking_water").used, near);
  EXPECT_NEAR(row("food").used, common.reserve(0, "food").used, near);
  EXPECT_EQ(row("drinking_water:wagon").margin, 0);
  EXPECT_EQ(row("drinking_water:wagon").used, 0);
}

TEST(OwnStock, NothingIsLostWhenItsVehicleIsLeftBehindOnTheWay) {
  PlanText text = both("[water, food]");
  text.itinerary = {"{at: Base}", "drive: {to: Well, distance: 100 km, surfaces: sealed}",
                    "stay: {nights: 1}", "resupply: {food: to next, drinking_water: fill}",
                    "stay: {nights: 25}"};
  text.vehicles[0].insert(text.vehicles[0].rfind("mass: {empty: 2000 kg") + 21, ", limit: 9000 kg");
  text.margins = {"food: 1 day"};
  const Trip trip = support::travel(text);
  const auto step = engine::step_at(*trip.course.timeline, 3, 0);
  engine::Record before = engine::blank_record(trip.course);
  auto now = engine::Engine::begin(trip.course, before);
  engine::Engine::go_on(trip.course, now, step);
  const auto level = [&](const engine::Engine::Standing& of, const std::string& name) {
    return of.run.reserve_level(support::reserve_index(trip.course, name));
  };
  const engine::Course course =
      engine::recompile(trip.plan, trip.course.timeline, trip.course, step, {.vehicles = {1}});
  engine::Record after = engine::blank_record(course);
  auto rest = engine::Engine::resume(now, course, step, after);
  engine::Engine::lose_excess(course, rest);
  EXPECT_GT(level(now, "food:wagon"), 40);  // most of it was bought
  for (const std::string name : {"drinking_water", "utility_water", "food"}) {
    EXPECT_NEAR(level(rest, name), level(now, name) + level(now, name + ":wagon"), near) << name;
    EXPECT_EQ(level(rest, name + ":wagon"), 0) << name;
  }
  const std::size_t end = course.timeline->steps.size();
  engine::Engine::go_on(course, rest, end);
  // Both had enough to the end, and so have they together.
  const auto food = static_cast<std::size_t>(support::reserve_index(course, "food"));
  EXPECT_EQ(after.reserve(after.days() - 1, food).short_of, 0);
}

TEST(OwnStock, IsNotCountedInAReadingOfAllTheRest) {
  PlanText text = both("[water, food]");
  const auto with_reading = [&](const std::string& reading) {
    return support::read_plan(text.text() + "readings: [{evening: 2, " + reading + "}]\n");
  };
  const Trip trip =
      support::travel(with_reading("drinking: 41 L, containers: {wagon can: 17 L}, meals: 30"));
  EXPECT_NEAR(trip.reserve(2, "drinking_water").start, 41, 5);
  const plan::Plan read = with_reading("drinking: 41 L, containers: {wagon can: 17 L}, meals: 30");
  EXPECT_TRUE(engine::company_problems(read, *trip.course.timeline).empty());
  // The truck's can holds 60 L: 70 L must count the wagon's too.
  const plan::Plan wrong = with_reading("drinking: 70 L");
  const auto problems = engine::company_problems(wrong, *trip.course.timeline);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].what, "drinking: 70 L, but what is with you then holds 60 L");
}

std::string with_more(std::string flow_map, const std::string& more) {
  flow_map.insert(flow_map.rfind('}'), more);
  return flow_map;
}

RC_GTEST_PROP(OwnStockProperty, AllOwnersTogetherNeedWhatThePartyDoes, ()) {
  PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_PRE(text.vehicles.size() >= 2U);
  const bool has_own = std::ranges::any_of(text.vehicles, [](const std::string& one) {
    return one.find(", own: ") != std::string::npos;
  });
  if (!has_own) text.vehicles.back() = with_more(text.vehicles.back(), ", own: [water, food]");
  RC_LOG() << text.text();
  const Trip trip = support::travel(text);
  const engine::Timeline& timeline = *trip.course.timeline;
  const auto& pools = std::get<engine::reserves::Water::Compiled>(trip.course.families).pools;
  RC_PRE(pools.size() == 2U);
  std::vector<std::vector<engine::OwnMeals>> meals;
  for (const int owner : plan::owners(trip.plan, plan::Stock::food)) {
    meals.push_back(engine::own_meals(trip.plan, trip.course, owner));
  }
  for (const engine::TimeStep& step : timeline.steps) {
    engine::OwnWater sum;
    for (const auto& pool : pools) {
      const engine::OwnWater& its = pool.needs[step.index];
      RC_ASSERT(its.drink_l >= 0 && its.utility_l >= 0);
      sum.drink_l += its.drink_l;
      sum.utility_l += its.utility_l;
      sum.potable_utility_l += its.potable_utility_l;
      sum.drink_l_day += its.drink_l_day;
      sum.utility_l_day += its.utility_l_day;
    }
    const auto place_day = static_cast<std::size_t>(step.place_day);
    const auto is_same = [](double one, double two) { return std::abs(one - two) < near; };
    RC_ASSERT(is_same(sum.drink_l, timeline.conditions.steps[step.index].drink_l));
    RC_ASSERT(is_same(sum.utility_l, step.utility_l));
    RC_ASSERT(is_same(sum.potable_utility_l, step.potable_utility_l));
    RC_ASSERT(is_same(sum.drink_l_day, timeline.conditions.place_days[place_day].drink_l));
    RC_ASSERT(is_same(sum.utility_l_day, timeline.place_days[place_day].utility_l));
    double meals_in_step = 0;
    double meals_a_day = 0;
    for (const auto& its : meals) {
      meals_in_step += its[step.index].meals;
      meals_a_day += its[step.index].meals_day;
    }
    RC_ASSERT(is_same(meals_in_step, step.meals));
    RC_ASSERT(is_same(meals_a_day, timeline.place_days[place_day].meals));
  }
}

}  // namespace
}  // namespace drystage::own_stock_test
