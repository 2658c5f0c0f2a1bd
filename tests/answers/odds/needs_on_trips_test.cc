// What must be there on so many drawn trips: against hand sums over the draws of each trip.

#include "answers/odds/needs_on_trips.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "answers/odds/many_trips.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace needs_on_trips_test {
namespace {

using plan::Source;
using support::all_but;
using support::PlanText;

/// Needs and leavings of a plan, as it is and raised.
struct Raised {
  PlanRun planned;
  Needs before;
  Needs needs;
  std::vector<Leaving> leavings_before;
  std::vector<Leaving> leavings;
  NeedsOnTrips on_trips;

  [[nodiscard]] std::size_t index_of(const char* name) const {
    const int reserve = support::reserve_index(planned.course, name);
    return static_cast<std::size_t>(std::ranges::find(needs.reserves, reserve) -
                                    needs.reserves.begin());
  }
  [[nodiscard]] double must_have(std::size_t day, const char* name) const {
    return needs.need(day, index_of(name)).must_have;
  }
  [[nodiscard]] double must_have_before(std::size_t day, const char* name) const {
    return before.need(day, index_of(name)).must_have;
  }
};

Raised raised(const PlanText& text, const Confidence& asked) {
  Raised out{.planned = support::travel(text)};
  out.before = out.needs = morning_needs(out.planned);
  out.leavings_before = out.leavings = leavings(out.planned);
  out.on_trips = raise_to_confidence(out.needs, out.leavings, out.planned, asked, {});
  return out;
}

/// So many of the levels are enough, by the lower end of the interval; counted one by one.
double enough_of(std::vector<double> levels, double chance) {
  std::ranges::sort(levels);
  for (std::size_t n = 1; n <= levels.size(); ++n) {
    if (models::chance_of(n, levels.size()).low >= chance) return levels[n - 1];
  }
  ADD_FAILURE() << "too few";
  return 0;
}

/// Of each trip.
std::vector<double> of_trips(const PlanRun& planned, const Confidence& asked,
                             const std::function<double(const TripDraw&)>& level) {
  const TripDraws draws(planned, asked.seed);
  std::vector<double> out;
  for (std::uint64_t trip = 0; trip < asked.trips; ++trip) out.push_back(level(draws.draw(trip)));
  return out;
}

/// Three days at a camp, 4 L of utility water a day, a margin of 5 L.
PlanText camp() {
  PlanText text;
  text.margins = {"utility_water: 5 L"};
  text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                     "{name: tank, holds: 30 L, filled: 30 L, for: utility}"};
  text.utility_use = {"dishes: 4 L/day"};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return text;
}

/// To a place a hundred kilometres away, with water there or not, four nights, and back.
PlanText there_and_back(const char* supplies = "") {
  PlanText text;
  text.margins = {"drinking_water: 1 day"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  text.places.push_back(PlanText::place("There", "air", supplies));
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 80 L}]}"};
  text.itinerary = {
      "{at: Base}", "drive: {to: There, distance: 100 km, surfaces: {sealed: 100 km}}",
      "stay: {nights: 4}", "drive: {to: Base, distance: 100 km, surfaces: {sealed: 100 km}}"};
  return text;
}

TEST(NeedsOnTrips, AreWhatSoManyTripsUse) {
  PlanText text = camp();
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  const Confidence asked{.chance = 0.95, .trips = 1000, .seed = 4};
  const Raised is = raised(text, asked);
  EXPECT_EQ(is.on_trips.on_time, asked.trips);
  for (const std::size_t day : {0U, 1U, 2U}) {
    const double planned_l = 4.0 * static_cast<double>(3 - day);
    const double should = enough_of(
        of_trips(is.planned, asked,
                 [&](const TripDraw& draw) { return 5 + planned_l * draw.factors.utility_water; }),
        asked.chance);
    EXPECT_NEAR(is.must_have(day, "utility_water"), should, 2e-4);
    EXPECT_NEAR(is.must_have_before(day, "utility_water"), 5 + planned_l, 2e-4);
    // The log-normal's own quantiles: the one asked for, and what a thousand trips may be off.
    EXPECT_GT(should, 5 + planned_l * std::exp(0.2 * 1.645));
    EXPECT_LT(should, 5 + planned_l * std::exp(0.2 * 2.05));
    EXPECT_TRUE(is.needs.need(day, is.index_of("utility_water")).fits);
    // Of drinking nothing is drawn.
    EXPECT_EQ(is.must_have(day, "drinking_water"), is.must_have_before(day, "drinking_water"));
  }
}

TEST(NeedsOnTrips, DoNotFitWhereNoTankHoldsThem) {
  PlanText text = camp();
  text.containers.back() = "{name: tank, holds: 18 L, filled: 18 L, for: utility}";
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  const Raised is = raised(text, {.chance = 0.95, .trips = 400});
  EXPECT_TRUE(is.before.need(0, is.index_of("utility_water")).fits);
  EXPECT_FALSE(is.needs.need(0, is.index_of("utility_water")).fits);
  EXPECT_TRUE(is.needs.need(2, is.index_of("utility_water")).fits);
}

TEST(NeedsOnTrips, WithNothingDrawnAreThePlans) {
  PlanText text = there_and_back("drinking_water: {}");
  text.uncertainty = {all_but({})};
  const Raised is = raised(text, {.chance = 0.9, .trips = 100});
  for (std::size_t i = 0; i < is.needs.table.size(); ++i) {
    EXPECT_EQ(is.needs.table[i].must_have, is.before.table[i].must_have) << i;
  }
  ASSERT_FALSE(is.leavings.empty());
  for (std::size_t i = 0; i < is.leavings.size(); ++i) {
    EXPECT_EQ(is.leavings[i].must_have, is.leavings_before[i].must_have) << i;
  }
}

/// Whoever is held up drinks on those days as well: 4 L a day, and one of them is the margin.
TEST(NeedsOnTrips, LastThroughHaltsToCome) {
  PlanText text = there_and_back();
  text.uncertainty = {"delays: {day: 4 %, length: 2 days}", all_but({Source::delays})};
  const Confidence asked{.chance = 0.9, .trips = 400, .seed = 2};
  const Raised is = raised(text, asked);
  const auto days = is.planned.record.days();
  const TripGround ground(is.planned);
  TripRunner runner(ground);
  const TripDraws draws(is.planned, asked.seed);
  for (const std::size_t day : {std::size_t{0}, std::size_t{2}, days - 1}) {
    std::vector<double> levels;
    for (std::uint64_t trip = 0; trip < asked.trips; ++trip) {
      const TripRunner::Replay replay = runner.replay(draws.draw(trip));
      const bool is_late = std::ranges::any_of(
          replay.happened, [&](const Happened& one) { return one.day < static_cast<int>(day); });
      if (is_late) continue;
      double used_l = 0;
      for (std::size_t d = day; d < replay.record.days(); ++d) {
        used_l += replay.record.reserve(d, 0).used;
      }
      levels.push_back(4 + used_l);
    }
    if (day > 0) {
      EXPECT_LT(levels.size(), asked.trips);
    }
    const double should =
        std::max(enough_of(levels, asked.chance), is.must_have_before(day, "drinking_water"));
    EXPECT_NEAR(is.must_have(day, "drinking_water"), should, 2e-4) << day;
  }
  // It counts for what is left with, too.
  EXPECT_GT(is.must_have(0, "drinking_water"), is.must_have_before(0, "drinking_water") + 1);
}

/// As the plan's own needs: so both lead to the same places.
TEST(NeedsOnTrips, CountOnWhatIsConfirmedAndOnNothingElse) {
  for (const bool confirmed : {true, false}) {
    PlanText text =
        there_and_back(confirmed ? "drinking_water: {}" : "drinking_water: {confirmed: no}");
    text.itinerary.insert(text.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
    text.uncertainty = {"supplies: {confirmed: 20 %, unconfirmed: 20 %}",
                        all_but({Source::supplies})};
    const Raised is = raised(text, {.chance = 0.95, .trips = 200});
    for (std::size_t i = 0; i < is.needs.table.size(); ++i) {
      EXPECT_NEAR(is.needs.table[i].must_have, is.before.table[i].must_have, 1e-6) << i;
    }
    const auto days = static_cast<double>(is.planned.record.days());
    if (!confirmed) {
      EXPECT_NEAR(is.must_have(0, "drinking_water"), 4 * days + 4, 2e-4);
    }
  }
}

TEST(NeedsOnTrips, WhatIsLeftWithIsRaisedToo) {
  PlanText text = there_and_back("drinking_water: {}");
  text.itinerary.insert(text.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  text.uncertainty = {"drinking: {person: 25 %, day: 0 %}", all_but({Source::drinking})};
  const Confidence asked{.chance = 0.9, .trips = 300};
  const Raised is = raised(text, asked);
  ASSERT_EQ(is.leavings.size(), is.leavings_before.size());
  int raised_ones = 0;
  for (std::size_t i = 0; i < is.leavings.size(); ++i) {
    if (is.planned.course.reserves[static_cast<std::size_t>(is.leavings[i].reserve)].name !=
        "drinking_water") {
      continue;
    }
    // All that is needed is for people to drink, the margin too.
    const double times =
        enough_of(of_trips(is.planned, asked,
                           [](const TripDraw& draw) { return draw.weather.people.front(); }),
                  asked.chance);
    EXPECT_NEAR(is.leavings[i].must_have, is.leavings_before[i].must_have * times, 1e-3);
    ++raised_ones;
  }
  EXPECT_GT(raised_ones, 0);
}

TEST(NeedsOnTrips, AreNotToldWhereTooFewTripsAreOnTime) {
  PlanText text = there_and_back();
  text.uncertainty = {"delays: {day: 30 %, length: 1 day}", all_but({Source::delays})};
  try {
    (void)raised(text, {.chance = 0.95, .trips = 120});
    FAIL();
  } catch (const TooFewOnTime& error) {
    EXPECT_EQ(error.of, 120U);
    EXPECT_LT(error.on_time, fewest_trips(0.95));
  }
}

/// Going on at once where no stay is left is going on as planned, and takes as much.
TEST(NeedsOnTrips, RaiseTheWaysOutWithThem) {
  PlanText text = there_and_back();
  text.uncertainty = {"drinking: {person: 25 %, day: 0 %}", all_but({Source::drinking})};
  const Raised is = raised(text, {.chance = 0.9, .trips = 200});
  const WaysOutTable before = ways_out(is.planned, is.before);
  WaysOutTable ways = before;
  raise_in_proportion(ways, is.planned.course, is.before, is.needs);
  const auto water = static_cast<std::size_t>(
      std::ranges::find(ways.reserves,
                        support::reserve_index(is.planned.course, "drinking_water")) -
      ways.reserves.begin());
  ASSERT_LT(water, ways.reserves.size());
  const std::size_t last = is.planned.record.days() - 1;
  for (std::size_t day = 0; day <= last; ++day) {
    const WaysOut& raised_ones = ways.ways(day, water);
    const double times =
        is.must_have(day, "drinking_water") / is.must_have_before(day, "drinking_water");
    EXPECT_GT(times, 1.1);
    EXPECT_DOUBLE_EQ(raised_ones.as_planned.least, is.must_have(day, "drinking_water"));
    EXPECT_NEAR(raised_ones.at_once.least, times * before.ways(day, water).at_once.least, 1e-9);
  }
  EXPECT_NEAR(ways.ways(last, water).at_once.least, is.must_have(last, "drinking_water"), 1e-3);
}

}  // namespace
}  // namespace needs_on_trips_test
}  // namespace drystage::answers
