// A line of blocks for each reserve: how high they stand, what is marked, and how wide it gets.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <optional>

#include "cli/workspace.h"
#include "report/run/words.h"
#include "report/text/words.h"
#include "support/answer.h"
#include "support/other_plan.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::sparklines;
using support::PlanText;
using support::travel;
using support::Trip;
using ::testing::HasSubstr;
using testing::lines;
using ::testing::Not;
using ::testing::StartsWith;
using testing::terminal_columns;

/// 4 L a day out of a can of 40 L, for so many days.
PlanText out_of_a_can(int days, const std::string& filled = "40 L") {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: " + filled + ", for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
  return plan;
}

/// The line of a reserve, and what stands under it.
struct Drawn {
  std::string line;
  std::string under;
};

std::optional<Drawn> find(const std::string& text, const std::string& name) {
  const std::vector<std::string> all = lines(text);
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    if (all[i].starts_with(name)) return Drawn{.line = all[i], .under = all[i + 1]};
  }
  return std::nullopt;
}

bool is_block(const std::string& character) { return character >= "▁" && character <= "█"; }

/// The blocks of a line, 1 for the lowest to 8 for the highest, and the column of the first.
struct Bars {
  std::vector<int> heights;
  int column = -1;
};

Bars bars_of(const std::string& line) {
  Bars out;
  for (std::size_t at = 0; at + 3 <= line.size(); ++at) {
    const std::string character = line.substr(at, 3);
    if (!is_block(character)) continue;
    if (out.column < 0) out.column = terminal_columns(line.substr(0, at));
    // U+2581 to U+2588 are E2 96 81 to E2 96 88 in UTF-8.
    out.heights.push_back(static_cast<unsigned char>(character[2]) - 0x80);
  }
  return out;
}

TEST(SparklineText, ShowsInWhichEighthEachDaysLowPointLies) {
  const Trip trip = travel(out_of_a_can(9));
  const auto water = find(sparklines(trip, {}), "drinking water");
  ASSERT_TRUE(water);
  // 36, 32, 28, ... 4 of 40 L: in eighths 7.2, 6.4, 5.6, 4.8, 4.0, 3.2, 2.4, 1.6, 0.8.
  EXPECT_EQ(bars_of(water->line).heights, (std::vector<int>{8, 7, 6, 5, 4, 4, 3, 2, 1}));
}

TEST(SparklineText, MarksTheDaysBelowTheMarginUnderTheirBlocks) {
  const Trip trip = travel(out_of_a_can(9));
  const auto water = find(sparklines(trip, {}), "drinking water");
  ASSERT_TRUE(water);
  const int column = bars_of(water->line).column;
  // Below 10 L on the eighth day, at 8 L, and on the ninth.
  EXPECT_EQ(water->under, std::string(static_cast<std::size_t>(column) + 7, ' ') + "!!");
  const std::string held = sparklines(travel(out_of_a_can(5)), {});
  EXPECT_THAT(held.substr(0, held.find("The low point")), Not(HasSubstr("!")));
}

TEST(SparklineText, EndsALineWithTheFirstFigureAndTheWorst) {
  const Trip trip = travel(out_of_a_can(9));
  const auto water = find(sparklines(trip, {}), "drinking water");
  ASSERT_TRUE(water);
  EXPECT_THAT(water->line, ::testing::EndsWith(" 36       4.0 L"));
  const auto us = find(sparklines(trip, {.system = units::System::us}), "drinking water");
  ASSERT_TRUE(us);
  // 36 and 4 L over 3.785411784 L (the US gallon of NIST Handbook 44).
  EXPECT_THAT(us->line, ::testing::EndsWith("  9.5  1.1 US gal"));
}

TEST(SparklineText, HasEveryReserveAndTheFiguresOfTheRun) {
  const Trip trip = travel(support::scenario_plan("base-camp"));
  const std::string text = sparklines(trip, {});
  for (std::size_t r = 0; r < trip.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = trip.course.reserves[r];
    const auto drawn = find(text, report::reserve_words(info) + " ");
    ASSERT_TRUE(drawn) << info.name;
    EXPECT_EQ(bars_of(drawn->line).heights.size(), trip.days());
    std::vector<double> levels;
    for (std::size_t day = 0; day < trip.days(); ++day) {
      levels.push_back(trip.record.reserve(day, r).lowest);
    }
    const bool cold = info.sense == engine::Sense::keep_below;
    const double worst =
        cold ? *std::ranges::max_element(levels) : *std::ranges::min_element(levels);
    EXPECT_THAT(drawn->line, ::testing::EndsWith(" " + report::amount_with_unit(
                                                           info, worst, units::System::metric)));
  }
}

/// An ice box whose ice melts away in the course of the trip.
PlanText with_ice() {
  PlanText plan = out_of_a_can(6);
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 20 L}]}"};
  plan.cold = {"{name: chest, volume: 40 L, heat_leak: 1 W/K, ice: 4 kg}"};
  return plan;
}

TEST(SparklineText, DrawsColdFromTheColdestDayToTheWarmest) {
  const Trip trip = travel(with_ice());
  const std::string text = sparklines(trip, {});
  const auto cold = find(text, "cold in chest");
  ASSERT_TRUE(cold);
  const std::vector<int> heights = bars_of(cold->line).heights;
  ASSERT_EQ(heights.size(), 6U);
  EXPECT_EQ(*std::ranges::min_element(heights), 1);
  EXPECT_EQ(*std::ranges::max_element(heights), 8);
  EXPECT_TRUE(std::ranges::is_sorted(heights));
  EXPECT_THAT(cold->under, HasSubstr("!"));
  EXPECT_THAT(support::unwrapped(text),
              HasSubstr("cold: the warmest, from the coldest day to the"));
  EXPECT_THAT(sparklines(travel(out_of_a_can(6)), {}), Not(HasSubstr("cold")));
}

TEST(SparklineText, DrawsTemperaturesThatLookTheSameAtTheSameHeight) {
  Trip trip = travel(with_ice());
  const auto chest = static_cast<std::size_t>(support::reserve_index(trip.course, "cold:chest"));
  const auto set_up_by = [&](double each_day_k) {
    for (std::size_t day = 0; day < trip.days(); ++day) {
      trip.record.reserve_days[day * trip.record.reserves + chest].lowest =
          4 + each_day_k * static_cast<double>(day);
    }
    return bars_of(find(sparklines(trip, {}), "cold in chest")->line).heights;
  };
  EXPECT_EQ(set_up_by(0), std::vector<int>(trip.days(), 1));
  EXPECT_EQ(set_up_by(0.005), std::vector<int>(trip.days(), 1));
  // From 4 to 9 °C: in eighths 0, 1.6, 3.2, 4.8, 6.4, 8.
  EXPECT_EQ(set_up_by(1), (std::vector<int>{1, 2, 4, 5, 7, 8}));
}

TEST(SparklineText, OfOneDayIsOneBlock) {
  const auto water = find(sparklines(travel(out_of_a_can(1)), {}), "drinking water");
  ASSERT_TRUE(water);
  EXPECT_EQ(bars_of(water->line).heights, std::vector<int>{8});
}

TEST(SparklineText, FitsEightyColumnsHoweverLongTheTripIsAndShowsTheWorstOfEachFewDays) {
  for (const int days : {1, 9, 40, 80, 365, 3659}) {
    const Trip trip = travel(out_of_a_can(days, "30 L"));
    const std::string text = sparklines(trip, {});
    for (const std::string& line : lines(text)) EXPECT_LE(terminal_columns(line), 80) << line;
    const auto water = find(text, "drinking water");
    ASSERT_TRUE(water);
    const std::size_t drawn = bars_of(water->line).heights.size();
    const std::size_t each = (trip.days() + drawn - 1) / drawn;
    EXPECT_EQ(drawn, (trip.days() + each - 1) / each);
    if (each > 1) {
      EXPECT_GT(drawn, 20U);
      EXPECT_THAT(text, HasSubstr("The lowest point of each " + std::to_string(each) + " days"));
    }
  }
  // Below its margin on day 6 alone of the first ones, so the block that has it is marked.
  const Trip long_trip = travel(out_of_a_can(3659, "30 L"));
  const auto water = find(sparklines(long_trip, {}), "drinking water");
  ASSERT_TRUE(water);
  const Bars bars = bars_of(water->line);
  EXPECT_EQ(bars.heights.front(), 1);
  EXPECT_EQ(water->under.at(static_cast<std::size_t>(bars.column)), '!');
}

TEST(SparklineText, GivesNamesThatAreLongOrWideALineOfTheirOwn) {
  PlanText plan = out_of_a_can(60);
  plan.vehicles = {
      "{name: 砂漠を越えて行く長い長い名前の車両, fuel: diesel, mass: {empty: 2500 kg}, tanks: "
      "[{name: "
      "tank, holds: 80 L, filled: 80 L}]}",
      "{name: القافلة, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}",
      "{name: " + std::string(90, 'x') +
          ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, filled: 80 "
          "L}]}"};
  const std::string text = sparklines(travel(plan), {});
  EXPECT_THAT(text, HasSubstr("\nfuel of 砂漠を越えて行く長い長い名前の車両\n  "));
  EXPECT_THAT(text, HasSubstr("\nfuel of القافلة  "));
  EXPECT_THAT(text, HasSubstr("\nfuel of " + std::string(71, 'x') + "~\n"));
  int column = -1;
  for (const std::string& line : lines(text)) {
    EXPECT_LE(terminal_columns(line), 80) << line;
    const Bars bars = bars_of(line);
    if (bars.column < 0) continue;
    if (column < 0) column = bars.column;
    EXPECT_EQ(bars.column, column) << line;
    EXPECT_EQ(bars.heights.size(), 30U) << line;
  }
}

TEST(SparklineText, PaintsTheMarksWhereColourIsAskedAndNeedsNoneToBeRead) {
  const Trip trip = travel(out_of_a_can(9));
  EXPECT_THAT(sparklines(trip, {.color = true}), HasSubstr("!!\x1b[0m"));
  EXPECT_THAT(sparklines(trip, {}), Not(HasSubstr("\x1b")));
}

TEST(SparklineText, IsPartOfTheRunOnlyWhenAsked) {
  const report::RunAnswer answer = support::answer(out_of_a_can(5));
  const std::string drawn = sparklines(answer.planned, {});
  const std::string with = report::run_text(answer, {.sparklines = true});
  const std::string without = report::run_text(answer, {});
  EXPECT_THAT(without, Not(HasSubstr(drawn)));
  const std::size_t at = with.find("\n" + drawn);
  ASSERT_NE(at, std::string::npos);
  EXPECT_EQ(with.substr(0, at) + with.substr(at + 1 + drawn.size()), without);
}

RC_GTEST_PROP(SparklineText, MarksWhatTheRecordSaysAndStaysInEightyColumns, ()) {
  const Trip trip = travel(support::random_plan(support::rapidcheck_pick()));
  const std::string text = sparklines(trip, {});
  std::vector<std::size_t> drawn;
  const std::vector<std::string> all = lines(text);
  for (std::size_t i = 0; i < all.size(); ++i) {
    RC_ASSERT(terminal_columns(all[i]) <= 80);
    if (bars_of(all[i]).column >= 0) drawn.push_back(i);
  }
  RC_ASSERT(drawn.size() == trip.course.reserves.size());
  for (std::size_t r = 0; r < drawn.size(); ++r) {
    const Bars bars = bars_of(all[drawn[r]]);
    const std::size_t each = (trip.days() + bars.heights.size() - 1) / bars.heights.size();
    const std::string& under = all.at(drawn[r] + 1);
    const bool marked = under.find_first_not_of(" !") == std::string::npos;
    for (std::size_t b = 0; b < bars.heights.size(); ++b) {
      bool breached = false;
      for (std::size_t d = b * each; d < std::min(trip.days(), (b + 1) * each); ++d) {
        breached = breached || trip.record.reserve(d, r).breach_h >= 0;
      }
      const std::size_t at = static_cast<std::size_t>(bars.column) + b;
      RC_ASSERT((marked && at < under.size() && under[at] == '!') == breached);
    }
  }
}

}  // namespace
}  // namespace drystage
