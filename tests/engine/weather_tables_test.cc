// The weather of many trips from tables, against the models themselves.

#include "engine/weather_tables.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/random.h"
#include "support/laid_out.h"
#include "support/plan_text.h"

namespace drystage::engine {
namespace weather_tables_test {
namespace {

/// Weather and people that differ as trips do, the hard ones too.
Drawn drawn_trip(std::uint64_t trip, std::size_t days, std::size_t people, std::size_t legs) {
  const auto normal = [trip](std::uint32_t stream, std::size_t place) {
    return models::RandomSource{.seed = 5, .trip = trip, .stream = stream}.normal(
        static_cast<std::uint32_t>(place));
  };
  Drawn out{.season_k = 1.2 * normal(0, 0), .work = std::exp(0.2 * normal(1, 0))};
  double heat = 0;
  for (std::size_t d = 0; d < days; ++d) {
    heat = 0.75 * heat + 0.66 * normal(2, d);
    out.heat.push_back(heat);
    out.sun.push_back(normal(3, d));
    out.drinking.push_back(std::exp(0.1 * normal(4, d)));
  }
  for (std::size_t p = 0; p < people; ++p) out.people.push_back(std::exp(0.25 * normal(5, p)));
  for (std::size_t l = 0; l < legs; ++l) out.headwind_m_s.push_back(3 * normal(6, l));
  return out;
}

/// How far tables are from the models at the most, by what a reserve is counted in.
struct Off {
  double litres = 0;
  double ah = 0;
  double degrees = 0;
  double meals = 0;
  int days = 0;
  int near = 0;  ///< of these, within a tenth
};

void compare(const Course& course, const Record& is, const Record& should, Off& most) {
  for (std::size_t i = 0; i < should.reserve_days.size(); ++i) {
    const ReserveInfo& info = course.reserves[i % course.reserves.size()];
    const double off = std::abs(is.reserve_days[i].lowest - should.reserve_days[i].lowest);
    ++most.days;
    most.near += off < 0.1 ? 1 : 0;
    double& its = is_bank(info)                          ? most.ah
                  : info.sense == Sense::keep_below      ? most.degrees
                  : info.id.family == Family::food       ? most.meals
                  : info.id.family == Family::consumable ? most.meals
                                                         : most.litres;
    its = std::max(its, off);
  }
}

TEST(WeatherTables, AreNearTheModelsOnEveryDay) {
  for (const plan::Plan& read : support::all_scenarios()) {
    const auto plan = std::make_shared<const plan::Plan>(read);
    const auto timeline = std::make_shared<const Timeline>(lay_timeline(read));
    const auto planned = std::make_shared<const Course>(compile(read, timeline));
    const Course& course = *planned;
    const auto tables = std::make_shared<const WeatherTables>(read, course);
    ChangingCourse by_tables(plan, planned, tables);
    ChangingCourse by_models(plan, planned, nullptr);
    Off most;
    for (std::uint64_t trip = 0; trip < 40; ++trip) {
      const Drawn drawn =
          drawn_trip(trip, timeline->days.size() + 3, read.people.size(), timeline->legs.size());
      const Record is = Engine::run(by_tables.draw(drawn, 0.85));
      const Record should = Engine::run(by_models.draw(drawn, 0.85));
      compare(course, is, should, most);
    }
    SCOPED_TRACE(read.trip.title);
    EXPECT_LT(most.litres, 0.15);
    EXPECT_LT(most.ah, 0.1);
    EXPECT_LT(most.degrees, 0.05);
    EXPECT_LT(most.meals, 0.1);
    EXPECT_GT(most.near, 0.999 * most.days);
  }
}

TEST(WeatherTables, AreTheModelsAtTheirNodes) {
  const plan::Plan read = support::all_scenarios().front();
  const auto plan = std::make_shared<const plan::Plan>(read);
  const auto timeline = std::make_shared<const Timeline>(lay_timeline(read));
  const auto planned = std::make_shared<const Course>(compile(read, timeline));
  const Course& course = *planned;
  const auto tables = std::make_shared<const WeatherTables>(read, course);
  ChangingCourse by_tables(plan, planned, tables);
  for (const double warmer_k : {-10.0, 0.0, 5.0}) {
    Drawn drawn{.season_k = warmer_k};
    // Nothing is drawn of the sun, so it is as planned; a second of work more makes it a draw.
    drawn.work = 1 + 1e-9;
    ChangingCourse by_models(plan, planned, nullptr);
    const Record is = Engine::run(by_tables.draw(drawn));
    const Record should = Engine::run(by_models.draw(drawn));
    for (std::size_t i = 0; i < should.reserve_days.size(); ++i) {
      ASSERT_NEAR(is.reserve_days[i].lowest, should.reserve_days[i].lowest, 1e-7) << warmer_k;
    }
  }
}

TEST(WeatherTables, LeaveWhatIsBeyondThemToTheModels) {
  const plan::Plan read = support::all_scenarios().front();
  const auto plan = std::make_shared<const plan::Plan>(read);
  const auto timeline = std::make_shared<const Timeline>(lay_timeline(read));
  const auto planned = std::make_shared<const Course>(compile(read, timeline));
  const Course& course = *planned;
  ChangingCourse by_tables(plan, planned, std::make_shared<const WeatherTables>(read, course));
  ChangingCourse by_models(plan, planned, nullptr);
  const Drawn hot{.season_k = 30};
  const Record is = Engine::run(by_tables.draw(hot));
  const Record should = Engine::run(by_models.draw(hot));
  for (std::size_t i = 0; i < should.reserve_days.size(); ++i) {
    ASSERT_EQ(is.reserve_days[i].lowest, should.reserve_days[i].lowest);
  }
}

}  // namespace
}  // namespace weather_tables_test
}  // namespace drystage::engine
