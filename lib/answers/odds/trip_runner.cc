#include "answers/odds/trip_runner.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "answers/mishaps/aftermath.h"
#include "answers/mishaps/occasions.h"
#include "answers/odds/join_records.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using plan::Source;

// Of each thread; a way takes some 300 kB of its own.
constexpr std::size_t most_ways = 64;

Mishap mishap_of(const TripEvent& event) {
  Mishap out;
  out.halt_h = event.halt_h;
  switch (event.source) {
    case Source::containers:
      if (event.item >= 0) {
        out.damage.tanks = {{.vehicle = event.subject, .tank = event.item}};
      } else {
        out.damage.containers = {event.subject};
      }
      break;
    case Source::compressors:
      out.damage.cabinets = {event.subject};
      break;
    case Source::chargers:
      out.damage.chargers = {event.subject};
      break;
    case Source::punctures:
      out.damage.punctured = {{.vehicle = event.subject, .times = event.times}};
      break;
    default:
      break;
  }
  return out;
}

/// Halfway along a leg; nothing where the trip does not drive it.
std::optional<std::size_t> halfway_along(const LaidTrip& laid, int leg) {
  constexpr double half = 0.5;
  for (const std::size_t step : along_legs(laid, half)) {
    if (laid.timeline->steps[step].leg == leg) return step;
  }
  return std::nullopt;
}

/// Whether there is a drive behind a step, and one to come: who has not set out, or has arrived,
/// can wait.
bool is_under_way(const LaidTrip& laid, std::size_t step) {
  const std::vector<engine::TimeStep>& steps = laid.timeline->steps;
  const auto drives = [](const engine::TimeStep& one) { return one.drive >= 0; };
  const auto here = steps.begin() + static_cast<std::ptrdiff_t>(step);
  return std::any_of(steps.begin(), here, drives) && std::any_of(here, steps.end(), drives);
}

/// Times what is in containers, tanks and cans, and times what they hold: one that counts as full
/// has no room for more. Empty: as planned.
void fill(engine::Course& course, const engine::Course& planned, const std::vector<double>& times) {
  const auto of = [&](int store) { return times.empty() ? 1 : times[at(store)]; };
  const auto fill_one = [&](int store) {
    course.stores[at(store)].initial = planned.stores[at(store)].initial * of(store);
  };
  using engine::reserves::Fuel;
  using engine::reserves::Water;
  auto& water = std::get<Water::Compiled>(course.families);
  const auto& water_was = std::get<Water::Compiled>(planned.families);
  for (std::size_t p = 0; p < water.pools.size(); ++p) {
    for (std::size_t c = 0; c < water.pools[p].cans.size(); ++c) {
      Water::Can& can = water.pools[p].cans[c];
      can.holds_l = water_was.pools[p].cans[c].holds_l * of(can.store);
      fill_one(can.store);
    }
  }
  auto& fuel = std::get<Fuel::Compiled>(course.families);
  const auto& fuel_was = std::get<Fuel::Compiled>(planned.families);
  for (std::size_t v = 0; v < fuel.vehicles.size(); ++v) {
    for (std::size_t t = 0; t < fuel.vehicles[v].tanks.size(); ++t) {
      Fuel::Tank& tank = fuel.vehicles[v].tanks[t];
      tank.holds_l = fuel_was.vehicles[v].tanks[t].holds_l * of(tank.store);
      fill_one(tank.store);
    }
  }
}

bool is_as_planned(const TripDraw& draw, const engine::Course& planned) {
  const engine::Factors usual =
      planned.learned.empty() ? engine::Factors{} : planned.learned.back();
  return engine::is_as_planned(draw.weather) && draw.factors == usual && draw.fills.empty() &&
         draw.batteries == 1 && draw.missing.empty() && draw.events.empty();
}

/// Whether a vehicle with tyres has spares for so many punctures before a step.
bool has_spares(const LaidTrip& laid, const TripEvent& event, std::size_t step) {
  const auto& tyres = std::get<engine::reserves::Tyres::Compiled>(laid.course->families);
  for (std::size_t v = 0; v < tyres.vehicles.size(); ++v) {
    if (tyres.vehicles[v].vehicle != event.subject) continue;
    return engine::reserves::spares_before_each_step(tyres, v, *laid.course)[step] >= event.times;
  }
  return true;
}

/// Goes on with what a laid trip is known by.
void add_to(TripGround::WayKey& happened, const TripEvent& event, const Struck& struck) {
  const double step = struck.mishap.moves_time() ? static_cast<double>(struck.step) : -1;
  for (const double number : {static_cast<double>(event.source), static_cast<double>(event.subject),
                              static_cast<double>(event.item), static_cast<double>(event.times),
                              struck.mishap.halt_h, step}) {
    happened.push_back(number);
  }
}

}  // namespace

std::optional<Struck> struck_by(const TripEvent& event, const LaidTrip& laid) {
  const engine::Timeline& timeline = *laid.timeline;
  std::optional<std::size_t> step;
  if (event.leg >= 0) {
    step = halfway_along(laid, event.leg);
  } else if (event.day < static_cast<int>(timeline.days.size())) {
    step = morning_step(timeline, event.day);
  }
  if (!step || *step < laid.course->judged_from()) return std::nullopt;
  if (event.halt_h > 0 && !is_under_way(laid, *step)) return std::nullopt;
  Mishap mishap = mishap_of(event);
  if (event.source == Source::punctures) {
    const engine::Company& company = timeline.companies[at(timeline.steps[*step].company)];
    if (company.vehicles[at(event.subject)] == 0) return std::nullopt;
    if (!has_spares(laid, event, *step)) mishap.halt_h = laid.plan->mishaps.stuck_h;
  }
  return Struck{.mishap = std::move(mishap), .step = *step};
}

TripGround::TripGround(const PlanRun& planned, const TripGround* like)
    : planned_(planned),
      laid_(laid_trip_of(planned)),
      days_(like != nullptr ? like->days_ : std::make_shared<engine::ReadyDays>()) {
  auto course = std::make_shared<engine::Course>(*laid_.course);
  engine::make_up(*course, planned.record);
  laid_.course = std::move(course);
}

TripRunner::TripRunner(const TripGround& ground)
    : ground_(ground), whole_(made(ground.laid(), nullptr)) {}

std::unique_ptr<TripRunner::Way> TripRunner::made(LaidTrip laid, const Way* like) const {
  engine::ChangingCourse course(laid.plan, laid.course, ground_.days(),
                                like != nullptr ? &like->course : nullptr);
  return std::make_unique<Way>(Way{.laid = std::move(laid), .course = std::move(course)});
}

TripRunner::Way& TripRunner::way_after(Way& before, const WayKey& happened, const Struck& struck) {
  std::unique_ptr<Way>& way = ways_[happened];
  if (!way) {
    LaidTrip laid = ground_.laid_after(happened, [&] {
      return after(before.laid, struck.mishap, struck.step, *before.laid.course);
    });
    way = made(std::move(laid), whole_.get());
  }
  return *way;
}

void TripRunner::patch(engine::Course& course, const engine::Course& planned,
                       const TripDraw& draw) const {
  fill(course, planned, draw.fills);
  const bool as_planned = is_as_planned(draw, planned);
  const std::vector<plan::Place>& places = ground_.laid().plan->places;
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    engine::OrderInfo& order = course.orders[o];
    order.open = planned.orders[o].open;
    // Who has what was planned takes what was planned, to the last digit.
    order.up_to = as_planned ? 0 : planned.orders[o].up_to;
    for (const MissingSupply& missing : draw.missing) {
      if (order.place != missing.place) continue;
      const plan::Supply& supply = places[at(missing.place)].supplies[at(missing.supply)];
      if (supply.commodity == order.order.commodity) order.open = false;
    }
  }
  if (!course.learned.empty()) course.learned.back() = draw.factors;
}

const engine::Course& TripRunner::changed(Way& way, const TripDraw& draw, int from_day,
                                          const std::optional<Next>& next) const {
  engine::ChangingCourse::Days days{.from = from_day};
  if (keep_ == engine::Keep::ledgers) {
    // What is shown has the weather of all days.
    days.from = 0;
  } else if (next) {
    // From what happens on the rest is another way's.
    days.until = way.laid.timeline->steps[next->struck.step].day + 1;
  }
  engine::Course& course = way.course.draw(draw.weather, draw.batteries, days, keep_);
  patch(course, *way.laid.course, draw);
  return course;
}

const TripOutcome& TripRunner::run(const TripDraw& draw) {
  if (ways_.size() > most_ways) ways_.clear();
  outcome_.happened.clear();
  outcome_.reserves.resize(whole_->laid.course->reserves.size());
  for (TripOutcome::OfReserve& of : outcome_.reserves) {
    of.slack = engine::without_limit;
    of.breach_day = of.dry_day = -1;
    of.short_of = 0;
    of.lowest.clear();
  }
  std::vector<char> done(draw.events.size(), 0);
  const std::optional<Next> next = next_of(draw, done, whole_->laid, 0);
  const engine::Course& course = changed(*whole_, draw, 0, next);
  Standing standing = Engine::begin(course, blank(course, 0), draw.factors);
  go_on(*whole_, course, standing, draw, done, {}, 0, next);
  return outcome_;
}

std::optional<TripRunner::Next> TripRunner::next_of(const TripDraw& draw,
                                                    const std::vector<char>& done,
                                                    const LaidTrip& laid, std::size_t from) {
  std::optional<Next> next;
  for (std::size_t e = 0; e < draw.events.size(); ++e) {
    if (done[e] != 0) continue;
    std::optional<Struck> struck = struck_by(draw.events[e], laid);
    if (!struck || struck->step < from) continue;
    if (next && struck->step >= next->struck.step) continue;
    next = Next{.event = e, .struck = *std::move(struck)};
  }
  return next;
}

void TripRunner::go_on(Way& way, const engine::Course& course, Standing& standing,
                       const TripDraw& draw, std::vector<char>& done, WayKey happened,
                       std::size_t depth, const std::optional<Next>& next) {
  const std::vector<engine::TimeStep>& steps = course.timeline->steps;
  const int from_day = standing.next < steps.size() ? steps[standing.next].day : 0;
  Engine::go_on(course, standing, next ? next->struck.step : steps.size());
  add(record(depth), course, from_day, standing.run.day());
  if (!next) {
    outcome_.days = static_cast<int>(course.timeline->days.size());
    if (keep_ == engine::Keep::ledgers) keep_whole(way, course, depth);
    return;
  }
  done[next->event] = 1;
  const TripEvent& event = draw.events[next->event];
  const std::size_t step = next->struck.step;
  add_to(happened, event, next->struck);
  const int day = steps[step].day;
  cuts_.resize(depth);
  cuts_.push_back({.day = day, .begun = standing.run.day() == day});
  outcome_.happened.push_back({.event = event, .day = day, .halt_h = next->struck.mishap.halt_h});
  Way& after_it = way_after(way, happened, next->struck);
  const std::optional<Next> after_that = next_of(draw, done, after_it.laid, step);
  const engine::Course& then = changed(after_it, draw, day, after_that);
  Standing now = Engine::resume(standing, then, step, blank(then, depth + 1));
  Engine::lose_excess(then, now);
  go_on(after_it, then, now, draw, done, std::move(happened), depth + 1, after_that);
}

engine::Record& TripRunner::record(std::size_t depth) {
  while (records_.size() <= depth) records_.emplace_back();
  return *std::next(records_.begin(), static_cast<std::ptrdiff_t>(depth));
}

engine::Record& TripRunner::blank(const engine::Course& course, std::size_t depth) {
  engine::Record& out = record(depth);
  engine::make_blank(out, course, keep_);
  return out;
}

void TripRunner::add(const engine::Record& record, const engine::Course& course, int from_day,
                     int to_day) {
  for (int day = std::max(from_day, course.first_judged_day()); day <= to_day; ++day) {
    for (std::size_t r = 0; r < course.reserves.size(); ++r) {
      const engine::ReserveDay& row = record.reserve(at(day), r);
      TripOutcome::OfReserve& of = outcome_.reserves[r];
      of.lowest.resize(std::max(of.lowest.size(), at(day) + 1),
                       std::numeric_limits<double>::quiet_NaN());
      if (!row.judged) continue;
      double& lowest = of.lowest[at(day)];
      const bool above = course.reserves[r].sense == engine::Sense::keep_above;
      const bool worse = above ? row.lowest < lowest : row.lowest > lowest;
      if (worse || std::isnan(lowest)) lowest = row.lowest;
      of.slack = std::min(of.slack, row.slack);
      of.short_of += row.short_of;
      if (of.breach_day < 0 && row.breach_h >= 0) of.breach_day = day;
      if (of.dry_day < 0 && row.short_of > 0) of.dry_day = day;
    }
  }
}

void TripRunner::keep_whole(const Way& way, const engine::Course& course, std::size_t depth) {
  engine::Record whole = record(depth);
  for (std::size_t earlier = depth; earlier-- > 0;) {
    const engine::Record& before = record(earlier);
    join_before(whole, before, course, cuts_[earlier].day, cuts_[earlier].begun);
  }
  replay_ = Replay{.laid = way.laid, .record = std::move(whole), .happened = outcome_.happened};
  // Of its own: the way's goes on changing, with days of the ground in it.
  auto timeline = std::make_shared<engine::Timeline>(*course.timeline);
  for (engine::PlaceConditions& place : timeline->conditions.place_days) {
    place.weather.ready = nullptr;
  }
  auto its = std::make_shared<engine::Course>(course);
  its->timeline = timeline;
  replay_->laid.course = std::move(its);
  replay_->laid.timeline = std::move(timeline);
}

TripRunner::Replay TripRunner::replay(const TripDraw& draw) {
  keep_ = engine::Keep::ledgers;
  run(draw);
  keep_ = engine::Keep::days;
  return std::move(*std::exchange(replay_, std::nullopt));
}

TripRunner::WrittenOut TripRunner::written_out(TripDraw draw) {
  std::erase_if(draw.events, [](const TripEvent& event) {
    return event.source != Source::delays && event.source != Source::illness;
  });
  draw.missing.clear();
  if (ways_.size() > most_ways) ways_.clear();
  if (written_out_.size() > most_ways) written_out_.clear();
  WrittenOut out{.laid = {}, .as_planned_to = whole_->laid.timeline->steps.size()};
  Way* way = whole_.get();
  std::vector<char> done(draw.events.size(), 0);
  WayKey happened;
  std::size_t from = 0;
  while (const std::optional<Next> next = next_of(draw, done, way->laid, from)) {
    if (happened.empty()) out.as_planned_to = next->struck.step;
    done[next->event] = 1;
    from = next->struck.step;
    add_to(happened, draw.events[next->event], next->struck);
    way = &way_after(*way, happened, next->struck);
  }
  if (way != whole_.get()) {
    std::unique_ptr<Way>& whole = written_out_[happened];
    if (!whole) {
      LaidTrip laid = way->laid;
      laid.course = std::make_shared<const engine::Course>(
          engine::recompile(*laid.plan, laid.timeline, *laid.course));
      whole = made(std::move(laid), whole_.get());
    }
    way = whole.get();
  }
  out.laid = way->laid;
  // It goes on changing from trip to trip.
  out.laid.course = {std::shared_ptr<const void>(), &changed(*way, draw, 0, std::nullopt)};
  return out;
}

}  // namespace drystage::answers
