// The ways on from each evening: by hand, where a closed form is known; against a plan without the
// stays, and against the last places to turn back, on every shipped scenario and on random plans.
#include "answers/onward/way_out.h"

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "answers/onward/turn_back.h"
#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/settled.h"
#include "support/tight.h"
#include "support/trip.h"

namespace drystage::answers::way_out_test {
namespace {

using engine::Engine;
using support::PlanText;
using support::travel;
using support::Trip;

// A least level is found to a tenth of a millilitre or its like, and never too low.
constexpr double fine = 1e-4;
constexpr double tiny = 1e-6;
constexpr double day_h = 24;
// Without a margin a millilitre must be left.
constexpr double all_but_dry = 1e-3;

double trip_h(const Moment& moment) { return day_h * moment.day + moment.hour; }

/// A trip and its answers.
struct Asked {
  Trip trip;
  Needs needs;
  WaysOutTable out;

  [[nodiscard]] WaysOut ways(std::size_t day, const std::string& reserve) const {
    const auto found =
        std::ranges::find(out.reserves, support::reserve_index(trip.course, reserve));
    return out.ways(day, static_cast<std::size_t>(found - out.reserves.begin()));
  }
  [[nodiscard]] WaysOut water(std::size_t day) const { return ways(day, "drinking_water"); }
  [[nodiscard]] double has(std::size_t day, int reserve) const {
    const auto found = std::ranges::find(needs.reserves, reserve);
    return needs.need(day, static_cast<std::size_t>(found - needs.reserves.begin())).has;
  }
};

Asked ask(const plan::Plan& plan) {
  Asked out{.trip = travel(plan), .needs = {}, .out = {}};
  out.needs = morning_needs(out.trip);
  out.out = ways_out(out.trip, out.needs);
  return out;
}
Asked ask(const PlanText& text) { return ask(text.plan()); }

void expect_level(double level, double expected) {
  EXPECT_GE(level, expected - tiny);
  EXPECT_LE(level, expected + fine + tiny);
}

/// One who drinks 1 L an hour: on a Monday two hours to Half, three nights there, and on Thursday
/// three hours to Well. Fuel by the kilometre, 10 L/100km.
PlanText at_half(const std::string& well = "drinking_water: {}, diesel: {}",
                 const std::string& back = "") {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.containers = {"{name: can, holds: 200 L, filled: 150 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}, diesel: {}"),
                 PlanText::place("Half", "air"), PlanText::place("Well", "air", well)};
  plan.itinerary = {
      "{at: Base}",
      "drive: {to: Half, distance: 100 km, surfaces: sealed, speed: 50 km/h" + back + "}",
      "stay: {nights: 3}", "drive: {to: Well, distance: 150 km, surfaces: sealed, speed: 50 km/h}"};
  return plan;
}

TEST(WaysOut, OfConstantUseAreTheHoursToEachSupply) {
  const Asked asked = ask(at_half());
  for (std::size_t day = 1; day <= 3; ++day) {
    SCOPED_TRACE(day);
    const WaysOut water = asked.water(day);
    expect_level(water.as_planned.least, 24.0 * (3.0 - static_cast<double>(day)) + 11);
    // From midnight to eight, and three hours on or two back.
    expect_level(water.at_once.least, 8 + 3);
    EXPECT_EQ(water.at_once.place, 2);
    EXPECT_EQ(water.at_once.day, static_cast<int>(day));
    EXPECT_NEAR(water.at_once.km, 150, tiny);
    ASSERT_TRUE(water.back);
    expect_level(water.back->least, 8 + 2);
    EXPECT_EQ(water.back->place, 0);
    EXPECT_EQ(water.back->day, static_cast<int>(day));
    EXPECT_NEAR(water.back->km, 100, tiny);
    EXPECT_FALSE(water.back->own_road);
    const WaysOut fuel = asked.ways(day, "fuel:truck");
    expect_level(fuel.as_planned.least, 15);
    expect_level(fuel.at_once.least, 15);
    ASSERT_TRUE(fuel.back);
    expect_level(fuel.back->least, 10);
  }
}

TEST(WaysOut, HoldTheMarginAndTellWhatItTakesWithoutIt) {
  PlanText plan = at_half();
  plan.margins = {"drinking_water: 2 days", "fuel: 50 km"};
  const Asked asked = ask(plan);
  const WaysOut water = asked.water(1);
  expect_level(water.at_once.least, 11 + 48);
  expect_level(water.at_once.bare, 11 + all_but_dry);
  expect_level(water.back->least, 10 + 48);
  expect_level(water.back->bare, 10 + all_but_dry);
  const WaysOut fuel = asked.ways(1, "fuel:truck");
  expect_level(fuel.at_once.least, 20);
  expect_level(fuel.at_once.bare, 15 + all_but_dry);
  expect_level(fuel.back->least, 15);
  expect_level(fuel.back->bare, 10 + all_but_dry);
  // On the last morning no stay is left: on at once is as planned.
  expect_level(asked.water(3).at_once.least, 11 + 48);
  expect_level(asked.water(3).at_once.bare, 11 + all_but_dry);
}

TEST(WaysOut, AreAskedOfWhatLifeHangsOnAlone) {
  const Asked asked = ask(at_half());
  ASSERT_EQ(asked.out.reserves.size(), 2U);
  for (const int reserve : asked.out.reserves) {
    EXPECT_TRUE(asked.trip.course.reserves[static_cast<std::size_t>(reserve)].life_supporting);
  }
}

TEST(WaysOut, BeforeSettingOutStandAtTheSupply) {
  const WaysOut first = ask(at_half()).water(0);
  expect_level(first.as_planned.least, 3 * 24 + 11);
  // Both drives on the first day.
  expect_level(first.at_once.least, 8 + 2 + 3);
  EXPECT_NEAR(first.at_once.km, 250, tiny);
  // It is there again at eight.
  ASSERT_TRUE(first.back);
  expect_level(first.back->least, 8);
  EXPECT_NEAR(first.back->km, 0, tiny);
}

TEST(WaysOut, WaitOnArrivalForASupplyThatIsShut) {
  const Asked asked = ask(at_half("drinking_water: {open: [thu]}"));
  // On Tuesday morning: two days, and until eight on Thursday; three hours less than as planned.
  expect_level(asked.water(1).at_once.least, 48 + 8);
  EXPECT_EQ(asked.water(1).at_once.day, 3);
  expect_level(asked.water(1).as_planned.least, 48 + 11);
  expect_level(asked.water(3).at_once.least, 11);
}

TEST(WaysOut, LeaveOutTheStayUnderWayAndThoseAhead) {
  PlanText plan = at_half();
  plan.places.push_back(PlanText::place("Hut", "air"));
  plan.itinerary.insert(
      plan.itinerary.begin() + 3,
      {"drive: {to: Hut, distance: 50 km, surfaces: sealed, speed: 50 km/h}", "stay: {nights: 2}"});
  const Asked asked = ask(plan);
  expect_level(asked.water(2).at_once.least, 8 + 1 + 3);
  expect_level(asked.water(4).at_once.least, 8 + 3);
  expect_level(asked.water(2).as_planned.least, 24 + 48 + 11);
}

TEST(WaysOut, TakeWhatALimitedSupplyOnTheWayGives) {
  PlanText plan = at_half();
  plan.places.push_back(PlanText::place("Soak", "air", "drinking_water: {most: 2 L}"));
  plan.itinerary.insert(plan.itinerary.begin() + 3,
                        {"drive: {to: Soak, distance: 50 km, surfaces: sealed, speed: 50 km/h}",
                         "resupply: {drinking_water: 1 L}"});
  const Asked asked = ask(plan);
  // 8 hours, one to Soak, three on.
  expect_level(asked.water(1).at_once.least, 12 - 2);
}

TEST(WaysOut, CountOnNothingThatNobodyHasConfirmed) {
  PlanText plan = at_half("drinking_water: {confirmed: no}");
  const WaysOut ahead = ask(plan).water(1);
  EXPECT_EQ(ahead.at_once.place, -1);
  // The trip without stays ends with the day on which Well is reached.
  expect_level(ahead.at_once.least, 24);
  plan = at_half();
  plan.places[0] = PlanText::place("Base", "air", "drinking_water: {confirmed: no}");
  EXPECT_FALSE(ask(plan).water(1).back);
}

TEST(WaysOut, GoBackByTheRoadThatIsGiven) {
  const WaysOut water = ask(at_half("drinking_water: {}",
                                    ", back: {distance: 200 km, surfaces: sealed, speed: 50 km/h}"))
                            .water(1);
  ASSERT_TRUE(water.back);
  expect_level(water.back->least, 8 + 4);
  EXPECT_NEAR(water.back->km, 200, tiny);
  EXPECT_TRUE(water.back->own_road);
}

TEST(WaysOut, AreEndlessWhereTheSupplyBehindStaysShut) {
  PlanText plan = at_half();
  plan.places[0] = PlanText::place("Base", "air",
                                   "drinking_water: {shut: [{from: 2027-03-02, to: 2027-04-30}]}");
  const WaysOut water = ask(plan).water(1);
  ASSERT_TRUE(water.back);
  EXPECT_TRUE(std::isinf(water.back->least));
  EXPECT_FALSE(water.back->fits);
  EXPECT_EQ(water.back->place, 0);
}

TEST(WaysOut, TellWhatCannotBeHeld) {
  PlanText plan = at_half();
  plan.margins = {"fuel: 68 L"};
  const WaysOut fuel = ask(plan).ways(1, "fuel:truck");
  expect_level(fuel.back->least, 78);
  EXPECT_TRUE(fuel.back->fits);
  expect_level(fuel.at_once.least, 83);
  EXPECT_FALSE(fuel.at_once.fits);
}

// With 48 L on the fourth evening the town ahead is reached, with the margin used up; the way back
// runs dry. As planned nothing of that is to be seen: turning back is said to be possible then.
TEST(WaysOut, OfTheSaltLakesLeadOnFromTheFourthEvening) {
  const std::vector<plan::Plan> shipped = support::all_scenarios();
  const auto lakes = std::ranges::find(shipped, "Salt lake cores, Port Ellery to Wenlow",
                                       [](const plan::Plan& plan) { return plan.trip.title; });
  ASSERT_NE(lakes, shipped.end());
  const Asked asked = ask(*lakes);
  const WaysOut fuel = asked.ways(4, "fuel:truck");
  constexpr double found_l = 48;
  EXPECT_EQ(std::ceil(fuel.as_planned.least), 58);
  ASSERT_TRUE(fuel.back);
  EXPECT_GT(fuel.back->least, fuel.at_once.least);
  EXPECT_GT(fuel.at_once.least, found_l);
  EXPECT_GT(fuel.back->bare, found_l);
  EXPECT_NEAR(found_l - fuel.at_once.bare, 6, 1);
  EXPECT_NEAR(fuel.at_once.km, 250, tiny);
  EXPECT_NEAR(fuel.back->km, 385, tiny);
  // The plan's own fuel does last back.
  EXPECT_LE(fuel.back->least,
            asked.has(4, support::reserve_index(asked.trip.course, "fuel:truck")));
}

// --- against other ways of finding it ---

/// The plan without the stays that are left on a morning.
plan::Plan stays_left_out(const Trip& trip, std::size_t day) {
  plan::Plan plan = trip.plan;
  std::vector<plan::ItineraryItem> items;
  for (const plan::ItineraryItem& item : plan.itinerary) {
    items.push_back(item);
    auto* stay = std::get_if<plan::Stay>(&items.back());
    if (stay == nullptr) continue;
    // As many nights as are over by that morning.
    const int nights = stay->nights;
    for (stay->nights = 0; stay->nights < nights; ++stay->nights) {
      plan::Plan until = plan;
      until.itinerary = items;
      std::get<plan::Stay>(until.itinerary.back()).nights += 1;
      if (engine::lay_timeline(until).days.size() > day) break;
    }
  }
  plan.itinerary = items;
  return plan;
}

/// Least slack of a reserve on a trip of its own, from a morning to where it is topped up.
double own_slack(const Trip& own, std::size_t day, int reserve, double level, int place) {
  engine::Record record = engine::blank_record(own.course);
  Engine::Standing standing = Engine::begin(own.course, record);
  const auto& timeline = *own.course.timeline;
  Engine::go_on(own.course, standing, morning_step(timeline, static_cast<int>(day)));
  const auto& info = own.course.reserves[static_cast<std::size_t>(reserve)];
  const std::size_t until = support::supplied_at(own.plan, timeline, standing.next, info);
  EXPECT_TRUE(until == timeline.steps.size() || place >= 0);
  engine::Record after = engine::blank_record(own.course);
  Engine::Standing now = Engine::resume(standing, own.course, standing.next, after);
  Engine::set_level(own.course, now, reserve, level);
  return support::go_on_watching(own.course, now, after, until, reserve).slack;
}

plan::Supply sure(plan::Commodity commodity) {
  plan::Supply out;
  out.commodity = commodity;
  return out;
}

TEST(WaysOut, OnAtOnceAreThoseOfAPlanWithoutTheStays) {
  int compared = 0;
  // What meals weigh depends on the length of the trip.
  constexpr double near = 0.05;
  for (const plan::Plan& shipped : support::all_scenarios()) {
    plan::Plan plan = support::settled(shipped);
    for (plan::Place& place : plan.places) {
      for (plan::Supply& supply : place.supplies) supply = sure(supply.commodity);
    }
    SCOPED_TRACE(plan.trip.title);
    const Asked asked = ask(plan);
    for (std::size_t day = 0; day < asked.trip.days(); day += 2) {
      const Trip own = travel(stays_left_out(asked.trip, day));
      if (own.days() <= day) continue;
      for (std::size_t i = 0; i < asked.out.reserves.size(); ++i) {
        const WayOut& way = asked.out.ways(day, i).at_once;
        // At a supply nobody sets out for one.
        if (way.place < 0 || way.km == 0 || !std::isfinite(way.least)) continue;
        const auto& timeline = *asked.trip.course.timeline;
        const std::size_t morning = morning_step(timeline, static_cast<int>(day));
        const auto& there =
            asked.trip.course.presences[static_cast<std::size_t>(timeline.steps[morning].company)];
        if (there.reserves[static_cast<std::size_t>(asked.out.reserves[i])] == 0) continue;
        SCOPED_TRACE(fmt::format("day {}, reserve {}", day + 1, asked.out.reserves[i]));
        const int reserve = asked.out.reserves[i];
        EXPECT_NEAR(own_slack(own, day, reserve, way.least, way.place), 0, near);
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, 40);
}

/// Whether the last places to turn back say that it is possible; nothing where they do not say.
std::optional<bool> possible(const TurnBack& answer, int reserve, double at_h) {
  for (const SupplyStretch& stretch : answer.stretches) {
    if (stretch.reserve != reserve) continue;
    if (at_h < trip_h(stretch.leaves) - tiny || at_h > trip_h(stretch.arrives) - tiny) continue;
    if (stretch.always) return true;
    if (stretch.last && at_h <= trip_h(*stretch.last) + tiny) return true;
    if (!stretch.again || at_h < trip_h(*stretch.again) - tiny) return false;
    if (at_h < trip_h(*stretch.again) + tiny) return true;
  }
  return std::nullopt;
}

/// Compares what lasts back with what the last places to turn back say; answers how often.
int agreements(const Asked& asked, std::vector<std::string>& faults) {
  int count = 0;
  const TurnBack answer = turn_back_points(asked.trip);
  for (std::size_t day = 0; day < asked.trip.days(); ++day) {
    const engine::Timeline& timeline = *asked.trip.course.timeline;
    const std::size_t step = morning_step(timeline, static_cast<int>(day));
    const double at_h = day_h * static_cast<double>(day) + timeline.steps[step].from_h;
    for (std::size_t i = 0; i < asked.out.reserves.size(); ++i) {
      const int reserve = asked.out.reserves[i];
      const auto says = possible(answer, reserve, at_h);
      const auto& back = asked.out.ways(day, i).back;
      if (!says || !asked.out.ways(day, i).judged) continue;
      const double has = asked.has(day, reserve);
      if (back && std::abs(back->least - has) < 2 * fine) continue;
      ++count;
      if (back && (back->least <= has) == *says) continue;
      faults.push_back(fmt::format("day {} reserve {} has {} back {}", day + 1, reserve, has,
                                   back ? back->least : -1));
    }
  }
  return count;
}

/// Every supply that is there at all is there for sure.
plan::Plan all_confirmed(plan::Plan plan) {
  for (plan::Place& place : plan.places) {
    for (plan::Supply& supply : place.supplies) supply.confirmed = true;
  }
  return plan;
}

TEST(WaysOut, LeadBackWhereTurningBackIsPossible) {
  int count = 0;
  for (const plan::Plan& shipped : support::all_scenarios()) {
    const plan::Plan plan = all_confirmed(shipped);
    SCOPED_TRACE(plan.trip.title);
    std::vector<std::string> faults;
    count += agreements(ask(plan), faults);
    EXPECT_EQ(faults, std::vector<std::string>{});
  }
  EXPECT_GT(count, 60);
}

RC_GTEST_PROP(WaysOutProperty, LeadBackWhereTurningBackIsPossible, ()) {
  PlanText text = support::random_plan(support::rapidcheck_pick());
  constexpr std::size_t most_items = 4;
  if (text.itinerary.size() > most_items) text.itinerary.resize(most_items);
  if (*rc::gen::arbitrary<bool>()) text.roads = support::random_roads(support::rapidcheck_pick());
  std::vector<std::string> faults;
  agreements(ask(all_confirmed(text.plan())), faults);
  RC_ASSERT(faults == std::vector<std::string>{});
}

RC_GTEST_PROP(WaysOutProperty, BackKeepTheMarginWithTheLeastAndNotWithLess, ()) {
  PlanText text = support::random_plan(support::rapidcheck_pick());
  constexpr std::size_t most_items = 5;
  if (text.itinerary.size() > most_items) text.itinerary.resize(most_items);
  if (*rc::gen::arbitrary<bool>()) text.roads = support::random_roads(support::rapidcheck_pick());
  const Asked asked = ask(text);
  const LaidTrip planned = laid_trip_of(asked.trip);
  const LaidTrip certain = laid_trip_on_what_is_certain(asked.trip);
  engine::Record record = engine::blank_record(*planned.course);
  Engine::Standing standing = Engine::begin(*planned.course, record);
  engine::Record scratch;
  for (std::size_t day = 0; day < asked.trip.days(); ++day) {
    Engine::go_on(*planned.course, standing,
                  morning_step(*planned.timeline, static_cast<int>(day)));
    for (std::size_t i = 0; i < asked.out.reserves.size(); ++i) {
      const int reserve = asked.out.reserves[i];
      const auto& info = asked.trip.course.reserves[static_cast<std::size_t>(reserve)];
      const auto& ways = asked.out.ways(day, i);
      RC_ASSERT(ways.at_once.least >= 0 && ways.at_once.bare <= ways.at_once.least);
      if (!ways.back || !std::isfinite(ways.back->least) || info.capacity <= 0) continue;
      RC_ASSERT(ways.back->bare <= ways.back->least);
      int to_leg = -1;
      for (const Passed& passed : passed_refuges(certain, reserve)) {
        if (passed.refuge.step <= standing.next) to_leg = passed.to_leg;
      }
      const LaidTrip way = retreat(certain,
                                   {.step = standing.next,
                                    .hour = planned.timeline->steps[standing.next].from_h,
                                    .to_leg = to_leg},
                                   {reserve});
      const auto refuge = next_refuge(way, standing.next, reserve);
      RC_ASSERT(refuge.has_value());
      RC_ASSERT(refuge->place == ways.back->place);
      const Stint stint{.course = *way.course,
                        .start = standing,
                        .from = standing.next,
                        .until = refuge->step,
                        .reserve = reserve};
      RC_ASSERT(slack_over(stint, ways.back->least, scratch) > -tiny);
      // Without a margin utility water is drunk, and nothing is short.
      const bool margin = info.margin.fixed > 0 || info.margin.days > 0 || info.margin.km > 0;
      if (margin && ways.back->least > 1) {
        RC_LOG() << info.name << " day " << day + 1 << " back " << ways.back->least << "\n";
        RC_ASSERT(slack_over(stint, ways.back->least - 0.01, scratch) < 0);
      }
    }
  }
}

}  // namespace
}  // namespace drystage::answers::way_out_test
