#include "answers/base/supplies.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/opening.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::tiny_h;

/// Whether a bank can be charged by mains at all.
bool takes_mains(const plan::Plan& plan, const engine::ReserveInfo& reserve) {
  for (const plan::Charger& charger : plan.power.chargers) {
    if (charger.kind != plan::ChargerKind::mains) continue;
    if (reserve.id == engine::ReserveId{engine::Family::battery, charger.bank}) return true;
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
bool drives_through(const LaidTrip& laid, std::size_t s) {
  const auto& steps = laid.timeline->steps;
  if (s == 0 || steps[s].drive < 0 || steps[s - 1].drive < 0) return false;
  if (steps[s].leg == steps[s - 1].leg) return false;
  const double at_h = day_h * steps[s].day + steps[s].from_h;
  return std::ranges::none_of(laid.detours, [at_h](const engine::Detour& detour) {
    return detour.go_on_with >= 0 && std::abs(detour.at_h - at_h) < tiny_h;
  });
}

/// The place where the party is before a step, -1 in the bush.
int place_before(const LaidTrip& laid, std::size_t s) {
  const engine::Timeline& timeline = *laid.timeline;
  const engine::TimeStep& step = timeline.steps[s];
  if (step.drive < 0) return timeline.place_days[at(step.place_day)].place;
  return drives_through(laid, s) ? timeline.legs[at(step.leg)].from : -1;
}

/// Whether two orders, or one and itself, are for the same thing on the same visit.
bool share_what_there_is(const engine::OrderInfo& a, const engine::OrderInfo& b) {
  return a.visit == b.visit && a.place == b.place && b.open &&
         a.order.commodity == b.order.commodity;
}

}  // namespace

bool can_be_counted_on(const plan::Supply& supply) { return supply.confirmed && !supply.most; }

const plan::Supply* supply_at(const LaidTrip& laid, int place, int reserve) {
  if (place < 0) return nullptr;
  const engine::ReserveInfo& info = laid.course->reserves[at(reserve)];
  std::optional<plan::Commodity> commodity = info.commodity;
  if (!commodity && takes_mains(*laid.plan, info)) commodity = plan::Commodity::mains;
  if (info.id.family == engine::Family::tyres) commodity = plan::Commodity::tyres;
  if (!commodity) return nullptr;
  const auto& supplies = laid.plan->places[at(place)].supplies;
  const auto found = std::ranges::find(supplies, *commodity, &plan::Supply::commodity);
  return found == supplies.end() ? nullptr : &*found;
}

std::optional<Refuge> next_refuge(const LaidTrip& laid, std::size_t from, int reserve) {
  const engine::Timeline& timeline = *laid.timeline;
  const double depart_h = laid.plan->trip.driving.depart_h;
  for (std::size_t s = from; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    const int place = place_before(laid, s);
    if (place < 0) continue;
    // Nothing is charged or mended while driving through, nor in a stop that takes no time.
    const bool takes_time = !laid.course->reserves[at(reserve)].commodity;
    if (takes_time && (step.drive >= 0 || step.dt_h <= 0)) continue;
    if (step.stop >= 0 && orders(*laid.course, step.stop, reserve)) return Refuge{s, place};
    const bool arrives = s > 0 && timeline.steps[s - 1].drive >= 0;
    if (!arrives && step.from_h < depart_h - tiny_h) continue;
    const auto& added = laid.added_stops;
    if (!arrives && std::ranges::find(added, step.stop) != added.end()) continue;
    const plan::Supply* supply = supply_at(laid, place, reserve);
    if (supply == nullptr || !can_be_counted_on(*supply)) continue;
    const plan::Date date = timeline.days[at(step.day)].schedule.date;
    if (engine::is_open(*supply, date)) return Refuge{s, place};
  }
  return std::nullopt;
}

std::vector<Passed> passed_refuges(const LaidTrip& laid, int reserve) {
  const engine::Timeline& timeline = *laid.timeline;
  const std::size_t steps = timeline.steps.size();
  const int outset = engine::place_at(timeline.days.front().schedule.from);
  const plan::Supply* supply = supply_at(laid, outset, reserve);
  std::optional<Refuge> refuge;
  if (supply != nullptr && can_be_counted_on(*supply)) {
    refuge = Refuge{0, outset};
  } else {
    refuge = next_refuge(laid, 0, reserve);
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
    refuge = next_refuge(laid, passed.leaves + 1, reserve);
  }
  return out;
}

std::vector<std::optional<double>> parts_of_what_there_is(const engine::Course& course,
                                                          const std::vector<double>& taken) {
  std::vector<std::optional<double>> out(course.orders.size());
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    const engine::OrderInfo& order = course.orders[o];
    if (!order.supply.most || !order.open) continue;
    double own = 0;
    double left = *order.supply.most;
    std::set<int> takers;
    for (std::size_t n = 0; n < course.orders.size(); ++n) {
      if (!share_what_there_is(order, course.orders[n])) continue;
      takers.insert(course.orders[n].reserve);
      left -= taken[n];
      if (course.orders[n].reserve == order.reserve) own += taken[n];
    }
    out[o] =
        own + std::max(0.0, left) / static_cast<double>(std::max<std::size_t>(1, takers.size()));
  }
  return out;
}

bool shares_what_there_is(const engine::Course& course) {
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    const engine::OrderInfo& order = course.orders[o];
    if (!order.supply.most || !order.open) continue;
    for (std::size_t n = 0; n < o; ++n) {
      const engine::OrderInfo& other = course.orders[n];
      if (other.reserve != order.reserve && share_what_there_is(order, other)) return true;
    }
  }
  return false;
}

engine::Course taking_all_there_is(engine::Course course, int reserve,
                                   const std::vector<std::optional<double>>& parts) {
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    if (course.orders[o].reserve == reserve) course.orders[o].share = parts[o];
  }
  return course;
}

engine::Course taking_all_there_is(const engine::Course& course, int reserve,
                                   const engine::Engine::Standing& start, std::size_t from) {
  engine::Record run = engine::blank_record(course);
  if (shares_what_there_is(course) && from < course.timeline->steps.size()) {
    engine::Engine::Standing standing = engine::Engine::resume(start, course, from, run);
    engine::Engine::go_on(course, standing, course.timeline->steps.size());
  }
  return taking_all_there_is(course, reserve, parts_of_what_there_is(course, run.order_taken));
}

std::vector<std::optional<double>> parts_of_what_there_is(const engine::Course& course) {
  const engine::Record run =
      shares_what_there_is(course) ? engine::Engine::run(course) : engine::blank_record(course);
  return parts_of_what_there_is(course, run.order_taken);
}

std::vector<int> taken_on_the_way(const LaidTrip& laid, std::size_t from, std::size_t until,
                                  int reserve) {
  std::vector<int> out;
  const std::vector<engine::TimeStep>& steps = laid.timeline->steps;
  for (std::size_t s = from; s < std::min(until, steps.size()); ++s) {
    if (steps[s].stop < 0) continue;
    for (const engine::OrderInfo& order : laid.course->orders) {
      const bool here = order.item == steps[s].stop && order.reserve == reserve;
      const bool gives = order.open && order.supply.most.value_or(0) > 0;
      if (here && gives && (out.empty() || out.back() != order.place)) out.push_back(order.place);
    }
  }
  return out;
}

std::optional<Refuge> next_goal(const LaidTrip& laid, std::size_t from, int reserve) {
  auto refuge = next_refuge(laid, from, reserve);
  const std::optional<int> vehicle = laid.course->reserves[at(reserve)].vehicle;
  if (!vehicle || laid.plan->vehicles[at(*vehicle)].along.until.place < 0) return refuge;
  const std::vector<engine::TimeStep>& steps = laid.timeline->steps;
  std::size_t goes = steps.size();
  while (goes > from && !is_there(*laid.course, goes - 1, reserve)) --goes;
  if (goes >= steps.size() || (refuge && refuge->step <= goes)) return refuge;
  return Refuge{.step = goes, .place = laid.plan->vehicles[at(*vehicle)].along.until.place};
}

bool is_there(const engine::CourseBase& course, std::size_t step, int reserve) {
  const int company = course.timeline->steps[step].company;
  return course.presences[at(company)].reserves[at(reserve)] != 0;
}

}  // namespace drystage::answers
