#include "engine/run.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace drystage::engine {
namespace {

// Events kept per day of the trip; more than can happen with hysteresis on every switch.
constexpr std::size_t events_per_day = 32;
constexpr std::size_t spare_events = 256;
// Of a sum of masses, rounding.
constexpr double slight_kg = 1e-6;

/// A margin that is broken at `hour` is broken since the level came down to it, moving evenly since
/// it was last observed or the step began.
template <class Gauge>
void note_margin(const Gauge& now, ReserveDay& row, double hour) {
  const double slack = now.slack(now.level, now.margin());
  if (slack >= -rounding) return;
  // What the margin asks for changes with the place and the day, so from the step's beginning.
  const double before = now.slack(now.from_level, now.margin());
  const double share = before > 0 ? before / (before - slack) : 0;
  const double since_h = now.from_h + (hour - now.from_h) * share;
  if (row.breach_h < 0 || since_h < row.breach_h) row.breach_h = since_h;
}

/// Adds a day that has ended.
void add_day(Least& least, const ReserveDay& row, int day, bool above) {
  if (!row.judged) return;
  if (row.slack < least.slack) {
    least.slack = row.slack;
    least.left = row.left;
    least.day = day;
    least.hour = row.tight_h;
  }
  const bool worse = above ? row.lowest < least.lowest : row.lowest > least.lowest;
  if (worse || std::isnan(least.lowest)) least.lowest = row.lowest;
  if (least.breach_day < 0 && row.breach_h >= 0) {
    least.breach_day = day;
    least.breach_h = row.breach_h;
  }
  if (least.short_day < 0 && row.short_of > 0) {
    least.short_day = day;
    least.short_h = row.short_h;
  }
  least.short_of += row.short_of;
}

}  // namespace

Record blank_record(const CourseBase& course, Keep keep) {
  Record record;
  make_blank(record, course, keep);
  return record;
}

void make_blank(Record& record, const CourseBase& course, Keep keep) {
  const bool by_day = keep != Keep::least;
  const std::size_t days = by_day ? course.timeline->days.size() : 1;
  record.keep = keep;
  record.stores = course.stores.size();
  record.reserves = course.reserves.size();
  record.store_days.resize(days * record.stores);
  record.reserve_days.resize(days * record.reserves);
  record.least.resize(by_day ? 0 : record.reserves);
  record.most_events = keep == Keep::ledgers ? days * events_per_day + spare_events : 0;
  record.events.reserve(record.most_events);
  record.heaviest.resize(course.scales.size());
  record.order_slack.resize(course.orders.size());
  record.order_taken.resize(course.orders.size());
  record.order_left.resize(course.orders.size());
  wipe(record);
}

void wipe(Record& record) {
  std::ranges::fill(record.store_days, StoreDay{});
  std::ranges::fill(record.reserve_days, ReserveDay{});
  std::ranges::fill(record.least, Least{});
  std::ranges::fill(record.heaviest, Heaviest{});
  std::ranges::fill(record.order_slack, without_limit);
  std::ranges::fill(record.order_taken, 0.0);
  std::ranges::fill(record.order_left, 0.0);
  record.events.clear();
  record.events_dropped = 0;
}

std::vector<Run::Load> Run::loads_of(const CourseBase& course) {
  const std::size_t vehicles = course.vehicle_kg.size();
  std::vector<Load> loads;
  loads.reserve(course.stores.size());
  for (const StoreInfo& store : course.stores) {
    const bool carried = store.vehicle >= 0 && idx(store.vehicle) < vehicles;
    loads.push_back(
        {.vehicle = carried ? idx(store.vehicle) : vehicles, .kg_per_unit = kg_per_level(store)});
  }
  return loads;
}

Run::Run(const CourseBase& course, Record& record, const Factors& factors)
    : course_(course),
      record_(record),
      factors_(course.learned.empty() ? factors : course.learned.front()),
      loads_(loads_of(course)),
      vehicle_kg_(course.vehicle_kg) {
  const Presence& there = presence();
  for (std::size_t v = 0; v < vehicle_kg_.size(); ++v) vehicle_kg_[v] += there.more_kg[v];
  vehicle_kg_.push_back(0);
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    const bool here = there.stores[s] != 0;
    const double level = here ? course.stores[s].initial : 0;
    levels_.push_back(level);
    away_.push_back(here ? is_with_us : course.stores[s].initial);
    vehicle_kg_[loads_[s].vehicle] += level * loads_[s].kg_per_unit;
  }
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    gauges_.push_back({.empty_at = course.reserves[r].empty_at,
                       .rule = course.reserves[r].margin,
                       .above = course.reserves[r].sense == Sense::keep_above,
                       .judged = there.reserves[r] != 0});
  }
  signals.generator_share.assign(course.chargers, 0);
  for (std::vector<double>* by_cabinet :
       {&signals.chilled_kj_k, &signals.frozen_kg, &signals.chilled_c, &signals.frozen_c,
        &signals.above_5c_h, &signals.clock_h, &signals.frozen_above_5c_h, &signals.frozen_clock_h,
        &signals.bought_kj_k, &signals.stated_kj_k, &signals.stated_kj, &signals.chilled_from_c,
        &signals.chilled_to_c}) {
    by_cabinet->assign(course.cabinets, 0);
  }
  signals.has_thawed.assign(course.cabinets, 0);
  signals.thawed_at_h.assign(course.cabinets, without_limit);
}

Run::Run(const Run& other, const CourseBase& course, Record& record, std::size_t next)
    : signals(other.signals),
      course_(course),
      record_(record),
      factors_(other.factors_),
      day_(other.day_),
      levels_(other.levels_),
      loads_(loads_of(course)),
      vehicle_kg_(other.vehicle_kg_),
      gauges_(other.gauges_),
      away_(other.away_),
      company_(other.company_) {
  levels_.resize(course.stores.size());
  away_.resize(course.stores.size());
  gauges_.resize(course.reserves.size());
  // Only what differs is changed, so that going on comes to the same as never having stopped.
  for (std::size_t v = 0; v < course.vehicle_kg.size(); ++v) {
    const double more_kg = course.vehicle_kg[v] + presence().more_kg[v] -
                           (other.course_.vehicle_kg[v] + other.presence().more_kg[v]);
    if (more_kg != 0) vehicle_kg_[v] += more_kg;
  }
  for (std::size_t s = 0; s < loads_.size(); ++s) {
    const Load& before = other.loads_[s];
    if (before.vehicle == loads_[s].vehicle) continue;
    vehicle_kg_[before.vehicle] -= levels_[s] * before.kg_per_unit;
    vehicle_kg_[loads_[s].vehicle] += levels_[s] * loads_[s].kg_per_unit;
  }
  for (std::size_t r = 0; r < gauges_.size(); ++r) {
    gauges_[r].rule = course.reserves[r].margin;
    gauges_[r].judged = presence().reserves[r] != 0;
  }
  // What has been ordered by then counts towards what a place gives in one visit. The other's
  // record may know later orders too.
  const std::vector<TimeStep>& steps = course.timeline->steps;
  const TimeStep& now = steps[next];
  while (next_reading_ < course.readings.size() && course.readings[next_reading_].step < next) {
    ++next_reading_;
  }
  const auto comes_now = [&](const OrderInfo& order) {
    for (std::size_t s = next; s < steps.size() && steps[s].day == now.day; ++s) {
      if (steps[s].from_h > now.from_h) break;
      if (steps[s].stop == order.item) return true;
    }
    return false;
  };
  for (std::size_t o = 0; o < course.orders.size() && o < other.course_.orders.size(); ++o) {
    const OrderInfo& order = other.course_.orders[o];
    if (std::tie(order.day, order.hour) > std::tie(now.day, now.from_h) || comes_now(order)) break;
    record.order_taken[o] = other.record_.order_taken[o];
  }
}

void Run::open_day(std::size_t day) {
  day_ = day;
  const bool by_day = record_.keep != Keep::least;
  const std::size_t row = by_day ? day : 0;
  store_row_ = std::span(record_.store_days).subspan(row * record_.stores, record_.stores);
  reserve_row_ = std::span(record_.reserve_days).subspan(row * record_.reserves, record_.reserves);
  if (!by_day) {
    std::ranges::fill(store_row_, StoreDay{});
    std::ranges::fill(reserve_row_, ReserveDay{});
  }
  for (std::size_t s = 0; s < store_row_.size(); ++s) store_row_[s].start = levels_[s];
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    Gauge& now = gauges_[r];
    reserve_row_[r].judged = now.judged;
    reserve_row_[r].start = now.now();
    reserve_row_[r].lowest = now.now();
    now.at_lowest = {.per_day = now.per_day, .per_km = now.per_km, .empty_at = now.empty_at};
  }
}

void Run::close_day() {
  if (record_.keep == Keep::least) {
    for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
      add_day(record_.least[r], reserve_row_[r], day(), gauges_[r].above);
    }
    return;
  }
  for (std::size_t s = 0; s < store_row_.size(); ++s) store_row_[s].end = levels_[s];
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    const Gauge& now = gauges_[r];
    ReserveDay& row = reserve_row_[r];
    row.end = now.now();
    if (!keeps_endurance()) continue;
    const Endurance counts = course_.reserves[r].endurance;
    const double use = counts == Endurance::km ? now.at_lowest.per_km : now.at_lowest.per_day;
    const double left = std::max(0.0, row.lowest - now.at_lowest.empty_at);
    row.endurance = counts == Endurance::hours ? now.endurance_h
                    : use > 0                  ? left / use
                                               : without_limit;
  }
}

void Run::set_out() {
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) reserve_row_[r].lowest = gauges_[r].level;
}

void Run::set_company(int company) {
  const std::vector<double>& before_kg = presence().more_kg;
  company_ = company;
  for (std::size_t v = 0; v < before_kg.size(); ++v) {
    const double more_kg = presence().more_kg[v] - before_kg[v];
    if (more_kg != 0) vehicle_kg_[v] += more_kg;
  }
  for (std::size_t r = 0; r < gauges_.size(); ++r) {
    gauges_[r].joins = presence().reserves[r] != 0 && !gauges_[r].judged;
    gauges_[r].judged = presence().reserves[r] != 0;
  }
}

void Run::company_has_met(double hour) {
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    Gauge& now = gauges_[r];
    ReserveDay& row = reserve_row_[r];
    // Of a day on which it was not there at all, nothing is judged.
    if (!now.judged && row.slack == without_limit) row.judged = false;
    if (!std::exchange(now.joins, false)) continue;
    row.judged = true;
    row.lowest = now.now();
    now.at_lowest = {.per_day = now.per_day, .per_km = now.per_km, .empty_at = now.empty_at};
  }
  weigh(hour);
}

void Run::weigh(double hour) {
  const std::vector<char>& drives = course_.timeline->companies[idx(company_)].vehicles;
  for (std::size_t s = 0; s < record_.heaviest.size(); ++s) {
    const Scale& scale = course_.scales[s];
    if (drives[idx(scale.vehicle)] == 0) continue;
    const bool whole = scale.kind == ScaleKind::total;
    const double kg = whole ? standing_kg(scale.vehicle) : scale_kg(scale);
    Heaviest& most = record_.heaviest[s];
    if (kg > most.kg + slight_kg) {
      most.kg = kg;
      most.day = day();
    }
    if (most.over_day >= 0 || kg <= scale.limit_kg + slight_kg) continue;
    most.over_day = day();
    most.over_h = hour;
  }
}

void Run::begin_step(double hour) {
  for (Gauge& now : gauges_) {
    now.from_level = now.level;
    now.from_h = hour;
  }
}

void Run::observe(double hour) {
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    observe(gauges_[r], reserve_row_[r], hour);
  }
}

void Run::observe_outset() {
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    const Gauge& now = gauges_[r];
    ReserveDay& row = reserve_row_[r];
    const double slack = now.level - now.margin();
    if (!now.judged || !now.above || slack >= -rounding || slack >= row.slack) continue;
    row.slack = slack;
    row.left = now.level;
    row.margin = now.margin();
    row.tight_h = 0;
    row.breach_h = 0;
  }
}

void Run::begin_judging(double hour) {
  ++next_reading_;
  if (next_reading_ < course_.learned.size()) factors_ = course_.learned[next_reading_];
  for (std::size_t r = 0; r < reserve_row_.size(); ++r) {
    Gauge& now = gauges_[r];
    ReserveDay& row = reserve_row_[r];
    row.lowest = now.now();
    row.slack = without_limit;
    row.breach_h = row.short_h = -1;
    row.short_of = row.stood_in = 0;
    now.at_lowest = {.per_day = now.per_day, .per_km = now.per_km, .empty_at = now.empty_at};
    now.running_short = false;
    now.told_short = -1;
    now.open_order = -1;  // what a stop before was to last for is past
    now.from_level = now.level;
    now.from_h = hour;
  }
  std::ranges::fill(record_.heaviest, Heaviest{});
  weigh(hour);
}

void Run::observe(int reserve, double hour) {
  gauge(reserve).drop_rounding();
  observe(gauge(reserve), reserve_row_[idx(reserve)], hour);
}

void Run::observe(Gauge& now, ReserveDay& row, double hour) {
  if (!now.judged) return;
  const double level = now.level;
  const double margin = now.margin();
  const double slack = now.slack(level, margin);
  const bool worst = now.above ? level <= row.lowest : level >= row.lowest;
  // Before the first step of all no rate is known; the first one serves.
  if (worst || now.at_lowest.per_day + now.at_lowest.per_km <= 0) {
    row.lowest = worst ? level : row.lowest;
    now.at_lowest = {.per_day = now.per_day, .per_km = now.per_km, .empty_at = now.empty_at};
  }
  if (slack < row.slack) {
    row.slack = slack;
    row.left = level;
    row.margin = margin;
    row.tight_h = hour;
  }
  note_margin(now, row, hour);
  if (now.open_order >= 0) {
    double& least = record_.order_slack[idx(now.open_order)];
    least = std::min(least, slack - now.short_since);
  }
  now.from_level = level;
  now.from_h = hour;
}

bool Run::fall_short(int reserve, double amount, double hour) {
  if (amount <= rounding || !is_judged(reserve)) return false;
  Gauge& now = gauge(reserve);
  // A trickle that comes in between does not make it news again the same day.
  const bool news = !now.running_short && now.told_short != day();
  if (news) {
    now.told_short = day();
    tell(EventKind::short_of, hour, reserve, amount);
  }
  now.running_short = true;
  now.short_since += amount;
  now.drop_rounding();
  ReserveDay& row = reserve_row_[idx(reserve)];
  note_margin(now, row, hour);
  // What was replaced before that day had not run out yet.
  if (row.short_of <= 0) row.short_h = -1;
  row.short_of += amount;
  note_empty(row, hour);
  return news;
}

void Run::make_do(int reserve, double amount, double hour) {
  if (amount <= rounding) return;
  gauge(reserve).drop_rounding();
  gauge(reserve).short_since += amount;
  ReserveDay& row = reserve_row_[idx(reserve)];
  note_margin(gauge(reserve), row, hour);
  row.stood_in += amount;
  note_empty(row, hour);
}

void Run::note_empty(ReserveDay& row, double hour) {
  if (row.breach_h < 0 || hour < row.breach_h) row.breach_h = hour;
  if (row.short_h < 0 || hour < row.short_h) row.short_h = hour;
}

void Run::tell(EventKind kind, double hour, int subject, double amount, double other) {
  if (record_.events.size() >= record_.most_events) {
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

}  // namespace drystage::engine
