// Whether a plan keeps its margins on enough of the trips that are drawn.
#include "answers/odds/trial.h"

#include <gtest/gtest.h>
#include <oneapi/tbb/global_control.h>

#include <cmath>
#include <memory>
#include <stdexcept>

#include "answers/odds/odds.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace trial_test {
namespace {

using support::PlanText;

constexpr double z = 1.959963984540054;

/// A camp of three days where all that there is to draw is drawn, with much trouble.
PlanText camp() {
  PlanText text;
  text.margins = {"drinking_water: 8 L", "utility_water: 15 L"};
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: spare, holds: 3 L, filled: 3 L, for: drinking}",
                     "{name: tank, holds: 30 L, filled: 30 L, for: utility}"};
  text.utility_use = {"dishes: 4 L/day"};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  text.uncertainty = {"containers: 2 %"};
  return text;
}

Trial tried(const PlanRun& planned, const Confidence& asked, bool all) {
  ManyTrips trips(planned, asked.seed);
  Trial out(asked, planned.course);
  out.run(trips, all, {});
  return out;
}

TEST(Trial, TheFewestTripsAreThoseOfWilsonsInterval) {
  // Where no trip of n breaks a margin, the lower end is n / (n + z^2).
  for (const double chance : {0.5, 0.8, 0.9, 0.95, 0.99, 0.999}) {
    EXPECT_EQ(fewest_trips(chance),
              static_cast<std::uint64_t>(std::ceil(z * z * chance / (1 - chance))))
        << chance;
  }
  const engine::Course course = support::travel(camp()).course;
  const std::uint64_t fewest = fewest_trips(0.95);
  EXPECT_THROW(Trial({.chance = 0.95, .trips = fewest - 1}, course), std::invalid_argument);
  EXPECT_NO_THROW(Trial({.chance = 0.95, .trips = fewest}, course));
}

TEST(Trial, SoManyMayBreakAMarginThatTheLowerEndStillReachesIt) {
  const engine::Course course = support::travel(camp()).course;
  for (const double chance : {0.6, 0.9, 0.95, 0.99}) {
    for (const std::uint64_t trips : {500U, 2000U}) {
      const Trial trial({.chance = chance, .trips = trips}, course);
      for (std::uint64_t broken = 0; broken <= trips; ++broken) {
        const bool reached = models::chance_of(trips - broken, trips).low >= chance;
        EXPECT_EQ(trial.is_too_many(broken), !reached) << chance << " " << broken;
      }
    }
  }
}

TEST(Trial, CountsTheTripsThatOddsCounts) {
  const PlanRun planned = support::travel(camp());
  for (const std::uint64_t seed : {1U, 7U}) {
    const Trial trial = tried(planned, {.chance = 0.9, .trips = 500, .seed = seed}, true);
    const Odds odds =
        odds_of(planned, {.trips = 500, .seed = seed, .drivers = false, .helps = false});
    ASSERT_GT(odds.breach.chance, 0.02);
    ASSERT_LT(odds.breach.chance, 0.98);
    EXPECT_NEAR(trial.kept().chance, 1 - odds.breach.chance, 1e-12);
    for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
      EXPECT_EQ(models::chance_of(trial.broken(r), trial.trips()), odds.reserves[r].breach);
    }
    EXPECT_EQ(trial.is_enough(), trial.kept().low >= 0.9);
  }
}

TEST(Trial, OfWhatLifeDependsOnCountsAsOddsDoes) {
  PlanText text = camp();
  text.batteries = {"{name: bank, kind: lfp, capacity: 40 Ah}"};
  text.loads = {"{name: breathing aid, draw: 0.45 A, never_shed: yes}"};
  text.margins.emplace_back("battery: 30 %");
  const PlanRun planned = support::travel(text);
  const Confidence asked{.chance = 0.5, .trips = 500, .vital = true};
  const Trial trial = tried(planned, asked, true);
  const Odds odds = odds_of(planned, {.trips = 500, .drivers = false, .helps = false});
  ASSERT_LT(odds.life_breach.chance, odds.breach.chance);
  EXPECT_NEAR(trial.kept().chance, 1 - odds.life_breach.chance, 1e-12);
  EXPECT_TRUE(trial.is_asked(
      static_cast<std::size_t>(support::reserve_index(planned.course, "drinking_water"))));
  EXPECT_TRUE(trial.is_asked(
      static_cast<std::size_t>(support::reserve_index(planned.course, "battery:bank"))));
  EXPECT_FALSE(trial.is_asked(
      static_cast<std::size_t>(support::reserve_index(planned.course, "utility_water"))));
}

TEST(Trial, EndsEarlyOnlyWhereItIsPlain) {
  const PlanRun planned = support::travel(camp());
  for (const double chance : {0.5, 0.6, 0.7, 0.8, 0.9, 0.95}) {
    const Confidence asked{.chance = chance, .trips = 1000};
    const Trial all = tried(planned, asked, true);
    const Trial early = tried(planned, asked, false);
    EXPECT_EQ(all.trips(), 1000U);
    EXPECT_EQ(early.is_enough(), all.is_enough()) << chance;
    if (early.trips() == all.trips()) continue;
    const auto most = static_cast<std::size_t>(early.most_often());
    EXPECT_TRUE(early.is_too_many(early.broken(most)));
    // What has been run is the beginning of all.
    for (std::uint64_t trip = 0; trip < early.trips(); ++trip) {
      EXPECT_EQ(early.of(trip, most).slack, all.of(trip, most).slack);
    }
  }
  EXPECT_LT(tried(planned, {.chance = 0.95, .trips = 1000}, false).trips(), 1000U);
}

TEST(Trial, IsTheSameOnAnyNumberOfThreads) {
  const PlanRun planned = support::travel(camp());
  const Confidence asked{.chance = 0.8, .trips = 1000};
  std::unique_ptr<Trial> first;
  for (const std::size_t threads : {1U, 2U, 5U}) {
    const oneapi::tbb::global_control limit(oneapi::tbb::global_control::max_allowed_parallelism,
                                            threads);
    const Trial trial = tried(planned, asked, false);
    if (!first) first = std::make_unique<Trial>(trial);
    ASSERT_EQ(trial.trips(), first->trips());
    EXPECT_EQ(trial.broken(), first->broken());
    for (std::size_t r = 0; r < trial.reserves(); ++r) {
      EXPECT_EQ(trial.broken(r), first->broken(r));
      for (std::uint64_t trip = 0; trip < trial.trips(); ++trip) {
        EXPECT_EQ(trial.of(trip, r).slack, first->of(trip, r).slack);
      }
    }
  }
}

TEST(Trial, KnowsOnWhichTripsACanWasLost) {
  const PlanRun planned = support::travel(camp());
  const Confidence asked{.chance = 0.5, .trips = 400};
  const Trial trial = tried(planned, asked, true);
  const TripDraws draws(planned, asked.seed);
  std::uint64_t lost = 0;
  for (std::uint64_t trip = 0; trip < trial.trips(); ++trip) {
    bool is_lost = false;
    for (const TripEvent& event : draws.draw(trip).events) {
      // What would be lost once all is over is not.
      is_lost = is_lost || (event.source == plan::Source::containers && event.day < 3);
    }
    EXPECT_EQ(trial.has_lost(trip), is_lost) << trip;
    lost += is_lost ? 1U : 0U;
  }
  EXPECT_GT(lost, 10U);
  EXPECT_LT(lost, 100U);
}

}  // namespace
}  // namespace trial_test
}  // namespace drystage::answers
