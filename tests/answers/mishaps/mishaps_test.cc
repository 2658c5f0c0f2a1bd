// What every single mishap comes to: what is found, what is not, and that nothing of it is lost.
#include "answers/mishaps/mishaps.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "cli/workspace.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/suffered.h"
#include "support/trip.h"

namespace drystage::answers::mishaps_test {
namespace {

using engine::Engine;
using plan::MishapKind;
using support::Suffered;
using support::told;

constexpr double rounding = 1e-9;

PlanRun scenario(const std::string& name) {
  return support::run_plan(support::scenario_plan(name));
}

class EveryMishap : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, EveryMishap, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

// --- what is found ---

TEST(SingleMishaps, OneFailureOnOneDayIsFatalAtTheLastCampAndItIsFound) {
  plan::Plan plan = support::scenario_plan("last-camp");
  const PlanRun planned = support::run_plan(plan);
  const Sweep sweep = sweep_mishaps(planned, {});
  EXPECT_EQ(sweep.plan_itself.outcome, Outcome::holds);
  std::vector<Finding> fatal;
  std::ranges::copy_if(sweep.findings, std::back_inserter(fatal), [](const Finding& finding) {
    return finding.outcome == Outcome::runs_out_vital;
  });
  ASSERT_EQ(fatal.size(), 1U);
  EXPECT_EQ(sweep.failures[static_cast<std::size_t>(fatal[0].failure)].kind, MishapKind::shut);
  EXPECT_EQ(fatal[0].day, 7);
  EXPECT_EQ(planned.course.reserves[static_cast<std::size_t>(fatal[0].reserve)].name, "fuel:truck");
  EXPECT_FALSE(fatal[0].retreat_saves) << "it is a retreat";
  EXPECT_EQ(sweep.worst(), Outcome::runs_out_vital);
  // What it lacks is a can.
  EXPECT_LT(fatal[0].short_of, 20);
  plan.vehicles[0].tanks.push_back(plan.vehicles[0].tanks.back());
  for (const Finding& finding : sweep_mishaps(support::run_plan(plan), {}).findings) {
    EXPECT_NE(finding.outcome, Outcome::runs_out_vital) << told(finding);
  }
}

TEST(SingleMishaps, NothingAloneIsFatalWhereOnlyTwoAtOnceAre) {
  const Sweep sweep = sweep_mishaps(scenario("two-at-once"), {});
  EXPECT_EQ(sweep.plan_itself.outcome, Outcome::holds);
  EXPECT_EQ(sweep.worst(), Outcome::runs_out);
}

TEST(SingleMishaps, OwnOneStrikesOnItsDayAloneAndWhatIsLeftOutIsNotTried) {
  const plan::Plan plan = support::scenario_plan("two-at-once");
  const Sweep sweep = sweep_mishaps(support::run_plan(plan), {});
  std::vector<int> days;
  for (const Finding& finding : sweep.findings) {
    const Failure& failure = sweep.failures[static_cast<std::size_t>(finding.failure)];
    if (failure.kind == MishapKind::own) days.push_back(finding.day);
    EXPECT_NE(failure.kind, MishapKind::one_more);
  }
  EXPECT_EQ(days, std::vector{5});
}

/// The names that a sweep has for one kind of failure.
std::vector<std::string> names(const Sweep& sweep, MishapKind kind) {
  std::vector<std::string> out;
  for (const Failure& failure : sweep.failures) {
    if (failure.kind == kind) out.push_back(failure.name);
  }
  return out;
}

TEST(SingleMishaps, TuningIsSaidInTheirNames) {
  const Sweep sweep = sweep_mishaps(scenario("two-at-once"), {});
  EXPECT_EQ(names(sweep, MishapKind::stuck),
            (std::vector<std::string>{"stuck 36 h before setting out", "stuck 36 h on the way"}));
  EXPECT_EQ(names(sweep, MishapKind::heat_wave),
            std::vector<std::string>{"4 °C hotter for 4 days"});
  EXPECT_EQ(names(sweep, MishapKind::soft_going),
            std::vector<std::string>{"soft going: 40 % more fuel"});
}

/// The hours from the trip's first midnight to the last of its driving.
double arrival_h(const engine::Timeline& timeline) {
  double out = 0;
  for (const engine::TimeStep& step : timeline.steps) {
    if (step.drive >= 0) out = 24.0 * step.day + step.from_h + step.dt_h;
  }
  return out;
}

TEST(SingleMishaps, StuckHalfwayIsThatLongAndNotAMinuteMore) {
  support::PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: tub, holds: 90 L, filled: 90 L}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}",
                    "drive: {to: Red, distance: 300 km, surfaces: gravel, speed: 50 "
                    "km/h}"};
  for (const double stuck_h : {0.5, 5.0, 24.0, 48.0}) {
    plan::Plan plan = text.plan();
    plan.mishaps.stuck_h = stuck_h;
    const PlanRun planned = support::run_plan(plan);
    const SweepPlan sweep(planned, {.only = {MishapKind::stuck}, .days = {}});
    ASSERT_EQ(sweep.strikes().size(), 1U);
    const Suffered one(sweep, sweep.strikes()[0]);
    // Six hours from eight o'clock; three of them are done when it strikes, or nearly.
    EXPECT_NEAR(one.first.from_h, 11, 1);
    EXPECT_NEAR(arrival_h(*planned.course.timeline), 14, 1e-9);
    EXPECT_NEAR(arrival_h(*one.laid.timeline), 14 + stuck_h, 1e-9);
    // They drink 4 L a day; what is left at the end of the last day follows.
    const auto days = static_cast<double>(one.record.days());
    EXPECT_EQ(days, 1 + std::floor((14 + stuck_h) / 24));
    EXPECT_NEAR(one.record.reserve(one.record.days() - 1, 0).end, 90 - 4 * days, 1e-9);
  }
}

TEST_P(EveryMishap, AreOfEveryKindThatCanStrike) {
  const PlanRun planned = scenario(GetParam());
  const plan::Plan& plan = planned.plan;
  const Sweep sweep = sweep_mishaps(planned, {});
  std::size_t tanks = 0;
  for (const plan::Vehicle& vehicle : plan.vehicles) tanks += vehicle.tanks.size();
  std::size_t stores = 0;
  for (const plan::Consumable& consumable : plan.consumables) stores += consumable.stores.size();
  EXPECT_EQ(names(sweep, MishapKind::container).size(),
            plan.water.containers.size() + tanks + stores);
  EXPECT_EQ(names(sweep, MishapKind::charger).size(), plan.power.chargers.size());
  EXPECT_EQ(names(sweep, MishapKind::battery).size(), plan.power.banks.size());
  EXPECT_EQ(
      names(sweep, MishapKind::compressor).size(),
      static_cast<std::size_t>(std::ranges::count(plan.cold, false, &plan::Cabinet::ice_box)));
  // Each may be left behind, and who is to join may not come.
  const auto guests = std::ranges::count_if(
      plan.vehicles, [](const plan::Vehicle& vehicle) { return vehicle.along.from.is_said(); });
  EXPECT_EQ(names(sweep, MishapKind::vehicle).size(),
            plan.vehicles.size() > 1 ? plan.vehicles.size() + static_cast<std::size_t>(guests) : 0);
  const bool left_out = !plan.mishaps.left_out.empty();
  EXPECT_EQ(names(sweep, MishapKind::one_more).size(), left_out ? 0U : 1U);
  EXPECT_EQ(sweep.findings.size(), sweep.asked);
  EXPECT_FALSE(sweep.partial());
}

TEST_P(EveryMishap, StandInTheOrderOfFailuresAndOfTime) {
  const Sweep sweep = sweep_mishaps(scenario(GetParam()), {});
  const auto when = [](const Finding& finding) {
    return std::tuple(finding.failure, finding.day, finding.hour);
  };
  EXPECT_TRUE(std::ranges::is_sorted(sweep.findings, {}, when));
}

// --- nothing is lost silently ---

/// Every mishap of a scenario at every moment.
void suffer_each(
    const PlanRun& planned, const SweepOptions& options,
    const std::function<void(const SweepPlan&, const Strike&, const Suffered&)>& look) {
  const SweepPlan sweep(planned, options);
  for (const Strike& strike : sweep.strikes()) {
    const Suffered suffered(sweep, strike);
    SCOPED_TRACE(suffered.mishap.failure.name + ", day " + std::to_string(suffered.day + 1));
    look(sweep, strike, suffered);
  }
}

TEST_P(EveryMishap, EveryStoreBalancesFromTheMomentOnWhichItStrikes) {
  suffer_each(scenario(GetParam()), {}, [](const auto& sweep, const auto& strike, const auto& one) {
    for (std::size_t s = 0; s < one.record.stores; ++s) {
      double level = sweep.before(strike.step).run.level(static_cast<int>(s));
      const double size = std::max(1.0, one.laid.course->stores[s].capacity);
      for (std::size_t day = one.day; day < one.record.days(); ++day) {
        const engine::StoreDay& row = one.record.store(day, s);
        EXPECT_NEAR(row.start, level, rounding * size);
        level = row.start + row.gained - row.used - row.lost;
        EXPECT_NEAR(row.end, level, rounding * size) << one.laid.course->stores[s].name;
        EXPECT_GE(row.lost, -rounding * size);
        level = row.end;
      }
    }
  });
}

TEST_P(EveryMishap, EveryReserveBalancesAndIsTheSumOfWhatServesIt) {
  const PlanRun planned = scenario(GetParam());
  suffer_each(planned, {}, [](const auto& sweep, const auto& strike, const auto& one) {
    const engine::Course& course = *one.laid.course;
    for (std::size_t r = 0; r < one.record.reserves; ++r) {
      const engine::ReserveInfo& info = course.reserves[r];
      if (info.sense != engine::Sense::keep_above) continue;
      double level = sweep.before(strike.step).run.reserve_level(static_cast<int>(r));
      const double size = std::max(1.0, info.capacity);
      for (std::size_t day = one.day; day < one.record.days(); ++day) {
        const engine::ReserveDay& row = one.record.reserve(day, r);
        EXPECT_NEAR(row.start, level, rounding * size) << info.name;
        EXPECT_NEAR(row.end, row.start + row.gained - row.used - row.lost, rounding * size)
            << info.name;
        level = row.end;
      }
    }
    double water_l = 0;
    double stored_l = 0;
    for (std::size_t r = 0; r < one.record.reserves; ++r) {
      if (course.reserves[r].name.ends_with("_water"))
        water_l += one.record.reserve(one.day, r).end;
    }
    for (const plan::Container& can : one.laid.plan->water.containers) {
      const auto s = static_cast<std::size_t>(support::store_index(course, can.name));
      stored_l += one.record.store(one.day, s).end;
    }
    EXPECT_NEAR(water_l, stored_l, rounding * 1000);
  });
}

TEST_P(EveryMishap, WhatALostContainerHeldIsWrittenDownAsLost) {
  const PlanRun planned = scenario(GetParam());
  const SweepOptions containers{.only = {MishapKind::container}, .days = {}};
  suffer_each(planned, containers, [](const auto& sweep, const auto& strike, const auto& one) {
    const engine::Course& course = *one.laid.course;
    const plan::Plan& plan = *one.laid.plan;
    // Stores stand in the order of compiling: water first, those opened last behind the others.
    int store = -1;
    double unusable_l = 0;
    std::string reserve;
    for (const int lost : one.mishap.damage.containers) {
      const plan::Container& can = plan.water.containers[static_cast<std::size_t>(lost)];
      store = support::store_index(course, can.name);
      const bool drinking = can.use == plan::WaterUse::drinking;
      reserve = drinking ? "drinking_water" : "utility_water";
    }
    int next = static_cast<int>(plan.water.containers.size());
    for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
      const plan::Vehicle& vehicle = plan.vehicles[static_cast<std::size_t>(v)];
      for (int t = 0; t < static_cast<int>(vehicle.tanks.size()); ++t, ++next) {
        const plan::TankReference tank{.vehicle = v, .tank = t};
        if (std::ranges::find(one.mishap.damage.tanks, tank) == one.mishap.damage.tanks.end()) {
          continue;
        }
        store = next;
        reserve = "fuel:" + vehicle.name;
        unusable_l = vehicle.tanks[static_cast<std::size_t>(t)].unusable_l;
      }
    }
    for (const plan::ConsumableStoreReference& lost : one.mishap.damage.stores) {
      const plan::Consumable& of = plan.consumables[static_cast<std::size_t>(lost.consumable)];
      store = support::store_index(course, of.stores[static_cast<std::size_t>(lost.store)].name);
      reserve = "consumable:" + of.name;
    }
    ASSERT_GE(store, 0);
    const double held_l = sweep.before(strike.step).run.level(store);
    const auto r = static_cast<std::size_t>(support::reserve_index(course, reserve));
    EXPECT_NEAR(one.record.store(one.day, static_cast<std::size_t>(store)).lost, held_l, rounding);
    // What goes home, or is left standing, that day is lost to it too.
    const auto& steps = one.laid.timeline->steps;
    const bool same_company = std::ranges::all_of(steps, [&](const engine::TimeStep& step) {
      return step.day != static_cast<int>(one.day) || step.company == steps[strike.step].company;
    });
    if (same_company) {
      EXPECT_NEAR(one.record.reserve(one.day, r).lost, std::max(0.0, held_l - unusable_l), 1e-6);
    }
    for (std::size_t day = one.day; day < one.record.days(); ++day) {
      EXPECT_EQ(one.record.store(day, static_cast<std::size_t>(store)).end, 0);
    }
  });
}

TEST_P(EveryMishap, WhatABankCannotHoldAnyMoreIsWrittenDownAsLost) {
  const PlanRun planned = scenario(GetParam());
  const SweepOptions banks{.only = {MishapKind::battery}, .days = {}};
  const SweepPlan plan_itself(planned, banks);
  suffer_each(planned, banks, [](const auto& sweep, const auto& strike, const auto& one) {
    for (const plan::Bank& bank : one.laid.plan->power.banks) {
      const auto s = static_cast<std::size_t>(support::store_index(*one.laid.course, bank.name));
      if (one.mishap.failure.name.rfind(bank.name, 0) != 0) continue;
      const double held_ah = sweep.before(strike.step).run.level(static_cast<int>(s));
      const double lost_ah = std::max(0.0, held_ah - bank.capacity_ah);
      // Charging loses some too.
      EXPECT_GE(one.record.store(one.day, s).lost, lost_ah - rounding);
      EXPECT_LE(one.record.store(one.day, s).end, bank.capacity_ah + rounding);
    }
  });
}

// --- symmetry ---

TEST(SingleMishaps, OneAfterTheLastDayChangesNothing) {
  plan::Plan plan = support::scenario_plan("two-at-once");
  const Sweep before = sweep_mishaps(support::run_plan(plan), {.only = {MishapKind::stuck}});
  plan::OwnMishap late = plan.mishaps.own.front();
  late.name = "too late";
  late.day = 8;
  plan.mishaps.own = {late};
  const SweepOptions with_own{.only = {MishapKind::stuck, MishapKind::own}};
  const Sweep after = sweep_mishaps(support::run_plan(plan), with_own);
  EXPECT_EQ(told(after.findings), told(before.findings));
  EXPECT_TRUE(names(after, MishapKind::own).empty());
  EXPECT_EQ(after.remarks.front(),
            R"(mishap "too late" strikes on a day that the trip does not have)");
}

/// Every day from when it strikes is as in the plan itself.
void expect_nothing(const plan::Plan& plan, const SweepOptions& options) {
  const PlanRun planned = support::run_plan(support::with_every_stop(support::run_plan(plan)));
  std::size_t tried = 0;
  suffer_each(planned, options, [&](const auto&, const auto&, const Suffered& one) {
    ++tried;
    EXPECT_EQ(one.found.outcome, Outcome::holds) << told(one.found);
    ASSERT_EQ(one.record.days(), planned.record.days());
    for (std::size_t r = 0; r < one.record.reserves; ++r) {
      for (std::size_t day = one.day; day < one.record.days(); ++day) {
        EXPECT_NEAR(one.record.reserve(day, r).end, planned.record.reserve(day, r).end, rounding);
        if (day == one.day || !planned.record.reserve(day, r).judged) continue;
        EXPECT_NEAR(one.record.reserve(day, r).slack, planned.record.reserve(day, r).slack,
                    rounding);
        EXPECT_NEAR(one.record.reserve(day, r).used, planned.record.reserve(day, r).used, rounding);
      }
    }
  });
  EXPECT_GT(tried, 0U);
}

TEST_P(EveryMishap, OfNoSizeComeToThePlanItself) {
  plan::Plan plan = support::scenario_plan(GetParam());
  plan.mishaps = support::usual_mishaps();
  plan.mishaps.hotter_k = 0;
  plan.mishaps.battery_left = 1;
  plan.mishaps.soft_more_fuel = 0;
  plan.mishaps.soft_slower = 0;
  expect_nothing(plan, {.only = {MishapKind::heat_wave, MishapKind::soft_going}});
  if (!plan.power.banks.empty()) expect_nothing(plan, {.only = {MishapKind::battery}});
  // A can that is empty from the beginning.
  plan.water.containers.push_back({.name = "empty can", .holds_l = 0, .filled_l = 0});
  plan::OwnMishap own;
  own.name = "empty can lost";
  own.containers = {static_cast<int>(plan.water.containers.size()) - 1};
  plan.mishaps.own = {own};
  expect_nothing(plan, {.only = {MishapKind::own}});
}

TEST(SingleMishaps, UtilityWaterThatMustBeDrunkIsNoHolding) {
  // Six days at 4 L; two days more take 8 L of the tub's 20.
  support::PlanText text;
  text.containers = {"{name: can, holds: 24 L, filled: 24 L, for: drinking}",
                     "{name: tub, holds: 20 L, filled: 20 L, for: utility}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 4}",
                    "drive: {to: Red, distance: 30 km, surfaces: gravel}"};
  plan::Plan plan = text.plan();
  plan.mishaps.stuck_h = 48;
  const PlanRun planned = support::run_plan(plan);
  ASSERT_TRUE(planned.verdict.holds);
  const double left_l = planned.record.reserve(planned.record.days() - 1, 0).end;
  for (const Finding& finding : sweep_mishaps(planned, {.only = {MishapKind::stuck}}).findings) {
    EXPECT_EQ(finding.outcome, Outcome::eats_margin);
    EXPECT_EQ(finding.reserve, 0);
    EXPECT_NEAR(finding.stood_in, 8 - left_l, 1e-6);
    EXPECT_EQ(finding.short_of, 0);
  }
}

TEST(SingleMishaps, WhatIsNoWorseThanThePlanItselfHolds) {
  // One of them falls below a margin by itself, the other runs dry.
  for (const char* name : {"base-camp", "desert-crossing"}) {
    const PlanRun planned = scenario(name);
    const SweepPlan sweep(planned, {});
    int hold = 0;
    for (const Strike& strike : sweep.strikes()) {
      const Suffered one(sweep, strike);
      if (one.mishap.turns_back || one.found.outcome != Outcome::holds) continue;
      ++hold;
      for (std::size_t r = 0; r < one.record.reserves; ++r) {
        const Fate& own = sweep.planned(one.first)[r];
        Fate fate;
        for (std::size_t day = one.day; day < one.record.days(); ++day) {
          fate.slack = std::min(fate.slack, one.record.reserve(day, r).slack);
          fate.short_of += one.record.reserve(day, r).short_of;
        }
        EXPECT_LE(fate.short_of, own.short_of + 1e-6) << told(one.found);
        EXPECT_GE(fate.slack, std::min(own.slack, 0.0) - 1e-6) << told(one.found);
      }
    }
    EXPECT_GT(hold, 0);
  }
}

TEST_P(EveryMishap, ThePlanItselfIsJudgedAsItsVerdict) {
  const PlanRun planned = scenario(GetParam());
  const Finding itself = sweep_mishaps(planned, {.only = {MishapKind::own}}).plan_itself;
  const auto dry = [&](bool vital) {
    for (std::size_t r = 0; r < planned.verdict.reserves.size(); ++r) {
      const bool counts = !vital || planned.course.reserves[r].life_supporting;
      if (counts && planned.verdict.reserves[r].short_of > rounding) return true;
    }
    return false;
  };
  const Outcome expected = dry(true)                         ? Outcome::runs_out_vital
                           : dry(false)                      ? Outcome::runs_out
                           : planned.verdict.reserves_hold() ? Outcome::holds
                                                             : Outcome::eats_margin;
  EXPECT_EQ(itself.outcome, expected);
}

TEST_P(EveryMishap, HeatAndSoftGoingComeToARunOfTheirOwnCourseFromItsStart) {
  const SweepOptions alike{.only = {MishapKind::heat_wave, MishapKind::soft_going}, .days = {}};
  suffer_each(scenario(GetParam()), alike, [](const auto&, const auto&, const Suffered& one) {
    const engine::Record whole =
        Engine::run(engine::recompile(*one.laid.plan, one.laid.timeline, *one.laid.course));
    for (std::size_t r = 0; r < whole.reserves; ++r) {
      for (std::size_t day = one.day + 1; day < whole.days(); ++day) {
        // But for rounding: where it takes on as much as the plan did, what there is after that is
        // a sum here and a difference there.
        EXPECT_NEAR(one.record.reserve(day, r).end, whole.reserve(day, r).end, 1e-9);
        if (!whole.reserve(day, r).judged) continue;
        EXPECT_NEAR(one.record.reserve(day, r).slack, whole.reserve(day, r).slack, 1e-9);
      }
    }
  });
}

}  // namespace
}  // namespace drystage::answers::mishaps_test
