// Trips in other weather on one course: what is worked out beforehand, against the models
// themselves.

#include "engine/changing_course.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/random.h"
#include "support/laid_out.h"
#include "support/plan_text.h"

namespace drystage::engine {
namespace changing_course_test {
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

/// The course of a trip with nothing worked out beforehand.
Course by_models(const plan::Plan& plan, const Course& planned, const Drawn& drawn) {
  ReadyDays days;
  ReadyConditions ready(plan, *planned.timeline, planned.timeline->conditions, days);
  for (PlaceConditions& place : ready.planned.place_days) place.weather.ready = nullptr;
  std::vector<DrawnSky> skies;
  Skies(plan, *planned.timeline).draw(drawn, skies);
  const auto timeline = std::make_shared<Timeline>(*planned.timeline);
  const auto all = static_cast<int>(timeline->days.size());
  fill_drawn_days(timeline->conditions, plan, *timeline, ready, drawn, skies, 0, all);
  Course out = planned;
  out.timeline = timeline;
  Engine::refill(out, plan, 0, all);
  return out;
}

TEST(ChangingCourse, IsWhatTheModelsSayOnEveryDay) {
  for (const plan::Plan& read : support::all_scenarios()) {
    SCOPED_TRACE(read.trip.title);
    const auto plan = std::make_shared<const plan::Plan>(read);
    const auto timeline = std::make_shared<const Timeline>(lay_timeline(read));
    const auto planned = std::make_shared<const Course>(compile(read, timeline));
    ReadyDays days;
    ChangingCourse changing(plan, planned, days);
    for (std::uint64_t trip = 0; trip < 25; ++trip) {
      Drawn drawn =
          drawn_trip(trip, timeline->days.size() + 3, read.people.size(), timeline->legs.size());
      // Far beyond what trips draw, too: hardly any sun, and heat and frost.
      if (trip % 5 == 1) drawn.sun.assign(drawn.sun.size(), -6);
      if (trip % 5 == 2) drawn.season_k = trip % 2 == 0 ? 25 : -25;
      const Record is = Engine::run(changing.draw(drawn));
      const Record should = Engine::run(by_models(read, *planned, drawn));
      for (std::size_t i = 0; i < should.reserve_days.size(); ++i) {
        const std::string& name = planned->reserves[i % planned->reserves.size()].name;
        const ReserveDay& a = is.reserve_days[i];
        const ReserveDay& b = should.reserve_days[i];
        ASSERT_NEAR(a.lowest, b.lowest, 1e-7) << name << ", trip " << trip;
        ASSERT_NEAR(a.used, b.used, 1e-7) << name << ", trip " << trip;
        if (b.slack < without_limit) ASSERT_NEAR(a.slack, b.slack, 1e-7) << name;
        if (b.endurance < 1e4) ASSERT_NEAR(a.endurance, b.endurance, 1e-5) << name;
      }
    }
  }
}

/// The place days of two courses as people and panels meet them.
TEST(ChangingCourse, HasTheWeatherOfADayThatIsNamed) {
  const plan::Plan read = support::all_scenarios().front();
  const auto plan = std::make_shared<const plan::Plan>(read);
  const auto timeline = std::make_shared<const Timeline>(lay_timeline(read));
  const auto planned = std::make_shared<const Course>(compile(read, timeline));
  ReadyDays days;
  ChangingCourse changing(plan, planned, days);
  const Drawn drawn{.season_k = 3, .sun = std::vector<double>(timeline->days.size(), 0.4)};
  const Course& course = changing.draw(drawn);
  std::vector<DrawnSky> skies;
  Skies(read, *timeline).draw(drawn, skies);
  ASSERT_FALSE(skies.empty());
  for (std::size_t p = 0; p < skies.size(); ++p) {
    const PlaceDay& place = timeline->place_days[p];
    const plan::Date date = timeline->days[static_cast<std::size_t>(place.day)].schedule.date;
    DayFigures figures = *figures_on(read, place.climate, date);
    draw_into(figures, skies[p]);
    const WeatherDay should = weather_day(figures, date, place.at, read.trip.utc_offset_h);
    const WeatherDay& is = course.timeline->conditions.place_days[p].weather;
    EXPECT_EQ(is.max_c, should.max_c);
    EXPECT_EQ(is.min_c, should.min_c);
    EXPECT_EQ(is.vapour_kpa, should.vapour_kpa);
    EXPECT_EQ(is.radiation.global_wh_m2, should.radiation.global_wh_m2);
    EXPECT_EQ(is.radiation.diffuse_scale, should.radiation.diffuse_scale);
    for (int h = 0; h < 24; ++h) {
      const std::array<double, 24> air_c = hourly_air_c(is);
      EXPECT_NEAR(air_c.at(static_cast<std::size_t>(h)), mean_air_c(should, h, h + 1), 1e-12);
    }
  }
}

TEST(ChangingCourse, SharesDaysOfTheSamePlaceAndDate) {
  const plan::Plan read = support::all_scenarios().front();
  const Timeline timeline = lay_timeline(read);
  ReadyDays days;
  const WeatherDay& weather = timeline.conditions.place_days.front().weather;
  const auto first = days.of(weather);
  WeatherDay warmer = weather;
  warmer.max_c += 5;
  EXPECT_EQ(days.of(warmer), first);
  WeatherDay later = weather;
  later.radiation.sine_declination += 0.01;
  EXPECT_NE(days.of(later), first);
  WeatherDay damper = weather;
  damper.vapour_kpa += 0.2;
  EXPECT_NE(days.of(damper), first);
}

}  // namespace
}  // namespace changing_course_test
}  // namespace drystage::engine
