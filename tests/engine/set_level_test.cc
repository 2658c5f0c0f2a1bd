// A reserve found at another level than it was thought to be: a look into the tanks.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Course;
using engine::Engine;
using engine::Record;
using engine::ReserveDay;
using engine::StoreDay;
using support::PlanText;
using support::Trip;

constexpr double rounding = 1e-9;

/// A trip that is looked at before a step.
struct Look {
  const Course& course;
  Record planned;
  Record record;
  Engine::Standing before;
  Engine::Standing now;

  Look(const Course& of, std::size_t step)
      : course(of),
        planned(engine::blank_record(of)),
        record(engine::blank_record(of)),
        before(stand(of, step, planned)),
        now(Engine::resume(before, of, step, record)) {}

  static Engine::Standing stand(const Course& course, std::size_t step, Record& record) {
    Engine::Standing standing = Engine::begin(course, record);
    Engine::go_on(course, standing, step);
    return standing;
  }

  void set(const std::string& reserve, double level) {
    Engine::set_level(course, now, support::reserve_index(course, reserve), level);
  }
  void go_on_to_the_end() { Engine::go_on(course, now, course.timeline->steps.size()); }
  [[nodiscard]] double level(const std::string& store) const {
    return now.run.level(support::store_index(course, store));
  }
  [[nodiscard]] double reserve(const std::string& name) const {
    return now.run.reserve_level(support::reserve_index(course, name));
  }
};

/// Water in three drinking containers and three others, fuel in a tank and two cans, food in two
/// boxes and a bank of 100 Ah, on a day on which nobody uses anything but food.
PlanText stocked() {
  PlanText text;
  text.people = {PlanText::person("Ada", "0 L/day")};
  text.containers = {"{name: spare, holds: 10 L, filled: 10 L, for: drinking, opened: last}",
                     "{name: first, holds: 20 L, filled: 15 L, for: drinking}",
                     "{name: second, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: tub, holds: 60 L, filled: 30 L, for: utility}",
                     "{name: bore, holds: 25 L, filled: 5 L, for: utility, quality: brackish}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 50 L, unusable: 4 L}, {name: jerry 1, holds: 20 L, filled: 20 L, unusable: 1 L}, "
      "{name: jerry 2, holds: 20 L, filled: 0 L, unusable: 1 L}]}"};
  text.food = {"{item: rice, kept: dry, mass: 20 kg, meals: 60}",
               "{item: oats, kept: dry, mass: 10 kg, meals: 20}"};
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 80 %, cut_off: 40 %}"};
  return text;
}

TEST(SetLevel, OfDrinkingWaterEmptiesTheContainersInTheOrderOfUse) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  look.set("drinking_water", 22);
  EXPECT_NEAR(look.level("first"), 0, rounding);
  EXPECT_NEAR(look.level("second"), 12, rounding);
  EXPECT_NEAR(look.level("spare"), 10, rounding);
  EXPECT_NEAR(look.reserve("drinking_water"), 22, rounding);
  // Utility water and what is brackish is not looked at.
  EXPECT_EQ(look.level("tub"), 30);
  EXPECT_EQ(look.level("bore"), 5);
  EXPECT_NEAR(look.record.reserve(0, 0).lost, 45 - 22, rounding);
}

TEST(SetLevel, FillsFromTheLastOneOn) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  look.set("drinking_water", 1);
  EXPECT_NEAR(look.level("spare"), 1, rounding);
  look.set("drinking_water", 33);
  EXPECT_NEAR(look.level("spare"), 10, rounding);
  EXPECT_NEAR(look.level("second"), 20, rounding);
  EXPECT_NEAR(look.level("first"), 3, rounding);
}

TEST(SetLevel, BeyondWhatFitsGivesTheLastMoreThanItCan) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  look.set("drinking_water", 64);
  EXPECT_NEAR(look.level("first"), 20, rounding);
  EXPECT_NEAR(look.level("second"), 20, rounding);
  EXPECT_NEAR(look.level("spare"), 24, rounding);
  EXPECT_NEAR(look.reserve("drinking_water"), 64, rounding);
  look.set("fuel:truck", 150);
  EXPECT_NEAR(look.level("tank"), 80, rounding);
  EXPECT_NEAR(look.level("jerry 1"), 20, rounding);
  EXPECT_NEAR(look.level("jerry 2"), 150 - 76 - 19 + 1, rounding);
  EXPECT_NEAR(look.reserve("fuel:truck"), 150, rounding);
}

TEST(SetLevel, OfUtilityWaterLeavesDrinkingWaterAlone) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  look.set("utility_water", 12);
  EXPECT_NEAR(look.level("tub") + look.level("bore"), 12, rounding);
  EXPECT_NEAR(look.level("bore"), 5, rounding);
  EXPECT_NEAR(look.reserve("drinking_water"), 45, rounding);
  EXPECT_NEAR(look.reserve("utility_water"), 12, rounding);
}

TEST(SetLevel, OfUtilityWaterIsOfWhatIsPotableWhateverTheOrder) {
  PlanText text = stocked();
  std::swap(text.containers[3], text.containers[4]);
  const Trip trip = support::travel(text);
  Look look(trip.course, 0);
  look.set("utility_water", 12);
  EXPECT_NEAR(look.level("bore"), 5, rounding);
  EXPECT_NEAR(look.level("tub"), 7, rounding);
  look.set("utility_water", 50);
  EXPECT_NEAR(look.level("bore"), 5, rounding);
  EXPECT_NEAR(look.level("tub"), 45, rounding);
  look.set("utility_water", 70);
  EXPECT_NEAR(look.level("bore"), 10, rounding);
  EXPECT_NEAR(look.level("tub"), 60, rounding);
}

TEST(SetLevel, OfFuelCountsWhatCanBeUsedAndLeavesTheRestInTheTanks) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  ASSERT_NEAR(look.reserve("fuel:truck"), 46 + 19, rounding);
  look.set("fuel:truck", 10);
  EXPECT_NEAR(look.level("tank"), 4, rounding);
  EXPECT_NEAR(look.level("jerry 1"), 11, rounding);
  EXPECT_EQ(look.level("jerry 2"), 0);
  look.set("fuel:truck", 0);
  EXPECT_NEAR(look.level("tank"), 4, rounding);
  EXPECT_NEAR(look.level("jerry 1"), 1, rounding);
  // What an empty can keeps for itself comes on top.
  look.set("fuel:truck", 19);
  EXPECT_NEAR(look.level("jerry 2"), 20, rounding);
  EXPECT_NEAR(look.level("jerry 1"), 1, rounding);
  EXPECT_NEAR(look.reserve("fuel:truck"), 19, rounding);
}

TEST(SetLevel, OfFoodTakesOfEverythingInProportion) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  look.set("food", 40);
  EXPECT_NEAR(look.level("rice"), 30, rounding);
  EXPECT_NEAR(look.level("oats"), 10, rounding);
  look.set("food", 100);
  EXPECT_NEAR(look.level("rice"), 75, rounding);
  look.set("food", 0);
  EXPECT_NEAR(look.level("rice"), 0, rounding);
  // From nothing, it is what has been bought.
  look.set("food", 7);
  EXPECT_NEAR(look.level("bought food"), 7, rounding);
  EXPECT_NEAR(look.reserve("food"), 7, rounding);
}

TEST(SetLevel, OfABankThatHadBeenCutOffSwitchesItOnAgain) {
  PlanText text = stocked();
  text.climate = {PlanText::steady_climate("air", 25)};
  text.loads = {"{name: lamp, draw: 60 W}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  const Trip trip = support::travel(text);
  ASSERT_EQ(trip.told(engine::EventKind::cut_off).size(), 1U);
  const std::size_t step = engine::step_at(*trip.course.timeline, 1, 0);
  Look found(trip.course, step);
  ASSERT_NEAR(found.reserve("battery:bank"), 40, rounding);
  found.set("battery:bank", 60);
  Engine::go_on(trip.course, found.now, step + 2);
  EXPECT_NEAR(found.reserve("battery:bank"), 60 - 2 * 5, 1e-6);
  EXPECT_NEAR(found.level("bank"), found.reserve("battery:bank"), rounding);
  // Found at less than its cut-off, it gives nothing.
  Look empty(trip.course, step);
  empty.set("battery:bank", 30);
  empty.go_on_to_the_end();
  EXPECT_NEAR(empty.level("bank"), 30, rounding);
}

TEST(SetLevel, WeighsWhatItIsToldToFind) {
  const Trip trip = support::travel(stocked());
  Look look(trip.course, 0);
  const double before_kg = look.now.run.vehicle_kg(0);
  look.set("drinking_water", 5);
  EXPECT_NEAR(look.now.run.vehicle_kg(0), before_kg - 40, 1e-9);
  look.set("fuel:truck", 65 - 20);
  EXPECT_NEAR(look.now.run.vehicle_kg(0), before_kg - 40 - 20 * 0.835, 1e-9);
}

/// What a reserve's stores come to.
const engine::reserves::Consumables::Stock* consumable(const Look& look, int reserve) {
  const auto& all = std::get<engine::reserves::Consumables::Compiled>(look.course.families).stocks;
  const auto found =
      std::ranges::find(all, reserve, &engine::reserves::Consumables::Stock::reserve);
  return found == all.end() ? nullptr : &*found;
}

double sum_of_stores(const Look& look, int reserve) {
  const engine::Run& run = look.now.run;
  double sum = 0;
  const auto& fuel = std::get<engine::reserves::Fuel::Compiled>(look.course.families);
  for (const auto& vehicle : fuel.vehicles) {
    if (vehicle.reserve != reserve) continue;
    for (const auto& tank : vehicle.tanks) {
      sum += std::max(0.0, run.level(tank.store) - tank.unusable_l);
    }
    return sum;
  }
  const auto& power = std::get<engine::reserves::Power::Compiled>(look.course.families);
  for (const auto& bank : power.banks) {
    if (bank.reserve == reserve) return run.level(bank.store);
  }
  for (const auto& pool : std::get<engine::reserves::Food::Compiled>(look.course.families).pools) {
    if (pool.reserve != reserve) continue;
    for (const auto& item : pool.items) sum += run.level(item.store);
    return sum;
  }
  if (const auto* stock = consumable(look, reserve)) {
    for (const auto& store : stock->stores) sum += run.level(store.store);
    return sum;
  }
  const auto& water = std::get<engine::reserves::Water::Compiled>(look.course.families);
  const auto& state = std::get<engine::reserves::Water::State>(look.now.states);
  for (const auto& pool : water.pools) {
    if (reserve != pool.drinking && reserve != pool.utility) continue;
    for (const auto& can : pool.cans) {
      if (state.cans[can.number].drinking != (reserve == pool.drinking)) continue;
      sum += run.level(can.store);
    }
  }
  return sum;
}

/// Whether any store can hold it at all.
bool has_stores(const Look& look, int reserve) {
  if (const auto* stock = consumable(look, reserve)) return !stock->stores.empty();
  const auto& water = std::get<engine::reserves::Water::Compiled>(look.course.families);
  const auto& state = std::get<engine::reserves::Water::State>(look.now.states);
  for (const auto& pool : water.pools) {
    if (reserve != pool.drinking && reserve != pool.utility) continue;
    return std::ranges::any_of(pool.cans, [&](const auto& can) {
      return state.cans[can.number].drinking == (reserve == pool.drinking);
    });
  }
  return true;
}

RC_GTEST_PROP(SetLevel, MakesAnyReserveWhatItIsToldAndNothingIsLostSilently, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  const Trip trip = support::travel(text);
  const auto steps = static_cast<int>(trip.course.timeline->steps.size());
  Look look(trip.course, static_cast<std::size_t>(pick(0, steps - 1)));
  const int reserve = pick(0, static_cast<int>(trip.course.reserves.size()) - 1);
  const engine::ReserveInfo& info = trip.course.reserves[static_cast<std::size_t>(reserve)];
  RC_PRE(info.sense == engine::Sense::keep_above);
  RC_PRE(has_stores(look, reserve));
  // A bank cannot be fuller than full; anything else may be asked for.
  const double most = info.unit == "Ah" ? 1.0 : 1.3;
  const double level = most * info.capacity * pick(0, 10) / 10;
  RC_LOG() << info.name << " to " << level << " before step " << look.before.next << "\n";
  std::vector<double> others;
  for (int r = 0; r < static_cast<int>(trip.course.reserves.size()); ++r) {
    others.push_back(look.now.run.reserve_level(r));
  }
  Engine::set_level(trip.course, look.now, reserve, level);
  const double size = std::max(1.0, info.capacity);
  RC_ASSERT(std::abs(look.now.run.reserve_level(reserve) - level) <= rounding * size);
  RC_ASSERT(std::abs(sum_of_stores(look, reserve) - level) <= rounding * size);
  for (int r = 0; r < static_cast<int>(others.size()); ++r) {
    if (r == reserve) continue;
    RC_ASSERT(look.now.run.reserve_level(r) == others[static_cast<std::size_t>(r)]);
  }
  const auto from = static_cast<std::size_t>(look.now.run.day());
  look.go_on_to_the_end();
  for (std::size_t d = from; d < look.record.days(); ++d) {
    for (std::size_t s = 0; s < look.record.stores; ++s) {
      const StoreDay& day = look.record.store(d, s);
      const double scale = std::max(1.0, trip.course.stores[s].capacity);
      RC_LOG() << trip.course.stores[s].name << " day " << d << "\n";
      RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) <=
                rounding * scale);
      if (trip.course.stores[s].unit != "Wh") RC_ASSERT(day.end >= -rounding * scale);
      if (d > from) RC_ASSERT(day.start == look.record.store(d - 1, s).end);
    }
    for (std::size_t r = 0; r < look.record.reserves; ++r) {
      if (trip.course.reserves[r].sense != engine::Sense::keep_above) continue;
      const ReserveDay& day = look.record.reserve(d, r);
      const double scale = std::max(1.0, trip.course.reserves[r].capacity);
      RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) <=
                rounding * scale);
      RC_ASSERT(day.lowest >= -rounding * scale);
    }
  }
  RC_ASSERT(std::abs(look.now.run.reserve_level(reserve) - sum_of_stores(look, reserve)) <=
            rounding * size);
}

}  // namespace
}  // namespace drystage
