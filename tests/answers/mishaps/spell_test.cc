// A hot and a dull week, each where it hurts most.
#include "answers/mishaps/spell.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>

#include "answers/mishaps/mishaps.h"
#include "cli/workspace.h"
#include "engine/spell.h"
#include "engine/weather_warnings.h"
#include "support/other_plan.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using plan::Spell;
using support::PlanText;
using support::travel;

/// Two weeks in a hot place, with so much to drink and nothing else to want for.
PlanText two_weeks(const std::string& water, const std::string& spread = "3 °C") {
  PlanText text;
  text.people = {PlanText::person("Ada", "")};
  text.containers = {"{name: tub, holds: 400 L, filled: " + water + ", for: drinking}"};
  text.climate = {
      "air: {march: {max: 36 °C, min: 22 °C, humidity: 20 %, wind: 2 m/s, "
      "sun: 6 kWh/m2/day" +
      (spread.empty() ? "" : ", spread: " + spread) + "}}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 13}"};
  return text;
}

/// The same with a box of medicine that runs on a panel.
PlanText medicine(const std::string& watts, bool never_shed) {
  PlanText text = two_weeks("400 L");
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah}"};
  text.charging = {"{solar: " + watts + ", name: panel}"};
  text.loads = {std::string("{name: medicine, draw: 20 W") +
                (never_shed ? ", never_shed: yes}" : "}")};
  return text;
}

TEST(Spells, AreAsHotAsTheClimateSays) {
  const PlanRun planned = travel(two_weeks("400 L"));
  const Spells spells = try_spells(planned);
  ASSERT_EQ(spells.found.size(), 2U);
  const SpellFinding& hot = *spells.of(Spell::hot);
  EXPECT_DOUBLE_EQ(hot.least_hotter_k, 4.5);
  EXPECT_DOUBLE_EQ(hot.most_hotter_k, 4.5);
  EXPECT_FALSE(hot.usual_spread);
  EXPECT_GT(hot.least_sun, 1);
  const SpellFinding& dull = *spells.of(Spell::dull);
  EXPECT_DOUBLE_EQ(dull.most_hotter_k, 0);
  EXPECT_LT(dull.most_sun, 1);
  const PlanRun shown = in_spell(planned, hot);
  int hot_days = 0;
  for (const engine::DayConditions& day : shown.course.timeline->conditions.days) {
    hot_days += day.max_c == 40.5 && day.min_c == 26.5 ? 1 : 0;
  }
  EXPECT_EQ(hot_days, 7);
}

TEST(Spells, WithoutASpreadTakeAUsualOneAndSayIt) {
  const Spells spells = try_spells(travel(two_weeks("400 L", "")));
  EXPECT_TRUE(spells.of(Spell::hot)->usual_spread);
  EXPECT_DOUBLE_EQ(spells.of(Spell::hot)->most_hotter_k, 5.25);
}

TEST(Spells, OfASteadyClimateAreNone) {
  const PlanRun planned = travel(two_weeks("400 L", "0 °C"));
  const PlanRun hot = in_spell(planned, *try_spells(planned).of(Spell::hot));
  for (const engine::DayConditions& day : hot.course.timeline->conditions.days)
    EXPECT_EQ(day.max_c, 36);
}

/// What a hot week from that day on makes of the drinking, of 400 L, in litres.
double used_in_week_from(SpellFinding hot, int day) {
  hot.first_day = day;
  const PlanRun week = in_spell(travel(two_weeks("400 L")), hot);
  double used_l = 0;
  for (std::size_t d = 0; d < week.record.days(); ++d) {
    used_l += week.record.reserve(d, static_cast<std::size_t>(hot.reserve)).used;
  }
  return used_l;
}

/// The same of the week that takes most.
double most_used(const SpellFinding& hot) {
  double most_l = 0;
  for (int day = 0; day < 14; ++day) most_l = std::max(most_l, used_in_week_from(hot, day));
  return most_l;
}

TEST(Spells, BreakWaterThatLastsOnlyInUsualWeather) {
  const double usual_l =
      travel(two_weeks("400 L")).sum(&engine::ReserveDay::used, "drinking_water");
  const PlanRun planned = travel(two_weeks(std::to_string(usual_l + 1) + " L"));
  ASSERT_TRUE(planned.verdict.holds);
  const Spells spells = try_spells(planned);
  EXPECT_TRUE(spells.break_something());
  const SpellFinding& hot = *spells.of(Spell::hot);
  EXPECT_TRUE(hot.breaks());
  EXPECT_EQ(planned.course.reserves[static_cast<std::size_t>(hot.reserve)].name, "drinking_water");
  // One of the weeks that take most: from day to day a season's sun changes them by millilitres.
  EXPECT_NEAR(used_in_week_from(hot, hot.first_day), most_used(hot), 0.02);
  // With 1 L to spare in all, some days before the trip's end.
  EXPECT_GE(hot.day, 7);
  EXPECT_LT(hot.day, 13);
  EXPECT_FALSE(spells.of(Spell::dull)->breaks());
  // By a sum over the week of what it takes more.
  const PlanRun enough = in_spell(travel(two_weeks("400 L")), hot);
  double more_l = -usual_l;
  for (std::size_t d = 0; d < enough.record.days(); ++d) {
    more_l += enough.record.reserve(d, static_cast<std::size_t>(hot.reserve)).used;
  }
  EXPECT_NEAR(hot.short_of, more_l - 1, 1e-6);
  // With so much more it lasts.
  const Spells safe = try_spells(travel(two_weeks(std::to_string(usual_l + more_l + 0.01) + " L")));
  EXPECT_FALSE(safe.break_something());
  EXPECT_NEAR(safe.of(Spell::hot)->lowest, 0.01, 1e-6);
}

TEST(Spells, BreakDrinkingWaterForWhichUtilityWaterIsDrunk) {
  const double usual_l =
      travel(two_weeks("400 L")).sum(&engine::ReserveDay::used, "drinking_water");
  PlanText text = two_weeks(std::to_string(usual_l + 1) + " L");
  text.containers.emplace_back("{name: kitchen, holds: 60 L, filled: 60 L, for: utility}");
  const PlanRun planned = travel(text);
  ASSERT_TRUE(planned.verdict.holds);
  const SpellFinding hot = *try_spells(planned).of(Spell::hot);
  EXPECT_LT(hot.outcome, Outcome::runs_out);
  EXPECT_TRUE(hot.breaks());
  // As much, and from the same day on, as is short without it.
  const SpellFinding without =
      *try_spells(travel(two_weeks(std::to_string(usual_l + 1) + " L"))).of(Spell::hot);
  EXPECT_NEAR(hot.stood_in, without.short_of, 1e-6);
  EXPECT_EQ(hot.day, without.day);
  EXPECT_NEAR(hot.hour, without.hour, 1e-6);
}

TEST(Spells, BreakALoadThatIsNeverShed) {
  // 480 Wh a day and what is lost on the way, from a panel that gives little more.
  const PlanRun planned = travel(medicine("125 W", true));
  ASSERT_TRUE(planned.verdict.holds);
  const SpellFinding dull = *try_spells(planned).of(Spell::dull);
  EXPECT_TRUE(dull.breaks());
  EXPECT_EQ(dull.load, 0);
  EXPECT_GT(dull.day, dull.first_day);
  // One that may be shed is another matter.
  EXPECT_FALSE(try_spells(travel(medicine("125 W", false))).break_something());
  EXPECT_FALSE(try_spells(travel(medicine("300 W", true))).break_something());
}

TEST(Spells, KeepTheWorseOfNamedDays) {
  PlanText text = two_weeks("400 L");
  text.weather = {"{on: 2027-03-03, max: 47 °C}",
                  "{on: 2027-03-04, max: 30 °C, sun: 1 kWh/m2/day}"};
  const PlanRun planned = travel(text);
  SpellFinding first{.spell = Spell::hot, .first_day = 0, .last_day = 6};
  const PlanRun hot = in_spell(planned, first);
  EXPECT_DOUBLE_EQ(hot.course.timeline->conditions.days[2].max_c, 47);
  EXPECT_DOUBLE_EQ(hot.course.timeline->conditions.days[3].max_c, 40.5);
  first.spell = Spell::dull;
  const PlanRun dull = in_spell(planned, first);
  const auto sun = [](const PlanRun& of, int day) {
    const engine::Timeline& timeline = *of.course.timeline;
    const auto at = std::ranges::find(timeline.place_days, day, &engine::PlaceDay::day);
    const auto index = static_cast<std::size_t>(at - timeline.place_days.begin());
    return timeline.conditions.place_days[index].weather.radiation.global_wh_m2 / 1000;
  };
  EXPECT_NEAR(sun(dull, 3), 1, 1e-9);
  EXPECT_LT(sun(dull, 4), 6);
  EXPECT_GT(sun(hot, 3), 6);
}

TEST(Spells, LeaveOutStartsOfLongTrips) {
  PlanText text = two_weeks("400 L");
  EXPECT_EQ(try_spells(travel(text)).every_days, 1);
  text.climate = {PlanText::climate_of("air", 36, 22, "20 %", "6 kWh/m2/day")};
  for (const auto& [nights, every] : {std::pair{60, 1}, {61, 2}, {149, 3}}) {
    text.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
    EXPECT_EQ(try_spells(travel(text)).every_days, every) << nights;
  }
}

class ShippedSpells : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, ShippedSpells, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

TEST_P(ShippedSpells, AreThePlanLaidOutInThatWeather) {
  const PlanRun planned = travel(support::scenario_plan(GetParam()));
  for (const Spell spell : {Spell::hot, Spell::dull}) {
    for (int day = 0; day < static_cast<int>(planned.record.days()); day += 4) {
      const PlanRun one = in_spell(planned, {.spell = spell, .first_day = day});
      const engine::Timeline& put_together = *one.course.timeline;
      const engine::Timeline anew = engine::lay_timeline(one.plan);
      ASSERT_EQ(put_together.steps.size(), anew.steps.size());
      for (std::size_t s = 0; s < anew.steps.size(); ++s) {
        EXPECT_EQ(put_together.conditions.steps[s].air_c, anew.conditions.steps[s].air_c);
        EXPECT_EQ(put_together.conditions.steps[s].drink_l, anew.conditions.steps[s].drink_l);
        EXPECT_EQ(put_together.steps[s].place_day, anew.steps[s].place_day);
        EXPECT_EQ(put_together.steps[s].drive, anew.steps[s].drive);
      }
      for (std::size_t p = 0; p < anew.pieces.size(); ++p) {
        EXPECT_EQ(put_together.conditions.air_density_kg_m3[p],
                  anew.conditions.air_density_kg_m3[p]);
      }
      for (std::size_t h = 0; h < anew.place_days.size(); ++h) {
        EXPECT_EQ(put_together.conditions.place_days[h].drink_l,
                  anew.conditions.place_days[h].drink_l);
        EXPECT_EQ(put_together.conditions.place_days[h].weather.radiation.global_wh_m2,
                  anew.conditions.place_days[h].weather.radiation.global_wh_m2);
      }
      EXPECT_EQ(engine::weather_warnings(one.plan, put_together).size(),
                engine::weather_warnings(one.plan, anew).size());
    }
  }
}

TEST_P(ShippedSpells, AreThoseOfMishaps) {
  plan::Plan plan = support::scenario_plan(GetParam());
  plan.mishaps = support::usual_mishaps();
  const PlanRun planned = travel(plan);
  const Spells spells = try_spells(planned);
  for (const Spell spell : {Spell::hot, Spell::dull}) {
    const plan::MishapKind kind =
        spell == Spell::hot ? plan::MishapKind::heat_wave : plan::MishapKind::dull_spell;
    const Sweep sweep = sweep_mishaps(planned, {.only = {kind}, .days = {}});
    const SpellFinding& worst = *spells.of(spell);
    EXPECT_EQ(worst.outcome, std::ranges::max(sweep.findings, {}, &Finding::outcome).outcome);
    const auto same_day = std::ranges::find(sweep.findings, worst.first_day, &Finding::day);
    ASSERT_NE(same_day, sweep.findings.end());
    EXPECT_EQ(same_day->outcome, worst.outcome);
    if (worst.outcome == Outcome::holds) continue;
    EXPECT_EQ(same_day->reserve, worst.reserve);
    EXPECT_NEAR(same_day->short_of, worst.short_of, 1e-9);
    EXPECT_TRUE(worst.outcome < Outcome::runs_out || same_day->dry_day == worst.day);
  }
}

}  // namespace
}  // namespace drystage::answers
