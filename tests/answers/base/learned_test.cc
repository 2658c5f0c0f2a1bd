#include "answers/base/learned.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "answers/base/laid_trip.h"
#include "answers/mishaps/mishaps.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "engine/readings.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "units/index.h"

namespace drystage::answers::learned_test {
namespace {

using engine::Engine;

/// What the plan's own run has in the evening of a day (from 0), as a reading.
plan::Reading as_planned(const PlanRun& planned, int day) {
  plan::Reading out{.day = day, .in_the_evening = true};
  const engine::Course& course = planned.course;
  const std::size_t step = engine::step_of(out, *course.timeline);
  engine::Record record = engine::blank_record(course);
  Engine::Standing now = Engine::begin(course, record);
  Engine::go_on(course, now, step);
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    const engine::ReserveId id = course.reserves[r].id;
    const double level = now.run.reserve_level(static_cast<int>(r));
    if (id.family == engine::Family::drinking_water) out.drinking_l = level;
    if (id.family == engine::Family::utility_water) out.utility_l = level;
    if (id.family == engine::Family::food) out.meals = level;
    const int company = course.timeline->steps[step].company;
    if (course.presences[at(company)].reserves[r] == 0) continue;
    if (id.family == engine::Family::fuel) out.fuel.push_back({id.of, level});
    if (id.family == engine::Family::battery) {
      out.banks.push_back({.bank = id.of, .charge_ah = level});
    }
    if (id.family == engine::Family::consumable) out.consumables.push_back({id.of, level});
  }
  return out;
}

class OfScenario : public ::testing::TestWithParam<const char*> {};

// Readings that are just what the plan has change nothing of what is to come.
TEST_P(OfScenario, ReadAsPlannedTheRestIsAsPlanned) {
  const plan::Plan plan = support::scenario_plan(GetParam());
  const PlanRun planned = support::run_plan(plan);
  const auto days = static_cast<int>(planned.record.days());
  plan::Plan read = plan;
  for (int day = 0; day + 1 < days; day += 1 + days / 6) {
    read.readings.push_back(as_planned(planned, day));
    const PlanRun rest = support::run_plan(read);
    ASSERT_EQ(rest.record.days(), planned.record.days());
    for (const engine::Factors& factors : rest.learned.factors) {
      EXPECT_NEAR(factors.drinking, 1, 1e-9);
      EXPECT_NEAR(factors.fuel_on(plan::Surface::sealed, 0), 1, 1e-9);
    }
    for (auto d = at(day + 1); d < planned.record.days(); ++d) {
      for (std::size_t r = 0; r < planned.record.reserves; ++r) {
        const engine::ReserveDay& was = planned.record.reserve(d, r);
        const engine::ReserveDay& is = rest.record.reserve(d, r);
        EXPECT_NEAR(is.lowest, was.lowest, 1e-6 + 1e-9 * std::abs(was.lowest))
            << planned.course.reserves[r].name << " on day " << d + 1 << ", read on " << day + 1;
        EXPECT_NEAR(is.end, was.end, 1e-6);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Learned, OfScenario,
                         ::testing::Values("desert-crossing", "coast-road", "long-loop",
                                           "family-two-vehicles", "side-trips", "two-that-meet"));

// One person drinks 4 L a day from three cans of 20 L; the evening counts from 20:00.
support::PlanText eight_days() {
  support::PlanText text;
  text.containers = {"{name: one, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: two, holds: 20 L, filled: 20 L, for: drinking}",
                     "{name: three, holds: 20 L, filled: 20 L, for: drinking}"};
  text.margins = {"drinking_water: 3 days"};
  text.itinerary = {"{at: Base}", "stay: {nights: 8}"};
  return text;
}

plan::Plan with_drinking(const support::PlanText& text, std::vector<std::pair<int, double>> found) {
  plan::Plan plan = text.plan();
  for (const auto& [day, litres] : found) {
    plan.readings.push_back({.day = day - 1, .in_the_evening = true, .drinking_l = litres});
  }
  return plan;
}

TEST(Learned, ComparesWhatWasUsedWithThePlan) {
  const PlanRun rest = support::run_plan(with_drinking(eight_days(), {{3, 45}}));
  ASSERT_EQ(rest.learned.uses.size(), 1U);
  // 68 hours at 4 L a day.
  EXPECT_NEAR(rest.learned.uses[0].calculated, 4.0 * 68 / 24, 1e-9);
  EXPECT_NEAR(rest.learned.uses[0].used, 15, 1e-9);
  const models::UseFactor factor = rest.learned.drinking.common;
  EXPECT_GT(factor.factor, 1.05);
  EXPECT_LT(factor.factor, 15 / (4.0 * 68 / 24));
  EXPECT_LT(factor.low, 1.3);
  EXPECT_GT(factor.high, factor.factor);
  // Tomorrow at the new rate, from what was found.
  const engine::ReserveDay& day4 = rest.record.reserve(3, 0);
  EXPECT_NEAR(day4.used, 4 * factor.factor, 1e-9);
  EXPECT_NEAR(day4.start, 45 - factor.factor * 4 * 4.0 / 24, 1e-9);
  // The days gone by end where they were found.
  EXPECT_NEAR(rest.record.reserve(2, 0).lost + rest.record.reserve(2, 0).gained, 0, 1e-9);
}

TEST(Learned, MoreReadingsAreMoreSure) {
  const PlanRun one = support::run_plan(with_drinking(eight_days(), {{3, 45}}));
  const PlanRun two = support::run_plan(with_drinking(eight_days(), {{3, 45}, {6, 30}}));
  const auto width = [](const PlanRun& run) {
    return run.learned.drinking.common.high - run.learned.drinking.common.low;
  };
  EXPECT_LT(width(two), width(one));
}

TEST(Learned, AsPlannedForgetsIt) {
  const plan::Plan plan = with_drinking(eight_days(), {{3, 45}});
  const auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan));
  const PlanRun rest = run_plan(plan, timeline, nullptr, 0, Rates::as_planned);
  EXPECT_NEAR(rest.record.reserve(3, 0).used, 4, 1e-9);
  EXPECT_NEAR(rest.record.reserve(3, 0).start, 45 - 4 * 4.0 / 24, 1e-9);
}

TEST(Learned, WhatIsPastIsNotJudged) {
  // Nothing left for two days, and then 40 L were found: the want is past.
  support::PlanText text = eight_days();
  text.containers = {"{name: can, holds: 60 L, filled: 4 L, for: drinking}"};
  EXPECT_FALSE(support::run_plan(text.plan()).verdict.holds);
  const PlanRun rest = support::run_plan(with_drinking(text, {{4, 40}}));
  EXPECT_TRUE(rest.verdict.holds);
  EXPECT_EQ(rest.verdict.reserves[0].short_of, 0);
  // What is found below the margin is below it from then on.
  const PlanRun low = support::run_plan(with_drinking(text, {{4, 10}}));
  ASSERT_FALSE(low.verdict.holds);
  EXPECT_EQ(low.verdict.first_breach->day, 3);
  EXPECT_EQ(low.verdict.first_breach->hour, 20);
}

TEST(Learned, AnswersSpeakOfWhatIsToCome) {
  plan::Plan plan = support::scenario_plan("desert-crossing");
  plan.readings.push_back({.day = 4, .in_the_evening = true, .drinking_l = 80});
  const PlanRun rest = support::run_plan(plan);
  EXPECT_EQ(morning_needs(rest).first_day, 5);
  for (const Finding& finding : sweep_mishaps(rest, {}).findings) {
    EXPECT_GE(std::pair(finding.day, finding.hour), std::pair(4, 20.0));
  }
  // The supplies behind stay ways back.
  const TurnBack back = turn_back_points(rest);
  ASSERT_FALSE(back.stretches.empty());
  for (const SupplyStretch& stretch : back.stretches) {
    EXPECT_GE(stretch.leaves.trip_h(), 4 * 24 + 20);
  }
}

TEST(Learned, OfVesselsThatWereNotReadThereIsWhatWasCalculated) {
  support::PlanText text = eight_days();
  text.containers = {"{name: one, holds: 30 L, filled: 30 L, for: drinking}",
                     "{name: two, holds: 30 L, filled: 30 L, for: drinking}"};
  plan::Plan plan = text.plan();
  // From the first can 11.3 L were used, as calculated; nobody has touched the second.
  plan.readings.push_back({.day = 2,
                           .in_the_evening = true,
                           .containers = {{.container = 0, .found = {.amount = 15}}}});
  const PlanRun rest = support::run_plan(plan);
  ASSERT_EQ(rest.learned.uses.size(), 1U);
  EXPECT_TRUE(rest.learned.uses[0].partly);
  EXPECT_NEAR(rest.learned.uses[0].used, 15, 1e-9);
  EXPECT_GT(rest.learned.drinking.common.factor, 1.02);
  // What was not read is not made to fit.
  plan.readings[0].containers[0] = {.container = 1, .found = {.amount = 5}};
  const PlanRun other = support::run_plan(plan);
  EXPECT_NEAR(other.record.store(2, 1).end, 5, 1e-9);
  EXPECT_NEAR(other.record.store(2, 0).end,
              30 - 4.0 * 68 / 24 - 4.0 * 4 / 24 * other.learned.drinking.common.factor, 1e-9);
}

// A later reading that does not speak of water leaves people at their own rate.
TEST(Learned, TheOwnRateStaysUntilTheNextReadingOfTheSame) {
  plan::Plan plan = with_drinking(eight_days(), {{3, 40}});
  const PlanRun before = support::run_plan(plan);
  plan.readings.push_back({.day = 5, .in_the_evening = true, .at = plan::Whereabouts{.place = 0}});
  const PlanRun after = support::run_plan(plan);
  for (std::size_t day = 3; day < before.record.days(); ++day) {
    EXPECT_NEAR(after.record.reserve(day, 0).end, before.record.reserve(day, 0).end, 1e-9);
  }
}

TEST(Learned, OneVehicleTeachesNothingOfAnother) {
  const plan::Plan plan = support::scenario_plan("family-two-vehicles");
  const PlanRun planned = support::run_plan(plan);
  plan::Plan read = plan;
  read.readings.push_back({.day = 2, .in_the_evening = true, .fuel = {{0, 40}}});
  const PlanRun rest = support::run_plan(read);
  for (std::size_t r = 0; r < planned.record.reserves; ++r) {
    const engine::ReserveId id = planned.course.reserves[r].id;
    if (id.family != engine::Family::fuel || id.of == 0) continue;
    for (std::size_t day = 0; day < planned.record.days(); ++day) {
      EXPECT_NEAR(rest.record.reserve(day, r).end, planned.record.reserve(day, r).end, 0.05);
    }
  }
}

}  // namespace
}  // namespace drystage::answers::learned_test
