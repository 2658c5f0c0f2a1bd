// Roads that the itinerary does not take, as ways back: by hand on a triangle of places, against
// every way that there is, and against the same road given as `back:` of a leg.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/onward/retreat.h"
#include "answers/onward/return_way.h"
#include "answers/onward/way_out.h"
#include "support/random_plan.h"
#include "support/trip.h"
#include "support/ways_home.h"

namespace drystage::answers::roads_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

// A least level is found to a tenth of a millilitre or its like, and never too low.
constexpr double fine = 1e-4;
constexpr double tiny = 1e-6;

using Lines = std::vector<std::string>;

/// One who drinks 1 L an hour, from eight on at 50 km/h: 100 km to Half, 150 km on to Far, a night
/// there, and back the same way. Water and fuel at Base alone. Sealed road takes 10 L/100km, gravel
/// 20 L/100km.
PlanText triangle(const Lines& roads = {}, const Lines& more_places = {}) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.containers = {"{name: can, holds: 200 L, filled: 150 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L}], observed: [{surface: sealed, uses: 10 L/100km}, {surface: gravel, uses: "
      "20 L/100km}]}"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}, diesel: {}"),
                 PlanText::place("Half", "air"), PlanText::place("Far", "air")};
  plan.places.insert(plan.places.end(), more_places.begin(), more_places.end());
  const auto leg = [](const char* to, int km) {
    return fmt::format("drive: {{to: {}, distance: {} km, surfaces: sealed, speed: 50 km/h}}", to,
                       km);
  };
  plan.itinerary = {"{at: Base}",        leg("Half", 100), leg("Far", 150),
                    "stay: {nights: 2}", leg("Half", 150), leg("Base", 100)};
  plan.roads = roads;
  return plan;
}

std::string road(const char* from, const char* to, int km, const std::string& surface = "sealed",
                 const std::string& more = "") {
  return fmt::format("{{from: {}, to: {}, distance: {} km, surfaces: {}, speed: 50 km/h{}}}", from,
                     to, km, surface, more);
}

struct Asked {
  Trip trip;
  WaysOutTable out;

  /// Turned back on a morning; for a reserve that life depends on.
  [[nodiscard]] WayOut back(std::size_t day, const std::string& reserve) const {
    const auto found =
        std::ranges::find(out.reserves, support::reserve_index(trip.course, reserve));
    return out.ways(day, static_cast<std::size_t>(found - out.reserves.begin())).back.value();
  }
};

Asked ask(const PlanText& text) {
  Asked out{.trip = travel(text), .out = {}};
  out.out = ways_out(out.trip, morning_needs(out.trip));
  return out;
}

/// What it takes back from Far on the second morning: km, litres of water and of fuel.
void expect_back(const PlanText& text, double km, double fuel_l, int place = 0) {
  const Asked asked = ask(text);
  const WayOut water = asked.back(1, "drinking_water");
  EXPECT_EQ(water.place, place);
  EXPECT_NEAR(water.km, km, tiny);
  // From midnight to eight, and the drive.
  EXPECT_NEAR(water.least, 8 + km / 50, fine);
  const WayOut fuel = asked.back(1, "fuel:truck");
  EXPECT_EQ(fuel.place, place);
  EXPECT_NEAR(fuel.km, km, tiny);
  EXPECT_NEAR(fuel.least, fuel_l, fine);
}

TEST(Roads, AreTheWayBackWhereTheyAreShorter) {
  expect_back(triangle(), 250, 25);
  expect_back(triangle({road("Far", "Base", 120)}), 120, 12);
  // By the figures of its surface, the other way round, and on from where it leads to.
  expect_back(triangle({road("Far", "Base", 120, "gravel")}), 120, 24);
  expect_back(triangle({road("Base", "Far", 120)}), 120, 12);
  expect_back(triangle({road("Half", "Base", 40)}), 190, 19);
  EXPECT_TRUE(ask(triangle({road("Far", "Base", 120)})).back(1, "drinking_water").own_road);
  EXPECT_FALSE(ask(triangle()).back(1, "drinking_water").own_road);
}

TEST(Roads, AreTheWayBackOneWayOnlyWhereThatIsSaid) {
  const std::string one_way = ", one_way: yes";
  expect_back(triangle({road("Far", "Base", 120, "sealed", one_way)}), 120, 12);
  expect_back(triangle({road("Base", "Far", 120, "sealed", one_way)}), 250, 25);
}

TEST(Roads, LeadOverPlacesThatTheTripNeverPasses) {
  const Lines pass{PlanText::place("Pass", "air")};
  expect_back(triangle({road("Far", "Pass", 30), road("Base", "Pass", 50, "gravel")}, pass), 80,
              13);
  // Of what is to be had there all is taken: it is an hour to Soak, and one from there on.
  const Lines soak{PlanText::place("Soak", "air", "drinking_water: {most: 3 L}")};
  const Lines over_soak{road("Far", "Soak", 50), road("Soak", "Base", 50)};
  const WayOut water = ask(triangle(over_soak, soak)).back(1, "drinking_water");
  EXPECT_NEAR(water.least, 8 + 1, fine);
  EXPECT_NEAR(water.km, 100, tiny);
  EXPECT_EQ(water.taking_at, std::vector<int>{3});
}

TEST(Roads, CountNothingWhereTheyAreLonger) {
  const PlanText plain = triangle();
  PlanText longer = plain;
  longer.roads = {road("Far", "Base", 300), road("Half", "Base", 101), road("Half", "Far", 160)};
  const Asked without = ask(plain);
  const Asked with = ask(longer);
  ASSERT_EQ(with.trip.days(), without.trip.days());
  for (std::size_t day = 0; day < with.trip.days(); ++day) {
    for (const char* reserve : {"drinking_water", "fuel:truck"}) {
      SCOPED_TRACE(fmt::format("{} day {}", reserve, day + 1));
      EXPECT_EQ(with.back(day, reserve).least, without.back(day, reserve).least);
      EXPECT_EQ(with.back(day, reserve).km, without.back(day, reserve).km);
      EXPECT_FALSE(with.back(day, reserve).own_road);
    }
  }
  const TurnBack a = turn_back_points(with.trip);
  const TurnBack b = turn_back_points(without.trip);
  ASSERT_EQ(a.windows.size(), b.windows.size());
  for (std::size_t w = 0; w < a.windows.size(); ++w) {
    EXPECT_EQ(a.windows[w].last.hour, b.windows[w].last.hour);
  }
}

TEST(Roads, CountInWhateverOrderTheyStand) {
  Lines roads{road("Far", "Base", 140, "gravel"), road("Far", "Base", 120),
              road("Half", "Base", 40), road("Base", "Far", 130)};
  std::ranges::sort(roads);
  do expect_back(triangle(roads), 120, 12);
  while (std::ranges::next_permutation(roads).found);
}

TEST(Roads, AreAsGoodAsTheSameRoadGivenAsTheWayBackOfALeg) {
  PlanText back = triangle();
  back.itinerary[2] =
      "drive: {to: Far, distance: 150 km, surfaces: sealed, speed: 50 km/h, back: {distance: 70 "
      "km, "
      "surfaces: gravel, speed: 50 km/h}}";
  const Asked by_leg = ask(back);
  const Asked by_road = ask(triangle({road("Far", "Half", 70, "gravel", ", one_way: yes")}));
  for (std::size_t day = 1; day <= 2; ++day) {
    for (const char* reserve : {"drinking_water", "fuel:truck"}) {
      const WayOut one = by_leg.back(day, reserve);
      const WayOut other = by_road.back(day, reserve);
      EXPECT_NEAR(one.km, 170, tiny);
      EXPECT_EQ(one.least, other.least);
      EXPECT_EQ(one.bare, other.bare);
      EXPECT_EQ(one.km, other.km);
      EXPECT_TRUE(one.own_road && other.own_road);
    }
  }
}

TEST(Roads, AreTakenTheOtherWayRoundWithAllThatBelongsToThem) {
  PlanText text =
      triangle({"{from: Base, to: Far, distance: 120 km, surfaces: [{surface: sealed, "
                "distance: 20 km}, {surface: gravel, distance: 100 km}], climb: 30 m, "
                "descent: 20 m, headwind: 5 m/s}"});
  const LaidTrip laid = laid_trip_of(travel(text));
  const std::size_t step = morning_step(*laid.timeline, 1);
  const LaidTrip back = retreat(laid, {.step = step, .hour = 0, .to_leg = 0}, {});
  const auto& drive = std::get<plan::Drive>(back.plan->itinerary.back());
  EXPECT_EQ(drive.to, 0);
  EXPECT_EQ(drive.surfaces.front().surface, plan::Surface::gravel);
  EXPECT_EQ(drive.climb_m, 20);
  EXPECT_EQ(drive.descent_m, 30);
  EXPECT_EQ(drive.kind.headwind_m_s, 0);
}

TEST(Roads, LeadBackToTheLastSupplyOverLegsDrivenBeforeIt) {
  PlanText plan = triangle({road("Far", "Base", 20)});
  plan.places[1] = PlanText::place("Half", "air", "drinking_water: {}");
  const Asked asked = ask(plan);
  // To Half over Base, of which the first leg comes: water is to be had there already.
  EXPECT_EQ(asked.back(1, "drinking_water").place, 0);
  EXPECT_NEAR(asked.back(1, "drinking_water").km, 20, tiny);
  plan.places[0] = PlanText::place("Base", "air", "diesel: {}");
  EXPECT_EQ(ask(plan).back(1, "drinking_water").place, 1);
  EXPECT_NEAR(ask(plan).back(1, "drinking_water").km, 120, tiny);
}

// --- supplies that only a road leads to ---

Lines town(const std::string& supplies) { return {PlanText::place("Town", "air", supplies)}; }

TEST(Roads, LeadToAPlaceAsideThatHasAllThatLiesBehind) {
  const Lines to_town{road("Far", "Town", 40)};
  expect_back(triangle(to_town, town("drinking_water: {}, diesel: {}")), 40, 4, 3);
  // Nowhere else if something is not there, or not for sure, or not always, or only so much.
  for (const char* supplies :
       {"drinking_water: {}", "diesel: {}", "drinking_water: {confirmed: no}, diesel: {}",
        "drinking_water: {}, diesel: {open: [mon, tue, wed]}",
        "drinking_water: {shut: [2027-05-01]}, diesel: {}",
        "drinking_water: {}, diesel: {most: 60 L}"}) {
    SCOPED_TRACE(supplies);
    expect_back(triangle(to_town, town(supplies)), 250, 25);
  }
  // Nor where it is farther than the supply behind.
  expect_back(triangle({road("Far", "Town", 251)}, town("drinking_water: {}, diesel: {}")), 250,
              25);
}

TEST(Roads, LeadToAPlaceAsideOnlyWhereEverySupplyBehindIsFarther) {
  // Water at Half is nearer than Town, fuel at Base farther: nobody goes both ways.
  PlanText plan = triangle({road("Far", "Town", 160)}, town("drinking_water: {}, diesel: {}"));
  plan.places[1] = PlanText::place("Half", "air", "drinking_water: {}");
  EXPECT_EQ(ask(plan).back(1, "drinking_water").place, 1);
  EXPECT_EQ(ask(plan).back(1, "fuel:truck").place, 0);
  plan.roads = {road("Far", "Town", 140)};
  EXPECT_EQ(ask(plan).back(1, "drinking_water").place, 3);
  EXPECT_EQ(ask(plan).back(1, "fuel:truck").place, 3);
}

TEST(Roads, KeepTurningBackPossible) {
  // 1 L an hour: at half of 9 L the way that was come is too long. From Far it is an hour to Town.
  PlanText plan = triangle();
  plan.itinerary.resize(3);
  plan.containers = {"{name: can, holds: 20 L, filled: 17 L, for: drinking}"};
  const auto water = [](const Trip& trip) {
    const TurnBack out = turn_back_points(trip);
    const int reserve = support::reserve_index(trip.course, "drinking_water");
    return *std::ranges::find(out.stretches, reserve, &SupplyStretch::reserve);
  };
  // Eight hours until eight: nine are left.
  const SupplyStretch without = water(travel(plan));
  ASSERT_TRUE(without.last);
  EXPECT_NEAR(without.last->hour, 8 + 4.5, 1.0 / 60);
  EXPECT_FALSE(without.again);
  plan.places.push_back(PlanText::place("Town", "air", "drinking_water: {}, diesel: {}"));
  plan.roads = {road("Far", "Town", 50)};
  const Trip trip = travel(plan);
  EXPECT_TRUE(water(trip).always);
  const Moment late{.day = 0, .hour = 12.9, .at = {.from = 2, .to = 2}};
  const auto way = return_way(trip, water(trip), late);
  ASSERT_TRUE(way);
  EXPECT_EQ(way->place, 3);
  EXPECT_TRUE(way->by_road);
  EXPECT_FALSE(way->as_it_came);
  EXPECT_NEAR(way->distance_km, 50 + 5, 0.1);
}

// --- a road that is shut ---

TEST(Roads, AreStillThereWhereTheRoadOfALegIsShut) {
  // At Half on the way home the only way to Base is the one that is shut.
  const auto leads = [](const Lines& roads) {
    const Trip trip = travel(triangle(roads));
    const LaidTrip laid = laid_trip_of(trip);
    std::size_t step = laid.timeline->steps.size();
    while (laid.timeline->steps[step - 1].leg != 3) --step;
    while (laid.timeline->steps[step - 1].leg == 3) --step;
    return leads_home(laid, step, 0, 3);
  };
  EXPECT_FALSE(leads({}));
  EXPECT_TRUE(leads({road("Half", "Base", 300)}));
  EXPECT_TRUE(leads({road("Base", "Half", 300)}));
  EXPECT_FALSE(leads({road("Base", "Half", 300, "sealed", ", one_way: yes")}));
}

// --- against every way that there is ---

RC_GTEST_PROP(RoadsProperty, LeadHomeByTheShortestWay, ()) {
  const auto pick = support::rapidcheck_pick();
  PlanText text = support::random_plan(pick);
  text.roads = support::random_roads(pick);
  const plan::Plan plan = text.plan();
  const Trip trip = travel(plan);
  const LaidTrip laid = laid_trip_of(trip);
  const int legs = static_cast<int>(laid.timeline->legs.size());
  for (std::size_t day = 1; day < trip.days(); ++day) {
    const std::size_t step = morning_step(*laid.timeline, static_cast<int>(day));
    const Progress progress = progress_before(*laid.timeline, step);
    if (progress.leg < 0 || progress.under_way) continue;
    for (int to_leg = 0; to_leg <= progress.leg && to_leg < legs; ++to_leg) {
      const int home = laid.timeline->legs[static_cast<std::size_t>(to_leg)].from;
      const int here = moment_before(laid, step).at.to;
      const auto known = support::KnownRoads(plan, 0, progress.leg + 1).shortest(here, home);
      RC_ASSERT(known.has_value());
      const double hour = laid.timeline->steps[step].from_h;
      const LaidTrip back = retreat(laid, {.step = step, .hour = hour, .to_leg = to_leg}, {});
      double back_km = 0;
      int end = here;
      for (std::size_t i = plan.itinerary.size(); i < back.plan->itinerary.size(); ++i) {
        const auto* drive = std::get_if<plan::Drive>(&back.plan->itinerary[i]);
        if (drive == nullptr) continue;
        back_km += drive->distance_km;
        end = drive->to;
      }
      // Else to a place aside, which is nearer.
      if (end == home) RC_ASSERT(std::abs(back_km - support::km(*known)) < tiny);
      if (end != home) RC_ASSERT(back_km < support::km(*known));
    }
  }
}

}  // namespace
}  // namespace drystage::answers::roads_test
