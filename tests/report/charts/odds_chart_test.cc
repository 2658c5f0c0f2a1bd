// Chances as a picture: nothing meets another thing, and boxes lie where the numbers are.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/charts/charts.h"
#include "report/charts/picture.h"
#include "report/odds/words.h"
#include "support/laid_out.h"
#include "support/overlaps.h"
#include "support/trip.h"

namespace drystage::report::odds_chart_test {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

OddsAnswer answer_of(const plan::Plan& plan) {
  OddsAnswer out;
  out.planned = support::travel(plan);
  out.odds = answers::odds_of(out.planned, {.trips = 40, .drivers = false, .helps = false});
  return out;
}

TEST(OddsChart, OfShippedPlansHasNothingInTheWayOfAnother) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    const OddsAnswer answer = answer_of(plan);
    for (const units::System system : {units::System::metric, units::System::us}) {
      const drawing::Drawing drawing = odds_chart(answer, system);
      ASSERT_EQ(drawing.pages.size(), 1U);
      EXPECT_THAT(support::faults(drawing.pages, picture.margin_pt), IsEmpty());
      EXPECT_THAT(support::words_of(drawing.pages.front().marks),
                  HasSubstr(odds_verdict_words(answer)));
    }
  }
}

/// How high the filled boxes of one grey are, from left to right.
std::vector<double> heights(const drawing::Page& page, double grey) {
  std::vector<double> out;
  for (const drawing::Mark& mark : page.marks) {
    const auto* shape = std::get_if<drawing::Shape>(&mark);
    if (shape == nullptr || shape->fill_grey != grey || shape->points.size() != 4) continue;
    const auto [low, high] =
        std::ranges::minmax(shape->points, {}, [](const drawing::Point& p) { return p.y; });
    out.push_back(high.y - low.y);
  }
  return out;
}

TEST(OddsChart, BandsAreAsHighAsTheyAreWide) {
  support::PlanText text;
  text.margins = {"drinking_water: 5 L"};
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female}"};
  text.containers = {"{name: can, holds: 30 L, filled: 30 L, for: drinking}"};
  OddsAnswer answer = answer_of(text.plan());
  const auto water =
      static_cast<std::size_t>(support::reserve_index(answer.planned.course, "drinking_water"));
  auto& its = answer.odds.reserves[water];
  its.first_breach_days = {0, 0, 0, 10, 20};
  ASSERT_EQ(its.bands.size(), 5U);
  const drawing::Page page = odds_chart(answer, units::System::metric).pages.front();
  // The first box is the key's.
  std::vector<double> bands = heights(page, 0.82);
  ASSERT_GE(bands.size(), 6U);
  const double pt_per_l = bands[1] / (its.bands[0].p95 - its.bands[0].p5);
  for (std::size_t day = 0; day < 5; ++day) {
    EXPECT_NEAR(bands[day + 1], pt_per_l * (its.bands[day].p95 - its.bands[day].p5), 0.01);
  }
  const std::vector<double> bars = heights(page, 0.35);
  ASSERT_EQ(bars.size(), 2U);
  EXPECT_NEAR(bars[1], 2 * bars[0], 0.01);
}

}  // namespace
}  // namespace drystage::report::odds_chart_test
