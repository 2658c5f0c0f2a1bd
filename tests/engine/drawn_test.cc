// How the weather of one trip differs from the plan's.

#include "engine/drawn.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::engine {
namespace drawn_test {
namespace {

using support::PlanText;

/// Five days in one climate, with a spread of its own.
PlanText in_the_desert() {
  PlanText text;
  text.climate = {
      "desert: {mar: {max: 34 °C, min: 18 °C, humidity: 25 %, sun: 6.2 kWh/m2/day, spread: 3 °C}}"};
  text.places = {PlanText::place("Base", "desert")};
  return text;
}

std::vector<DrawnSky> skies(const plan::Plan& plan, const Drawn& drawn) {
  const Timeline timeline = lay_timeline(plan);
  std::vector<DrawnSky> out;
  Skies(plan, timeline).draw(drawn, out);
  return out;
}

TEST(Drawn, WithNothingIsAsPlanned) {
  EXPECT_TRUE(is_as_planned({}));
  for (const DrawnSky& sky : skies(in_the_desert().plan(), {})) {
    EXPECT_EQ(sky.warmer_k, 0);
    EXPECT_FALSE(sky.sun_share);
  }
  EXPECT_FALSE(is_as_planned({.season_k = 0.1}));
  EXPECT_FALSE(is_as_planned({.sun = {0}}));
  EXPECT_FALSE(is_as_planned({.work = 1.1}));
}

TEST(Drawn, DaysAreWarmerByTheSeasonAndTheClimatesSpread) {
  const auto drawn = skies(in_the_desert().plan(), {.season_k = 0.5, .heat = {0, 1, -2}});
  EXPECT_DOUBLE_EQ(drawn[0].warmer_k, 0.5);
  EXPECT_DOUBLE_EQ(drawn[1].warmer_k, 0.5 + 3);
  EXPECT_DOUBLE_EQ(drawn[2].warmer_k, 0.5 - 6);
  EXPECT_DOUBLE_EQ(drawn[3].warmer_k, 0.5);  // of which nothing is said
}

TEST(Drawn, SunIsAsRareAsTheNormalVariableIs) {
  const plan::Plan plan = in_the_desert().plan();
  const Timeline timeline = lay_timeline(plan);
  const auto drawn = skies(plan, {.sun = {0, 1.6448536, -1.6448536}});
  constexpr double mj_per_kwh = 3.6;
  const double outside =
      models::extraterrestrial_mj_m2(0, timeline.days[0].schedule.date.day_of_year()) / mj_per_kwh;
  const models::ClearnessOfDays days(6.2 / outside);
  EXPECT_NEAR(drawn[0].sun_share.value(), days.over_mean(0.5), 1e-3);
  EXPECT_NEAR(drawn[1].sun_share.value(), days.over_mean(0.95), 1e-3);
  EXPECT_NEAR(drawn[2].sun_share.value(), days.over_mean(0.05), 2e-3);
  EXPECT_FALSE(drawn[3].sun_share);
  // Skewed low: the dull tail is the longer one.
  EXPECT_GT(1 - *drawn[2].sun_share, 1.5 * (*drawn[1].sun_share - 1));
}

TEST(Drawn, SunIsAsWideAsThePlanSays) {
  PlanText text = in_the_desert();
  const auto usual = skies(text.plan(), {.sun = {-1}});
  text.uncertainty = {"sun: {day: 5 %}"};
  const auto narrow = skies(text.plan(), {.sun = {-1}});
  EXPECT_LT(*usual[0].sun_share, *narrow[0].sun_share);
  EXPECT_LT(*narrow[0].sun_share, 1);
}

TEST(Drawn, WhatThePlanKnowsOfADayStays) {
  PlanText text = in_the_desert();
  text.weather = {"{from: 2027-03-02, to: 2027-03-02, max: 45 °C}",
                  "{from: 2027-03-03, to: 2027-03-03, sun: 2 kWh/m2/day}"};
  const auto drawn =
      skies(text.plan(), {.season_k = 1, .heat = {1, 1, 1, 1, 1}, .sun = {1, 1, 1, 1, 1}});
  EXPECT_EQ(drawn[1].warmer_k, 0);
  EXPECT_TRUE(drawn[1].sun_share);
  EXPECT_EQ(drawn[2].warmer_k, 4);
  EXPECT_FALSE(drawn[2].sun_share);
}

TEST(Drawn, WorkTakesAtMostTheDay) {
  plan::Activity activity;
  activity.hours = {1, 2, 3, 2, 0};
  const auto all = [](const plan::Activity& of) {
    return std::accumulate(of.hours.begin(), of.hours.end(), 0.0);
  };
  EXPECT_DOUBLE_EQ(all(at_work(activity, 1.5)), 12);
  EXPECT_DOUBLE_EQ(at_work(activity, 1.5).hours[2], 4.5);
  EXPECT_DOUBLE_EQ(all(at_work(activity, 5)), 24);
}

}  // namespace
}  // namespace drawn_test
}  // namespace drystage::engine
