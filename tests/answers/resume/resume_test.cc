#include "answers/resume/resume.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <utility>

#include "engine/timeline.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "units/index.h"

namespace drystage::answers::resume_test {
namespace {

Resumed resumed(const plan::Plan& plan, Rates rates = Rates::learned) {
  return resume(plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(plan)), rates);
}

// One person who drinks 4 L a day stays ten days with cans of 20 L.
support::PlanText stay(int cans) {
  support::PlanText text;
  for (int can = 1; can <= cans; ++can) {
    text.containers.push_back("{name: can " + std::to_string(can) +
                              ", holds: 20 L, filled: 20 L, for: drinking}");
  }
  text.margins = {"drinking_water: 2 days"};
  text.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return text;
}

plan::Reading evening(int day, double drinking_l) {
  return {.day = day - 1, .in_the_evening = true, .drinking_l = drinking_l};
}

plan::Plan with(const support::PlanText& text, std::vector<plan::Reading> readings) {
  plan::Plan plan = text.plan();
  plan.readings = std::move(readings);
  return plan;
}

TEST(Resume, ComparesEachReadingWithThePlanAlone) {
  const Resumed rest = resumed(with(stay(3), {evening(3, 46), evening(5, 36)}));
  ASSERT_EQ(rest.readings.size(), 2U);
  // 4 L a day until 20:00 of day 3, which is 68 hours, and of day 5, 116 hours.
  EXPECT_NEAR(*rest.readings[0].found.at(0).planned, 60 - 4 * 68.0 / 24, 1e-9);
  EXPECT_NEAR(rest.readings[0].found.at(0).found, 46, 1e-9);
  EXPECT_NEAR(*rest.readings[1].found.at(0).planned, 60 - 4 * 116.0 / 24, 1e-9);
  EXPECT_NEAR(rest.readings[1].found.at(0).found, 36, 1e-9);
  EXPECT_EQ(rest.now.day, 4);
  EXPECT_EQ(rest.now.hour, 20);
  EXPECT_EQ(rest.late_days, 0);
  const UseFound* use = rest.use_of(0);
  ASSERT_NE(use, nullptr);
  EXPECT_NEAR(use->used, 10, 1e-9);
  EXPECT_NEAR(use->calculated, 8, 1e-9);
  EXPECT_NEAR(use->days, 2, 1e-9);
}

TEST(Resume, SaysWhetherItHoldsAtOnesOwnRateAndAtThePlans) {
  // The trip ends with day 10. 35 L are gone, 20.7 L planned, and 100 hours are to come.
  const plan::Plan plan = with(stay(3), {evening(2, 48), evening(6, 25)});
  const Resumed own = resumed(plan);
  EXPECT_TRUE(own.at_plan.holds);
  EXPECT_FALSE(own.rest.verdict.holds);
  EXPECT_GT(own.rest.learned.drinking.common.factor, 1.1);
  const Resumed as_planned = resumed(plan, Rates::as_planned);
  EXPECT_TRUE(as_planned.rest.verdict.holds);
  EXPECT_EQ(as_planned.help.kind, Help::Kind::none);
}

TEST(Resume, OfUtilityWaterAloneTheRationIsWhatLasts) {
  support::PlanText text = stay(4);
  text.containers.push_back("{name: tank, holds: 60 L, filled: 60 L, for: utility}");
  text.utility_use = {"washing: 5 L/day"};
  text.margins = {"drinking_water: 2 days", "utility_water: 4 L"};
  plan::Plan plan = text.plan();
  plan.readings = {{.day = 5, .in_the_evening = true, .utility_l = 20}};
  const Resumed rest = resumed(plan, Rates::as_planned);
  ASSERT_EQ(rest.help.kind, Help::Kind::ration);
  const int utility = rest.help.ration->reserve;
  const double wanted_l = 20 - rest.rest.record.reserve(9, at(utility)).end +
                          rest.rest.verdict.reserves[at(utility)].short_of;
  EXPECT_LE(rest.help.ration->share * wanted_l, 20 - 4 + 1e-6);
  EXPECT_NEAR(rest.help.ration->share * wanted_l, 20 - 4, 1e-3 * wanted_l);
  EXPECT_NEAR(rest.help.ration->l_day, rest.help.ration->share * 5, 1e-6);
}

TEST(Resume, WhereNothingHelpsTheAlarmIsRaised) {
  const Resumed rest = resumed(with(stay(3), {evening(3, 5)}));
  EXPECT_EQ(rest.help.kind, Help::Kind::alarm);
}

TEST(Resume, ChangesWhatIsStillToComeWhereThatIsEnough) {
  // The stay under way can end earlier.
  const Resumed rest = resumed(with(stay(3), {evening(5, 25)}), Rates::as_planned);
  ASSERT_EQ(rest.help.kind, Help::Kind::change);
  EXPECT_TRUE(rest.help.mend->verdict.holds);
  support::PlanText away = stay(4);
  away.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  away.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Far", "air")};
  away.itinerary = {"{at: Base}", "stay: {nights: 4}",
                    "drive: {to: Far, distance: 50 km, surfaces: sealed}", "stay: {nights: 9}"};
  const Resumed later = resumed(with(away, {evening(3, 45)}), Rates::as_planned);
  ASSERT_EQ(later.help.kind, Help::Kind::change);
  EXPECT_TRUE(later.help.mend->verdict.holds);
}

TEST(Resume, WhereASupplyComesFirstTheyFillUpThereAndAskAgain) {
  support::PlanText text = stay(1);
  text.margins = {};
  text.driving =
      "{most_per_day: 1 h, daylight_only: no, depart: \"08:00\", speeds: {sealed: 50 km/h}}";
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 300 L, "
      "filled: 300 L}]}"};
  text.places = {support::PlanText::place("Base", "air"),
                 support::PlanText::place("Well", "air", "drinking_water: {}"),
                 support::PlanText::place("Far", "air")};
  // To the well it is a day, and then twelve days without one.
  text.itinerary = {
      "{at: Base}", "stay: {nights: 2}", "drive: {to: Well, distance: 50 km, surfaces: sealed}",
      "resupply: {drinking_water: fill}", "drive: {to: Far, distance: 600 km, surfaces: sealed}"};
  const Resumed rest = resumed(with(text, {evening(1, 16)}), Rates::as_planned);
  EXPECT_FALSE(rest.rest.verdict.holds);
  ASSERT_EQ(rest.help.kind, Help::Kind::fill_up);
  EXPECT_EQ(rest.help.place, 1);
}

TEST(Resume, CountsWhoIsThere) {
  support::PlanText text = stay(5);
  text.people = {support::PlanText::person("Ada", "4 L/day"),
                 support::PlanText::person("Ben", "4 L/day")};
  text.containers.push_back("{name: tank, holds: 90 L, filled: 90 L, for: utility}");
  text.utility_use = {"washing: 2 L/day"};
  text.consumables = {
      "{name: pills, unit: doses, use: {per_person_day: 1}, stores: [{name: box, holds: 100, "
      "filled: 100}]}"};
  const auto used = [&](const std::string& change) {
    const plan::Plan plan = support::read_plan(text.text() + "\nchanges: [" + change + "]\n");
    const PlanRun run = support::run_plan(plan);
    std::vector<std::vector<double>> out;
    for (const char* name : {"drinking_water", "utility_water", "food", "pills"}) {
      out.emplace_back();
      for (std::size_t r = 0; r < run.record.reserves; ++r) {
        if (run.course.reserves[r].name.find(name) == std::string::npos) continue;
        for (std::size_t d = 0; d < run.record.days(); ++d) {
          out.back().push_back(run.record.reserve(d, r).used);
        }
      }
    }
    return out;
  };
  const auto leaves = used("{day: 3, leaves: Ben}");
  const auto joins = used("{day: 4, joins: Ben}");
  const std::vector<double> each{4, 2, 3, 1};
  for (std::size_t what = 0; what < each.size(); ++what) {
    ASSERT_EQ(leaves[what].size(), 10U);
    for (std::size_t day = 0; day < 10; ++day) {
      EXPECT_NEAR(leaves[what][day], each[what] * (day <= 2 ? 2 : 1), 1e-9) << what << " " << day;
      EXPECT_NEAR(joins[what][day], each[what] * (day >= 3 ? 2 : 1), 1e-9) << what << " " << day;
    }
  }
}

TEST(Resume, WaitsAsTheChangeSays) {
  plan::Plan plan = with(stay(4), {evening(3, 60)});
  plan.changes.push_back({.day = 2, .wait_days = 2});
  const Resumed rest = resumed(plan);
  EXPECT_EQ(rest.late_days, 2);
  EXPECT_EQ(rest.rest.record.days(), rest.planned.record.days() + 2);
}

TEST(Resume, WhatWasLostHoldsNothingAnyMore) {
  plan::Plan plan = with(stay(3), {evening(3, 30)});
  plan.changes.push_back({.day = 2, .containers = {2}});
  const Resumed rest = resumed(plan, Rates::as_planned);
  const engine::Record& record = rest.rest.record;
  for (std::size_t day = 3; day < record.days(); ++day) {
    EXPECT_NEAR(record.store(day, 2).end, 0, 1e-9);
  }
  EXPECT_NEAR(rest.readings.back().found.at(0).found, 30, 1e-9);
  // Without a reading of all, what the others held is as calculated.
  plan.readings.clear();
  const Resumed lost = resumed(plan, Rates::as_planned);
  EXPECT_TRUE(lost.readings.back().found.empty());
  EXPECT_NEAR(lost.rest.record.reserve(2, 0).end, 40 - 4 * 3, 1e-9);
}

TEST(Resume, WhatWasInALostCanWasNotDrunk) {
  // As calculated until then, and one full can of three is gone.
  plan::Plan plan = with(stay(3), {evening(3, 40 - 4 * 68.0 / 24)});
  plan.changes.push_back({.day = 2, .containers = {2}});
  const Resumed rest = resumed(plan);
  EXPECT_NEAR(rest.rest.learned.drinking.common.factor, 1, 1e-9);
  EXPECT_TRUE(rest.rest.learned.doubts.empty());
}

TEST(Resume, CountsAReadingInTheLastMinutesOfTheTrip) {
  plan::Plan plan = stay(3).plan();
  plan.readings = {{.day = 9, .hour = 23.9, .drinking_l = 1}};
  const Resumed rest = resumed(plan);
  ASSERT_EQ(rest.readings.size(), 1U);
  EXPECT_FALSE(rest.rest.verdict.holds);
}

// A leak of 6 L a day cannot be explained by drinking.
TEST(Resume, NamesWhatUseCannotExplain) {
  const plan::Plan steady = with(stay(5), {evening(3, 100 - 11.5), evening(6, 100 - 23.5)});
  EXPECT_TRUE(resumed(steady).rest.learned.doubts.empty());
  const Resumed leak = resumed(with(stay(5), {evening(3, 88.5), evening(6, 58)}));
  ASSERT_EQ(leak.rest.learned.doubts.size(), 1U);
  const Doubt& doubt = leak.rest.learned.doubts.front();
  EXPECT_EQ(doubt.kind, Doubt::Kind::unexplained);
  EXPECT_EQ(doubt.reading, 1U);
  EXPECT_NEAR(doubt.amount / doubt.days, 30.5 / 3 - 4, 1e-9);
  const Resumed more = resumed(with(stay(5), {evening(3, 60), evening(6, 80)}));
  ASSERT_FALSE(more.rest.learned.doubts.empty());
  EXPECT_EQ(more.rest.learned.doubts.back().kind, Doubt::Kind::gained);
  EXPECT_NEAR(more.rest.learned.doubts.back().amount, 20, 1e-9);
}

// A can that was spilt once is no rate; twice it is.
TEST(Resume, OneLossIsNoRateOfUse) {
  const Resumed once = resumed(with(stay(5), {evening(3, 88.5), evening(5, 40)}));
  EXPECT_NEAR(once.rest.learned.drinking.common.factor, 1, 0.05);
  EXPECT_FALSE(once.rest.learned.doubts.empty());
  const Resumed twice = resumed(with(stay(5), {evening(3, 88.5), evening(5, 55), evening(7, 15)}));
  EXPECT_GT(twice.rest.learned.drinking.common.factor, 1.4);
}

TEST(Resume, ACanThatGainedIsNamed) {
  plan::Plan plan = stay(3).plan();
  const auto can = [](double litres) {
    return plan::ContainerFound{.container = 1, .found = {.amount = litres}};
  };
  plan.readings = {{.day = 1, .in_the_evening = true, .containers = {can(5)}},
                   {.day = 3, .in_the_evening = true, .containers = {can(19)}}};
  const Resumed rest = resumed(plan);
  const auto& doubts = rest.rest.learned.doubts;
  ASSERT_FALSE(doubts.empty());
  EXPECT_EQ(doubts.back().kind, Doubt::Kind::gained);
  EXPECT_EQ(doubts.back().store, 1);
  EXPECT_NEAR(doubts.back().amount, 14, 1e-9);
}

// People who really use more, on days that differ, and read with errors: the forecast of what is
// left at the end gets better with each evening and its range has the truth in it.
TEST(Resume, ForecastsBetterTheMoreWasRead) {
  std::mt19937 random(20270308);
  std::normal_distribution<double> normal;
  support::PlanText text = stay(10);
  text.itinerary = {"{at: Base}", "stay: {nights: 20}"};
  constexpr int trips = 40;
  double early = 0;
  double late = 0;
  int within = 0;
  for (int trip = 0; trip < trips; ++trip) {
    const double own = std::exp(0.1 * normal(random));
    double gone_l = 0;
    std::vector<double> at_day;
    for (int day = 0; day < 20; ++day) {
      at_day.push_back(200 - gone_l - own * 4 * 20.0 / 24);
      gone_l += own * 4 * std::max(0.1, 1 + 0.15 * normal(random));
    }
    plan::Plan plan = text.plan();
    const auto error_at_end = [&](int until) {
      plan.readings.clear();
      for (int day = 2; day <= until; day += 2) {
        const double read_l = at_day[at(day - 1)] + 2 * normal(random);
        plan.readings.push_back(evening(day, std::clamp(read_l, 0.0, 200.0)));
      }
      const PlanRun rest = resumed(plan).rest;
      const models::UseFactor factor = rest.learned.drinking.common;
      if (until > 10) within += factor.low <= own && own <= factor.high ? 1 : 0;
      return std::abs(rest.record.reserve(19, 0).end - (200 - gone_l));
    };
    early += error_at_end(2);
    late += error_at_end(16);
  }
  EXPECT_LT(late, 0.5 * early);
  EXPECT_GE(within, trips * 0.85);
}

class EveningOf : public ::testing::TestWithParam<const char*> {};

// Each evening, where the plan has them, with nothing read but where they are: the rest is the
// plan's own.
TEST_P(EveningOf, OnEveryEveningTheRestIsThePlansOwn) {
  const plan::Plan plan = support::scenario_plan(GetParam());
  const PlanRun planned = support::run_plan(plan);
  const auto days = static_cast<int>(planned.record.days());
  for (int day = 0; day + 1 < days; day += 1 + days / 12) {
    const int place = engine::place_at(planned.course.timeline->days[at(day)].schedule.to);
    if (place < 0) continue;
    plan::Plan read = plan;
    read.readings = {{.day = day, .in_the_evening = true, .at = plan::Whereabouts{.place = place}}};
    const Resumed rest = resumed(read);
    EXPECT_EQ(rest.late_days, 0) << "evening " << day + 1;
    for (std::size_t r = 0; r < planned.record.reserves; ++r) {
      EXPECT_NEAR(rest.rest.record.reserve(at(days - 1), r).end,
                  planned.record.reserve(at(days - 1), r).end, 1e-6)
          << planned.course.reserves[r].name << ", evening " << day + 1;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Resume, EveningOf,
                         ::testing::Values("base-camp", "coast-road", "desert-crossing",
                                           "desert-crossing-mended", "family-two-vehicles",
                                           "high-plateau", "last-camp", "long-loop", "side-trips",
                                           "two-that-meet", "two-at-once"));

}  // namespace
}  // namespace drystage::answers::resume_test
