// Trips as they are run: the engine, as it runs a plan.

#include "answers/odds/trip_runner.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <cmath>
#include <optional>

#include "answers/mishaps/mishaps.h"
#include "answers/mishaps/sweep_plan.h"
#include "support/laid_out.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace trip_runner_test {
namespace {

using plan::Source;
using support::PlanText;
using support::Trip;

PlanRun run(const plan::Plan& plan) {
  return run_plan(plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(plan)));
}

/// The same outcome, read off the record of a plan's own run.
TripOutcome outcome_of(const PlanRun& planned) {
  TripOutcome out;
  out.days = static_cast<int>(planned.record.days());
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    TripOutcome::OfReserve& of = out.reserves.emplace_back();
    for (std::size_t d = 0; d < planned.record.days(); ++d) {
      const engine::ReserveDay& row = planned.record.reserve(d, r);
      of.lowest.push_back(row.judged ? row.lowest : std::numeric_limits<double>::quiet_NaN());
      if (!row.judged) continue;
      of.slack = std::min(of.slack, row.slack);
      of.short_of += row.short_of;
      if (of.breach_day < 0 && row.breach_h >= 0) of.breach_day = static_cast<int>(d);
      if (of.dry_day < 0 && row.short_of > 0) of.dry_day = static_cast<int>(d);
    }
  }
  return out;
}

void expect_same(const TripOutcome& is, const TripOutcome& should, double within) {
  ASSERT_EQ(is.reserves.size(), should.reserves.size());
  for (std::size_t r = 0; r < is.reserves.size(); ++r) {
    ASSERT_EQ(is.reserves[r].lowest.size(), should.reserves[r].lowest.size());
    for (std::size_t d = 0; d < is.reserves[r].lowest.size(); ++d) {
      const double a = is.reserves[r].lowest[d];
      const double b = should.reserves[r].lowest[d];
      ASSERT_EQ(std::isnan(a), std::isnan(b)) << r << ", day " << d;
      if (!std::isnan(a)) EXPECT_NEAR(a, b, within) << r << ", day " << d;
    }
    EXPECT_NEAR(is.reserves[r].short_of, should.reserves[r].short_of, within);
    EXPECT_EQ(is.reserves[r].breach_day, should.reserves[r].breach_day) << r;
    EXPECT_EQ(is.reserves[r].dry_day, should.reserves[r].dry_day) << r;
  }
}

TEST(TripRunner, WithNothingDrawnRunsThePlan) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    const PlanRun planned = run(plan);
    const TripGround ground(planned);
    TripRunner runner(ground);
    // Also after a trip in other weather.
    runner.run({.weather = {.season_k = 4, .sun = {1, -1, 0}}, .batteries = 0.8});
    const TripOutcome& outcome = runner.run({});
    expect_same(outcome, outcome_of(planned), 0);
    for (std::size_t r = 0; r < outcome.reserves.size(); ++r) {
      EXPECT_EQ(outcome.reserves[r].slack, planned.verdict.reserves[r].slack);
    }
  }
}

/// A trip written out as a plan: what was drawn of weather, people and uses, in the plan's own
/// words. All is in one climate.
plan::Plan written_out(const plan::Plan& plan, const TripDraw& draw, const PlanRun& planned) {
  plan::Plan out = plan;
  std::vector<engine::DrawnSky> skies;
  engine::Skies(plan, *planned.course.timeline).draw(draw.weather, skies);
  const auto& calendar = *planned.course.timeline;
  for (std::size_t day = 0; day < calendar.days.size(); ++day) {
    const auto place =
        std::ranges::find(calendar.place_days, static_cast<int>(day), &engine::PlaceDay::day);
    const engine::DrawnSky& sky =
        skies[static_cast<std::size_t>(place - calendar.place_days.begin())];
    plan::NamedDays named;
    named.from = named.to = plan.trip.start + boost::gregorian::days(static_cast<long>(day));
    named.warmer_k = sky.warmer_k;
    const auto month = static_cast<std::size_t>(named.from.month().as_number() - 1);
    const auto& climate = plan.climates[static_cast<std::size_t>(place->climate)];
    if (sky.sun_share) named.sun_kwh_m2 = climate.months.at(month)->sun_kwh_m2 * *sky.sun_share;
    out.weather.push_back(named);
  }
  for (plan::Activity& activity : out.activities) {
    activity = engine::at_work(activity, draw.weather.work);
  }
  for (plan::Load& load : out.power.loads) {
    load.draw_w *= draw.factors.loads;
    load.energy_wh_day *= draw.factors.loads;
  }
  for (std::size_t i = 0; i < out.water.containers.size(); ++i) {
    for (std::size_t s = 0; s < draw.fills.size(); ++s) {
      const engine::StoreInfo& store = planned.course.stores[s];
      const bool is_it =
          store.family == engine::Family::drinking_water && store.index == static_cast<int>(i);
      if (!is_it) continue;
      out.water.containers[i].filled_l *= draw.fills[s];
      out.water.containers[i].holds_l *= draw.fills[s];
    }
  }
  for (std::size_t s = 0; s < draw.fills.size(); ++s) {
    const engine::StoreInfo& store = planned.course.stores[s];
    if (store.family != engine::Family::fuel) continue;
    plan::Tank& tank = out.vehicles[static_cast<std::size_t>(store.of)]
                           .tanks[static_cast<std::size_t>(store.index)];
    tank.filled_l *= draw.fills[s];
    tank.holds_l *= draw.fills[s];
  }
  for (plan::Bank& bank : out.power.banks) bank.capacity_ah *= draw.batteries;
  for (plan::UtilityUse& use : out.water.utility_uses) {
    use.volume_l *= draw.factors.utility_water;
  }
  return out;
}

TEST(TripRunner, RunsDrawnTripsAsPlansThatSayTheSame) {
  PlanText text;
  text.margins = {"drinking_water: 2 days", "utility_water: 5 L", "battery: 40 %"};
  text.climate = {
      "desert: {mar: {max: 38 °C, min: 20 °C, humidity: 20 %, sun: 6.4 kWh/m2/day, spread: 3 °C}}"};
  text.places = {PlanText::place("Base", "desert"), PlanText::place("There", "desert")};
  // Who works longer drinks more here, and eats what is planned.
  text.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female, observed: {meals: 3}}",
      "{name: Bo, mass: 80 kg, height: 182 cm, age: 50, sex: male, observed: {meals: 3}}"};
  text.activities = {"camp: {low: 5 h, moderate: 1 h}"};
  text.containers = {"{name: can, holds: 60 L, filled: 55 L, for: drinking}",
                     "{name: tank, holds: 60 L, filled: 60 L, for: utility}"};
  text.utility_use = {"dishes: 4 L/day"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 5 °C, rated: {draw: 16 W, ambient: 32 °C, inside: 5 "
      "°C}}"};
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 95 %}"};
  text.charging = {"{name: panel, solar: 90 W}"};
  text.loads = {"{name: radio, energy: 120 Wh/day}"};
  text.itinerary = {"{at: Base}", "drive: {to: There, distance: 150 km, surfaces: {track: 150 km}}",
                    "stay: {nights: 6}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 80 L}]}"};
  // What a plan cannot say stands as planned: people's and days' factors, and what happens.
  text.uncertainty = {
      "leave_out: [drinking, meals, fuel, distance, headwind, cabinets, lids, panels, spoilage, "
      "delays, supplies, containers, compressors, chargers, punctures, illness]"};
  const plan::Plan plan = text.plan();
  const PlanRun planned = run(plan);
  const TripGround ground(planned);
  const TripDraws draws(planned, 3);
  TripRunner runner(ground);
  for (std::uint64_t trip = 0; trip < 1000; ++trip) {
    SCOPED_TRACE(trip);
    const TripDraw draw = draws.draw(trip);
    const PlanRun as_plan = run(written_out(plan, draw, planned));
    expect_same(runner.run(draw), outcome_of(as_plan), 1e-6);
  }
}

PlanText there_and_back() {
  PlanText text;
  text.margins = {"drinking_water: 1 day"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  text.places.push_back(PlanText::place("There", "air"));
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 80 L}]}"};
  text.itinerary = {
      "{at: Base}", "drive: {to: There, distance: 100 km, surfaces: {sealed: 100 km}}",
      "stay: {nights: 4}", "drive: {to: Base, distance: 100 km, surfaces: {sealed: 100 km}}"};
  return text;
}

/// The event that a mishap is, on the day of a step; nothing where trips have no such event.
std::optional<TripEvent> event_of(const Mishap& mishap, int day) {
  TripEvent event{.day = day};
  if (mishap.failure.kind == plan::MishapKind::container && !mishap.damage.containers.empty()) {
    event.source = Source::containers;
    event.subject = mishap.damage.containers.front();
  } else if (mishap.failure.kind == plan::MishapKind::container && !mishap.damage.tanks.empty()) {
    event.source = Source::containers;
    event.subject = mishap.damage.tanks.front().vehicle;
    event.item = mishap.damage.tanks.front().tank;
  } else if (mishap.failure.kind == plan::MishapKind::compressor) {
    event.source = Source::compressors;
    event.subject = mishap.damage.cabinets.front();
  } else if (mishap.failure.kind == plan::MishapKind::charger) {
    event.source = Source::chargers;
    event.subject = mishap.damage.chargers.front();
  } else {
    return std::nullopt;
  }
  return event;
}

/// One event comes to the same as the mishap of that name, at that moment.
TEST(TripRunner, LetsHappenWhatMishapsDo) {
  PlanText text = there_and_back();
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: other, holds: 30 L, filled: 30 L, for: drinking}"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 5 °C, rated: {draw: 12 W, ambient: 32 °C, inside: "
      "5 °C}}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah, filled: 70 %}"};
  text.charging = {"{name: DC-DC, current: 10 A, while: driving}"};
  text.food = {"{item: stores, kept: dry, meals: 5000}",
               "{item: meat, kept: chilled, in: chest, mass: 2 kg, meals: 4}"};
  const PlanRun planned = run(text.plan());
  const SweepPlan sweep(planned, {});
  ASSERT_EQ(sweep.laid().timeline->steps.size(), planned.course.timeline->steps.size());
  const TripGround ground(planned);
  TripRunner runner(ground);
  int compared = 0;
  int broken = 0;
  for (const Strike& strike : sweep.strikes()) {
    const Mishap& mishap = sweep.mishaps()[strike.mishap];
    const auto event = event_of(mishap, sweep.laid().timeline->steps[strike.step].day);
    if (!event) continue;
    SCOPED_TRACE(mishap.failure.name + ", day " + std::to_string(event->day));
    const Finding finding = sweep.finding(strike);
    const TripOutcome& outcome = runner.run({.events = {*event}});
    ++compared;
    if (finding.reserve < 0) continue;
    const auto& of = outcome.reserves[static_cast<std::size_t>(finding.reserve)];
    EXPECT_NEAR(of.short_of, finding.short_of, 1e-9);
    EXPECT_EQ(of.dry_day, finding.dry_day);
    EXPECT_NEAR(of.slack, finding.slack, 1e-9);
    ++broken;
  }
  EXPECT_GT(compared, 20);
  EXPECT_GT(broken, 5);
}

TEST(TripRunner, AHaltPutsOffAllThatComesAfter) {
  const PlanRun planned = run(there_and_back().plan());
  const TripGround ground(planned);
  TripRunner runner(ground);
  const auto days = static_cast<int>(planned.record.days());
  const TripOutcome planned_outcome = runner.run({});
  const TripOutcome halted =
      runner.run({.events = {{.source = Source::delays, .day = 2, .halt_h = 48}}});
  EXPECT_EQ(halted.days, days + 2);
  // Ada drinks her 4 L on the two days as well.
  EXPECT_NEAR(halted.reserves[0].slack, planned_outcome.reserves[0].slack - 8, 1e-9);
  // Who has not set out, or has arrived, can wait.
  EXPECT_EQ(runner.run({.events = {{.source = Source::delays, .day = 0, .halt_h = 48}}}).days,
            days);
  EXPECT_EQ(runner.run({.events = {{.source = Source::delays, .day = 40, .halt_h = 48}}}).days,
            days);
  // Two halts, in whatever order they are told.
  const TripEvent first{.source = Source::delays, .day = 1, .halt_h = 24};
  const TripEvent second{.source = Source::illness, .day = 3, .halt_h = 24};
  EXPECT_EQ(runner.run({.events = {second, first}}).days, days + 2);
}

TEST(TripRunner, ALostCanIsLostWithWhatWasInIt) {
  const PlanRun planned = run(there_and_back().plan());
  const TripGround ground(planned);
  TripRunner runner(ground);
  const TripOutcome lost =
      runner.run({.events = {{.source = Source::containers, .day = 3, .subject = 0}}});
  EXPECT_EQ(lost.reserves[0].dry_day, 3);
  EXPECT_NEAR(lost.reserves[0].short_of, 4.0 * (lost.days - 3), 1e-6);
  EXPECT_NEAR(lost.reserves[0].lowest[2], 60 - 12, 1e-9);
}

TEST(TripRunner, FillsAreWhatCountsAsFull) {
  PlanText text = there_and_back();
  text.places[1] = PlanText::place("There", "air", "drinking_water: {}");
  text.itinerary.insert(text.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const PlanRun planned = run(text.plan());
  const TripGround ground(planned);
  TripRunner runner(ground);
  TripDraw draw;
  draw.fills.assign(planned.course.stores.size(), 1);
  draw.fills[static_cast<std::size_t>(support::store_index(planned.course, "can"))] = 0.9;
  const TripOutcome& less = runner.run(draw);
  // Full is 54 L, at the outset and once more at the stop, on day 1.
  const TripOutcome planned_outcome = outcome_of(planned);
  for (std::size_t day = 1; day < less.reserves[0].lowest.size(); ++day) {
    EXPECT_NEAR(less.reserves[0].lowest[day], planned_outcome.reserves[0].lowest[day] - 6, 1e-9);
  }
}

TEST(TripRunner, AMissingSupplyGivesNothing) {
  PlanText text = there_and_back();
  text.places[1] = PlanText::place("There", "air", "drinking_water: {}");
  text.itinerary.insert(text.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const PlanRun planned = run(text.plan());
  const TripGround ground(planned);
  TripRunner runner(ground);
  const double with = runner.run({}).reserves[0].lowest.back();
  const double without =
      runner.run({.missing = {{.place = 1, .supply = 0}}}).reserves[0].lowest.back();
  const double again = runner.run({}).reserves[0].lowest.back();
  EXPECT_LT(without, with);
  EXPECT_NEAR(without, 60 - 4.0 * static_cast<double>(planned.record.days()), 1e-9);
  EXPECT_EQ(again, with);
}

/// Nothing is created or lost where a trip is cut by what happens.
TEST(TripRunner, ReplaysATripWhole) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    const PlanRun planned = run(plan);
    const TripGround ground(planned);
    const TripDraws draws(planned, 1);
    TripRunner runner(ground);
    for (std::uint64_t trip = 0; trip < 12; ++trip) {
      SCOPED_TRACE(plan.trip.title + ", trip " + std::to_string(trip));
      const TripDraw draw = draws.draw(trip);
      const TripOutcome outcome = runner.run(draw);
      const TripRunner::Replay replay = runner.replay(draw);
      const engine::Course& course = *replay.laid.course;
      ASSERT_EQ(static_cast<int>(replay.record.days()), outcome.days);
      for (std::size_t d = 0; d < replay.record.days(); ++d) {
        for (std::size_t s = 0; s < course.stores.size(); ++s) {
          const engine::StoreDay& row = replay.record.store(d, s);
          EXPECT_NEAR(row.start + row.gained - row.used - row.lost, row.end,
                      1e-9 * std::max(1.0, course.stores[s].capacity))
              << course.stores[s].name << ", day " << d;
          if (d > 0) {
            EXPECT_NEAR(row.start, replay.record.store(d - 1, s).end,
                        1e-9 * std::max(1.0, course.stores[s].capacity));
          }
        }
        for (std::size_t r = 0; r < course.reserves.size(); ++r) {
          const double lowest = outcome.reserves[r].lowest[d];
          if (!std::isnan(lowest)) EXPECT_EQ(replay.record.reserve(d, r).lowest, lowest);
        }
      }
      const Verdict found = verdict(course, replay.record);
      const bool breaks =
          std::ranges::any_of(outcome.reserves, [](const auto& of) { return of.breach_day >= 0; });
      EXPECT_EQ(found.reserves_hold() || std::ranges::none_of(found.breaches,
                                                              [](const Breach& b) {
                                                                return b.reserve >= 0 && b.load < 0;
                                                              }),
                !breaks);
    }
  }
}

TEST(TripRunner, DoesNotDependOnTheTripsBefore) {
  const PlanRun planned = run(support::all_scenarios()[1]);
  const TripGround ground(planned);
  const TripDraws draws(planned, 9);
  TripRunner one(ground);
  std::vector<TripOutcome> forward;
  for (std::uint64_t trip = 0; trip < 80; ++trip) forward.push_back(one.run(draws.draw(trip)));
  TripRunner other(ground);
  for (std::uint64_t trip = 80; trip-- > 0;) {
    const TripOutcome& again = other.run(draws.draw(trip));
    for (std::size_t r = 0; r < again.reserves.size(); ++r) {
      ASSERT_EQ(again.reserves[r].slack, forward[trip].reserves[r].slack) << trip;
      ASSERT_EQ(again.reserves[r].breach_day, forward[trip].reserves[r].breach_day) << trip;
    }
  }
}

}  // namespace
}  // namespace trip_runner_test
}  // namespace drystage::answers
