// What comes between, on any plan: a halt is so many nights more, and nothing before it changes.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Detour;
using engine::Segment;
using engine::Timeline;
using engine::TimeStep;
using support::begins_h;
using support::day_h;
using support::driven_by_km;
using support::ends_h;
using support::lay;
using support::PlanText;
using support::total_km;
using support::travel_with;
using support::Trip;

/// A trip on which everything is used, in weather that changes from day to day.
PlanText whole_trip() {
  PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 100 km"};
  text.people = {PlanText::person("Ada", ""), PlanText::person("Ben", "")};
  text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                     "{name: tub, holds: 70 L, filled: 70 L, for: utility}"};
  text.utility_use = {"shower: {volume: 5 L, every: 3 days}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2600 kg}, tanks: [{name: tank, holds: 130 L, "
      "filled: 130 L}], idle: 1 L/h}"};
  text.batteries = {"{name: bank, kind: agm, capacity: 120 Ah}"};
  text.charging = {"{name: alternator, current: 20 A}", "{name: panel, solar: 120 W}"};
  text.loads = {"{name: lamp, draw: 12 W, after_dark: 4 h/day}"};
  text.cold = {
      "{name: chest, volume: 45 L, set_point: 3 °C, rated: {draw: 11 W, ambient: 32 °C, inside: 4 "
      "°C}}"};
  text.food = {"{item: veg, kept: chilled, mass: 9 kg, meals: 30, keeps: {for: 9 days, at: 4 °C}}",
               "{item: rice, kept: dry, mass: 14 kg, meals: 60}"};
  text.climate = {PlanText::climate_of("air", 38, 18, "20 %", "6 kWh/m2/day")};
  text.weather = {"{from: 2027-03-03, to: 2027-03-04, max: 44 °C}"};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("There", "air", "drinking_water: {}")};
  text.itinerary = {
      "{at: Base}",
      "stay: {nights: 2}",
      "drive: {to: There, distance: 420 km, surfaces: {gravel: 300 km, sand: 120 km}}",
      "resupply: {drinking_water: fill}",
      "stay: {nights: 2}",
      "drive: {to: Base, distance: 420 km, surfaces: {sand: 120 km, gravel: 300 km}}"};
  return text;
}

/// What the steps ask of stores, to the last bit.
void expect_same_needs(const Timeline& a, const Timeline& b) {
  ASSERT_EQ(a.steps.size(), b.steps.size());
  for (std::size_t s = 0; s < a.steps.size(); ++s) {
    const TimeStep& x = a.steps[s];
    const TimeStep& y = b.steps[s];
    EXPECT_EQ(x.day, y.day) << s;
    EXPECT_EQ(x.from_h, y.from_h) << s;
    EXPECT_EQ(x.dt_h, y.dt_h) << s;
    EXPECT_EQ(x.air_c, y.air_c) << s;
    EXPECT_EQ(x.drink_l, y.drink_l) << s;
    EXPECT_EQ(x.utility_l, y.utility_l) << s;
    EXPECT_EQ(x.meals, y.meals) << s;
    EXPECT_EQ(x.distance_km, y.distance_km) << s;
    EXPECT_EQ(x.stop, y.stop) << s;
    EXPECT_EQ(x.leg, y.leg) << s;
    EXPECT_EQ(x.place_day, y.place_day) << s;
  }
}

TEST(Halt, BeforeSettingOutIsAsManyNightsMoreInThePlan) {
  PlanText text = whole_trip();
  const plan::Plan plan = text.plan();
  text.itinerary[1] = "stay: {nights: 5}";
  const Trip longer = support::travel(text);
  // Any hour of the morning will do, and so will the evening before.
  for (const double at_h : {1 * day_h + 21, 2 * day_h, 2 * day_h + 8}) {
    const Trip halted = travel_with(plan, {{.at_h = at_h, .halt_h = 3 * day_h}});
    expect_same_needs(*halted.course.timeline, *longer.course.timeline);
    ASSERT_EQ(halted.days(), longer.days());
    ASSERT_EQ(halted.record.stores, longer.record.stores);
    for (std::size_t d = 0; d < longer.days(); ++d) {
      for (std::size_t s = 0; s < longer.record.stores; ++s) {
        const engine::StoreDay& a = halted.record.store(d, s);
        const engine::StoreDay& b = longer.record.store(d, s);
        EXPECT_EQ(a.end, b.end) << longer.course.stores[s].name << " day " << d;
        EXPECT_EQ(a.used, b.used) << longer.course.stores[s].name << " day " << d;
        EXPECT_EQ(a.gained, b.gained) << longer.course.stores[s].name << " day " << d;
      }
    }
    EXPECT_GT(halted.sum(&engine::ReserveDay::used, "fuel:truck"), 60);
  }
}

/// Index of a stay that is followed by a drive; -1 where there is none.
int stay_before_a_drive(const plan::Plan& plan) {
  for (std::size_t i = 0; i < plan.itinerary.size(); ++i) {
    if (!std::holds_alternative<plan::Stay>(plan.itinerary[i])) continue;
    for (std::size_t j = i + 1; j < plan.itinerary.size(); ++j) {
      if (std::holds_alternative<plan::Drive>(plan.itinerary[j])) return static_cast<int>(i);
    }
  }
  return -1;
}

/// The day that begins when a stay's last night is over.
int day_after_stay(const plan::Plan& plan, int stay) {
  plan::Plan until = plan;
  until.itinerary.resize(static_cast<std::size_t>(stay) + 1);
  return static_cast<int>(engine::lay_out(until).days.size());
}

RC_GTEST_PROP(Halt, AfterAnyStayIsAsManyNightsMoreInThePlan, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  plan::Plan plan = text.plan();
  const int stay = stay_before_a_drive(plan);
  RC_PRE(stay >= 0);
  // Who is stuck does what people do in camp.
  for (plan::ItineraryItem& item : plan.itinerary) {
    if (auto* nights = std::get_if<plan::Stay>(&item)) nights->activity.reset();
  }
  const int nights = pick(1, 4);
  const double at_h = day_h * day_after_stay(plan, stay);
  const Timeline halted = lay(plan, {{.at_h = at_h, .halt_h = day_h * nights}});
  std::get<plan::Stay>(plan.itinerary[static_cast<std::size_t>(stay)]).nights += nights;
  const Timeline longer = engine::lay_timeline(plan);
  RC_ASSERT(halted.days.size() == longer.days.size());
  RC_ASSERT(halted.steps.size() == longer.steps.size());
  for (std::size_t s = 0; s < longer.steps.size(); ++s) {
    const TimeStep& a = halted.steps[s];
    const TimeStep& b = longer.steps[s];
    RC_ASSERT(begins_h(a) == begins_h(b));
    RC_ASSERT(a.dt_h == b.dt_h);
    RC_ASSERT(a.drink_l == b.drink_l);
    RC_ASSERT(a.utility_l == b.utility_l);
    RC_ASSERT(a.meals == b.meals);
    RC_ASSERT(a.distance_km == b.distance_km);
    RC_ASSERT(a.stop == b.stop);
    RC_ASSERT(a.air_c == b.air_c);
  }
}

/// A moment of a trip, not within a stop, and whether anything is left to be done by then.
double any_moment_h(const engine::Schedule& schedule, const support::Pick& pick) {
  const int days = static_cast<int>(schedule.days.size());
  double at_h = pick(0, 24 * 4 * days - 1) / 4.0;
  for (const Segment& segment : schedule.segments) {
    const bool within = at_h >= begins_h(segment) - 1e-9 && at_h < ends_h(segment) - 1e-9;
    if (segment.resupply >= 0 && within) at_h = ends_h(segment);
  }
  return at_h;
}

/// The end of the last thing that the itinerary has to do.
double all_done_h(const engine::Schedule& schedule) {
  double hour = 0;
  for (const Segment& segment : schedule.segments) {
    if (segment.drive >= 0 || segment.resupply >= 0) hour = std::max(hour, ends_h(segment));
  }
  return hour;
}

/// Where driving is not bounded by hours or light of the day, whole days change no more than dates.
RC_GTEST_PROP(Halt, OfWholeDaysMovesAllThatFollowsByThem, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  PlanText text = support::random_plan(pick);
  text.driving = "{most_per_day: 24 h, daylight_only: no, depart: \"08:15\"}";
  RC_LOG() << text.text();
  const plan::Plan plan = text.plan();
  const engine::Schedule before = engine::lay_out(plan);
  const double at_h = any_moment_h(before, pick);
  const double halt_h = day_h * pick(1, 5);
  RC_PRE(at_h < all_done_h(before));
  RC_LOG() << "at " << at_h << " for " << halt_h << "\n";
  const engine::Schedule after = engine::lay_out(plan, {{.at_h = at_h, .halt_h = halt_h}});
  RC_ASSERT(day_h * static_cast<double>(after.days.size()) ==
            day_h * static_cast<double>(before.days.size()) + halt_h);
  const double end_h = day_h * static_cast<double>(before.days.size());
  for (double hour = 0; hour <= end_h; hour += 0.25) {
    const double km = driven_by_km(before, hour);
    const double moved_h = hour <= at_h ? hour : hour + halt_h;
    RC_ASSERT(std::abs(driven_by_km(after, moved_h) - km) <= 1e-6);
  }
  // The stops too, each once.
  std::vector<std::pair<int, double>> planned;
  std::vector<std::pair<int, double>> done;
  for (const Segment& stop : before.segments) {
    if (stop.resupply < 0) continue;
    const double hour = begins_h(stop);
    planned.emplace_back(stop.resupply, hour > at_h + 1e-9 ? hour + halt_h : hour);
  }
  for (const Segment& stop : after.segments) {
    if (stop.resupply >= 0) done.emplace_back(stop.resupply, begins_h(stop));
  }
  RC_ASSERT(planned.size() == done.size());
  for (std::size_t s = 0; s < planned.size(); ++s) {
    RC_ASSERT(planned[s].first == done[s].first);
    RC_ASSERT(std::abs(planned[s].second - done[s].second) <= 1e-9);
  }
}

// --- any detours ---

/// Up to three halts.
std::vector<Detour> any_detours(const engine::Schedule& schedule, const support::Pick& pick) {
  std::vector<Detour> detours;
  const int count = pick(0, 3);
  for (int i = 0; i < count; ++i) {
    detours.push_back({.at_h = any_moment_h(schedule, pick), .halt_h = pick(1, 300) / 4.0});
  }
  std::ranges::stable_sort(detours, {}, &Detour::at_h);
  return detours;
}

RC_GTEST_PROP(Detours, OfAnyKindLeaveNoHourOutAndNoneTwice, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  const engine::Schedule planned = engine::lay_out(plan);
  const engine::Schedule schedule = engine::lay_out(plan, any_detours(planned, pick));
  double now_h = 0;
  std::vector<double> km(schedule.days.size());
  std::vector<double> driven_h(schedule.days.size());
  for (const Segment& segment : schedule.segments) {
    RC_ASSERT(std::abs(begins_h(segment) - now_h) <= 1e-9);
    RC_ASSERT(segment.to_h >= segment.from_h);
    RC_ASSERT(segment.to_h <= day_h + 1e-9);
    now_h = ends_h(segment);
    const auto day = static_cast<std::size_t>(segment.day);
    km.at(day) += segment.distance_km;
    if (segment.drive >= 0) driven_h.at(day) += segment.to_h - segment.from_h;
  }
  RC_ASSERT(std::abs(now_h - day_h * static_cast<double>(schedule.days.size())) <= 1e-9);
  for (std::size_t d = 0; d < schedule.days.size(); ++d) {
    RC_ASSERT(std::abs(km[d] - schedule.days[d].distance_km) <= 1e-9);
    RC_ASSERT(std::abs(driven_h[d] - schedule.days[d].drive_h) <= 1e-9);
    RC_ASSERT(driven_h[d] <= plan.trip.driving.most_per_day_h + 1e-9);
    const plan::Date first = plan.trip.start;
    RC_ASSERT(schedule.days[d].date == first + boost::gregorian::days(static_cast<long>(d)));
  }
  RC_ASSERT(std::abs(total_km(schedule.segments) - total_km(planned.segments)) <= 1e-6);
  RC_ASSERT(schedule.days.size() >= planned.days.size());
}

RC_GTEST_PROP(Detours, LeaveAllThatLiesBeforeThemAsItIs, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  const Timeline planned = engine::lay_timeline(plan);
  const engine::Schedule schedule = engine::lay_out(plan);
  const double at_h = any_moment_h(schedule, pick);
  const Timeline other = lay(plan, {{.at_h = at_h, .halt_h = pick(1, 300) / 4.0}});
  for (std::size_t s = 0; s < planned.steps.size(); ++s) {
    const TimeStep& a = planned.steps[s];
    if (begins_h(a) + a.dt_h > at_h + 1e-9) break;
    const TimeStep& b = other.steps.at(s);
    for (const double difference : {begins_h(a) - begins_h(b), a.dt_h - b.dt_h, a.air_c - b.air_c,
                                    a.utility_l - b.utility_l, a.distance_km - b.distance_km}) {
      RC_ASSERT(std::abs(difference) <= 1e-9);
    }
    RC_ASSERT(a.stop == b.stop);
    RC_ASSERT(a.leg == b.leg);
    RC_ASSERT(a.ground == b.ground);
    // The day itself may become another one; what people drink by the hour is its affair.
    if (day_h * (a.day + 1) <= at_h) RC_ASSERT(std::abs(a.drink_l - b.drink_l) <= 1e-9);
  }
}

}  // namespace
}  // namespace drystage
