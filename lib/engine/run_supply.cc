// What a run is given and loses but by use: levels that are set, and what is taken at stops.
#include <algorithm>
#include <cmath>

#include "engine/run.h"

namespace drystage::engine {

void Run::set_level(const std::vector<Vessel>& vessels, int reserve, double target_level) {
  double now = 0;
  for (const Vessel& vessel : vessels) {
    now += std::max(0.0, level(vessel.store) - vessel.unusable);
  }
  double excess = now - target_level;
  for (const Vessel& vessel : vessels) {
    if (excess <= 0) break;
    const double part = std::min(excess, level(vessel.store) - vessel.unusable);
    if (part <= 0) continue;
    lose(vessel.store, reserve, part);
    excess -= part;
  }
  double lacking = target_level - now;
  for (std::size_t v = vessels.size(); v > 0 && lacking > 0; --v) {
    const Vessel& vessel = vessels[v - 1];
    const double dead = std::max(0.0, vessel.unusable - level(vessel.store));
    const double room = std::max(0.0, vessel.holds - level(vessel.store) - dead);
    if (room <= 0) continue;
    gain(vessel.store, no_reserve, dead);
    gain(vessel.store, reserve, std::min(lacking, room));
    lacking -= std::min(lacking, room);
  }
  if (lacking > 0 && !vessels.empty()) {
    // Not into one that is left standing on the way, if there is another.
    const auto stays = [this](const Vessel& vessel) {
      return std::ranges::all_of(course_.presences, [&](const Presence& presence) {
        return presence.stores[idx(vessel.store)] != 0;
      });
    };
    const auto found = std::find_if(vessels.rbegin(), vessels.rend(), stays);
    const Vessel& last = found == vessels.rend() ? vessels.back() : *found;
    gain(last.store, no_reserve, std::max(0.0, last.unusable - level(last.store)));
    gain(last.store, reserve, lacking);
  }
}

void Run::reassign(int from_reserve, int to_reserve, double amount) {
  reserve_row_[idx(from_reserve)].lost += amount;
  gauge(from_reserve).level -= amount;
  reserve_row_[idx(to_reserve)].gained += amount;
  gauge(to_reserve).level += amount;
}

void Run::match_stores(int reserve, double level) {
  Gauge& now = gauge(reserve);
  const double more = level - now.level;
  if (std::abs(more) <= rounding) return;
  if (more > 0) {
    reserve_row_[idx(reserve)].gained += more;
    now.running_short = false;
  } else {
    reserve_row_[idx(reserve)].lost -= more;
  }
  now.level = level;
}

double Run::order_room(int order) const {
  const OrderInfo& info = course_.orders[idx(order)];
  if (!info.open) return 0;
  double from_place = info.supply.most.value_or(without_limit);
  double asked = info.order.take == plan::Take::fill ? without_limit : info.order.amount;
  if (info.share) asked = *info.share;
  // What each vehicle needs is its own; an amount is divided.
  const bool divided = info.shared && !info.share && info.order.take == plan::Take::amount;
  for (int o = order - 1; o >= 0; --o) {
    const OrderInfo& before = course_.orders[idx(o)];
    if (before.visit != info.visit) break;
    if (before.order.commodity != info.order.commodity) continue;
    const double taken = record_.order_taken[idx(o)];
    from_place -= taken;
    const bool from_the_same =
        info.share ? before.reserve == info.reserve : divided && before.item == info.item;
    if (from_the_same) asked -= taken;
  }
  // Of cold, a temperature, nobody takes up to a level.
  const bool has_level = info.reserve >= 0 && gauges_[idx(info.reserve)].above;
  if (has_level) asked = std::max(asked, info.up_to - reserve_level(info.reserve));
  return std::max(0.0, std::min(asked, from_place));
}

void Run::ordered(int order, int reserve, double taken) {
  const OrderInfo& info = course_.orders[idx(order)];
  if (!info.open || !is_judged(reserve)) return;
  gauge(reserve).open_order = order;
  gauge(reserve).short_since = 0;
  record_.order_taken[idx(order)] = taken;
  record_.order_left[idx(order)] = gauge(reserve).level;
  if (taken > 0) tell(EventKind::refill, info.hour, order, taken);
}

}  // namespace drystage::engine
