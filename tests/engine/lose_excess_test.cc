// What a mishap takes is lost, and said to be: whatever breaks, on random plans, every ledger
// balances from there to the end of the trip.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <optional>
#include <utility>

#include "answers/mishaps/aftermath.h"
#include "answers/mishaps/all_mishaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::lose_excess_test {
namespace {

using engine::Course;
using engine::Engine;
using engine::Record;
using engine::ReserveDay;
using engine::StoreDay;
using plan::MishapKind;
using support::PlanText;
using support::Trip;

constexpr double rounding = 1e-9;

double size_of(double capacity) { return std::max(1.0, capacity); }

std::vector<double> store_levels(const Course& course, const engine::Run& run) {
  std::vector<double> out;
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    out.push_back(run.level(static_cast<int>(s)));
  }
  return out;
}

/// A trip on which mishaps strike, one after another.
class Struck {
 public:
  explicit Struck(const Trip& trip) {
    Part& part = parts_.emplace_back();
    part.laid = answers::laid_trip_of(trip);
    part.record = engine::blank_record(course());
    part.now.emplace(Engine::begin(course(), part.record));
  }

  /// Strikes before a step of the laid trip.
  void strike(const answers::Mishap& mishap, std::size_t step) {
    Part& last = parts_.back();
    Engine::go_on(*last.laid.course, *last.now, step);
    Part& part = parts_.emplace_back();
    part.laid = answers::after(last.laid, mishap, step, *last.laid.course);
    part.record = engine::blank_record(course());
    part.now.emplace(Engine::resume(*last.now, course(), step, part.record));
    before_ = store_levels(course(), run());
    Engine::lose_excess(course(), *part.now);
  }

  void go_on(std::size_t until) { Engine::go_on(course(), *parts_.back().now, until); }

  [[nodiscard]] const answers::LaidTrip& laid() const { return parts_.back().laid; }
  [[nodiscard]] const Course& course() const { return *laid().course; }
  [[nodiscard]] const Record& record() const { return parts_.back().record; }
  [[nodiscard]] const Engine::Standing& now() const { return *parts_.back().now; }
  [[nodiscard]] const engine::Run& run() const { return now().run; }
  [[nodiscard]] std::size_t day() const { return static_cast<std::size_t>(run().day()); }
  /// What the stores held just before the last mishap.
  [[nodiscard]] const std::vector<double>& before() const { return before_; }

 private:
  struct Part {
    answers::LaidTrip laid;
    Record record;
    std::optional<Engine::Standing> now;
  };
  std::deque<Part> parts_;  // a run goes on reading where it came from
  std::vector<double> before_;
};

/// What a reserve's stores come to; nothing for one that is no sum of stores.
std::optional<double> sum_of_stores(const Struck& struck, std::size_t reserve) {
  const auto index = static_cast<int>(reserve);
  const engine::Run& run = struck.run();
  const Course& course = struck.course();
  double sum = 0;
  for (const auto& vehicle : std::get<engine::reserves::Fuel::Compiled>(course.families).vehicles) {
    if (vehicle.reserve != index) continue;
    for (const auto& tank : vehicle.tanks) {
      sum += std::max(0.0, run.level(tank.store) - tank.unusable_l);
    }
    return sum;
  }
  for (const auto& bank : std::get<engine::reserves::Power::Compiled>(course.families).banks) {
    if (bank.reserve == index) return run.level(bank.store);
  }
  if (course.reserves[reserve].unit == "meals") {
    for (const auto& pool : std::get<engine::reserves::Food::Compiled>(course.families).pools) {
      if (index != pool.reserve) continue;
      for (const auto& item : pool.items) sum += run.level(item.store);
    }
    return sum;
  }
  const auto& water = std::get<engine::reserves::Water::Compiled>(course.families);
  const auto& state = std::get<engine::reserves::Water::State>(struck.now().states);
  for (const auto& pool : water.pools) {
    if (index != pool.drinking && index != pool.utility) continue;
    for (const auto& can : pool.cans) {
      const bool counts = state.cans[can.number].drinking == (index == pool.drinking);
      if (counts) sum += run.level(can.store);
    }
    return sum;
  }
  return std::nullopt;
}

void check_sums(const Struck& struck) {
  for (std::size_t r = 0; r < struck.course().reserves.size(); ++r) {
    const engine::ReserveInfo& info = struck.course().reserves[r];
    const std::optional<double> sum = sum_of_stores(struck, r);
    if (!sum) continue;
    const double level = struck.run().reserve_level(static_cast<int>(r));
    RC_LOG() << info.name << " on day " << struck.day() << ": " << level << " of " << *sum << "\n";
    RC_ASSERT(std::abs(level - *sum) <= rounding * size_of(info.capacity));
  }
}

/// What is gone from every store is lost in its ledger, less what was poured into others.
void check_losses(const Struck& struck) {
  double before_l = 0;
  double after_l = 0;
  double lost_l = 0;
  for (std::size_t s = 0; s < struck.course().stores.size(); ++s) {
    const engine::StoreInfo& info = struck.course().stores[s];
    const StoreDay& row = struck.record().store(struck.day(), s);
    const double gone = struck.before()[s] - struck.run().level(static_cast<int>(s));
    RC_LOG() << info.name << ": " << gone << " gone, " << row.lost << " lost\n";
    RC_ASSERT(std::abs(gone - (row.lost - row.gained)) <= rounding * size_of(info.capacity));
    RC_ASSERT(row.used == 0);
    if (info.unit != "L" || info.kg_per_unit != 1) continue;
    before_l += struck.before()[s];
    after_l += struck.run().level(static_cast<int>(s));
    lost_l += row.lost;
  }
  // Water is not poured about.
  RC_ASSERT(std::abs(before_l - after_l - lost_l) <= 1e-7);
  for (std::size_t r = 0; r < struck.course().reserves.size(); ++r) {
    const engine::ReserveInfo& info = struck.course().reserves[r];
    if (info.sense != engine::Sense::keep_above) continue;
    const ReserveDay& row = struck.record().reserve(struck.day(), r);
    const double level = struck.run().reserve_level(static_cast<int>(r));
    RC_ASSERT(std::abs(row.start + row.gained - row.lost - level) <=
              rounding * size_of(info.capacity));
  }
}

void check_rows(const Struck& struck, std::size_t day, bool first) {
  const Record& record = struck.record();
  for (std::size_t s = 0; s < record.stores; ++s) {
    const engine::StoreInfo& info = struck.course().stores[s];
    const StoreDay& row = record.store(day, s);
    const double size = size_of(info.capacity);
    RC_LOG() << info.name << " day " << day << "\n";
    RC_ASSERT(std::abs(row.start + row.gained - row.used - row.lost - row.end) <= rounding * size);
    RC_ASSERT(row.lost >= -rounding * size);
    if (info.unit != "Wh") RC_ASSERT(row.end >= -rounding * size);
    if (!first) RC_ASSERT(row.start == record.store(day - 1, s).end);
  }
  for (std::size_t r = 0; r < record.reserves; ++r) {
    const engine::ReserveInfo& info = struck.course().reserves[r];
    if (info.sense != engine::Sense::keep_above) continue;
    const ReserveDay& row = record.reserve(day, r);
    const double size = size_of(info.capacity);
    RC_LOG() << info.name << " day " << day << " lowest " << row.lowest << "\n";
    RC_ASSERT(std::abs(row.start + row.gained - row.used - row.lost - row.end) <= rounding * size);
    RC_ASSERT(row.lowest >= -rounding * size);
    if (!first) RC_ASSERT(row.start == record.reserve(day - 1, r).end);
  }
}

/// To the end of the trip, day by day.
void check_to_the_end(Struck& struck) {
  const engine::Timeline& timeline = *struck.laid().timeline;
  const std::size_t struck_on = struck.day();
  for (std::size_t day = struck_on; day < timeline.days.size(); ++day) {
    const bool last = day + 1 == timeline.days.size();
    struck.go_on(last ? timeline.steps.size()
                      : static_cast<std::size_t>(timeline.days[day + 1].first_step));
    check_rows(struck, day, day == struck_on);
    check_sums(struck);
  }
}

/// A random plan whose later tanks are cans that can be lifted, and whose vehicles have limits.
plan::Plan plan_with_cans(const support::Pick& pick) {
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  plan::Plan plan = text.plan();
  for (plan::Vehicle& vehicle : plan.vehicles) {
    for (std::size_t t = 1; t < vehicle.tanks.size(); ++t) {
      if (pick(0, 2) > 0) vehicle.tanks[t].empty_kg = 4;
    }
    if (pick(0, 1) == 1) vehicle.limit_kg = vehicle.empty_kg + pick(50, 600);
  }
  return plan;
}

/// One of all the mishaps at one of all the moments at which it can strike, from a step on.
struct Chance {
  answers::Mishap mishap;
  std::size_t step = 0;
};

std::optional<Chance> any_mishap(const answers::LaidTrip& laid, std::size_t from,
                                 const support::Pick& pick) {
  const std::vector<answers::Mishap> all = answers::mishaps_of(laid);
  const answers::Mishap& mishap =
      all[static_cast<std::size_t>(pick(0, static_cast<int>(all.size()) - 1))];
  std::vector<std::size_t> steps = mishap.strikes(laid);
  std::erase_if(steps, [from](std::size_t step) { return step < from; });
  if (steps.empty()) return std::nullopt;
  const auto n = static_cast<std::size_t>(pick(0, static_cast<int>(steps.size()) - 1));
  RC_LOG() << mishap.failure.name << " before step " << steps[n] << "\n";
  return Chance{.mishap = mishap, .step = steps[n]};
}

RC_GTEST_PROP(Mishap, CostsWhatTheLedgerSaysIsLost, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const Trip trip = support::travel(plan_with_cans(pick));
  Struck struck(trip);
  const auto chance = any_mishap(struck.laid(), 0, pick);
  RC_PRE(chance.has_value());
  struck.strike(chance->mishap, chance->step);
  check_losses(struck);
  check_sums(struck);
  check_to_the_end(struck);
}

RC_GTEST_PROP(Mishap, AfterAnotherCostsWhatTheLedgerSaysIsLost, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const Trip trip = support::travel(plan_with_cans(pick));
  Struck struck(trip);
  const auto first = any_mishap(struck.laid(), 0, pick);
  RC_PRE(first.has_value());
  struck.strike(first->mishap, first->step);
  const auto second = any_mishap(struck.laid(), first->step, pick);
  RC_PRE(second.has_value());
  struck.strike(second->mishap, second->step);
  check_losses(struck);
  check_sums(struck);
  check_to_the_end(struck);
}

/// The vehicles of a random plan, one lost after another until one is left.
RC_GTEST_PROP(Mishap, OfEveryVehicleButOneCostsWhatTheLedgerSaysIsLost, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const Trip trip = support::travel(plan_with_cans(pick));
  RC_PRE(trip.plan.vehicles.size() > 1U);
  Struck struck(trip);
  std::vector<answers::Mishap> all = answers::mishaps_of(struck.laid());
  std::erase_if(all, [](const answers::Mishap& mishap) {
    return mishap.failure.kind != MishapKind::vehicle;
  });
  RC_ASSERT(all.size() == trip.plan.vehicles.size());
  const auto spared = static_cast<std::size_t>(pick(0, static_cast<int>(all.size()) - 1));
  const auto days = static_cast<int>(trip.days());
  int day = 0;
  for (std::size_t v = 0; v < all.size(); ++v) {
    if (v == spared) continue;
    day = pick(day, days - 1);
    struck.strike(all[v], answers::morning_step(*struck.laid().timeline, day));
    check_losses(struck);
    check_sums(struck);
  }
  check_to_the_end(struck);
}

// --- one by one ---

PlanText one_truck() {
  PlanText text;
  text.people = {PlanText::person("Ada", "4 L/day")};
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: other, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: tub, holds: 50 L, filled: 30 L, for: utility}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L, unusable: 5 L}, {name: jerry, holds: 20 L, filled: 20 L, unusable: 1 L}]}"};
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 80 %}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  return text;
}

const answers::Mishap& named(const std::vector<answers::Mishap>& all, const std::string& name) {
  const auto found = std::ranges::find_if(
      all, [&name](const answers::Mishap& mishap) { return mishap.failure.name == name; });
  if (found == all.end()) throw std::out_of_range("no mishap is called " + name);
  return *found;
}

/// The row of a reserve for the day on which a mishap has just struck, on the second morning.
ReserveDay just_lost(const Trip& trip, const std::string& mishap, const std::string& reserve) {
  Struck struck(trip);
  const std::vector<answers::Mishap> all = answers::mishaps_of(struck.laid());
  struck.strike(named(all, mishap), answers::morning_step(*struck.laid().timeline, 1));
  const auto index = static_cast<std::size_t>(support::reserve_index(trip.course, reserve));
  ReserveDay row = struck.record().reserve(1, index);
  row.end = struck.run().reserve_level(static_cast<int>(index));
  return row;
}

TEST(Lost, IsWhatIsLeftInTheContainer) {
  const Trip trip = support::travel(one_truck());
  const ReserveDay row = just_lost(trip, "can lost", "drinking_water");
  EXPECT_NEAR(row.start, 36, 1e-9);
  EXPECT_NEAR(row.lost, 16, 1e-9);
  EXPECT_NEAR(row.end, 20, 1e-9);
}

TEST(Lost, OfATankIsWhatCouldBeUsedOfIt) {
  const Trip trip = support::travel(one_truck());
  const ReserveDay tank = just_lost(trip, "tank lost", "fuel:truck");
  EXPECT_NEAR(tank.lost, 65, 1e-9);
  EXPECT_NEAR(tank.end, 19, 1e-9);
  const ReserveDay jerry = just_lost(trip, "jerry lost", "fuel:truck");
  EXPECT_NEAR(jerry.lost, 19, 1e-9);
  EXPECT_NEAR(jerry.end, 65, 1e-9);
}

TEST(Lost, OfABankIsWhatItCannotHoldAnyMore) {
  const Trip trip = support::travel(one_truck());
  const ReserveDay bank = just_lost(trip, "bank at 50 % of its capacity", "battery:bank");
  EXPECT_NEAR(bank.start, 80, 1e-9);
  EXPECT_NEAR(bank.lost, 30, 1e-9);
  EXPECT_NEAR(bank.end, 50, 1e-9);
}

TEST(Lost, ContainersAndTanksAreFilledNoMore) {
  PlanText text = one_truck();
  text.places = {PlanText::place("Base", "air", "drinking_water: {}, diesel: {}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}",
                    "resupply: {drinking_water: fill, diesel: fill}", "stay: {nights: 1}"};
  const Trip trip = support::travel(text);
  for (const auto& [mishap, reserve, most] :
       {std::tuple{"can lost", "drinking_water", 20.0}, {"tank lost", "fuel:truck", 19.0}}) {
    Struck struck(trip);
    const std::vector<answers::Mishap> all = answers::mishaps_of(struck.laid());
    struck.strike(named(all, mishap), answers::morning_step(*struck.laid().timeline, 1));
    const std::size_t stop = engine::step_at(*struck.laid().timeline, 3, 8);
    struck.go_on(stop + 1);
    const int index = support::reserve_index(trip.course, reserve);
    EXPECT_NEAR(struck.run().reserve_level(index), most, 1e-9) << mishap;
  }
}

}  // namespace
}  // namespace drystage::lose_excess_test
