// Two mishaps in one trip: the list against every pair tried by itself, and what may not be on it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <oneapi/tbb/global_control.h>

#include <algorithm>
#include <atomic>
#include <map>
#include <set>
#include <tuple>

#include "answers/base/supplies.h"
#include "answers/mishaps/mishaps.h"
#include "answers/mishaps/sweep_plan.h"
#include "support/other_plan.h"
#include "support/suffered.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using plan::MishapKind;
using support::PlanText;
using support::told;
using ::testing::Contains;

/// Six days by car from Base to Far Well, with a well half-way and not much to spare of anything.
PlanText thin_trip() {
  PlanText plan;
  plan.driving = "{most_per_day: 8 h}";
  plan.margins = {"drinking_water: 1 L", "fuel: 2 L"};
  plan.people = {PlanText::person("Ada", "5 L/day"), PlanText::person("Ben", "5 L/day")};
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L}",
                     "{name: can 2, holds: 20 L, filled: 20 L}",
                     "{name: can 3, holds: 20 L, filled: 20 L}",
                     "{name: wash can, holds: 15 L, filled: 15 L, for: utility}"};
  plan.utility_use = {"dishes: 1 L/day"};
  plan.vehicles = {
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 40 L, filled: "
      "40 L, unusable: 3 L}, {name: jerry, holds: 20 L, filled: 20 L, empty_mass: 4 kg}]}"};
  plan.cold = {
      "{name: chest, volume: 30 L, set_point: 3 °C, rated: {draw: 9 W, ambient: 32 °C, "
      "inside: 4 °C}}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 60 Ah}"};
  plan.charging = {"{name: dc, current: 20 A, while: driving}"};
  plan.food = {"{item: stores, kept: dry, meals: 44}"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}, petrol: {}"),
                 PlanText::place("Half Well", "air", "drinking_water: {}"),
                 PlanText::place("Far Well", "air", "drinking_water: {}, petrol: {}, food: {}")};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Half Well, distance: 150 km, surfaces: gravel}",
                    "stay: {nights: 2}",
                    "resupply: {drinking_water: 10 L}",
                    "drive: {to: Far Well, distance: 190 km, surfaces: track}",
                    "stay: {nights: 2}"};
  return plan;
}

/// What is known of two failures, whichever strikes first.
struct Known {
  std::size_t tried = 0;
  std::size_t dry = 0;
  Outcome worst = Outcome::holds;
  std::set<std::pair<int, double>> dry_at{};  ///< of the worst
};
using AllKnown = std::map<std::pair<int, int>, Known>;

/// Every mishap on every other, each run from the trip's first step.
class EveryPair {
 public:
  explicit EveryPair(const PlanRun& planned) : plan_(planned, {}) {
    for (const Strike& strike : plan_.strikes()) {
      alone_[{strike.mishap, strike.ordinal}] = plan_.finding_with_retreat(strike).outcome;
    }
  }

  AllKnown list() {
    for (const Strike& strike : plan_.strikes()) try_on(strike);
    std::erase_if(known_, [](const auto& pair) { return pair.second.dry == 0; });
    return known_;
  }

 private:
  void try_on(const Strike& first) {
    const Outcome alone = alone_.at({first.mishap, first.ordinal});
    if (alone == Outcome::runs_out_vital) return;
    const Mishap& mishap = plan_.mishaps()[first.mishap];
    const LaidTrip laid = plan_.struck(plan_.laid(), mishap, first.step);
    for (std::size_t m = 0; m < plan_.mishaps().size(); ++m) {
      const Mishap& other = plan_.mishaps()[m];
      const bool again = m == first.mishap && !other.repeats;
      if (again || (mishap.turns_back && other.turns_back)) continue;
      const std::vector<std::size_t> steps = other.strikes(laid);
      const std::size_t planned = other.strikes(plan_.laid()).size();
      for (std::size_t n = 0; n < steps.size(); ++n) {
        // On days that the first one has added, nothing could strike the plan itself.
        const Outcome by_itself = n < planned ? alone_.at({m, n}) : Outcome::holds;
        if (by_itself == Outcome::runs_out_vital) continue;
        // Of two at one moment, the one that stands first in the list strikes first.
        if (std::pair(steps[n], m) <= std::pair(first.step, first.mishap)) continue;
        try_both(first, laid, m, steps[n], std::max(alone, by_itself));
      }
    }
  }

  void try_both(const Strike& first, const LaidTrip& laid, std::size_t m, std::size_t step,
                Outcome alone) {
    const Mishap& mishap = plan_.mishaps()[first.mishap];
    const Mishap& other = plan_.mishaps()[m];
    engine::Record planned = engine::blank_record(*plan_.laid().course);
    Engine::Standing standing = Engine::begin(*plan_.laid().course, planned);
    Engine::go_on(*plan_.laid().course, standing, first.step);
    engine::Record between = engine::blank_record(*laid.course);
    Engine::Standing now = Engine::resume(standing, *laid.course, first.step, between);
    Engine::lose_excess(*laid.course, now);
    Engine::go_on(*laid.course, now, step);
    const LaidTrip both = plan_.struck(laid, other, step);
    engine::Record record;
    const auto until =
        other.turns_back ? judged_until(both, other, step) : judged_until(both, mishap, first.step);
    const Finding found =
        finding_after(both, now, step, until, plan_.planned(both.timeline->steps[step]), record);
    note(static_cast<int>(first.mishap), static_cast<int>(m), alone, found);
  }

  void note(int first, int second, Outcome alone, const Finding& found) {
    Known& known = known_[{std::min(first, second), std::max(first, second)}];
    ++known.tried;
    if (found.outcome < Outcome::runs_out || found.outcome <= alone) return;
    ++known.dry;
    if (found.outcome > known.worst) known.dry_at.clear();
    known.worst = std::max(known.worst, found.outcome);
    if (found.outcome == known.worst) known.dry_at.emplace(found.dry_day, found.dry_hour);
  }

  SweepPlan plan_;
  std::map<std::pair<std::size_t, std::size_t>, Outcome> alone_;
  AllKnown known_;
};

PairSweep pairs_of(const PlanRun& planned, const SweepOptions& options = {}) {
  return sweep_pairs(planned, options, sweep_mishaps(planned, options));
}

/// The list against every pair tried by itself; how many there are.
std::size_t expect_all_pairs(const PlanText& plan) {
  const PlanRun planned = support::travel(plan);
  const AllKnown expected = EveryPair(planned).list();
  const PairSweep sweep = pairs_of(planned);
  EXPECT_EQ(sweep.pairs.size(), expected.size());
  std::size_t runs = 0;
  for (const PairFinding& pair : sweep.pairs) {
    const auto [low, high] = std::minmax(pair.first, pair.second);
    SCOPED_TRACE(std::to_string(pair.first) + " and " + std::to_string(pair.second));
    const bool is_known = expected.contains({low, high});
    EXPECT_TRUE(is_known);
    if (!is_known) continue;
    const Known& known = expected.at({low, high});
    EXPECT_EQ(pair.tried, known.tried);
    EXPECT_EQ(pair.dry, known.dry);
    EXPECT_EQ(pair.worst.outcome, known.worst);
    // The worst is the one that is dry first.
    EXPECT_EQ(std::pair(pair.worst.dry_day, pair.worst.dry_hour), *known.dry_at.begin());
    EXPECT_EQ(pair.worst.failure, pair.second);
    EXPECT_LE(std::pair(pair.first_day, pair.first_hour),
              std::pair(pair.worst.day, pair.worst.hour));
    runs += pair.tried;
  }
  EXPECT_GE(sweep.runs, runs);
  EXPECT_FALSE(sweep.partial());
  return expected.size();
}

TEST(MishapPairs, AreThoseThatTryingEveryTwoByThemselvesFinds) {
  EXPECT_GT(expect_all_pairs(thin_trip()), 5U);
}

TEST(MishapPairs, AreThatWhereLifeDependsOnMoreThanWaterAndFuel) {
  PlanText plan = thin_trip();
  plan.consumables = {
      "{name: tablets, unit: doses, matters: life, stores: [{name: box, holds: 12, filled: 12}, "
      "{name: spare box, holds: 8, filled: 8}], use: {per_person_day: 1}}",
      "{name: gas, unit: kg, stores: [{name: bottle, holds: 2 kg, filled: 2 kg, empty_mass: 3 "
      "kg}], use: {per_meal: 40 g}}"};
  EXPECT_GT(expect_all_pairs(plan), 5U);
}

TEST(MishapPairs, AreThatWhereAGeneratorChargesByFuel) {
  PlanText plan = thin_trip();
  plan.charging.emplace_back(
      "{name: generator, generator: 500 W, fuel: petrol, uses: 0.05 L/h, runs: 1 h/day, starts: "
      "\"18:00\"}");
  EXPECT_GT(expect_all_pairs(plan), 0U);
}

TEST(MishapPairs, AreNotThoseOfWhichOneIsFatalAlone) {
  PlanText plan = thin_trip();
  const PlanRun planned = support::travel(plan);
  const Sweep single = sweep_mishaps(planned, {});
  // Each failure that is fatal whenever it strikes is in no pair at all.
  std::vector<bool> always(single.failures.size(), true);
  for (const Finding& finding : single.findings) {
    if (finding.outcome < Outcome::runs_out_vital) {
      always[static_cast<std::size_t>(finding.failure)] = false;
    }
  }
  for (const PairFinding& pair : pairs_of(planned).pairs) {
    EXPECT_FALSE(always[static_cast<std::size_t>(pair.first)]);
    EXPECT_FALSE(always[static_cast<std::size_t>(pair.second)]);
    const auto first = std::ranges::find_if(single.findings, [&](const Finding& finding) {
      return finding.failure == pair.first && finding.day == pair.first_day &&
             finding.hour == pair.first_hour;
    });
    ASSERT_NE(first, single.findings.end());
    EXPECT_LT(first->outcome, pair.worst.outcome);
  }
}

TEST(MishapPairs, TwoAtTheSameMomentAreOnePair) {
  PlanText plan;
  plan.margins = {"drinking_water: 1 L"};
  plan.containers = {"{name: can 1, holds: 14 L, filled: 14 L}",
                     "{name: can 2, holds: 14 L, filled: 14 L}"};
  const PlanRun planned = support::travel(plan);
  const int days = static_cast<int>(planned.record.days());
  // Four litres a day for six days: 24 L of 28 L. Without one can from the first day on, 14 L.
  const PairSweep none = pairs_of(planned, {.only = {MishapKind::container}});
  EXPECT_TRUE(none.pairs.empty()) << "either can is fatal alone in the first days";
  // With three cans any one may go, on any day, and no two on the first.
  plan.containers.emplace_back("{name: can 3, holds: 14 L, filled: 14 L}");
  const PairSweep some = pairs_of(support::travel(plan), {.only = {MishapKind::container}});
  ASSERT_EQ(some.pairs.size(), 3U);
  for (const PairFinding& pair : some.pairs) {
    EXPECT_EQ(pair.tried, static_cast<std::size_t>(days * days));
    EXPECT_EQ(pair.first_day, 0);
    EXPECT_EQ(pair.worst.day, 0);
    EXPECT_LT(pair.first, pair.second);
  }
}

TEST(MishapPairs, WhatHasBrokenDoesNotBreakAgain) {
  for (const PairFinding& pair : pairs_of(support::travel(thin_trip())).pairs) {
    if (pair.first != pair.second) continue;
    const Sweep single = sweep_mishaps(support::travel(thin_trip()), {});
    const MishapKind kind = single.failures[static_cast<std::size_t>(pair.first)].kind;
    EXPECT_TRUE(kind == MishapKind::stuck || kind == MishapKind::soft_going);
  }
}

/// Pairs by their names, the lesser first.
std::set<std::pair<std::string, std::string>> names(const Sweep& single, const PairSweep& sweep,
                                                    Outcome outcome) {
  std::set<std::pair<std::string, std::string>> out;
  for (const PairFinding& pair : sweep.pairs) {
    if (pair.worst.outcome != outcome) continue;
    std::string first = single.failures[static_cast<std::size_t>(pair.first)].name;
    std::string second = single.failures[static_cast<std::size_t>(pair.second)].name;
    if (second < first) std::swap(first, second);
    out.emplace(std::move(first), std::move(second));
  }
  return out;
}

TEST(MishapPairs, AreFoundWhereNothingAloneIsFatal) {
  plan::Plan plan = support::scenario_plan("two-at-once");
  plan.mishaps.stuck_h = 48;
  const PlanRun planned = support::run_plan(plan);
  const Sweep single = sweep_mishaps(planned, {});
  ASSERT_LT(single.worst(), Outcome::runs_out_vital);
  const PairSweep sweep = sweep_pairs(planned, {}, single);
  const auto fatal = names(single, sweep, Outcome::runs_out_vital);
  EXPECT_THAT(fatal, Contains(std::pair("no drinking water at Halt Springs",
                                        "stuck 2 days before setting out")));
  EXPECT_THAT(fatal, Contains(std::pair("main tank lost", "sub tank lost")));
  EXPECT_FALSE(fatal.contains({"can 1 lost", "can 2 lost"}));
  // The first of these two, written as plans: no spring; two nights more; both.
  const auto short_of = [&](bool spring, int nights) {
    plan::Plan other = support::with_every_stop(planned);
    for (plan::Place& place : other.places) {
      if (place.name == "Halt Springs" && !spring) place.supplies.clear();
    }
    for (plan::ItineraryItem& item : other.itinerary) {
      auto* stay = std::get_if<plan::Stay>(&item);
      if (stay != nullptr && stay->nights == 1) stay->nights += nights;
    }
    const PlanRun every_stop = support::run_plan(support::with_every_stop(planned));
    return support::run_topped_up(other, every_stop).verdict.reserves.front().short_of;
  };
  EXPECT_EQ(short_of(true, 0), 0);
  EXPECT_EQ(short_of(false, 0), 0);
  EXPECT_EQ(short_of(true, 2), 0);
  EXPECT_GT(short_of(false, 2), 5);
}

TEST(MishapPairs, WhoHasTurnedBackIsJudgedOnTheWayAlone) {
  const PlanRun planned = support::run_plan(support::scenario_plan("long-loop"));
  const SweepOptions options{.only = {MishapKind::shut, MishapKind::container}, .days = {}};
  const SweepPlan plan(planned, options);
  for (const PairFinding& pair : pairs_of(planned, options).pairs) {
    if (plan.mishaps()[static_cast<std::size_t>(pair.first)].failure.kind != MishapKind::shut) {
      continue;
    }
    for (const Strike& strike : plan.strikes()) {
      const engine::TimeStep& step = plan.laid().timeline->steps[strike.step];
      if (static_cast<int>(strike.mishap) != pair.first || step.day != pair.first_day) continue;
      const LaidTrip back = plan.struck(strike);
      const auto there = next_refuge(back, strike.step, pair.worst.reserve);
      if (!there) continue;
      const engine::TimeStep& arrival = back.timeline->steps[there->step];
      EXPECT_LT(std::pair(pair.worst.day, pair.worst.hour), std::pair(arrival.day, arrival.from_h));
    }
  }
}

TEST(MishapPairs, BeginWithEverySingleMishapThatIsNotFatalAtHoweverOddAnHour) {
  // Legs of odd lengths, so that delays on the way strike at odd hours.
  PlanText plan = thin_trip();
  plan.itinerary[1] =
      "drive: {to: Half Well, distance: 151.7 km, surfaces: gravel, speed: 47 km/h}";
  plan.itinerary[4] = "drive: {to: Far Well, distance: 187.3 km, surfaces: track, speed: 31 km/h}";
  const PlanRun planned = support::run_plan(plan.plan());
  const Sweep single = sweep_mishaps(planned, {});
  const SweepPlan sweep(planned, {});
  ASSERT_EQ(single.findings.size(), sweep.strikes().size());
  std::size_t firsts = 0;
  std::set<std::size_t> timeless;
  for (std::size_t s = 0; s < single.findings.size(); ++s) {
    if (single.findings[s].outcome == Outcome::runs_out_vital) continue;
    const std::size_t mishap = sweep.strikes()[s].mishap;
    if (sweep.mishaps()[mishap].moves_time()) ++firsts;
    if (!sweep.mishaps()[mishap].moves_time()) timeless.insert(mishap);
  }
  EXPECT_EQ(sweep_pairs(planned, {}, single).asked, firsts + timeless.size());
}

TEST(MishapPairs, StandWorstFirst) {
  const PairSweep sweep = pairs_of(support::travel(thin_trip()));
  const auto rank = [](const PairFinding& pair) {
    return std::tuple(-static_cast<int>(pair.worst.outcome), pair.worst.dry_day,
                      pair.worst.dry_hour);
  };
  EXPECT_TRUE(std::ranges::is_sorted(sweep.pairs, {}, rank));
}

std::vector<std::string> told_pairs(const PairSweep& sweep) {
  std::vector<std::string> out;
  for (const PairFinding& pair : sweep.pairs) {
    out.push_back(std::to_string(pair.first) + " on " + std::to_string(pair.first_day) + ", " +
                  told(pair.worst) + " in " + std::to_string(pair.dry) + " of " +
                  std::to_string(pair.tried));
  }
  return out;
}

TEST(MishapPairs, AreTheSameOnOneThreadAndOnTwo) {
  using tbb::global_control;
  const PlanRun planned = support::travel(thin_trip());
  const auto with_threads = [&](std::size_t threads) {
    const global_control control(global_control::max_allowed_parallelism, threads);
    const PairSweep sweep = pairs_of(planned);
    return std::pair(told_pairs(sweep), sweep.runs);
  };
  const auto one = with_threads(1);
  EXPECT_EQ(with_threads(2), one);
  EXPECT_EQ(with_threads(2), one);
}

TEST(MishapPairs, ArePartialWhenStopped) {
  const PlanRun planned = support::travel(thin_trip());
  const Sweep single = sweep_mishaps(planned, {});
  const PairSweep all = sweep_pairs(planned, {}, single);
  std::atomic<bool> stop = true;
  const PairSweep none = sweep_pairs(planned, {}, single, {.progress = {}, .stop = &stop});
  EXPECT_TRUE(none.partial());
  EXPECT_TRUE(none.pairs.empty());
  EXPECT_EQ(none.done, 0U);
  stop = false;
  std::size_t last = 0;
  const Watch watch{.progress =
                        [&](std::size_t done, std::size_t total) {
                          EXPECT_EQ(done, last + 1);
                          EXPECT_EQ(total, all.asked);
                          last = done;
                          stop = done >= 5;
                        },
                    .stop = &stop};
  const PairSweep some = sweep_pairs(planned, {}, single, watch);
  EXPECT_TRUE(some.partial());
  EXPECT_EQ(some.done, last);
  EXPECT_GE(some.done, 5U);
  EXPECT_LT(some.runs, all.runs);
}

TEST(MishapPairs, AreNotTriedOnStrikesThatASingleSweepDidNotReach) {
  const PlanRun planned = support::travel(thin_trip());
  std::atomic<bool> stop = false;
  const Watch watch{.progress = [&](std::size_t done, std::size_t) { stop = done >= 4; },
                    .stop = &stop};
  const Sweep single = sweep_mishaps(planned, {}, watch);
  ASSERT_TRUE(single.partial());
  const PairSweep sweep = sweep_pairs(planned, {}, single);
  EXPECT_LE(sweep.asked, single.findings.size());
  for (const PairFinding& pair : sweep.pairs) {
    for (const int failure : {pair.first, pair.second}) {
      EXPECT_TRUE(std::ranges::any_of(single.findings, [failure](const Finding& finding) {
        return finding.failure == failure;
      }));
    }
  }
}

}  // namespace
}  // namespace drystage::answers
