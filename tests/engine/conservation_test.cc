// Nothing is lost silently: on random valid plans, every litre, watt-hour, joule and meal that
// leaves a store turns up in the ledger.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/engine.h"
#include "models/cabinet.h"
#include "support/richer_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Engine;
using engine::ReserveDay;
using engine::ReserveInfo;
using engine::StoreDay;
using support::Trip;

constexpr double rounding = 1e-9;

Trip trip_of(const support::PlanText& text) {
  RC_LOG() << text.text();
  return support::travel(text);
}

Trip random_trip() { return trip_of(support::random_plan(support::rapidcheck_pick())); }

/// With keys of the whole table; it takes longer to draw.
Trip richer_trip() { return trip_of(support::richer_plan(support::rapidcheck_pick())); }

double size_of(double capacity) { return std::max(1.0, capacity); }

RC_GTEST_PROP(Conservation, EveryStoreBalancesEveryDay, ()) {
  const Trip trip = richer_trip();
  RC_ASSERT(trip.record.days() == trip.course.timeline->days.size());
  for (std::size_t s = 0; s < trip.course.stores.size(); ++s) {
    const double size = size_of(trip.course.stores[s].capacity);
    const bool here = trip.course.presences.front().stores[s] != 0;
    double before = here ? trip.course.stores[s].initial : 0;
    for (std::size_t d = 0; d < trip.days(); ++d) {
      const StoreDay& day = trip.record.store(d, s);
      RC_LOG() << trip.course.stores[s].name << " day " << d << "\n";
      for (const double value : {day.start, day.gained, day.used, day.lost, day.end}) {
        RC_ASSERT(std::isfinite(value));
      }
      RC_ASSERT(day.gained >= 0);
      RC_ASSERT(day.used >= -rounding * size);
      RC_ASSERT(day.lost >= -rounding * size);
      RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) <=
                rounding * size);
      RC_ASSERT(day.start == before);
      before = day.end;
    }
  }
}

RC_GTEST_PROP(Conservation, EveryReserveThatIsAnAmountBalancesEveryDay, ()) {
  const Trip trip = richer_trip();
  for (std::size_t r = 0; r < trip.course.reserves.size(); ++r) {
    const ReserveInfo& info = trip.course.reserves[r];
    const bool amount = info.sense == engine::Sense::keep_above;
    const double size = size_of(info.capacity);
    for (std::size_t d = 0; d < trip.days(); ++d) {
      const ReserveDay& day = trip.record.reserve(d, r);
      RC_LOG() << info.name << " day " << d << " left " << day.left << " margin " << day.margin
               << " slack " << day.slack << "\n";
      for (const double value : {day.start, day.gained, day.used, day.lost, day.end, day.lowest,
                                 day.left, day.margin, day.short_of, day.tight_h}) {
        RC_ASSERT(std::isfinite(value));
      }
      RC_ASSERT(std::isfinite(day.slack) == day.judged);
      RC_ASSERT(!std::isnan(day.endurance));
      RC_ASSERT(day.short_of >= 0);
      if (d > 0) RC_ASSERT(day.start == trip.record.reserve(d - 1, r).end);
      if (!amount) continue;
      RC_ASSERT(std::abs(day.start + day.gained - day.used - day.lost - day.end) <=
                rounding * size);
      // What is taken on where the trip begins counts from the first day's first moment.
      // Fuel and spares are judged only while their vehicle is there.
      const bool of_a_vehicle =
          info.id.family == engine::Family::fuel || info.id.family == engine::Family::tyres;
      // So is what some of the party use alone.
      const bool own = std::ranges::any_of(
          trip.plan.vehicles, [](const plan::Vehicle& each) { return !each.own.empty(); });
      const bool comes_and_goes =
          (of_a_vehicle || own) && trip.course.timeline->companies.size() > 1;
      if (comes_and_goes) continue;
      RC_ASSERT(day.lowest <= (d > 0 ? std::min(day.start, day.end) : day.end));
      RC_ASSERT(day.lowest >= -rounding * size);
    }
  }
}

/// Heat content has no bounds of its own; everything else has a bottom and a brim.
RC_GTEST_PROP(Conservation, NoStoreGoesBelowNothingOrAboveWhatItHolds, ()) {
  const Trip trip = random_trip();
  for (std::size_t s = 0; s < trip.course.stores.size(); ++s) {
    const engine::StoreInfo& info = trip.course.stores[s];
    if (info.unit == "Wh") continue;
    for (std::size_t d = 0; d < trip.days(); ++d) {
      RC_LOG() << info.name << " day " << d << "\n";
      RC_ASSERT(trip.record.store(d, s).end >= -rounding * size_of(info.capacity));
      RC_ASSERT(trip.record.store(d, s).end <= info.capacity + rounding * size_of(info.capacity));
    }
  }
}

RC_GTEST_PROP(Conservation, WaterNeededIsWaterUsedAndWaterShort, ()) {
  const Trip trip = random_trip();
  std::vector<double> need(trip.days());
  const engine::Timeline& timeline = *trip.course.timeline;
  for (const engine::TimeStep& step : timeline.steps) {
    need[static_cast<std::size_t>(step.day)] +=
        timeline.conditions.steps[step.index].drink_l + step.utility_l;
  }
  for (std::size_t d = 0; d < trip.days(); ++d) {
    double met = 0;
    for (std::size_t r = 0; r < trip.course.reserves.size(); ++r) {
      const engine::Family family = trip.course.reserves[r].id.family;
      const bool water =
          family == engine::Family::drinking_water || family == engine::Family::utility_water;
      if (water) met += trip.record.reserve(d, r).used + trip.record.reserve(d, r).short_of;
    }
    RC_ASSERT(std::abs(met - need[d]) <= 1e-7);
  }
}

RC_GTEST_PROP(Conservation, NoMealVanishes, ()) {
  const Trip trip = random_trip();
  if (!trip.plan.plans_food) return;
  double aboard = 0;
  for (std::size_t s = 0; s < trip.course.stores.size(); ++s) {
    if (trip.course.stores[s].unit == "meals") aboard += trip.course.stores[s].initial;
  }
  double need = 0;
  for (const engine::TimeStep& step : trip.course.timeline->steps) need += step.meals;
  double bought = 0;
  double eaten = 0;
  double lost = 0;
  double short_of = 0;
  double left = 0;
  for (const ReserveInfo& info : trip.course.reserves) {
    if (info.id.family != engine::Family::food) continue;
    bought += trip.sum(&ReserveDay::gained, info.name);
    eaten += trip.sum(&ReserveDay::used, info.name);
    lost += trip.sum(&ReserveDay::lost, info.name);
    short_of += trip.sum(&ReserveDay::short_of, info.name);
    left += trip.reserve(trip.days() - 1, info.name).end;
  }
  RC_ASSERT(std::abs(aboard + bought - eaten - lost - left) <= 1e-9 * size_of(aboard + bought));
  RC_ASSERT(std::abs(eaten + short_of - need) <= 1e-6);
}

/// The ledger of heat and of charge against the state that the models themselves carry.
RC_GTEST_PROP(Conservation, LedgersOfHeatAndChargeEndWhereTheModelsDo, ()) {
  const Trip trip = random_trip();
  const engine::Course& course = trip.course;
  engine::Record record = engine::blank_record(course);
  const auto& power = std::get<engine::reserves::Power::Compiled>(course.families);
  Engine::Standing standing = Engine::begin(course, record);
  Engine::go_on(course, standing, course.timeline->steps.size());
  const engine::Run& run = standing.run;
  const auto& state = std::get<engine::reserves::Power::State>(standing.states);
  for (std::size_t c = 0; c < power.cabinets.size(); ++c) {
    const auto& cabinet = power.cabinets[c];
    const auto heat = static_cast<std::size_t>(cabinet.heat);
    const double model_wh = models::cabinet_enthalpy_kj(cabinet.params, state.cabinets[c]) / 3.6;
    RC_ASSERT(std::abs(run.level(cabinet.heat) - model_wh) <=
              rounding * size_of(course.stores[heat].capacity) * 10);
    if (cabinet.ice >= 0) {
      RC_ASSERT(std::abs(run.level(cabinet.ice) - state.cabinets[c].slab_kg) <= 1e-8);
    }
  }
  for (std::size_t b = 0; b < power.banks.size(); ++b) {
    const auto store = static_cast<std::size_t>(power.banks[b].store);
    RC_ASSERT(std::abs(run.level(power.banks[b].store) - state.charge_ah[b]) <=
              rounding * size_of(course.stores[store].capacity));
  }
}

RC_GTEST_PROP(Conservation, EventsAreInTimeOrderAndNoneIsDropped, ()) {
  const Trip trip = random_trip();
  RC_ASSERT(trip.record.events_dropped == 0U);
  double before_h = 0;
  for (const engine::Event& event : trip.record.events) {
    RC_LOG() << "event " << static_cast<int>(event.kind) << " on day " << event.day << " at "
             << event.hour << "\n";
    RC_ASSERT(event.day >= 0);
    RC_ASSERT(static_cast<std::size_t>(event.day) < trip.days());
    RC_ASSERT(event.hour >= 0);
    RC_ASSERT(event.hour <= 24 + 1e-9);
    RC_ASSERT(support::trip_hour(event) >= before_h);
    before_h = support::trip_hour(event);
  }
}

RC_GTEST_PROP(Conservation, EveryOrderTakesNoMoreThanThereIsRoomOrSupplyFor, ()) {
  const Trip trip = random_trip();
  for (std::size_t o = 0; o < trip.course.orders.size(); ++o) {
    const engine::OrderInfo& order = trip.course.orders[o];
    const double taken = trip.record.order_taken[o];
    RC_ASSERT(taken >= 0);
    if (!order.open) RC_ASSERT(taken == 0);
    RC_ASSERT(taken <= order.supply.most.value_or(1e9) + rounding);
    if (order.order.take == plan::Take::amount) RC_ASSERT(taken <= order.order.amount + rounding);
  }
}

RC_GTEST_PROP(Timeline, CoversEveryHourOfEveryDayOnceAndAllTheRoad, ()) {
  const Trip trip = random_trip();
  const engine::Timeline& timeline = *trip.course.timeline;
  std::vector<double> hours(timeline.days.size());
  double now_h = 0;
  double driven_km = 0;
  for (const engine::TimeStep& step : timeline.steps) {
    RC_ASSERT(std::abs(24.0 * step.day + step.from_h - now_h) <= 1e-9);
    RC_ASSERT(step.dt_h >= 0);
    RC_ASSERT(step.dt_h <= 1 + 1e-9);
    now_h += step.dt_h;
    driven_km += step.distance_km;
    hours[static_cast<std::size_t>(step.day)] += step.dt_h;
  }
  for (const double sum : hours) RC_ASSERT(std::abs(sum - 24) <= 1e-9);
  double planned_km = 0;
  for (const plan::ItineraryItem& item : trip.plan.itinerary) {
    if (const auto* drive = std::get_if<plan::Drive>(&item)) planned_km += drive->distance_km;
  }
  RC_ASSERT(std::abs(driven_km - planned_km) <= 1e-6);
}

}  // namespace
}  // namespace drystage
