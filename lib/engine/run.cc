#include "engine/run.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace drystage::engine {
namespace {

// A margin is broken only by more than rounding.
constexpr double rounding = 1e-9;

// Events kept per day of the trip; more than can happen with hysteresis on every switch.
constexpr std::size_t events_per_day = 32;
constexpr std::size_t spare_events = 256;

/// Days or km that a level lasts. (A reserve that counts hours sets its own.)
double endurance(const ReserveInfo& reserve, double level, const Run::Rate& rate) {
  const double left = std::max(0.0, level - rate.empty_at);
  const double use = reserve.endurance == Endurance::km ? rate.per_km : rate.per_day;
  return use > 0 ? left / use : std::numeric_limits<double>::infinity();
}

}  // namespace

Record blank_record(const CourseBase& course) {
  Record record;
  const std::size_t days = course.timeline->days.size();
  record.stores = course.stores.size();
  record.reserves = course.reserves.size();
  record.store_days.resize(days * record.stores);
  record.reserve_days.resize(days * record.reserves);
  record.events.reserve(days * events_per_day + spare_events);
  record.order_slack.assign(course.orders.size(), without_limit);
  record.order_taken.assign(course.orders.size(), 0);
  return record;
}

Run::Run(const CourseBase& course, Record& record)
    : course_(course),
      record_(record),
      lowest_rate_(course.reserves.size()),
      reserve_levels_(course.reserves.size()),
      per_day_(course.reserves.size()),
      per_km_(course.reserves.size()),
      endurance_h_(course.reserves.size(), without_limit),
      margin_more_(course.reserves.size()),
      short_since_(course.reserves.size()),
      open_order_(course.reserves.size(), -1),
      running_short_(course.reserves.size(), 0),
      told_short_(course.reserves.size(), -1) {
  const std::size_t vehicles = course.vehicle_kg.size();
  vehicle_kg_ = course.vehicle_kg;
  vehicle_kg_.push_back(0);
  for (const StoreInfo& store : course.stores) {
    const bool carried = store.vehicle >= 0 && idx(store.vehicle) < vehicles;
    levels_.push_back(store.initial);
    loads_.push_back(
        {.vehicle = carried ? idx(store.vehicle) : vehicles, .kg_per_unit = store.kg_per_unit});
    vehicle_kg_[loads_.back().vehicle] += store.initial * store.kg_per_unit;
  }
  for (const ReserveInfo& reserve : course.reserves) empty_at_.push_back(reserve.empty_at);
  signals.generator_share.assign(course.chargers, 0);
  for (std::vector<double>* by_cabinet :
       {&signals.chilled_kj_k, &signals.frozen_kg, &signals.chilled_c, &signals.frozen_c,
        &signals.above_5c_h, &signals.frozen_above_5c_h}) {
    by_cabinet->assign(course.cabinets, 0);
  }
  signals.thawed_at_h.assign(course.cabinets, without_limit);
}

void Run::open_day(std::size_t day) {
  day_ = day;
  store_row_ = std::span(record_.store_days).subspan(day * record_.stores, record_.stores);
  reserve_row_ = std::span(record_.reserve_days).subspan(day * record_.reserves, record_.reserves);
  for (std::size_t s = 0; s < store_row_.size(); ++s) store_row_[s].start = levels_[s];
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    reserve_row_[r].start = reserve_levels_[r];
    reserve_row_[r].lowest = reserve_levels_[r];
    lowest_rate_[r] = {.per_day = per_day_[r], .per_km = per_km_[r], .empty_at = empty_at_[r]};
  }
}

void Run::close_day() {
  for (std::size_t s = 0; s < store_row_.size(); ++s) store_row_[s].end = levels_[s];
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    ReserveDay& row = reserve_row_[r];
    row.end = reserve_levels_[r];
    const ReserveInfo& info = course_.reserves[r];
    row.endurance = info.endurance == Endurance::hours
                        ? endurance_h_[r]
                        : endurance(info, row.lowest, lowest_rate_[r]);
  }
}

void Run::observe(double hour) {
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    const ReserveInfo& info = course_.reserves[r];
    ReserveDay& row = reserve_row_[r];
    const double level = reserve_levels_[r];
    const double margin = info.margin.fixed + info.margin.days * per_day_[r] +
                          info.margin.km * per_km_[r] + margin_more_[r];
    const bool above = info.sense == Sense::keep_above;
    const double slack = above ? level - margin : margin - level;
    const bool worst = above ? level <= row.lowest : level >= row.lowest;
    // Before the first step of all no rate is known; the first one serves.
    if (worst || lowest_rate_[r].per_day + lowest_rate_[r].per_km <= 0) {
      row.lowest = worst ? level : row.lowest;
      lowest_rate_[r] = {.per_day = per_day_[r], .per_km = per_km_[r], .empty_at = empty_at_[r]};
    }
    if (slack < row.slack) {
      row.slack = slack;
      row.left = level;
      row.margin = margin;
      row.tight_h = hour;
    }
    if (slack < -rounding && row.breach_h < 0) row.breach_h = hour;
    if (open_order_[r] >= 0) {
      double& least = record_.order_slack[idx(open_order_[r])];
      least = std::min(least, slack - short_since_[r]);
    }
  }
}

void Run::reassign(int from_reserve, int to_reserve, double amount) {
  reserve_row_[idx(from_reserve)].lost += amount;
  reserve_levels_[idx(from_reserve)] -= amount;
  reserve_row_[idx(to_reserve)].gained += amount;
  reserve_levels_[idx(to_reserve)] += amount;
}

bool Run::fall_short(int reserve, double amount, double hour) {
  if (amount <= rounding) return false;
  // A trickle that comes in between does not make it news again the same day.
  const int today = static_cast<int>(day_);
  const bool news = running_short_[idx(reserve)] == 0 && told_short_[idx(reserve)] != today;
  if (news) told_short_[idx(reserve)] = today;
  if (news) tell(EventKind::short_of, hour, reserve, amount);
  running_short_[idx(reserve)] = 1;
  // What is left of a sum of stores that are empty is rounding.
  double& level = reserve_levels_[idx(reserve)];
  if (std::abs(level) < rounding) level = 0;
  ReserveDay& row = reserve_row_[idx(reserve)];
  row.short_of += amount;
  short_since_[idx(reserve)] += amount;
  // Running out breaks any margin, one of nothing too.
  if (row.breach_h < 0) row.breach_h = hour;
  return news;
}

void Run::tell(EventKind kind, double hour, int subject, double amount, double other) {
  if (record_.events.size() == record_.events.capacity()) {
    ++record_.events_dropped;
    return;
  }
  record_.events.push_back({.kind = kind,
                            .day = static_cast<std::int16_t>(day_),
                            .hour = hour,
                            .subject = subject,
                            .amount = amount,
                            .other = other});
  // A family may tell of the middle of a step after another has told of its end.
  auto& events = record_.events;
  for (std::size_t e = events.size() - 1; e > 0; --e) {
    const Event& before = events[e - 1];
    if (before.day != events[e].day || before.hour <= hour) break;
    std::swap(events[e - 1], events[e]);
  }
}

double Run::order_room(int order) const {
  const OrderInfo& info = course_.orders[idx(order)];
  if (!info.open) return 0;
  double from_place = info.supply.most.value_or(without_limit);
  double asked = info.order.take == plan::Take::fill ? without_limit : info.order.amount;
  for (int o = order - 1; o >= 0; --o) {
    const OrderInfo& before = course_.orders[idx(o)];
    if (before.visit != info.visit) break;
    if (before.order.commodity != info.order.commodity) continue;
    from_place -= record_.order_taken[idx(o)];
    if (info.shared && before.item == info.item) asked -= record_.order_taken[idx(o)];
  }
  return std::max(0.0, std::min(asked, from_place));
}

void Run::ordered(int order, int reserve, double taken) {
  const OrderInfo& info = course_.orders[idx(order)];
  if (!info.open) return;
  open_order_[idx(reserve)] = order;
  short_since_[idx(reserve)] = 0;
  record_.order_taken[idx(order)] = taken;
  if (taken > 0) tell(EventKind::refill, info.hour, order, taken);
}

}  // namespace drystage::engine
