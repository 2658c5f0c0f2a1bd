// How likely trouble is: against chances that are known exactly, and whatever the threads.

#include "answers/odds/odds.h"

#include <gtest/gtest.h>
#include <oneapi/tbb/global_control.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "answers/odds/trip_tally.h"
#include "support/laid_out.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace odds_test {
namespace {

using plan::Source;
using support::all_but;
using support::PlanText;

double below(double deviations) { return 0.5 * std::erfc(-deviations / std::numbers::sqrt2); }

/// Three days at a camp. Utility water is 4 L a day in all, of 30 L, with a margin of 15 L: less is
/// left from a use of 15 L on.
PlanText camp() {
  PlanText text;
  text.margins = {"utility_water: 15 L"};
  text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                     "{name: tank, holds: 30 L, filled: 30 L, for: utility}"};
  text.utility_use = {"dishes: 4 L/day"};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return text;
}

constexpr double used_l = 12;
constexpr double spare_l = 15;

TEST(Odds, AChanceThatIsKnownExactlyLiesInTheInterval) {
  PlanText text = camp();
  text.margins = {"utility_water: 17 L"};
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  const PlanRun planned = support::travel(text);
  const auto utility =
      static_cast<std::size_t>(support::reserve_index(planned.course, "utility_water"));
  // The factor of use is log-normal: the tail of a normal distribution, beyond log(13/12).
  const double chance = 1 - below(std::log(13 / used_l) / 0.2);
  constexpr std::uint64_t trips = 150;
  ASSERT_GT(chance * trips, 50);
  const TripGround ground(planned);
  TripRunner runner(ground);
  constexpr int seeds = 1000;
  int inside = 0;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    const TripDraws draws(planned, seed);
    std::uint64_t times = 0;
    for (std::uint64_t trip = 0; trip < trips; ++trip) {
      times += runner.run(draws.draw(trip)).reserves[utility].breach_day >= 0 ? 1U : 0U;
    }
    const models::Chance found = models::chance_of(times, trips);
    inside += found.low <= chance && chance <= found.high ? 1 : 0;
  }
  EXPECT_GE(inside, 0.93 * seeds);
  EXPECT_LE(inside, 0.97 * seeds);
}

TEST(Odds, TellsTheChanceTheDayAndTheBands) {
  PlanText text = camp();
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  const PlanRun planned = support::travel(text);
  const auto utility =
      static_cast<std::size_t>(support::reserve_index(planned.course, "utility_water"));
  const Odds odds =
      odds_of(planned, {.trips = 20'000, .seed = 5, .drivers = false, .helps = false});
  EXPECT_EQ(odds.trips, 20'000U);
  const ReserveOdds& its = odds.reserves[utility];
  const auto expect_chance = [](double is, double should) {
    EXPECT_NEAR(is, should, 4 * std::sqrt(should * (1 - should) / 20'000) + 1e-6);
  };
  expect_chance(its.breach.chance, 1 - below(std::log(spare_l / used_l) / 0.2));
  // It runs out from 30 L on.
  expect_chance(its.dry.chance, 1 - below(std::log(30 / used_l) / 0.2));
  // By the end of the second day 8 L are used.
  const double by_second = 1 - below(std::log(spare_l / 8) / 0.2);
  ASSERT_EQ(its.first_breach_days.size(), 3U);
  const auto trips_by = [&](std::size_t days) {
    std::uint64_t sum = 0;
    for (std::size_t d = 0; d < days; ++d) sum += its.first_breach_days[d];
    return static_cast<double>(sum) / 20'000;
  };
  expect_chance(trips_by(2), by_second);
  EXPECT_DOUBLE_EQ(trips_by(3), its.breach.chance);
  // Bands: quantiles of the log-normal, within a bin and what 20 000 trips tell.
  for (const std::size_t day : {0U, 1U, 2U}) {
    const double planned_l = 4.0 * static_cast<double>(day + 1);
    constexpr double z = 1.6448536;
    EXPECT_NEAR(its.bands[day].p5, 30 - planned_l * std::exp(0.2 * z), 0.25);
    EXPECT_NEAR(its.bands[day].p50, 30 - planned_l, 0.12);
    EXPECT_NEAR(its.bands[day].p95, 30 - planned_l * std::exp(-0.2 * z), 0.2);
  }
  // Nothing that life depends on is drawn.
  EXPECT_EQ(odds.life_breach.chance, 0);
  EXPECT_EQ(odds.breach, its.breach);
}

TEST(Odds, WithEverySourceLeftOutDoNotSpread) {
  PlanText text = camp();
  text.uncertainty = {all_but({})};
  const PlanRun planned = support::travel(text);
  const Odds odds = odds_of(planned, {.trips = 200});
  const double bin_l = 30.0 / TripTally::bins;
  for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
    EXPECT_EQ(odds.reserves[r].breach.chance, 0);
    for (const LevelBand& band : odds.reserves[r].bands) {
      EXPECT_LE(band.p95 - band.p5,
                bin_l * std::max(1.0, planned.course.reserves[r].capacity / 30));
    }
  }
  EXPECT_TRUE(odds.drivers.empty());
}

TEST(Odds, DriversAreTheSharesOfTheVariance) {
  PlanText text = camp();
  text.uncertainty = {"utility: 10 %", "fills: 5 %", all_but({Source::utility, Source::fills})};
  const PlanRun planned = support::travel(text);
  const int utility = support::reserve_index(planned.course, "utility_water");
  const Odds odds = odds_of(planned, {.trips = 4000, .seed = 2, .helps = false});
  // What is left: 30 (1 + 5 % of a normal) less 12 L times a log-normal. Both are independent.
  const double of_fills = std::pow(30 * 0.05, 2);
  const double of_use = used_l * used_l * std::exp(0.01) * std::expm1(0.01);
  const double all = of_fills + of_use;
  int told = 0;
  for (const Driver& driver : odds.drivers) {
    if (driver.reserve != utility) continue;
    ++told;
    const double share = driver.source == Source::fills ? of_fills / all : of_use / all;
    EXPECT_NEAR(driver.share, share, 0.06);
    EXPECT_LE(driver.low, share);
    EXPECT_GE(driver.high, share);
  }
  EXPECT_EQ(told, 2);
}

TEST(Odds, ALargerTankHelpsAsMuchAsItHolds) {
  PlanText text = camp();
  text.margins = {"drinking_water: 5 L"};
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female}"};
  text.containers = {"{name: can, holds: 10 L, filled: 10 L, for: drinking}"};
  text.utility_use = {};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 300 L, "
      "filled: 280 L}]}"};
  text.uncertainty = {all_but({Source::drinking})};
  const PlanRun planned = support::travel(text);
  const Odds odds = odds_of(planned, {.trips = 1000, .drivers = false});
  ASSERT_FALSE(odds.helps.empty());
  EXPECT_LT(odds.helps.front().life_breach.chance, odds.life_breach_of_compared.chance);
  EXPECT_NE(odds.helps.front().name.one.find("drinking water"), std::string::npos);
  for (std::size_t h = 1; h < odds.helps.size(); ++h) {
    EXPECT_LE(odds.helps[h - 1].life_breach.chance, odds.helps[h].life_breach.chance);
  }
}

void expect_equal(const Odds& a, const Odds& b) {
  EXPECT_EQ(a.trips, b.trips);
  EXPECT_EQ(a.life_breach, b.life_breach);
  EXPECT_EQ(a.life_dry, b.life_dry);
  ASSERT_EQ(a.reserves.size(), b.reserves.size());
  for (std::size_t r = 0; r < a.reserves.size(); ++r) {
    EXPECT_EQ(a.reserves[r].breach, b.reserves[r].breach);
    EXPECT_EQ(a.reserves[r].first_breach_days, b.reserves[r].first_breach_days);
    for (std::size_t d = 0; d < a.reserves[r].bands.size(); ++d) {
      if (std::isnan(a.reserves[r].bands[d].p50)) continue;
      EXPECT_EQ(a.reserves[r].bands[d].p5, b.reserves[r].bands[d].p5);
      EXPECT_EQ(a.reserves[r].bands[d].p95, b.reserves[r].bands[d].p95);
    }
  }
  ASSERT_EQ(a.drivers.size(), b.drivers.size());
  for (std::size_t i = 0; i < a.drivers.size(); ++i) {
    EXPECT_EQ(a.drivers[i].share, b.drivers[i].share);
    EXPECT_EQ(a.drivers[i].low, b.drivers[i].low);
  }
  ASSERT_EQ(a.worst.size(), b.worst.size());
  for (std::size_t i = 0; i < a.worst.size(); ++i) EXPECT_EQ(a.worst[i].trip, b.worst[i].trip);
}

TEST(Odds, AreTheSameOnAnyNumberOfThreads) {
  const PlanRun planned = support::travel(support::all_scenarios()[4]);
  const OddsOptions options{.trips = 250, .seed = 8, .worst = 5, .helps = false};
  std::optional<Odds> one;
  for (const std::size_t threads : {1U, 3U}) {
    const oneapi::tbb::global_control cap(oneapi::tbb::global_control::max_allowed_parallelism,
                                          threads);
    const Odds odds = odds_of(planned, options);
    if (one) expect_equal(*one, odds);
    one = odds;
  }
}

TEST(Odds, StopsWhenTheIntervalIsNarrowEnough) {
  PlanText text = camp();
  text.margins = {"drinking_water: 70 L"};
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female}"};
  text.uncertainty = {all_but({Source::drinking})};
  const PlanRun planned = support::travel(text);
  const OddsOptions options{.until = 0.004, .drivers = false, .helps = false};
  const Odds odds = odds_of(planned, options);
  EXPECT_LE(models::half_width(odds.life_breach), 0.004);
  EXPECT_GT(odds.trips, 0U);
  EXPECT_FALSE(odds.partial);
  // Of the trips before the last round it was not.
  const Odds before =
      odds_of(planned, {.trips = odds.trips - 4000, .drivers = false, .helps = false});
  EXPECT_GT(models::half_width(before.life_breach), 0.004);
}

TEST(Odds, StoppedTellOfTheTripsThatWereRun) {
  const PlanRun planned = support::travel(camp());
  std::atomic<bool> stop{false};
  const Watch watch{.progress = [&](std::size_t, std::size_t) { stop.store(true); }, .stop = &stop};
  const Odds odds = odds_of(planned, {.trips = 100'000}, watch);
  EXPECT_TRUE(odds.partial);
  EXPECT_GT(odds.trips, 0U);
  EXPECT_LT(odds.trips, 100'000U);
  EXPECT_TRUE(odds.drivers.empty());
}

TEST(Odds, TheWorstTripsAreTheWorst) {
  PlanText text = camp();
  text.uncertainty = {"utility: 60 %", all_but({Source::utility})};
  const PlanRun planned = support::travel(text);
  const Odds odds = odds_of(planned, {.trips = 3000, .worst = 4, .drivers = false, .helps = false});
  ASSERT_EQ(odds.worst.size(), 4U);
  std::vector<double> factors;
  for (std::uint64_t trip = 0; trip < 3000; ++trip) {
    factors.push_back(TripDraws(planned, 1).draw(trip).factors.utility_water);
  }
  for (std::size_t i = 0; i < odds.worst.size(); ++i) {
    const auto most = std::ranges::max_element(factors);
    EXPECT_EQ(odds.worst[i].trip, static_cast<std::uint64_t>(most - factors.begin()));
    *most = 0;
  }
}

TEST(Odds, ReadingsTakeThePlaceOfWhatWasSupposed) {
  PlanText text = camp();
  text.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  text.containers[1] = "{name: tank, holds: 90 L, filled: 90 L, for: utility}";
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  std::string read = text.text() + "readings:\n";
  for (const int evening : {1, 2, 3, 4, 5}) {
    // Half as much again is used: 6 L a day.
    read += "  - {evening: " + std::to_string(evening) +
            ", utility: " + std::to_string(90 - 6 * evening) + " L}\n";
  }
  const PlanRun planned = support::travel(support::read_plan(read));
  const auto utility =
      static_cast<std::size_t>(support::reserve_index(planned.course, "utility_water"));
  const Odds odds = odds_of(planned, {.trips = 4000, .drivers = false, .helps = false});
  const double factor = planned.learned.utility.common.factor;
  EXPECT_GT(factor, 1.1);
  const LevelBand& last = odds.reserves[utility].bands.back();
  const double days = 4 + 4 / 24.0;  // from eight in the evening on
  EXPECT_NEAR(last.p50, 60 - 4 * factor * days, 0.7);
  // As wide as the readings left it: a median and its 95 % range.
  const double deviation =
      std::log(planned.learned.utility.common.high / planned.learned.utility.common.low) /
      (2 * 1.96);
  EXPECT_LT(deviation, 0.2);
  EXPECT_NEAR(last.p5, 60 - 4 * factor * std::exp(1.645 * deviation) * days, 1.0);
  EXPECT_TRUE(std::isnan(odds.reserves[utility].bands.front().p50));
}

TEST(Odds, AfterReadingsTellWhatHelps) {
  PlanText text = camp();
  text.margins = {"drinking_water: 67 L"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 80 L}]}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 6}"};
  text.containers = {"{name: can, holds: 50 L, filled: 50 L, for: drinking}",
                     "{name: other, holds: 40 L, filled: 40 L, for: drinking}",
                     "{name: tank, holds: 60 L, filled: 60 L, for: utility}"};
  const std::string read = text.text() + "readings:\n  - {evening: 1, drinking: 85 L}\n";
  const PlanRun planned = support::travel(support::read_plan(read));
  const Odds odds = odds_of(planned, {.trips = 300});
  EXPECT_GT(odds.life_breach.chance, 0.5);
  EXPECT_FALSE(odds.helps.empty());
}

TEST(Odds, BandsReachAboveWhatAVesselIsSaidToHold) {
  PlanText text = camp();
  text.uncertainty = {"fills: 5 %", all_but({Source::fills})};
  const PlanRun planned = support::travel(text);
  const auto utility =
      static_cast<std::size_t>(support::reserve_index(planned.course, "utility_water"));
  const Odds odds = odds_of(planned, {.trips = 8000, .drivers = false, .helps = false});
  // 30 L full, 4 L used by the end of the day.
  EXPECT_NEAR(odds.reserves[utility].bands[0].p95, 30 * (1 + 1.645 * 0.05) - 4, 0.2);
  EXPECT_NEAR(odds.reserves[utility].bands[0].p5, 30 * (1 - 1.645 * 0.05) - 4, 0.2);
}

}  // namespace
}  // namespace odds_test
}  // namespace drystage::answers
