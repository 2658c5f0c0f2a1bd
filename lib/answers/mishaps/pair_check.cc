#include "answers/mishaps/pair_check.h"

#include <algorithm>

#include "answers/base/in_parallel.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using engine::Family;
using engine::reserves::Fuel;
using engine::reserves::Tyres;
using engine::reserves::Water;

void add_family(Reach& reach, Family family) {
  const bool water = family == Family::drinking_water || family == Family::utility_water;
  reach.water = reach.water || water;
  reach.fuel = reach.fuel || family == Family::fuel;
  reach.rest = reach.rest || (!water && family != Family::fuel);
}

/// Of supplies that are missing: whatever was to be had there.
Reach reach_of_orders(const engine::Course& planned, const engine::Course& struck) {
  Reach out{.water = false, .fuel = false, .rest = false};
  for (std::size_t o = 0; o < planned.orders.size(); ++o) {
    const engine::OrderInfo& order = planned.orders[o];
    if (order.open == struck.orders[o].open) continue;
    if (order.reserve < 0) return {};
    add_family(out, planned.reserves[at(order.reserve)].id.family);
  }
  return out;
}

Reach reach_of_damage(const engine::Damage& damage) {
  // Named one by one, so that whatever else can be lost is not forgotten here.
  const auto& [containers, tanks, stores, cabinets, chargers, banks, vehicles, punctured] = damage;
  if (!vehicles.empty()) return {};
  return {.water = !containers.empty(),
          .fuel = !tanks.empty(),
          .rest = !(stores.empty() && cabinets.empty() && chargers.empty() && banks.empty() &&
                    punctured.empty())};
}

/// All that it may reach, where that is not known.
Reach reach_of(const SweepPlan& sweep, std::size_t number) {
  const Mishap& mishap = sweep.mishaps()[number];
  if (mishap.moves_time()) return {};
  if (!mishap.change) return reach_of_damage(mishap.damage);
  if (mishap.failure.kind != plan::MishapKind::supply) return {};
  const engine::Course& planned = sweep.planned_course();
  const LaidTrip struck = sweep.struck({.mishap = number});
  Reach out = reach_of_orders(planned, *struck.course);
  const auto& mends = [](const engine::Course& course) -> const std::vector<char>& {
    return std::get<Tyres::Compiled>(course.families).mends;
  };
  out.rest = out.rest || mends(planned) != mends(*struck.course);
  return out;
}

/// Whether charge depends on fuel.
bool has_generators(const SweepPlan& sweep) {
  const auto& chargers = sweep.laid().plan->power.chargers;
  return std::ranges::find(chargers, plan::ChargerKind::generator, &plan::Charger::kind) !=
         chargers.end();
}

/// Whether what has run out is worse than what comes of each mishap alone.
bool counts(const engine::ReserveInfo& reserve, Outcome alone) {
  return reserve.life_supporting || alone < Outcome::runs_out;
}

/// The families other than fuel that both reach.
Engine::Chosen met(const Reach& a, const Reach& b) {
  constexpr Engine::Chosen water = Engine::only<Water>();
  constexpr Engine::Chosen rest = Engine::all_but<Water, Fuel>();
  Engine::Chosen out{};
  for (std::size_t f = 0; f < out.size(); ++f) {
    out.at(f) = (water.at(f) && a.water && b.water) || (rest.at(f) && a.rest && b.rest);
  }
  return out;
}

}  // namespace

const LaidTrip& Way::laid() {
  if (!laid_) laid_ = sweep_.struck(before_, mishap_, step_);
  return *laid_;
}

const engine::Course& Way::loaded() {
  if (!loaded_) loaded_ = HeavyFuel::loaded(*laid().course);
  return *loaded_;
}

PairCheck::PairCheck(const SweepPlan& sweep, const Watch& watch)
    : sweep_(sweep),
      fuel_(sweep),
      tells_(!has_generators(sweep)),
      fuel_lasts_(sweep.mishaps().size()) {
  if (!tells_) return;
  for (std::size_t m = 0; m < sweep.mishaps().size(); ++m) reach_.push_back(reach_of(sweep, m));
  const std::vector<Strike>& strikes = sweep.strikes();
  for (const Strike& strike : strikes) fuel_lasts_[strike.mishap].resize(strike.ordinal + 1);
  in_parallel(strikes.size(), [&](std::size_t s) {
    const Strike& strike = strikes[s];
    if (!reach_[strike.mishap].fuel || watch.stopped()) return;
    const engine::Course course = HeavyFuel::loaded(*sweep.struck(strike).course);
    engine::Record scratch;
    const bool lasts = fuel_.lasts_after(fuel_.before(strike.step), course, strike.step, scratch);
    fuel_lasts_[strike.mishap][strike.ordinal] = lasts ? 1 : 0;
  });
}

bool PairCheck::fuel_lasts(const Moment& moment, Way& way, engine::Record& scratch) const {
  const bool first = reach_[moment.first.mishap].fuel;
  const bool second = reach_[moment.second.mishap].fuel;
  if (first && second) {
    return fuel_.lasts_after(moment.heavy, way.loaded(), moment.second.step, scratch);
  }
  if (!first && !second) return fuel_.lasts();
  const Strike& alone = first ? moment.first : moment.second;
  return fuel_lasts_[alone.mishap][alone.ordinal] != 0;
}

/// Whether the plan itself lacks nothing from a step on.
bool PairCheck::plan_lasts(std::size_t step) const {
  return std::ranges::all_of(sweep_.planned(sweep_.laid().timeline->steps[step]),
                             [](const Fate& fate) { return fate.short_of <= 0; });
}

/// Whether anything but water and fuel may make two mishaps worse.
bool PairCheck::rest_counts(Outcome alone) const {
  return std::ranges::any_of(sweep_.planned_course().reserves,
                             [alone](const engine::ReserveInfo& reserve) {
                               Reach its{.water = false, .fuel = false, .rest = false};
                               add_family(its, reserve.id.family);
                               return its.rest && counts(reserve, alone);
                             });
}

/// Who has turned back is judged on the way back alone; and where a vehicle is left behind, how
/// much water is taken along depends on what all else weighs.
bool PairCheck::tells_of(const Strike& strike) const {
  const Mishap& mishap = sweep_.mishaps()[strike.mishap];
  return tells_ && !mishap.turns_back && mishap.failure.kind != plan::MishapKind::vehicle;
}

bool PairCheck::is_no_worse(const Moment& moment, Way& way, engine::Record& scratch) const {
  const Strike& second = moment.second;
  if (!tells_of(moment.first) || !tells_of(second)) return false;
  if (!plan_lasts(moment.first.step) || !fuel_lasts(moment, way, scratch)) return false;
  Reach first = reach_[moment.first.mishap];
  first.rest = first.rest && rest_counts(moment.alone);
  const Engine::Chosen chosen = met(first, reach_[second.mishap]);
  if (std::ranges::find(chosen, true) == chosen.end()) return true;
  const engine::Course& course = *way.laid().course;
  engine::make_blank(scratch, course, engine::Keep::least);
  Engine::Standing now = Engine::resume(moment.now, course, second.step, scratch);
  Engine::lose_excess(course, now);
  Engine::go_on_with(chosen, course, now, course.timeline->steps.size());
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    const double short_of = scratch.least[r].short_of;
    if (counts(course.reserves[r], moment.alone) && short_of > noticeable) return false;
  }
  return true;
}

}  // namespace drystage::answers
