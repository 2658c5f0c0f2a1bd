#include "answers/mishaps/vital_check.h"

#include <algorithm>
#include <tuple>

#include "answers/mishaps/heavy_fuel.h"
#include "plan/own.h"

namespace drystage::answers {
namespace {

using engine::VitalEngine;
using engine::reserves::Fuel;

/// Less than this is as good as dry: the two runs add up in another order.
constexpr double tiny_l = 1e-6;

/// Whether a tank has less in it than it never gives: what it is filled with first is of no use.
bool fills_in_vain(const Fuel::Tank& tank, const engine::Run& run) {
  return tank.holds_l > 0 && run.level(tank.store) < tank.unusable_l;
}

/// Whether no fuel runs dry.
bool fuel_lasts(const engine::Record& record, const VitalEngine::Course& course) {
  const auto& vehicles = std::get<Fuel::Compiled>(course.families).vehicles;
  return std::ranges::none_of(vehicles, [&](const Fuel::Vehicle& vehicle) {
    const engine::Least& least = record.least[static_cast<std::size_t>(vehicle.reserve)];
    return least.short_of > 0 || least.lowest < tiny_l;
  });
}

}  // namespace

VitalCheck::VitalCheck(const SweepPlan& sweep)
    : sweep_(sweep), planned_(VitalEngine::compile(*sweep.laid().plan, sweep.laid().timeline)) {
  engine::take_as_much(planned_, sweep.planned_course());
  for (std::size_t v = 0; v < planned_.vehicle_kg.size(); ++v) {
    left_out_kg_.push_back(sweep.planned_course().vehicle_kg[v] - planned_.vehicle_kg[v]);
  }
  load_what_is_left_out(planned_);
  burn_no_less_when_heavier(std::get<Fuel::Compiled>(planned_.families));
}

/// What the families that are not run weigh, whatever their stores hold.
void VitalCheck::load_what_is_left_out(Course& course) const {
  for (std::size_t v = 0; v < left_out_kg_.size(); ++v) course.vehicle_kg[v] += left_out_kg_[v];
}

VitalCheck::Course VitalCheck::course_after(const Strike& strike) const {
  const Mishap& mishap = sweep_.mishaps()[strike.mishap];
  Course out = planned_;
  LaidTrip laid = sweep_.laid();
  if (mishap.change || mishap.moves_time()) {
    laid = laid_after(laid, mishap, strike.step);
    out = VitalEngine::compile(*laid.plan, laid.timeline, {.first_step = strike.step});
    engine::take_as_much(out, planned_);
    load_what_is_left_out(out);
    burn_no_less_when_heavier(std::get<Fuel::Compiled>(out.families));
  }
  VitalEngine::damage(out, *laid.plan, mishap.damage);
  return out;
}

/// Everything but water and fuel that is still taken on is on board from the beginning, and what
/// fills with use is full.
void VitalCheck::load_what_may_be_bought(Course& course, const Strike& strike) const {
  using plan::Commodity;
  const auto is_run = [](Commodity what) {
    return what == Commodity::drinking_water || what == Commodity::utility_water ||
           what == Commodity::diesel || what == Commodity::petrol;
  };
  const engine::Course& planned = sweep_.planned_course();
  const engine::TimeStep& now = planned.timeline->steps[strike.step];
  double bought_kg = 0;
  bool fills = false;
  for (const engine::OrderInfo& order : planned.orders) {
    const Commodity what = order.order.commodity;
    const bool later = std::tie(order.day, order.hour) >= std::tie(now.day, now.from_h);
    if (!later || is_run(what)) continue;
    fills = true;
    if (what == Commodity::food) {
      bought_kg += engine::reserves::bought_kg_per_meal * std::max(order.order.amount, order.up_to);
    }
  }
  if (course.vehicle_kg.empty()) return;
  course.vehicle_kg.front() += bought_kg;
  const engine::Run& run = sweep_.before(strike.step).run;
  for (std::size_t s = course.stores.size(); s < planned.stores.size(); ++s) {
    const engine::StoreInfo& store = planned.stores[s];
    const auto vehicle = static_cast<std::size_t>(store.vehicle);
    if (store.vehicle < 0 || vehicle >= course.vehicle_kg.size()) continue;
    // What fills with use gets heavier without any stop.
    if (!fills && !store.fills) continue;
    course.vehicle_kg[vehicle] += engine::most_more_kg(store, run.level(static_cast<int>(s)));
  }
}

std::optional<Finding> VitalCheck::finding(const Strike& strike) const {
  const Mishap& mishap = sweep_.mishaps()[strike.mishap];
  if (mishap.turns_back || mishap.failure.kind == plan::MishapKind::vehicle) return std::nullopt;
  // Life may depend on more than the families that are run.
  const auto& consumables = sweep_.laid().plan->consumables;
  if (std::ranges::any_of(consumables, &plan::Consumable::life_supporting)) return std::nullopt;
  // Of several pools of water only the whole tells which is the worst.
  if (plan::owners(*sweep_.laid().plan, plan::Stock::water).size() > 1) return std::nullopt;
  Course course = course_after(strike);
  const engine::Engine::Standing& before = sweep_.before(strike.step);
  for (const Fuel::Vehicle& vehicle : std::get<Fuel::Compiled>(course.families).vehicles) {
    const auto in_vain = [&](const Fuel::Tank& tank) { return fills_in_vain(tank, before.run); };
    if (std::ranges::any_of(vehicle.tanks, in_vain)) return std::nullopt;
  }
  load_what_may_be_bought(course, strike);
  engine::Record& record = scratch_.local();
  engine::make_blank(record, course, engine::Keep::least);
  VitalEngine::Standing now = VitalEngine::resume(before, course, strike.step, record);
  VitalEngine::lose_excess(course, now);
  VitalEngine::go_on(course, now, course.timeline->steps.size());
  const engine::TimeStep& moment = sweep_.laid().timeline->steps[strike.step];
  if (!fuel_lasts(record, course)) return std::nullopt;
  Finding out;
  out.failure = static_cast<int>(strike.mishap);
  out.day = moment.day;
  out.hour = moment.from_h;
  const auto& pools = std::get<engine::reserves::Water::Compiled>(course.families).pools;
  const int drinking = pools.front().drinking;
  const auto water = static_cast<std::size_t>(drinking);
  out.short_of = record.least[water].short_of;
  if (out.short_of > sweep_.planned(moment)[water].short_of + noticeable) {
    out.outcome = Outcome::runs_out_vital;
    out.reserve = drinking;
  }
  return out;
}

}  // namespace drystage::answers
