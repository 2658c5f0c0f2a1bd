#include "support/other_plan.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>
#include <utility>
#include <variant>

#include "plan/read.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::support {
namespace {

using plan::Commodity;
using plan::Order;
using plan::Resupply;

/// The resupplies of an itinerary, in order.
template <class Plan>
auto resupplies(Plan& plan) {
  std::vector<decltype(&std::get<Resupply>(plan.itinerary.front()))> out;
  for (auto& item : plan.itinerary) {
    if (auto* stop = std::get_if<Resupply>(&item)) out.push_back(stop);
  }
  return out;
}

/// Which resupply an itinerary item is, counted from the first.
std::size_t ordinal(const plan::Plan& plan, int item) {
  const auto end = plan.itinerary.begin() + item;
  return static_cast<std::size_t>(std::count_if(plan.itinerary.begin(), end, [](const auto& one) {
    return std::holds_alternative<Resupply>(one);
  }));
}

std::vector<Order> orders_of(const answers::PlanRun& run, int item) {
  std::vector<Order> out;
  for (const engine::OrderInfo& info : run.course.orders) {
    if (info.item != item) continue;
    out.push_back(info.order);
    if (out.back().take == plan::Take::needed) out.back().take = plan::Take::amount;
  }
  return out;
}

/// Whether something is taken between one drive and the next.
bool taken_after(const plan::Plan& plan, std::size_t drive, Commodity commodity) {
  for (std::size_t i = drive + 1; i < plan.itinerary.size(); ++i) {
    if (std::holds_alternative<plan::Drive>(plan.itinerary[i])) return false;
    const auto* stop = std::get_if<Resupply>(&plan.itinerary[i]);
    if (stop == nullptr) continue;
    for (const Order& order : stop->orders) {
      if (order.commodity == commodity) return true;
    }
  }
  return false;
}

/// Orders of nothing for all that is left at the end of a drive; fuel by vehicle.
Resupply untaken(const plan::Plan& plan, std::size_t drive) {
  Resupply out;
  const int place = std::get<plan::Drive>(plan.itinerary[drive]).to;
  for (const plan::Supply& supply : plan.places[static_cast<std::size_t>(place)].supplies) {
    const Commodity what = supply.commodity;
    const bool other = what == Commodity::mains || what == Commodity::ice;
    if (!supply.confirmed || other || taken_after(plan, drive, what)) continue;
    Order order;
    order.commodity = what;
    order.take = plan::Take::amount;
    const bool fuel = what == Commodity::diesel || what == Commodity::petrol;
    if (!fuel) out.orders.push_back(order);
    for (std::size_t v = 0; fuel && v < plan.vehicles.size(); ++v) {
      const bool diesel = plan.vehicles[v].fuel == plan::FuelKind::diesel;
      if (diesel != (what == Commodity::diesel)) continue;
      out.orders.push_back(order);
      out.orders.back().vehicle = static_cast<int>(v);
    }
  }
  return out;
}

/// A meal is what the people of a plan make of it on its days; here it stays what it was.
std::shared_ptr<const engine::Timeline> lay_with_the_same_meals(const plan::Plan& plan,
                                                                const answers::PlanRun& planned) {
  const engine::Layout layout{.same = planned.course.timeline.get(), .same_days = 0};
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan, layout));
  if (!timeline->problems.empty()) throw std::runtime_error(timeline->problems.front().what);
  return timeline;
}

}  // namespace

plan::Mishaps usual_mishaps() {
  PlanText text;
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  return text.plan().mishaps;
}

plan::Plan scenario_plan(const std::string& name) {
  plan::ReadPlan reading =
      plan::read_file(std::filesystem::path(DRYSTAGE_SCENARIOS) / (name + ".yaml"));
  if (!reading.plan) throw std::runtime_error(name + " is no plan");
  return std::move(*reading.plan);
}

answers::PlanRun run_plan(const plan::Plan& plan) { return travel(plan); }

plan::Plan with_every_stop(const answers::PlanRun& planned) {
  plan::Plan out = planned.plan;
  out.itinerary.clear();
  for (std::size_t i = 0; i < planned.plan.itinerary.size(); ++i) {
    out.itinerary.push_back(planned.plan.itinerary[i]);
    if (auto* stop = std::get_if<Resupply>(&out.itinerary.back())) {
      stop->orders = orders_of(planned, static_cast<int>(i));
    }
    if (!std::holds_alternative<plan::Drive>(planned.plan.itinerary[i])) continue;
    Resupply stop = untaken(planned.plan, i);
    if (!stop.orders.empty()) out.itinerary.emplace_back(std::move(stop));
  }
  return out;
}

answers::PlanRun run_topped_up(const plan::Plan& changed, const answers::PlanRun& planned,
                               const engine::Damage& damage, std::size_t common_stops) {
  constexpr double negligible = 1e-10;
  plan::Plan plan = changed;
  const auto asked_for = [](const engine::CourseBase& course, const plan::Plan& of,
                            std::size_t stop, const Order& order) {
    for (std::size_t o = 0; o < course.orders.size(); ++o) {
      const engine::OrderInfo& info = course.orders[o];
      if (ordinal(of, info.item) == stop && info.order.commodity == order.commodity &&
          (!order.vehicle || info.order.vehicle == order.vehicle)) {
        return static_cast<int>(o);
      }
    }
    return -1;
  };
  for (;;) {
    answers::PlanRun run = answers::run_plan(plan, lay_with_the_same_meals(plan, planned));
    if (damage != engine::Damage{}) {
      engine::Engine::damage(run.course, plan, damage);
      run.record = engine::Engine::run(run.course);
      run.verdict = answers::verdict(run.course, run.record);
    }
    bool settled = true;
    const auto stops = resupplies(plan);
    for (std::size_t s = 0; s < std::min(stops.size(), common_stops) && settled; ++s) {
      for (Order& order : stops[s]->orders) {
        if (order.take != plan::Take::amount) continue;
        const int now = asked_for(run.course, run.plan, s, order);
        const int then = asked_for(planned.course, planned.plan, s, order);
        if (now < 0 || then < 0) continue;
        const auto t = static_cast<std::size_t>(then);
        const engine::OrderInfo& info = planned.course.orders[t];
        if (!info.open || info.reserve < 0 || order.commodity == Commodity::ice) continue;
        const auto n = static_cast<std::size_t>(now);
        const double before = run.record.order_left[n] - run.record.order_taken[n];
        const double wanted = std::max(info.order.amount, planned.record.order_left[t] - before);
        if (std::abs(wanted - order.amount) <= negligible) continue;
        order.amount = wanted;
        settled = false;
        break;
      }
    }
    if (settled) return run;
  }
}

}  // namespace drystage::support
