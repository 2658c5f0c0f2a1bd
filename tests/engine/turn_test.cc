// Turning round on the way, laid out on the calendar.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Detour;
using engine::EventKind;
using engine::Segment;
using engine::Timeline;
using engine::TimeStep;
using support::arrives_h;
using support::begins_h;
using support::day_h;
using support::driven_by_km;
using support::one_leg;
using support::PlanText;
using support::total_km;

/// A drive the other way: its parts in reverse order, climbs for descents.
plan::Drive the_other_way(const plan::Drive& drive, int to) {
  plan::Drive back = drive;
  back.to = to;
  std::ranges::reverse(back.surfaces);
  std::swap(back.climb_m, back.descent_m);
  return back;
}

/// A plan that can turn round on one of its drives, and the item to go on with then.
struct RoundTrip {
  plan::Plan plan;
  int back = 0;

  RoundTrip(plan::Plan of, std::size_t drive, int origin) : plan(std::move(of)) {
    back = static_cast<int>(plan.itinerary.size());
    plan.itinerary.emplace_back(
        the_other_way(std::get<plan::Drive>(plan.itinerary[drive]), origin));
  }

  [[nodiscard]] Detour turn(double at_h, double halt_h = 0) const {
    return {.at_h = at_h, .halt_h = halt_h, .go_on_with = back};
  }
};

/// 600 km in three parts of unlike speed, 500 m up and 200 m down on the whole.
PlanText hilly_leg(const std::string& driving = "{most_per_day: 20 h, daylight_only: no}") {
  PlanText text = one_leg(driving);
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2600 kg}, tanks: [{name: tank, holds: 300 L, "
      "filled: 300 L}]}"};
  text.places = {"Base: {at: {latitude: 10°, longitude: 20°, elevation: 300 m}, climate: air}",
                 "There: {at: {latitude: 14°, longitude: 23°, elevation: 900 m}, climate: air}"};
  text.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 600 km, surfaces: {sealed: 200 km, gravel: 300 "
                    "km, sand: 100 km}, climb: 800 m, descent: 200 m}",
                    "stay: {nights: 3}"};
  return text;
}

TEST(Turn, DrivesTheSameDistanceHomeAndNothingElse) {
  const RoundTrip trip(hilly_leg().plan(), 1, 0);
  for (const double at_h : {8.5, 10.0, 11.25, 15.0}) {
    const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(at_h)});
    double out_km = 0;
    double home_km = 0;
    for (const Segment& segment : schedule.segments) {
      if (segment.drive == 1) out_km += segment.distance_km;
      if (segment.drive == trip.back) home_km += segment.distance_km;
    }
    EXPECT_GT(out_km, 20) << at_h;
    EXPECT_NEAR(out_km, home_km, 1e-9) << at_h;
    EXPECT_NEAR(total_km(schedule.segments), out_km + home_km, 1e-9);
    EXPECT_EQ(engine::place_at(schedule.days.back().to), 0) << at_h;
  }
}

TEST(Turn, RunsBackAlongTheSameLineOverTheSameGround) {
  const RoundTrip trip(hilly_leg().plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(14)});
  std::vector<Segment> out;
  std::vector<Segment> home;
  for (const Segment& segment : schedule.segments) {
    if (segment.drive == 1) out.push_back(segment);
    if (segment.drive == trip.back) home.push_back(segment);
  }
  ASSERT_GE(out.size(), 2U);
  ASSERT_EQ(home.size(), out.size());
  std::ranges::reverse(home);
  const auto& there = std::get<plan::Drive>(trip.plan.itinerary[1]).surfaces;
  const auto& back =
      std::get<plan::Drive>(trip.plan.itinerary[static_cast<std::size_t>(trip.back)]).surfaces;
  for (std::size_t s = 0; s < out.size(); ++s) {
    EXPECT_NEAR(out[s].distance_km, home[s].distance_km, 1e-9);
    EXPECT_EQ(there[static_cast<std::size_t>(out[s].part)].surface,
              back[static_cast<std::size_t>(home[s].part)].surface);
    for (const auto& [a, b] : {std::pair{out[s].begin, home[s].end}, {out[s].end, home[s].begin}}) {
      const engine::Position x = engine::position(trip.plan, a);
      const engine::Position y = engine::position(trip.plan, b);
      EXPECT_NEAR(x.latitude_deg, y.latitude_deg, 1e-9);
      EXPECT_NEAR(x.longitude_deg, y.longitude_deg, 1e-9);
      EXPECT_NEAR(x.elevation_m, y.elevation_m, 1e-6);
    }
  }
}

TEST(Turn, ClimbsHomeWhatWasGoneDownAndTheOtherWayRound) {
  const RoundTrip trip(hilly_leg().plan(), 1, 0);
  const Timeline timeline =
      engine::lay_timeline(trip.plan, engine::Layout{.detours = {trip.turn(14)}});
  double up_out_m = 0;
  double down_out_m = 0;
  double up_home_m = 0;
  double down_home_m = 0;
  for (const TimeStep& step : timeline.steps) {
    if (step.drive < 0) continue;
    const engine::RoadPiece& piece = timeline.pieces[static_cast<std::size_t>(step.drive)];
    const bool home = step.leg == 1;
    (home ? up_home_m : up_out_m) += piece.climb_m;
    (home ? down_home_m : down_out_m) += piece.descent_m;
  }
  EXPECT_GT(up_out_m, 200);
  EXPECT_NEAR(up_out_m, down_home_m, 1e-9);
  EXPECT_NEAR(down_out_m, up_home_m, 1e-9);
  EXPECT_NEAR(up_out_m / down_out_m, 4, 1e-9);
  ASSERT_EQ(timeline.legs.size(), 2U);
  EXPECT_EQ(timeline.legs[1].from, 1);
  EXPECT_NEAR(timeline.legs[1].distance_km, 600, 1e-9);
}

TEST(Turn, CountsTheDrivingHoursOfTheDayAcrossIt) {
  PlanText text = one_leg("{most_per_day: 8 h, daylight_only: no}");
  text.itinerary[1] = "drive: {to: There, distance: 1000 km, surfaces: sealed, speed: 100 km/h}";
  const RoundTrip trip(text.plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(14)});
  // Six hours out and two back; the night; four hours home.
  EXPECT_NEAR(schedule.days[0].drive_h, 8, 1e-9);
  EXPECT_NEAR(schedule.days[0].distance_km, 800, 1e-9);
  ASSERT_EQ(schedule.events.size(), 1U);
  EXPECT_EQ(schedule.events[0].kind, EventKind::camp_hours);
  EXPECT_NEAR(schedule.events[0].hour, 16, 1e-9);
  EXPECT_NEAR(schedule.events[0].amount, 400, 1e-9);
  EXPECT_EQ(schedule.events[0].subject, trip.back);
  ASSERT_EQ(schedule.days.size(), 2U);
  EXPECT_NEAR(schedule.days[1].drive_h, 4, 1e-9);
  // The night is in the bush, 400 km from Base.
  EXPECT_EQ(engine::place_at(schedule.days[1].from), -1);
  EXPECT_NEAR(schedule.days[1].from.share, 0.6, 1e-9);
}

TEST(Turn, InANightInTheBushGoesBackInTheMorning) {
  PlanText text = one_leg("{most_per_day: 3 h, daylight_only: no}");
  const RoundTrip trip(text.plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(20)});
  ASSERT_EQ(schedule.days.size(), 2U);
  EXPECT_NEAR(schedule.days[0].distance_km, 300, 1e-9);
  EXPECT_NEAR(schedule.days[1].distance_km, 300, 1e-9);
  EXPECT_NEAR(arrives_h(schedule), 24 + 11, 1e-9);
}

TEST(Turn, AfterAHaltStandsAndThenGoesBack) {
  const RoundTrip trip(one_leg().plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(10, 5)});
  EXPECT_NEAR(arrives_h(schedule), 10 + 5 + 2, 1e-9);
  EXPECT_NEAR(total_km(schedule.segments), 400, 1e-9);
}

TEST(Turn, WhileStayingGoesOnAtOnce) {
  PlanText text = one_leg();
  text.itinerary[2] = "stay: {nights: 9}";
  const RoundTrip trip(text.plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(2 * day_h + 9)});
  EXPECT_EQ(schedule.days.size(), 3U);
  EXPECT_NEAR(arrives_h(schedule), 2 * day_h + 13, 1e-9);
  EXPECT_NEAR(total_km(schedule.segments), 800, 1e-9);
}

TEST(Turn, AtTheLastStopOfAllGoesBackToo) {
  PlanText text = one_leg();
  text.places[1] = PlanText::place("There", "air", "food: {}");
  text.itinerary[2] = "resupply: {food: fill}";
  const RoundTrip trip(text.plan(), 1, 0);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(12)});
  EXPECT_NEAR(total_km(schedule.segments), 800, 1e-9);
  EXPECT_NEAR(arrives_h(schedule), 12 + 4, 1e-9);
  EXPECT_EQ(engine::place_at(schedule.days.back().to), 0);
}

TEST(Turn, TwiceIsGoingOnAfterAll) {
  plan::Plan plan = hilly_leg().plan();
  const auto out = std::get<plan::Drive>(plan.itinerary[1]);
  plan.itinerary.emplace_back(the_other_way(out, 0));
  plan.itinerary.emplace_back(out);
  const engine::Schedule schedule =
      engine::lay_out(plan, {{.at_h = 12, .go_on_with = 3}, {.at_h = 13.5, .go_on_with = 4}});
  double back_km = 0;
  for (const Segment& segment : schedule.segments) {
    if (segment.drive == 3) back_km += segment.distance_km;
  }
  EXPECT_GT(back_km, 50);
  EXPECT_NEAR(total_km(schedule.segments), 600 + 2 * back_km, 1e-9);
  EXPECT_EQ(engine::place_at(schedule.days.back().to), 1);
}

/// The drive under way, with whence, at a moment of a plan that is driven as it stands.
struct UnderWay {
  std::size_t item = 0;
  int origin = 0;
  double at_h = 0;
};

std::optional<UnderWay> any_way(const engine::Schedule& schedule, const support::Pick& pick) {
  std::vector<Segment> drives;
  std::ranges::copy_if(schedule.segments, std::back_inserter(drives),
                       [](const Segment& segment) { return segment.drive >= 0; });
  if (drives.empty()) return std::nullopt;
  const Segment& on =
      drives[static_cast<std::size_t>(pick(0, static_cast<int>(drives.size()) - 1))];
  const double share = pick(1, 9) / 10.0;
  return UnderWay{.item = static_cast<std::size_t>(on.drive),
                  .origin = on.end.from,
                  .at_h = begins_h(on) + share * (on.to_h - on.from_h)};
}

RC_GTEST_PROP(Turn, AnywhereOnAnyLegGoesBackAsFarAsItCame, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  const engine::Schedule planned = engine::lay_out(plan);
  const std::optional<UnderWay> way = any_way(planned, pick);
  RC_PRE(way.has_value());
  const RoundTrip trip(plan, way->item, way->origin);
  const engine::Schedule schedule = engine::lay_out(trip.plan, {trip.turn(way->at_h)});
  const auto item = static_cast<int>(way->item);
  double out_km = 0;
  double home_km = 0;
  double other_km = 0;
  for (const Segment& segment : schedule.segments) {
    double& km = segment.drive == item ? out_km : segment.drive == trip.back ? home_km : other_km;
    km += segment.distance_km;
    if (segment.drive > item) RC_ASSERT(segment.drive == trip.back);
    if (segment.resupply >= 0) RC_ASSERT(segment.resupply < item);
  }
  RC_ASSERT(std::abs(out_km - home_km) <= 1e-6);
  RC_ASSERT(std::abs(driven_by_km(planned, way->at_h) - out_km - other_km) <= 1e-6);
  RC_ASSERT(engine::place_at(schedule.days.back().to) == way->origin);
}

}  // namespace
}  // namespace drystage
