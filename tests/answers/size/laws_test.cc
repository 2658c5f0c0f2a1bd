// The laws by which the search is cut short (answers/size/laws.h), on random plans.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "answers/base/plan_run.h"
#include "answers/mishaps/mishaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::random_plan;
using support::rapidcheck_pick;
using support::travel;
using support::Trip;

constexpr double tiny = 1e-6;

/// A plan and the same with more of something on board when it sets out.
struct Pair {
  PlanRun less;
  PlanRun more;

  [[nodiscard]] const engine::ReserveInfo& info(std::size_t r) const {
    return less.course.reserves[r];
  }
  [[nodiscard]] const ReserveOutlook& before(std::size_t r) const {
    return less.verdict.reserves[r];
  }
  [[nodiscard]] const ReserveOutlook& after(std::size_t r) const {
    return more.verdict.reserves[r];
  }
  [[nodiscard]] std::size_t count() const { return less.course.reserves.size(); }

  [[nodiscard]] bool unchanged(std::size_t r) const {
    return std::abs(before(r).slack - after(r).slack) < tiny &&
           std::abs(before(r).short_of - after(r).short_of) < tiny &&
           before(r).first_breach_day == after(r).first_breach_day;
  }

  [[nodiscard]] std::string told(std::size_t r) const {
    return fmt::format("{}: slack {:.9g} becomes {:.9g}, short of {:.9g} becomes {:.9g}\n",
                       info(r).name, before(r).slack, after(r).slack, before(r).short_of,
                       after(r).short_of);
  }
};

/// Two cases in three, so that the suite is soon done.
bool is_left_out() { return rapidcheck_pick()(0, 2) > 0; }

Trip random_trip(std::size_t most_items = 5) {
  support::PlanText text = random_plan(rapidcheck_pick());
  if (text.itinerary.size() > most_items) text.itinerary.resize(most_items);
  // What has no store or reserve cannot be compared.
  text.containers.emplace_back("{name: butt, holds: 5 L, filled: 5 L, for: drinking}");
  text.containers.emplace_back("{name: cistern, holds: 5 L, filled: 5 L, for: utility}");
  text.food.emplace_back(
      "{item: biscuits, kept: dry, mass: 1 kg, meals: 2, potentially_hazardous: no}");
  RC_LOG() << text.text();
  return travel(text);
}

template <class Change>
Pair with_more(const Trip& trip, const Change& change) {
  plan::Plan plan = trip.plan;
  change(plan);
  return {.less = trip, .more = run_plan(plan, trip.course.timeline)};
}

int any_vehicle(const plan::Plan& plan) {
  return rapidcheck_pick()(0, static_cast<int>(plan.vehicles.size()) - 1);
}

void add_container(plan::Plan& plan, plan::WaterUse use, int vehicle, double holds_l) {
  plan::Container can;
  can.name = "one more";
  can.use = use;
  can.holds_l = holds_l;
  can.filled_l = holds_l;
  can.empty_kg = 1;
  can.vehicle = vehicle;
  plan.water.containers.push_back(can);
}

void add_can(plan::Plan& plan, int vehicle, double holds_l) {
  plan.vehicles[static_cast<std::size_t>(vehicle)].tanks.push_back(
      {.name = "one more", .holds_l = holds_l, .filled_l = holds_l, .empty_kg = 3});
}

void add_food(plan::Plan& plan, int vehicle, double meals, bool eaten_first) {
  plan::FoodItem item;
  item.name = "one more";
  item.kept = plan::Kept::dry;
  item.mass_kg = 0.5 * meals;
  item.meals = meals;
  item.water_fraction = plan::usual_water(plan::Kept::dry);
  item.potentially_hazardous = false;
  item.vehicle = vehicle;
  plan.food.insert(eaten_first ? plan.food.begin() : plan.food.end(), item);
}

/// On the way down a heavier vehicle may need less fuel.
bool goes_down(const PlanRun& planned) {
  return std::ranges::any_of(planned.course.timeline->legs, [](const engine::Leg& leg) {
    return std::ranges::any_of(leg.parts,
                               [](const engine::RoadPiece& part) { return part.descent_m > 0; });
  });
}

/// Whether what one vehicle takes on may be missing for another.
bool shares_fuel(const PlanRun& planned) {
  const auto& orders = planned.course.orders;
  for (const engine::OrderInfo& a : orders) {
    for (const engine::OrderInfo& b : orders) {
      if (!a.order.vehicle || !b.order.vehicle || *a.order.vehicle == *b.order.vehicle) continue;
      if (a.visit != b.visit || a.order.commodity != b.order.commodity) continue;
      if (a.shared || a.supply.most) return true;
    }
  }
  return false;
}

bool has_brackish(const plan::Plan& plan) {
  const auto brackish = [](const auto& thing) {
    return thing.quality == plan::WaterQuality::brackish;
  };
  return std::ranges::any_of(plan.water.containers, brackish) ||
         std::ranges::any_of(plan.places, [&](const plan::Place& place) {
           return std::ranges::any_of(place.supplies, brackish);
         });
}

bool loses_food(const PlanRun& planned) {
  const auto r = static_cast<std::size_t>(support::reserve_index(planned.course, "food"));
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    if (planned.record.reserve(day, r).lost > 0) return true;
  }
  return false;
}

bool has_generator(const plan::Plan& plan) {
  return std::ranges::any_of(plan.power.chargers, [](const plan::Charger& charger) {
    return charger.kind == plan::ChargerKind::generator;
  });
}

/// Whether drinking water runs out, with every supply or with those that are confirmed: what is
/// taken on "to next" is reckoned with both.
bool drinks_utility_water(const PlanRun& planned) {
  const auto dry = [&](const Verdict& verdict) {
    const auto r =
        static_cast<std::size_t>(support::reserve_index(planned.course, "drinking_water"));
    return verdict.reserves[r].short_of > 0 || verdict.reserves[r].lowest <= tiny;
  };
  const auto confirmed = without_unconfirmed(planned);
  return dry(planned.verdict) || (confirmed && dry(*confirmed));
}

/// How often a reserve's supply is passed on the way out and on a way back, and once more.
double times_passed(const PlanRun& planned, std::size_t reserve) {
  double times = 1;
  for (const plan::ItineraryItem& item : planned.plan.itinerary) {
    int place = -1;
    if (const auto* at = std::get_if<plan::At>(&item)) place = at->place;
    if (const auto* drive = std::get_if<plan::Drive>(&item)) place = drive->to;
    if (place < 0) continue;
    for (const auto& supply : planned.plan.places[static_cast<std::size_t>(place)].supplies) {
      if (supply.commodity == planned.course.reserves[reserve].commodity) times += 2;
    }
  }
  return times;
}

/// How often a reserve can run dry: once more than it is topped up.
double times_dry(const PlanRun& planned, std::size_t reserve) {
  double times = 1;
  for (const engine::OrderInfo& order : planned.course.orders) {
    if (order.reserve == static_cast<int>(reserve)) ++times;
  }
  return times;
}

/// Laws 1 and 2, for a reserve of which there is so much more.
void check_own(const Pair& pair, const std::string& name, double amount) {
  RC_LOG() << "amount " << amount << "\n";
  const auto r = static_cast<std::size_t>(support::reserve_index(pair.less.course, name));
  RC_LOG() << pair.told(r);
  RC_ASSERT(pair.after(r).short_of <= pair.before(r).short_of + tiny);
  RC_ASSERT(!(pair.after(r).first_breach_day && !pair.before(r).first_breach_day));
  if (name == "food" && (loses_food(pair.less) || loses_food(pair.more))) return;
  RC_ASSERT(pair.after(r).slack <= pair.before(r).slack + amount + tiny);
  const double times = times_dry(pair.less, r);
  RC_ASSERT(pair.before(r).short_of - pair.after(r).short_of <= amount * times + tiny);
}

/// What a change leaves alone: all but some reserves.
template <class Excepted>
void check_others(const Pair& pair, const Excepted& excepted) {
  for (std::size_t r = 0; r < pair.count(); ++r) {
    if (excepted(pair.info(r))) continue;
    RC_LOG() << pair.told(r);
    RC_ASSERT(pair.unchanged(r));
  }
}

/// Of charge, cold and what depends on them nothing is said where a generator may run out of fuel.
bool depends_on_fuel(const plan::Plan& plan, const engine::ReserveInfo& info) {
  return has_generator(plan) && (!info.commodity || info.vehicle || info.name == "food");
}

// Brackish water in a tank keeps all of the utility water from being drunk.
RC_GTEST_PROP(SizeLaws, MoreWaterIsNeverWorse, ()) {
  if (is_left_out()) return;
  const Trip trip = random_trip();
  const double amount = rapidcheck_pick()(1, 60);
  const bool drinking = rapidcheck_pick()(0, 1) == 1;
  const int vehicle = any_vehicle(trip.plan);
  RC_PRE(!has_brackish(trip.plan));
  const std::string own = drinking ? "drinking_water" : "utility_water";
  const auto use = drinking ? plan::WaterUse::drinking : plan::WaterUse::utility;
  const Pair pair =
      with_more(trip, [&](plan::Plan& plan) { add_container(plan, use, vehicle, amount); });
  check_own(pair, own, amount);
  const bool one_for_the_other = drinks_utility_water(trip);
  check_others(pair, [&](const engine::ReserveInfo& info) {
    return info.name == own || info.vehicle || depends_on_fuel(trip.plan, info) ||
           (one_for_the_other && info.name.ends_with("_water"));
  });
  for (std::size_t r = 0; r < pair.count(); ++r) {
    if (!pair.info(r).name.ends_with("_water")) continue;
    RC_LOG() << pair.told(r);
    RC_ASSERT(pair.after(r).short_of <= pair.before(r).short_of + tiny);
  }
}

RC_GTEST_PROP(SizeLaws, MoreFuelIsNeverWorse, ()) {
  if (is_left_out()) return;
  const Trip trip = random_trip();
  const double amount = rapidcheck_pick()(1, 60);
  const int vehicle = any_vehicle(trip.plan);
  RC_PRE(!goes_down(trip));
  const Pair pair = with_more(trip, [&](plan::Plan& plan) { add_can(plan, vehicle, amount); });
  const std::string own = "fuel:" + trip.plan.vehicles[static_cast<std::size_t>(vehicle)].name;
  check_own(pair, own, amount);
  const bool shared = shares_fuel(trip);
  check_others(pair, [&](const engine::ReserveInfo& info) {
    return info.name == own || depends_on_fuel(trip.plan, info) || (shared && info.vehicle);
  });
}

RC_GTEST_PROP(SizeLaws, MoreFoodIsNeverWorse, ()) {
  if (is_left_out()) return;
  const Trip trip = random_trip();
  const double amount = rapidcheck_pick()(1, 60);
  const int vehicle = any_vehicle(trip.plan);
  const bool eaten_first = rapidcheck_pick()(0, 1) == 1;
  // What is eaten before frozen food leaves that in its cabinet for longer.
  RC_PRE(!eaten_first || trip.plan.cold.empty());
  const Pair pair =
      with_more(trip, [&](plan::Plan& plan) { add_food(plan, vehicle, amount, eaten_first); });
  check_own(pair, "food", amount);
  check_others(pair, [&](const engine::ReserveInfo& info) {
    return info.name == "food" || info.vehicle || depends_on_fuel(trip.plan, info);
  });
}

RC_GTEST_PROP(SizeLaws, MoreLoadNeverHelps, ()) {
  if (is_left_out()) return;
  const Trip trip = random_trip();
  const double kg = rapidcheck_pick()(1, 300);
  const auto v = static_cast<std::size_t>(any_vehicle(trip.plan));
  const Pair pair = with_more(trip, [&](plan::Plan& plan) { plan.vehicles[v].gear_kg += kg; });
  RC_ASSERT(pair.more.record.heaviest[v].kg >= pair.less.record.heaviest[v].kg - tiny);
  RC_PRE(!goes_down(trip) && !shares_fuel(trip) && !has_generator(trip.plan));
  const std::string fuel = "fuel:" + trip.plan.vehicles[v].name;
  const auto r = static_cast<std::size_t>(support::reserve_index(pair.less.course, fuel));
  RC_LOG() << pair.told(r);
  RC_ASSERT(pair.after(r).slack <= pair.before(r).slack + tiny);
  RC_ASSERT(pair.after(r).short_of >= pair.before(r).short_of - tiny);
  check_others(pair, [&](const engine::ReserveInfo& info) { return info.name == fuel; });
}

/// A finding of the same mishap on the same day.
const Finding* same_finding(const Sweep& in, const Sweep& of, const Finding& finding) {
  const std::string& name = of.failures[static_cast<std::size_t>(finding.failure)].name;
  const auto found = std::ranges::find_if(in.findings, [&](const Finding& other) {
    return in.failures[static_cast<std::size_t>(other.failure)].name == name &&
           other.day == finding.day && other.hour == finding.hour;
  });
  return found == in.findings.end() ? nullptr : &*found;
}

RC_GTEST_PROP(SizeLaws, MoreIsNeverWorseAfterAMishap, ()) {
  const auto pick = rapidcheck_pick();
  // A sweep takes its time.
  if (pick(0, 7) > 0) return;
  plan::Plan full = random_trip(4).plan;
  for (plan::Container& can : full.water.containers) can.filled_l = can.holds_l;
  add_container(full, plan::WaterUse::drinking, 0, pick(0, 200));
  full.water.containers.back().name = "tank";
  for (plan::Vehicle& each : full.vehicles) {
    for (plan::Tank& tank : each.tanks) tank.filled_l = tank.holds_l;
  }
  const Trip trip = travel(full);
  const double amount = pick(1, 40);
  const int vehicle = any_vehicle(trip.plan);
  const bool water = pick(0, 1) == 1;
  RC_PRE(!has_brackish(trip.plan) && !goes_down(trip) && !shares_fuel(trip));
  const std::string own =
      water ? "drinking_water"
            : "fuel:" + trip.plan.vehicles[static_cast<std::size_t>(vehicle)].name;
  const Pair pair = with_more(trip, [&](plan::Plan& plan) {
    if (water) {
      add_container(plan, plan::WaterUse::drinking, vehicle, amount);
    } else {
      add_can(plan, vehicle, amount);
    }
  });
  const int r = support::reserve_index(pair.less.course, own);
  // Mishaps are tried where the plan itself has enough.
  RC_PRE(pair.before(static_cast<std::size_t>(r)).short_of <= 0);
  const SweepOptions kind{.only = {static_cast<plan::MishapKind>(pick(0, 10))}};
  const Sweep less = sweep_mishaps(pair.less, kind);
  const Sweep more = sweep_mishaps(pair.more, kind);
  for (const Finding& finding : less.findings) {
    if (finding.outcome != Outcome::runs_out_vital || finding.reserve != r) continue;
    const Finding* other = same_finding(more, less, finding);
    RC_LOG() << own << " " << less.failures[static_cast<std::size_t>(finding.failure)].name
             << " day " << finding.day << ", amount " << amount << ": short of "
             << finding.short_of;
    RC_ASSERT(other != nullptr);
    const double left = other->reserve == r ? other->short_of : 0;
    RC_LOG() << " becomes " << left << "\n";
    RC_ASSERT(left <= finding.short_of + tiny);
    if (other->outcome != Outcome::holds && other->reserve != r) continue;
    RC_ASSERT(finding.short_of - left <=
              amount * times_passed(trip, static_cast<std::size_t>(r)) + tiny);
  }
}

}  // namespace
}  // namespace drystage::answers
