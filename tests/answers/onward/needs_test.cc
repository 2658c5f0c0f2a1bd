// What must be on board each morning: by hand, where a closed form is known; and on every shipped
// scenario by running from that morning with just so much, and with a little less.
#include "answers/onward/needs.h"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "cli/workspace.h"
#include "plan/read.h"
#include "support/settled.h"
#include "support/tight.h"
#include "support/trip.h"

namespace drystage::answers::needs_test {
namespace {

using engine::Engine;
using support::PlanText;
using support::travel;
using support::Trip;

// A need is found to a tenth of a millilitre or its like, and never too low.
constexpr double fine = 1e-4;

Need need_of(const Trip& trip, const Needs& needs, std::size_t day, const std::string& reserve) {
  const auto at = std::ranges::find(needs.reserves, support::reserve_index(trip.course, reserve));
  return needs.need(day, static_cast<std::size_t>(at - needs.reserves.begin()));
}

void expect_need(const Need& need, double must_have) {
  EXPECT_GE(need.must_have, must_have - 1e-6);
  EXPECT_LE(need.must_have, must_have + fine + 1e-6);
}

/// Five days at Base for one who drinks 4 L and eats 3 meals a day.
PlanText camp() {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 50 L, for: drinking}"};
  plan.margins = {"drinking_water: 3 days", "food: 2 days"};
  plan.food = {"{item: stores, kept: dry, meals: 40}"};
  return plan;
}

TEST(Needs, OfConstantUseAreDaysLeftAndTheMargin) {
  const Trip trip = travel(camp());
  const Needs needs = morning_needs(trip);
  ASSERT_EQ(trip.days(), 5U);
  for (std::size_t day = 0; day < 5; ++day) {
    const double left = 5.0 - static_cast<double>(day);
    const Need water = need_of(trip, needs, day, "drinking_water");
    expect_need(water, 4 * (left + 3));
    EXPECT_NEAR(water.has, 50 - 4 * (5 - left), 1e-9);
    expect_need(need_of(trip, needs, day, "food"), 3 * (left + 2));
    EXPECT_EQ(water.until_place, -1);
    EXPECT_EQ(water.until_day, 4);
    EXPECT_DOUBLE_EQ(water.until_h, 24);
    EXPECT_TRUE(water.fits);
  }
  EXPECT_TRUE(needs.met());
}

TEST(Needs, AreTheSameHoweverMuchThereIs) {
  for (const char* filled : {"0 L", "17 L", "60 L"}) {
    PlanText plan = camp();
    plan.containers = {
        fmt::format("{{name: can, holds: 60 L, filled: {}, for: drinking}}", filled)};
    const Trip trip = travel(plan);
    expect_need(need_of(trip, morning_needs(trip), 0, "drinking_water"), 4 * (5 + 3));
  }
}

TEST(Needs, WithoutMarginsAreTheUseAlone) {
  PlanText plan = camp();
  plan.margins = {};
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  expect_need(need_of(trip, needs, 1, "drinking_water"), 4 * 4);
  expect_need(need_of(trip, needs, 1, "food"), 3 * 4);
}

TEST(Needs, MayBeMoreThanCanBeHeld) {
  PlanText plan = camp();
  plan.containers = {"{name: can, holds: 25 L, filled: 25 L, for: drinking}"};
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const Need first = need_of(trip, needs, 0, "drinking_water");
  expect_need(first, 32);
  // Shown rounded up, a last digit too much would be a litre.
  EXPECT_NEAR(first.must_have, 32, 1e-9);
  EXPECT_FALSE(first.fits);
  EXPECT_TRUE(first.lacks());
  EXPECT_NEAR(first.slack(), -7, fine);
  EXPECT_FALSE(needs.met());
  EXPECT_TRUE(need_of(trip, needs, 2, "drinking_water").fits);
}

TEST(Needs, AreMetByAPlanFilledToThem) {
  PlanText plan = camp();
  const Trip first = travel(plan);
  const double must = need_of(first, morning_needs(first), 0, "drinking_water").must_have;
  for (const double less : {0.0, 0.5}) {
    plan.containers = {
        fmt::format("{{name: can, holds: 60 L, filled: {:.9f} L, for: drinking}}", must - less)};
    const Trip trip = travel(plan);
    EXPECT_EQ(trip.verdict.holds, less == 0);
    EXPECT_EQ(morning_needs(trip).met(), less == 0);
    const double slack = trip.reserve(4, "drinking_water").slack;
    EXPECT_NEAR(slack, -less, 1e-3);
  }
}

/// From Base to a store 200 km away on the first day, a Monday; four nights there.
PlanText to_store(const std::string& supplies) {
  PlanText plan = camp();
  plan.places.push_back(PlanText::place("Store", "air", supplies));
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L, unusable: 5 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Store, distance: 200 km, surfaces: sealed, speed: 50 km/h}",
                    "stay: {nights: 4}"};
  return plan;
}

TEST(Needs, LastToTheArrivalAtTheNextSupply) {
  const Trip trip = travel(to_store("drinking_water: {}"));
  const Needs needs = morning_needs(trip);
  const Need first = need_of(trip, needs, 0, "drinking_water");
  // From midnight to noon, whether or not the plan takes any there.
  expect_need(first, 4 * (0.5 + 3));
  EXPECT_EQ(first.until_place, 1);
  EXPECT_EQ(first.until_day, 0);
  EXPECT_DOUBLE_EQ(first.until_h, 12);
  // There it can be had each morning when the day begins.
  expect_need(need_of(trip, needs, 1, "drinking_water"), 4 * (8.0 / 24 + 3));
  expect_need(need_of(trip, needs, 0, "food"), 3 * (4 + 2));
}

TEST(Needs, LastToTheDayOnWhichASupplyIsOpen) {
  const Trip trip = travel(to_store("drinking_water: {open: [wed]}"));
  const Needs needs = morning_needs(trip);
  const Need first = need_of(trip, needs, 0, "drinking_water");
  expect_need(first, 4 * (2 + 8.0 / 24 + 3));
  EXPECT_EQ(first.until_day, 2);
  EXPECT_DOUBLE_EQ(first.until_h, 8);
  // On Thursday it is shut, to the end.
  const Need thursday = need_of(trip, needs, 3, "drinking_water");
  expect_need(thursday, 4 * (1 + 3));
  EXPECT_EQ(thursday.until_place, -1);
}

TEST(Needs, DoNotCountOnAnUnconfirmedSupply) {
  PlanText plan = to_store("drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const Need first = need_of(trip, needs, 0, "drinking_water");
  expect_need(first, 4 * (4 + 3));
  EXPECT_EQ(first.until_place, -1);
  // What the plan expects to have does count on it.
  EXPECT_GT(need_of(trip, needs, 1, "drinking_water").has, 55);
}

TEST(Needs, CountASupplyThatGivesSoMuchAsFarAsItGoes) {
  for (const char* take : {"fill", "5 L", "to next"}) {
    PlanText plan = to_store("drinking_water: {most: 20 L}");
    plan.itinerary.insert(plan.itinerary.begin() + 2,
                          fmt::format("resupply: {{drinking_water: {}}}", take));
    const Trip trip = travel(plan);
    const Needs needs = morning_needs(trip);
    const Need first = need_of(trip, needs, 0, "drinking_water");
    // 16 L until the end and a margin of 12, of which it gives 20; but until noon the margin must
    // be there without.
    expect_need(first, 4 * (0.5 + 3));
    EXPECT_EQ(first.until_place, -1) << take;
    expect_need(need_of(trip, needs, 1, "drinking_water"), 4 * (3 + 3));
  }
  PlanText longer = to_store("drinking_water: {most: 20 L}");
  longer.itinerary = {longer.itinerary[0], longer.itinerary[1], "resupply: {drinking_water: 5 L}",
                      "stay: {nights: 9}"};
  const Trip trip = travel(longer);
  expect_need(need_of(trip, morning_needs(trip), 0, "drinking_water"), 4 * (9 + 3) - 20);
}

TEST(Needs, EndWhereTheRoadLeadsThroughASupply) {
  PlanText plan = to_store("drinking_water: {}");
  plan.places.push_back(PlanText::place("Beyond", "air"));
  plan.itinerary.insert(plan.itinerary.begin() + 2,
                        "drive: {to: Beyond, distance: 100 km, surfaces: sealed, speed: 50 km/h}");
  const Trip trip = travel(plan);
  const Need first = need_of(trip, morning_needs(trip), 0, "drinking_water");
  expect_need(first, 4 * (0.5 + 3));
  EXPECT_EQ(first.until_place, 1);
}

TEST(Needs, BeginOnceWhatIsTakenOnAtTheOutsetIsOnBoard) {
  PlanText plan = camp();
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  plan.containers = {"{name: can, holds: 60 L, filled: 10 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill}", "stay: {nights: 5}"};
  const Trip trip = travel(plan);
  EXPECT_DOUBLE_EQ(need_of(trip, morning_needs(trip), 0, "drinking_water").has, 60);
}

TEST(Needs, OfFuelAreTheWayAndTheMargin) {
  PlanText plan = to_store("");
  plan.margins.emplace_back("fuel: 7 L");
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const Need first = need_of(trip, needs, 0, "fuel:truck");
  expect_need(first, 200 * 0.10 + 7);
  EXPECT_DOUBLE_EQ(first.has, 65);
  expect_need(need_of(trip, needs, 1, "fuel:truck"), 7);
}

TEST(Needs, OfFuelFollowTheLoadThatTheyAre) {
  PlanText plan = to_store("");
  plan.margins.emplace_back("fuel: 7 L");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L, unusable: 5 L}]}"};
  const Trip full = travel(plan);
  const double must = need_of(full, morning_needs(full), 0, "fuel:truck").must_have;
  plan.vehicles[0].replace(plan.vehicles[0].find("filled: 80"), 10,
                           fmt::format("filled: {:.9f}", must + 5));
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.reserve(trip.days() - 1, "fuel:truck").slack, 0, 1e-3);
  // With a full tank it would have used more.
  EXPECT_GT(full.sum(&engine::ReserveDay::used, "fuel:truck"),
            trip.sum(&engine::ReserveDay::used, "fuel:truck") + 0.01);
}

/// A lithium battery that a generator fills from ten in the morning, with 1 A drawn all day.
PlanText bank(const std::string& more) {
  PlanText plan = camp();
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L}]}"};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah, floor: 20 %, peukert: 1" + more +
                    "}"};
  plan.loads = {"{name: radio, draw: 1 A}"};
  return plan;
}

TEST(Needs, OfABankReachToWhereItIsFull) {
  PlanText plan = bank("");
  plan.charging = {
      "{name: generator, generator: 1500 W, fuel: diesel, uses: 0.6 L/h, runs: 2 h/day, starts: "
      "\"10:00\"}"};
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  for (std::size_t day = 0; day < 5; ++day) {
    const Need need = need_of(trip, needs, day, "battery:bank");
    expect_need(need, 20 + 10);
    EXPECT_EQ(need.until_place, -1);
    EXPECT_EQ(need.until_day, static_cast<int>(day));
    EXPECT_GT(need.until_h, 10);
    EXPECT_LE(need.until_h, 12);
  }
  EXPECT_TRUE(needs.met());
}

TEST(Needs, OfABankThatNothingChargesReachToTheEnd) {
  PlanText plan = bank("");
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  expect_need(need_of(trip, needs, 0, "battery:bank"), 20 + 72);
  expect_need(need_of(trip, needs, 2, "battery:bank"), 20 + 24);
}

TEST(Needs, AreEndlessWhereNoAmountIsEnough) {
  // More than the bank can hold.
  const Trip trip = travel(bank(""));
  const Needs needs = morning_needs(trip);
  const Need need = need_of(trip, needs, 0, "battery:bank");
  EXPECT_TRUE(std::isinf(need.must_have));
  EXPECT_FALSE(need.fits);
  EXPECT_TRUE(need.lacks());
  EXPECT_FALSE(needs.met());
}

TEST(Needs, OfFoodThatSpoilsAreEndless) {
  PlanText plan = camp();
  plan.climate = {PlanText::steady_climate("air", 30)};
  plan.cold = {"{name: box, volume: 40 L, ice: 0 kg, heat_leak: 5 W/K, starts_at: 30 °C}"};
  plan.food = {"{item: meat, kept: chilled, mass: 10 kg, meals: 40}"};
  const Trip trip = travel(plan);
  const Need need = need_of(trip, morning_needs(trip), 0, "food");
  EXPECT_TRUE(std::isinf(need.must_have));
  EXPECT_TRUE(need.lacks());
}

// --- by brute force, on every shipped scenario ---

/// What is certain, for one reserve: unconfirmed supplies are shut, and where one gives so much of
/// it, all of that is taken.
engine::Course certain(engine::Course course, int reserve) {
  for (engine::OrderInfo& order : course.orders) {
    if (!order.supply.confirmed) order.open = false;
    if (order.supply.most && order.reserve == reserve) order.order.take = plan::Take::fill;
  }
  return course;
}

plan::Plan scenario(const std::string& name) {
  return support::settled(*plan::read_file(testing::scenario_path(name)).plan);
}

class NeedsByBruteForce : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, NeedsByBruteForce, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

/// Runs a trip from a morning with a level, until the reserve is topped up.
support::Tight run_from(const Trip& trip, int day, int reserve, std::optional<double> level) {
  const engine::Timeline& timeline = *trip.course.timeline;
  const engine::Course after = certain(trip.course, reserve);
  std::size_t step =
      static_cast<std::size_t>(timeline.days[static_cast<std::size_t>(day)].first_step);
  engine::Record before = engine::blank_record(trip.course);
  Engine::Standing morning = Engine::begin(trip.course, before);
  Engine::go_on(trip.course, morning, step);
  engine::Record record = engine::blank_record(after);
  Engine::Standing now = Engine::resume(morning, after, step, record);
  if (level) Engine::set_level(after, now, reserve, *level);
  const std::size_t until = support::supplied_at(
      trip.plan, timeline, step, trip.course.reserves[static_cast<std::size_t>(reserve)]);
  return support::go_on_watching(after, now, record, until, reserve);
}

TEST_P(NeedsByBruteForce, AreJustEnough) {
  const Trip trip = travel(scenario(GetParam()));
  const Needs needs = morning_needs(trip);
  int tried = 0;
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const int reserve = needs.reserves[i];
    const engine::ReserveInfo& info = trip.course.reserves[static_cast<std::size_t>(reserve)];
    for (int day = 0; day < static_cast<int>(trip.days()); ++day) {
      const Need& need = needs.need(static_cast<std::size_t>(day), i);
      if (!need.judged) continue;
      SCOPED_TRACE(info.name + " on day " + std::to_string(day + 1));
      EXPECT_NEAR(
          need.has,
          trip.record.reserve(static_cast<std::size_t>(day), static_cast<std::size_t>(reserve))
              .start,
          1e-9);
      const double least = std::isinf(need.must_have) ? info.capacity : need.must_have;
      const support::Tight enough = run_from(trip, day, reserve, least);
      if (std::isinf(need.must_have)) {
        EXPECT_LT(enough.slack, 0);
        continue;
      }
      ++tried;
      EXPECT_GE(enough.slack, -1e-6);
      if (need.must_have <= 0) continue;
      // A battery that gets full with so much, and not with less, may have to last much longer.
      // Of utility water there may be brackish water left when the potable is just enough.
      const bool of_two_sorts = info.commodity == plan::Commodity::utility_water;
      EXPECT_TRUE(enough.slack < 1e-3 || !info.commodity || of_two_sorts) << enough.slack;
      // With less to begin with a battery may shed a load sooner, and come out better for a while.
      bool fails = false;
      for (const double little : {0.01, 0.5, 0.01 * info.capacity, 0.02 * info.capacity}) {
        if (info.commodity && little != 0.5) continue;
        fails = fails || run_from(trip, day, reserve, std::max(0.0, least - little)).slack < 0;
      }
      EXPECT_TRUE(fails);
      // By what the trip has, it is the same question.
      const support::Tight planned = run_from(trip, day, reserve, std::nullopt);
      EXPECT_TRUE(std::abs(need.slack()) < 0.1 || need.lacks() == (planned.slack < 0));
    }
  }
  EXPECT_GT(tried, 20);
}

/// What a reserve is kept in: where a level goes, with its room and what of it is of no use.
struct Vessel {
  double* filled_l;
  double* holds_l;
  double unusable_l = 0;
};

std::vector<Vessel> vessels(plan::Plan& plan, const engine::ReserveInfo& reserve) {
  std::vector<Vessel> out;
  if (reserve.vehicle) {
    for (plan::Tank& tank : plan.vehicles[static_cast<std::size_t>(*reserve.vehicle)].tanks) {
      out.push_back({&tank.filled_l, &tank.holds_l, tank.unusable_l});
    }
    return out;
  }
  if (reserve.id.family == engine::Family::consumable) {
    for (plan::ConsumableStore& store :
         plan.consumables[static_cast<std::size_t>(reserve.id.of)].stores) {
      out.push_back({&store.filled, &store.holds});
    }
    return out;
  }
  const bool drinking = reserve.commodity == plan::Commodity::drinking_water;
  for (const bool last : {false, true}) {
    for (plan::Container& can : plan.water.containers) {
      if (can.opened_last != last || (can.use == plan::WaterUse::drinking) != drinking) continue;
      const bool comes_later =
          !plan.vehicles.empty() &&
          plan.vehicles[static_cast<std::size_t>(can.vehicle)].along.from.is_said();
      if (comes_later) continue;
      out.push_back({&can.filled_l, &can.holds_l});
    }
  }
  return out;
}

/// Fills the last ones first, as though the others had been emptied; the last holds what it must.
void fill(const std::vector<Vessel>& all, double level) {
  double room_l = 0;
  for (const Vessel& vessel : all) room_l += *vessel.holds_l - vessel.unusable_l;
  *all.back().holds_l += std::max(0.0, level - room_l);
  for (auto vessel = all.rbegin(); vessel != all.rend(); ++vessel) {
    const double part = std::min(level, *vessel->holds_l - vessel->unusable_l);
    *vessel->filled_l = vessel->unusable_l + part;
    level -= part;
  }
}

TEST_P(NeedsByBruteForce, AreJustEnoughForATripThatSetsOutWithThem) {
  const plan::Plan plan = scenario(GetParam());
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  int tried = 0;
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const int reserve = needs.reserves[i];
    const engine::ReserveInfo& info = trip.course.reserves[static_cast<std::size_t>(reserve)];
    if (!info.commodity || info.commodity == plan::Commodity::food || info.fills) continue;
    if (!needs.need(0, i).judged) continue;
    ++tried;
    for (const double less : {0.0, 0.5}) {
      plan::Plan filled = plan;
      fill(vessels(filled, info), needs.need(0, i).must_have - less);
      const double slack = run_from(travel(filled), 0, reserve, std::nullopt).slack;
      SCOPED_TRACE(info.name);
      if (less > 0) {
        EXPECT_LT(slack, 0);
      } else {
        EXPECT_GE(slack, -1e-6);
        // What is left standing may be fuller here than there, and so the rest a little lighter.
        EXPECT_LE(slack, trip.course.timeline->companies.size() > 1 ? 0.02 : 1e-3);
      }
    }
  }
  EXPECT_GE(tried, 3);
}

}  // namespace
}  // namespace drystage::answers::needs_test
