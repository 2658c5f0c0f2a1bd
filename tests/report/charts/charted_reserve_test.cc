// What the chart of a reserve has to tell, before any of it is drawn.
#include "report/charts/charted_reserve.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <functional>

#include "support/charts.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report {
namespace {

using answers::Level;
using answers::Levels;
using answers::Needs;
using answers::PlanRun;
using support::PlanText;
using support::travel;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::Ge;
using ::testing::IsEmpty;
using ::testing::Le;
using ::testing::Pair;

constexpr units::System metric = units::System::metric;

std::size_t water_of(const PlanRun& planned) {
  return static_cast<std::size_t>(support::reserve_index(planned.course, "drinking_water"));
}

/// Four nights on 60 L of drinking water with a margin of so much.
PlanText four_nights(const std::string& margin) {
  PlanText plan;
  plan.margins = {"drinking_water: " + margin};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  return plan;
}

TEST(ChartedReserve, RangesFromNothingToALittleMoreThanCanBeHeld) {
  const PlanRun planned = travel(four_nights("8 L"));
  const Levels levels = answers::levels(planned);
  const std::size_t water = water_of(planned);
  const ChartedReserve litres(planned, levels, nullptr, water, metric);
  EXPECT_THAT(litres.range(), Pair(0, AllOf(Ge(60), Le(63))));
  // 60 L are 15.850 US gallons of 3.785411784 L (NIST SP 811).
  const ChartedReserve gallons(planned, levels, nullptr, water, units::System::us);
  EXPECT_THAT(gallons.range(), Pair(0, AllOf(Ge(15.85), Le(16.5))));
  EXPECT_NEAR(gallons.shown(60), 15.850, 0.001);
}

TEST(ChartedReserve, TellsInWordsOfAMarginAboveTheChart) {
  const PlanRun planned = travel(four_nights("100 L"));
  const Levels levels = answers::levels(planned);
  const ChartedReserve water(planned, levels, nullptr, water_of(planned), metric);
  const DayPiece middle{.first = 1, .count = 2};
  EXPECT_LT(water.range().second, 100) << "what there is would be pressed to the foot";
  EXPECT_THAT(water.notes(middle, water.range().second),
              ElementsAre("On days 2 and 3 the margin lies above the chart."));
  EXPECT_THAT(water.notes(middle, 100), IsEmpty());
}

RC_GTEST_PROP(ChartedReserveProperty, HasAllLevelsInItsRange, ()) {
  const PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const Levels levels = answers::levels(planned);
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    const ChartedReserve reserve(planned, levels, nullptr, r, metric);
    const auto [low, high] = reserve.range();
    RC_ASSERT(low < high);
    for (const Level& level : reserve.levels()) {
      RC_ASSERT(low <= reserve.shown(level.level) && reserve.shown(level.level) <= high);
      // A temperature is judged by its limit, which must be seen too.
      if (reserve.above()) continue;
      RC_ASSERT(low <= reserve.shown(level.margin) && reserve.shown(level.margin) <= high);
    }
  }
}

RC_GTEST_PROP(ChartedReserveProperty, TellsOfMorningsAsTheNeedsDoInWholeAndInPieces, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanRun planned = travel(support::random_plan(pick));
  const Needs needs = support::random_needs(planned, pick);
  const Levels levels = answers::levels(planned);
  const int days = static_cast<int>(planned.record.days());
  const int cut = pick(0, days);
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const auto r = static_cast<std::size_t>(needs.reserves[i]);
    const ChartedReserve reserve(planned, levels, &needs, r, metric);
    std::vector<int> lacking;
    std::vector<int> beyond;
    for (int day = 0; day < days; ++day) {
      const answers::Need& need = needs.need(static_cast<std::size_t>(day), i);
      if (!need.fits) {
        beyond.push_back(day);
      } else if (need.must_have - need.has > 1e-6) {
        lacking.push_back(day);
      }
    }
    const auto in_pieces = [&](std::vector<int> (ChartedReserve::*what)(const DayPiece&) const) {
      std::vector<int> all = std::invoke(what, reserve, DayPiece{.first = 0, .count = cut});
      const auto rest = std::invoke(what, reserve, DayPiece{.first = cut, .count = days - cut});
      all.insert(all.end(), rest.begin(), rest.end());
      return all;
    };
    RC_ASSERT(in_pieces(&ChartedReserve::lacking) == lacking);
    RC_ASSERT(in_pieces(&ChartedReserve::beyond) == beyond);
  }
}

}  // namespace
}  // namespace drystage::report
