// Figures of the card that must not look better than they are.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/card/advice.h"
#include "report/card/dip_tables.h"
#include "report/card/evening_figures.h"
#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage::card_rounding_test {
namespace {

using support::PlanText;
using ::testing::HasSubstr;

constexpr units::System metric = units::System::metric;

TEST(CardRounding, WhatIsLeftOnTheLastNightIsRoundedDown) {
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: 60.7 L, for: drinking}"};
  const report::NeedsAnswer answer = support::plain_needs(plan);
  const std::size_t days = answer.planned.record.days();
  ASSERT_EQ(days, 6U);
  // Four litres a day.
  EXPECT_EQ(report::evening_figures(answer, 0, days, metric).plan, "36");
}

TEST(CardRounding, WhatASupplyMustBringItToIsRoundedUp) {
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: 10 L, for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: to next}");
  const support::Trip trip = support::travel(plan);
  const double left_l = trip.record.order_left.at(0);
  ASSERT_GT(left_l, 10);
  ASSERT_GT(std::abs(left_l - std::round(left_l)), 0.01);
  const auto lines = report::supply_lines(trip, 0, false, metric);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_THAT(lines[0].words,
              HasSubstr(fmt::format("until there are {:.0f} L", std::ceil(left_l))));
}

TEST(CardRounding, TheHourOfTheLastDriveIsTheLaterMinute) {
  // 115 km at 55 km/h from eight on are two hours and five minutes and a half.
  EXPECT_THAT(support::all_words(support::part_pages(
                  report::write_home, support::card_answer(support::three_places()))),
              HasSubstr("the last drive ends at Far Well on Thu 04 Mar 2027, at 10:06."));
}

TEST(CardRounding, WhatCanBeUsedOfATankIsRoundedDown) {
  const answers::DipRow row{.depth_cm = 10, .volume_l = 9.09, .usable_l = 5.09};
  const answers::DipTable table{.holds_l = 90, .unusable_l = 4, .rows = {row}};
  EXPECT_EQ(report::dip_figures(table, row, metric),
            (std::vector<std::string>{"10", "9.0", "5.0"}));
}

/// Three places, the one in the middle much hotter, and one who drinks as that makes thirsty.
report::CardAnswer through_the_heat() {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "")};
  plan.climate.push_back(PlanText::steady_climate("oven", 38));
  plan.places[1] = PlanText::place("Red Tables", "oven");
  return support::card_answer(plan);
}

TEST(CardRounding, TheMostThatIsDrunkInADayIsThatOfTheHottestCamp) {
  const report::CardAnswer answer = through_the_heat();
  double most_l = 0;
  const engine::Timeline& timeline = *answer.needs.planned.course.timeline;
  for (std::size_t h = 0; h < timeline.place_days.size(); ++h) {
    if (timeline.place_days[h].place != 1) continue;
    most_l = std::max(most_l, timeline.conditions.place_days[h].drink_l);
  }
  std::string steps;
  for (const report::Advice& advice : report::first_steps(answer, metric)) {
    for (const std::string& step : advice.steps) steps += step + "\n";
  }
  // Below ten litres to a tenth.
  ASSERT_LT(most_l, 9.9);
  EXPECT_THAT(support::with_plain_blanks(steps),
              HasSubstr(fmt::format("drink up to {:.1f} L a day", std::ceil(most_l * 10) / 10)));
}

TEST(CardRounding, WaterLastsByWhatIsDrunkWhereTheNightIsSpent) {
  const report::CardAnswer answer = through_the_heat();
  const auto& planned = answer.needs.planned;
  const auto water =
      static_cast<std::size_t>(support::reserve_index(planned.course, "drinking_water"));
  const double level_l = planned.record.reserve(0, water).end;
  double cool_l = 0;
  double hot_l = 0;
  const engine::Timeline& timeline = *planned.course.timeline;
  for (std::size_t h = 0; h < timeline.place_days.size(); ++h) {
    const double litres = timeline.conditions.place_days[h].drink_l;
    if (timeline.place_days[h].place == 0) cool_l = std::max(cool_l, litres);
    if (timeline.place_days[h].place == 1) hot_l = std::max(hot_l, litres);
  }
  ASSERT_GT(hot_l, 1.3 * cool_l);
  const auto words = support::words_on(support::part_pages(report::write_home, answer));
  const auto first = std::ranges::find(words, "1");
  ASSERT_GE(words.end() - first, 6);
  EXPECT_EQ(first[4], report::lasting_words(level_l / hot_l));
}

}  // namespace
}  // namespace drystage::card_rounding_test
