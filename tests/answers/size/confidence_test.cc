// The least set that keeps every margin on so many of the trips that are drawn.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <oneapi/tbb/global_control.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <atomic>
#include <cmath>

#include "answers/odds/odds.h"
#include "answers/size/size.h"
#include "support/random_plan.h"
#include "support/size_of.h"
#include "support/sizing.h"
#include "support/trip.h"

namespace drystage::answers {
namespace confidence_test {
namespace {

using plan::Source;
using support::all_but;
using support::found;
using support::PlanText;
using support::size_of;
using support::taken;
using support::told;

SizeOptions sure(double chance, std::uint64_t trips, std::uint64_t seed = 1) {
  return {.confidence = Confidence{.chance = chance, .trips = trips, .seed = seed}};
}

/// Whether a plan keeps every margin often enough, as `odds` counts it.
bool is_kept(const PlanRun& planned, const Confidence& asked) {
  const Odds odds = odds_of(
      planned, {.trips = asked.trips, .seed = asked.seed, .drivers = false, .helps = false});
  const auto broken = static_cast<std::uint64_t>(
      std::llround(odds.breach.chance * static_cast<double>(odds.trips)));
  return models::chance_of(odds.trips - broken, odds.trips).low >= asked.chance;
}

/// Three days at a camp. Utility water is 4 L a day in all, with a margin of 15 L, in tins of 1 L.
PlanText camp() {
  PlanText text;
  text.margins = {"utility_water: 15 L"};
  text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                     "{name: tin, holds: 1 L, filled: 1 L, for: utility}"};
  text.utility_use = {"dishes: 4 L/day"};
  text.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  text.uncertainty = {"utility: 20 %", all_but({Source::utility})};
  return text;
}

constexpr const char* tins_on_offer = "size: {containers: {utility: [1 L]}, keep: [can]}";
constexpr const char* tins = "1 L container of utility water";

TEST(SizeConfidence, OfALogNormalUseItIsTheQuantileRoundedUpToWholeContainers) {
  const PlanRun planned = support::travel(support::with_sections(camp(), tins_on_offer));
  constexpr std::uint64_t trips = 1000;
  for (const auto& [chance, deviations] :
       {std::pair{0.8, 0.8416}, {0.95, 1.6449}, {0.99, 2.3263}}) {
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
      const Sizing sizing = size_plan(planned, sure(chance, trips, seed));
      // What each trip needs: its use, which is drawn, and the margin.
      std::vector<double> needs;
      const TripDraws draws(planned, seed);
      for (std::uint64_t trip = 0; trip < trips; ++trip) {
        needs.push_back(12 * draws.draw(trip).factors.utility_water + 15);
      }
      std::ranges::sort(needs);
      const Trial trial({.chance = chance, .trips = trips, .seed = seed}, planned.course);
      std::size_t enough = needs.size();
      while (!trial.is_too_many(trips - enough + 1)) --enough;
      EXPECT_EQ(taken(sizing, tins), std::ceil(needs[enough - 1] - 1e-6)) << chance;
      // That is near the quantile that is known: above it, for the interval must reach it.
      const double quantile_l = 12 * std::exp(0.2 * deviations) + 15;
      EXPECT_NEAR(taken(sizing, tins), quantile_l + 0.9, 1.6) << chance;
      ASSERT_TRUE(found(sizing).odds);
      EXPECT_GE(found(sizing).odds->kept.low, chance);
      EXPECT_EQ(found(sizing).odds->trips, trips);
    }
  }
}

TEST(SizeConfidence, TellsHowLikelyThePlanItselfAndOneFewerAre) {
  PlanText text = camp();
  text.containers[1] = "{name: tub, holds: 28 L, filled: 28 L, for: utility}";
  const Sizing sizing =
      size_of(text, "size: {containers: {utility: [1 L]}, keep: [can]}", sure(0.95, 2000));
  // As planned it keeps its margin where the use is less than 13 L: exp(0.2 z) < 13/12.
  ASSERT_TRUE(sizing.plan_odds);
  const double chance = 0.5 * std::erfc(-std::log(13.0 / 12) / 0.2 / std::sqrt(2));
  EXPECT_NEAR(sizing.plan_odds->kept.chance, chance, 4 * std::sqrt(chance * (1 - chance) / 2000));
  const SizedLine& line = support::line_of(found(sizing), tins);
  ASSERT_TRUE(line.one_fewer);
  EXPECT_EQ(line.one_fewer->reason, Failing::Reason::chance);
  EXPECT_LT(line.one_fewer->kept.low, 0.95);
  EXPECT_GT(line.one_fewer->kept.chance, 0.9);
  const auto& reserves = found(sizing).planned.course.reserves;
  EXPECT_EQ(reserves[static_cast<std::size_t>(line.one_fewer->reserve)].name, "utility_water");
  EXPECT_NEAR(line.one_fewer->broken.chance, 1 - line.one_fewer->kept.chance, 1e-12);
}

TEST(SizeConfidence, ThePlanMustHoldAsItIsToo) {
  // On half of all trips less is used than planned.
  const Sizing sizing = size_of(camp(), tins_on_offer, sure(0.5, 1000));
  EXPECT_GE(taken(sizing, tins), 27);
  EXPECT_TRUE(found(sizing).planned.verdict.holds);
}

/// A truck, two kinds of water, dry food, and 200 km there and back.
PlanText there_and_back() {
  PlanText text;
  text.margins = {"drinking_water: 2 days", "utility_water: 4 L", "fuel: 60 km", "food: 1 days"};
  text.containers = {"{name: can 1, holds: 10 L, filled: 10 L, for: drinking, empty_mass: 1 kg}",
                     "{name: tub 1, holds: 5 L, filled: 5 L, for: utility, empty_mass: 1 kg}"};
  text.utility_use = {"dishes: 3 L/day"};
  text.food = {"{item: rice, kept: dry, mass: 3 kg, meals: 9}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg, limit: 2900 kg}, observed: [{surface: "
      "gravel, uses: 11 L/100km}], tanks: [{name: main tank, holds: 40 L, filled: 40 L}, {name: "
      "can, holds: 10 L, filled: 9.5 L, empty_mass: 2 kg}]}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Camp", "air")};
  text.itinerary = {"{at: Base}", "drive: {to: Camp, distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 1}", "drive: {to: Base, distance: 200 km, surfaces: gravel}"};
  return text;
}

constexpr const char* little_on_offer =
    "size: {containers: {drinking: [{holds: 10 L, most: 4}, {holds: 5 L, most: 2}], utility: "
    "[{holds: 5 L, most: 5}]}, fuel_cans: {truck: [{holds: 10 L, most: 4}]}, food: {rice: "
    "{per_day: 3 meals, mass: 1 kg, most: 6 days}}}";

/// The least of all sets, each tried on trips of its own.
struct LeastOfAll {
  std::optional<support::Chosen> set;
  Objective value{};
  std::size_t sets = 0;
  std::vector<std::vector<Choice>> choices{};
};

LeastOfAll least_of_all(const PlanRun& planned, const SizeOptions& options, bool cans_differ) {
  LeastOfAll out;
  for (const Decision& decision : decisions_of(planned.plan, options.least, cans_differ)) {
    out.choices.push_back(decision.choices);
  }
  std::vector<std::pair<Objective, support::Chosen>> sets{{Objective{}, {}}};
  for (const std::vector<Choice>& choices : out.choices) {
    std::vector<std::pair<Objective, support::Chosen>> more;
    for (const auto& [value, chosen] : sets) {
      for (const Choice& choice : choices) {
        more.emplace_back(value + objective(choice.totals, options.least), chosen);
        more.back().second.push_back(&choice);
      }
    }
    sets = std::move(more);
  }
  out.sets = sets.size();
  std::ranges::stable_sort(sets, [](const auto& a, const auto& b) { return a.first < b.first; });
  SizeOptions as_planned = options;
  as_planned.confidence.reset();
  const TripGround ground(planned);
  for (const auto& [value, chosen] : sets) {
    if (!support::is_enough(planned, as_planned, chosen)) continue;
    const PlanRun tried = run_plan(support::with_choices(planned.plan, chosen),
                                   planned.course.timeline, &planned.course);
    ManyTrips trips(tried, options.confidence->seed, &ground);
    Trial trial(*options.confidence, tried.course);
    trial.run(trips, true, {});
    if (!trial.is_enough()) continue;
    out.set = chosen;
    out.value = value;
    return out;
  }
  return out;
}

void expect_least(const PlanText& text, const SizeOptions& options, bool cans_differ) {
  const PlanRun planned = support::travel(support::with_sections(text, little_on_offer));
  const Sizing sizing = size_plan(planned, options);
  ASSERT_FALSE(sizing.given_up);
  const LeastOfAll least = least_of_all(planned, options, cans_differ);
  EXPECT_GT(least.sets, 500U);
  if (!least.set) {
    EXPECT_FALSE(sizing.found) << told(sizing.found->lines);
    return;
  }
  EXPECT_EQ(objective(found(sizing).totals, options.least), least.value)
      << "least:\n"
      << told(*least.set) << "found:\n"
      << told(found(sizing).lines);
  EXPECT_TRUE(is_kept(found(sizing).planned, *options.confidence));
  // With one fewer of anything it is not, each tried by itself.
  for (const SizedLine& line : found(sizing).lines) {
    if (line.fewer) EXPECT_TRUE(line.one_fewer) << line.one;
  }
}

TEST(SizeConfidence, NoSetOnOfferIsLessAndEnough) {
  PlanText text = there_and_back();
  text.uncertainty = {"leave_out: [fills, containers]"};
  for (const double chance : {0.6, 0.8, 0.9}) {
    for (const std::uint64_t seed : {1U, 2U}) {
      SCOPED_TRACE(fmt::format("{} by seed {}", chance, seed));
      expect_least(text, sure(chance, 200, seed), false);
    }
  }
}

TEST(SizeConfidence, NoSetOnOfferIsLessAndEnoughWhereCansAreLost) {
  PlanText text = there_and_back();
  text.uncertainty = {"containers: 3 %"};
  for (const double chance : {0.6, 0.75}) {
    expect_least(text, sure(chance, 200, 5), true);
  }
}

// Of random plans, with whatever is on offer. Where cans are drawn, other cans have other luck.
RC_GTEST_PROP(SizeConfidenceProperty, NoSetOnOfferIsLessAndEnough, ()) {
  const auto pick = support::rapidcheck_pick();
  // To draw trips of every set takes its time.
  if (pick(0, 3) > 0) return;
  PlanText text = support::generous_plan(pick);
  text.uncertainty = {"leave_out: [fills, containers]"};
  constexpr std::size_t most_sets = 60;
  const std::string size = support::random_size(text.plan(), pick, most_sets);
  RC_PRE(!size.empty());
  SizeOptions options = sure(0.1 * pick(5, 9), 60, static_cast<std::uint64_t>(pick(1, 99)));
  options.least = pick(0, 1) == 0 ? Least::mass : Least::cost;
  options.confidence->vital = pick(0, 1) == 0;
  RC_LOG() << text.text() << size;
  const PlanRun planned = support::travel(support::plan_to_size(text, size));
  RC_PRE(support::count_sets(planned) <= 4 * most_sets);
  const Sizing sizing = size_plan(planned, options);
  const LeastOfAll least = least_of_all(planned, options, true);
  RC_LOG() << (least.set ? "least:\n" + told(*least.set) : "none is enough\n")
           << (sizing.found ? "found:\n" + told(sizing.found->lines) : "none was found\n");
  RC_ASSERT(sizing.found.has_value() == least.set.has_value());
  if (!sizing.found) return;
  RC_ASSERT(objective(sizing.found->totals, options.least) == least.value);
}

TEST(SizeConfidence, InWhichOrderContainersStandDoesNotMatter) {
  PlanText text = there_and_back();
  text.containers.emplace_back("{name: jug, holds: 7 L, filled: 7 L, for: drinking}");
  text.uncertainty = {"leave_out: [fills, containers]"};
  const Sizing one = size_of(text, little_on_offer, sure(0.9, 400));
  std::ranges::reverse(text.containers);
  const Sizing other = size_of(text, little_on_offer, sure(0.9, 400));
  EXPECT_EQ(found(one).totals.kg, found(other).totals.kg);
  EXPECT_EQ(found(one).odds->kept, found(other).odds->kept);
}

TEST(SizeConfidence, IsTheSameOnAnyNumberOfThreads) {
  std::string first;
  for (const std::size_t threads : {1U, 2U, 4U}) {
    const oneapi::tbb::global_control limit(oneapi::tbb::global_control::max_allowed_parallelism,
                                            threads);
    const Sizing sizing = size_of(there_and_back(), little_on_offer, sure(0.9, 400));
    const std::string now = told(found(sizing).lines) +
                            fmt::format("{} {}", found(sizing).odds->kept.chance, sizing.runs);
    if (first.empty()) first = now;
    EXPECT_EQ(now, first);
  }
}

TEST(SizeConfidence, WhatNoLoadMendsIsToldWithTheBestThereIs) {
  PlanText text = camp();
  // A compressor stops on one day in five, so that half of all trips lose the cold.
  text.batteries = {"{name: bank, kind: lfp, capacity: 900 Ah}"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 12 W, ambient: 32 °C, inside: 4 "
      "°C}}"};
  text.margins.emplace_back("cold: 8 °C");
  text.uncertainty = {"utility: 20 %", "compressors: 20 %",
                      all_but({Source::utility, Source::compressors})};
  const Sizing sizing = size_of(text, tins_on_offer, sure(0.95, 1000));
  EXPECT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  const NearestMiss& miss = *sizing.miss;
  EXPECT_TRUE(miss.beyond_load);
  EXPECT_FALSE(miss.in_the_way);
  ASSERT_EQ(miss.failing.size(), 1U);
  EXPECT_EQ(miss.failing[0].reason, Failing::Reason::chance);
  const auto& reserves = miss.set.planned.course.reserves;
  EXPECT_EQ(reserves[static_cast<std::size_t>(miss.failing[0].reserve)].name, "cold:chest");
  // The best there is: of utility water there is enough on all but a few, and what is left is cold.
  ASSERT_TRUE(miss.set.odds);
  EXPECT_NEAR(miss.set.odds->kept.chance, 1 - miss.failing[0].broken.chance, 0.004);
  EXPECT_GT(miss.set.odds->kept.chance, 0.2);
  EXPECT_LT(miss.set.odds->kept.chance, 0.8);
}

TEST(SizeConfidence, WhereALimitIsInTheWayTheBestWithinItIsTold) {
  PlanText text = there_and_back();
  const SizeOptions options = sure(0.95, 400);
  const double heaviest_kg =
      found(size_of(text, little_on_offer, options)).planned.record.heaviest[0].kg;
  // The least set is a kilogram too heavy, and all others that are enough weigh more.
  text.vehicles[0].replace(text.vehicles[0].find("2900"), 4, fmt::format("{}", heaviest_kg - 1));
  const Sizing sizing = size_of(text, little_on_offer, options);
  EXPECT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  EXPECT_EQ(sizing.miss->failing.front().reason, Failing::Reason::chance);
  EXPECT_FALSE(sizing.miss->beyond_load);
  EXPECT_LE(sizing.miss->set.planned.record.heaviest[0].kg, heaviest_kg - 1);
  EXPECT_LT(sizing.miss->set.odds->kept.low, 0.95);
  EXPECT_GT(sizing.miss->set.odds->kept.chance, 0.8);
  ASSERT_TRUE(sizing.miss->in_the_way);
  EXPECT_GE(sizing.miss->in_the_way->reserve, 0);
  EXPECT_EQ(sizing.miss->in_the_way->limit.reason, Failing::Reason::overload);
  EXPECT_EQ(sizing.miss->in_the_way->limit.subject, 0);
  EXPECT_GT(sizing.miss->in_the_way->limit.over, 0);
}

TEST(SizeConfidence, StoppedItFindsNothingThatItHasNotTried) {
  const PlanRun planned =
      support::travel(support::with_sections(there_and_back(), little_on_offer));
  std::atomic<bool> stop = false;
  std::size_t told_times = 0;
  const Watch watch{.progress =
                        [&](std::size_t, std::size_t) {
                          if (++told_times == 3) stop = true;
                        },
                    .stop = &stop};
  const Sizing sizing = size_plan(planned, sure(0.9, 2000), watch);
  EXPECT_TRUE(sizing.stopped);
  if (sizing.found) EXPECT_TRUE(is_kept(sizing.found->planned, {.chance = 0.9, .trips = 2000}));
}

}  // namespace
}  // namespace confidence_test
}  // namespace drystage::answers
