#include "answers/supplies.h"

#include <algorithm>
#include <cmath>

#include "engine/opening.h"
#include "units/day.h"

namespace drystage::answers {
namespace {

using engine::tiny_h;

/// Whether a bank can be charged by mains at all.
bool takes_mains(const plan::Plan& plan, const engine::ReserveInfo& reserve) {
  for (const plan::Charger& charger : plan.power.chargers) {
    if (charger.kind != plan::ChargerKind::mains) continue;
    const auto bank = static_cast<std::size_t>(charger.bank);
    if (reserve.name == "battery:" + plan.power.banks[bank].name) return true;
  }
  return false;
}

/// Whether a stop takes on what tops the reserve up, at a supply that can be counted on.
bool orders(const engine::Course& course, int item, int reserve) {
  return std::ranges::any_of(course.orders, [&](const engine::OrderInfo& order) {
    return order.item == item && order.reserve == reserve && order.open &&
           can_be_counted_on(order.supply);
  });
}

/// Whether the party drives through a place before a step, without a halt: a leg is over, and the
/// next begins. (Where a leg is broken off there is none.)
bool drives_through(const Voyage& voyage, std::size_t s) {
  const auto& steps = voyage.timeline->steps;
  if (s == 0 || steps[s].drive < 0 || steps[s - 1].drive < 0) return false;
  if (steps[s].leg == steps[s - 1].leg) return false;
  const double at_h = day_h * steps[s].day + steps[s].from_h;
  return std::ranges::none_of(voyage.detours, [at_h](const engine::Detour& detour) {
    return detour.go_on_with >= 0 && std::abs(detour.at_h - at_h) < tiny_h;
  });
}

/// The place where the party is before a step, -1 in the bush.
int place_before(const Voyage& voyage, std::size_t s) {
  const engine::Timeline& timeline = *voyage.timeline;
  const engine::TimeStep& step = timeline.steps[s];
  if (step.drive < 0) return timeline.heres[static_cast<std::size_t>(step.here)].place;
  return drives_through(voyage, s) ? timeline.legs[static_cast<std::size_t>(step.leg)].from : -1;
}

}  // namespace

bool can_be_counted_on(const plan::Supply& supply) { return supply.confirmed && !supply.most; }

const plan::Supply* supply_at(const Voyage& voyage, int place, int reserve) {
  if (place < 0) return nullptr;
  const engine::ReserveInfo& info = voyage.course->reserves[static_cast<std::size_t>(reserve)];
  std::optional<plan::Commodity> commodity = info.commodity;
  if (!commodity && takes_mains(*voyage.plan, info)) commodity = plan::Commodity::mains;
  if (!commodity) return nullptr;
  const auto& supplies = voyage.plan->places[static_cast<std::size_t>(place)].supplies;
  const auto found = std::ranges::find(supplies, *commodity, &plan::Supply::commodity);
  return found == supplies.end() ? nullptr : &*found;
}

std::optional<Refuge> next_refuge(const Voyage& voyage, std::size_t from, int reserve) {
  const engine::Timeline& timeline = *voyage.timeline;
  const double depart_h = voyage.plan->trip.driving.depart_h;
  for (std::size_t s = from; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    const int place = place_before(voyage, s);
    if (place < 0) continue;
    // Mains charge nothing while driving through.
    if (step.drive >= 0 && !voyage.course->reserves[static_cast<std::size_t>(reserve)].commodity) {
      continue;
    }
    if (step.stop >= 0 && orders(*voyage.course, step.stop, reserve)) return Refuge{s, place};
    const bool arrives = s > 0 && timeline.steps[s - 1].drive >= 0;
    if (!arrives && step.from_h < depart_h - tiny_h) continue;
    const plan::Supply* supply = supply_at(voyage, place, reserve);
    if (supply == nullptr || !can_be_counted_on(*supply)) continue;
    const plan::Date date = timeline.days[static_cast<std::size_t>(step.day)].schedule.date;
    if (engine::is_open(*supply, date)) return Refuge{s, place};
  }
  return std::nullopt;
}

std::vector<Passed> passed_refuges(const Voyage& voyage, int reserve) {
  const engine::Timeline& timeline = *voyage.timeline;
  const std::size_t steps = timeline.steps.size();
  const int outset = engine::place_at(timeline.days.front().schedule.from);
  const plan::Supply* supply = supply_at(voyage, outset, reserve);
  std::optional<Refuge> refuge;
  if (supply != nullptr && can_be_counted_on(*supply)) {
    refuge = Refuge{0, outset};
  } else {
    refuge = next_refuge(voyage, 0, reserve);
  }
  std::vector<Passed> out;
  while (refuge) {
    Passed passed{.refuge = *refuge,
                  .leaves = refuge->step,
                  .to_leg = static_cast<int>(timeline.legs.size())};
    while (passed.leaves < steps && timeline.steps[passed.leaves].drive < 0) ++passed.leaves;
    if (passed.leaves < steps) passed.to_leg = timeline.steps[passed.leaves].leg;
    out.push_back(passed);
    if (passed.leaves >= steps) break;
    refuge = next_refuge(voyage, passed.leaves + 1, reserve);
  }
  return out;
}

engine::Course taking_all_there_is(engine::Course course, int reserve) {
  for (engine::OrderInfo& order : course.orders) {
    if (order.reserve != reserve || !order.supply.most) continue;
    order.order.take = plan::Take::amount;
    order.order.amount = *order.supply.most;
  }
  return course;
}

}  // namespace drystage::answers
