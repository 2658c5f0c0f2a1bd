// How trips are drawn: distributions by closed form, with fixed seeds.

#include "answers/odds/trip_draw.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "support/laid_out.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::answers {
namespace trip_draw_test {
namespace {

using plan::Source;
using support::PlanText;

constexpr std::uint64_t trips = 4000;

/// Twenty days at one place, with a little of everything.
PlanText with_a_little_of_everything() {
  PlanText text;
  text.climate = {
      "desert: {mar: {max: 34 °C, min: 18 °C, humidity: 25 %, sun: 6.2 kWh/m2/day, spread: 3 °C}}"};
  text.places = {PlanText::place("Base", "desert", "diesel: {}, drinking_water: {confirmed: no}"),
                 PlanText::place("There", "desert")};
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female}",
                 PlanText::person("Bo", "5 L/day")};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}",
                     "{name: other, holds: 60 L, filled: 60 L, for: drinking}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}], tyres: {spare_wheels: 1, punctures: {track: 5}}}"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 5 °C, rated: {draw: 12 W, ambient: 32 °C, inside: 5 "
      "°C}}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 200 Ah, filled: 70 %}"};
  text.charging = {"{name: panel, solar: 100 W}"};
  text.itinerary = {
      "{at: Base}", "drive: {to: There, distance: 100 km, surfaces: {track: 40 km, sealed: 60 km}}",
      "stay: {nights: 18}", "drive: {to: Base, distance: 100 km, surfaces: {sealed: 100 km}}"};
  return text;
}

struct Moments {
  double mean = 0;
  double deviation = 0;
};

Moments moments(const std::function<double(const TripDraw&)>& of, const TripDraws& draws) {
  double sum = 0;
  double squares = 0;
  for (std::uint64_t trip = 0; trip < trips; ++trip) {
    const double value = of(draws.draw(trip));
    sum += value;
    squares += value * value;
  }
  const double mean = sum / trips;
  return {.mean = mean, .deviation = std::sqrt(squares / trips - mean * mean)};
}

class TripDrawing : public testing::Test {
 protected:
  void plan(const PlanText& text) {
    planned_ = support::travel(text);
    draws_.emplace(planned_, 11);
  }
  [[nodiscard]] Moments of(const std::function<double(const TripDraw&)>& what) const {
    return moments(what, *draws_);
  }
  /// The logarithm of a factor is normal about that of its usual value. Of 4000 the mean has a
  /// deviation of 1.6 % of one trip's, and the deviation one of 1.1 % of itself.
  void expect_factor(const std::function<double(const TripDraw&)>& what, double usual,
                     double deviation) const {
    const Moments logs = of([&](const TripDraw& draw) { return std::log(what(draw)); });
    EXPECT_NEAR(logs.mean, std::log(usual), 3.5 * deviation / std::sqrt(1.0 * trips));
    EXPECT_NEAR(logs.deviation, deviation, 0.04 * deviation);
  }

  PlanRun planned_;
  std::optional<TripDraws> draws_;
};

TEST_F(TripDrawing, HeatIsASeriesOfTheFirstOrder) {
  plan(with_a_little_of_everything());
  // Variance 1 on every day, correlation f^k over k days (time series textbooks).
  for (const std::size_t day : {0U, 1U, 10U}) {
    const Moments one = of([day](const TripDraw& d) { return d.weather.heat[day]; });
    EXPECT_NEAR(one.mean, 0, 3.5 / std::sqrt(1.0 * trips));
    EXPECT_NEAR(one.deviation, 1, 0.04);
  }
  for (const std::size_t apart : {1U, 3U}) {
    const Moments product =
        of([apart](const TripDraw& d) { return d.weather.heat[5] * d.weather.heat[5 + apart]; });
    EXPECT_NEAR(product.mean, std::pow(0.75, apart), 4 * 1.25 / std::sqrt(1.0 * trips));
  }
  // Mean of seven days: the closed form of tests/published/spell_test.cc, 0.76 with 0.75.
  const Moments week = of([](const TripDraw& d) {
    double sum = 0;
    for (std::size_t day = 3; day < 10; ++day) sum += d.weather.heat[day] / 7;
    return sum;
  });
  double square = 1;
  for (int k = 1; k < 7; ++k) square += 2 * (1 - k / 7.0) * std::pow(0.75, k);
  EXPECT_NEAR(week.deviation, std::sqrt(square / 7), 0.03);
  const Moments season = of([](const TripDraw& d) { return d.weather.season_k; });
  EXPECT_NEAR(season.deviation, 1.2, 0.05);
}

TEST_F(TripDrawing, SunGoesWithTheHeatAsFarAsIsSaid) {
  plan(with_a_little_of_everything());
  const Moments sun = of([](const TripDraw& d) { return d.weather.sun[4]; });
  EXPECT_NEAR(sun.mean, 0, 3.5 / std::sqrt(1.0 * trips));
  EXPECT_NEAR(sun.deviation, 1, 0.04);
  const Moments both = of([](const TripDraw& d) { return d.weather.sun[4] * d.weather.heat[4]; });
  EXPECT_NEAR(both.mean, 0.3, 0.06);
}

TEST_F(TripDrawing, FactorsAreAsWideAsTheirDefaults) {
  plan(with_a_little_of_everything());
  expect_factor([](const TripDraw& d) { return d.weather.people[0]; }, 1, 0.25);
  expect_factor([](const TripDraw& d) { return d.weather.people[1]; }, 1, 0.10);  // observed
  expect_factor([](const TripDraw& d) { return d.weather.drinking[3]; }, 1, 0.10);
  expect_factor([](const TripDraw& d) { return d.weather.work; }, 1, 0.20);
  expect_factor([](const TripDraw& d) { return d.factors.utility_water; }, 1, 0.20);
  expect_factor([](const TripDraw& d) { return d.factors.meals; }, 1, 0.10);
  expect_factor([](const TripDraw& d) { return d.factors.consumables; }, 1, 0.25);
  expect_factor([](const TripDraw& d) { return d.factors.loads; }, 1, 0.10);
  expect_factor([](const TripDraw& d) { return d.factors.cabinets; }, 1.25, 0.14);
  expect_factor([](const TripDraw& d) { return d.factors.lids; }, 1, 0.30);
  expect_factor([](const TripDraw& d) { return d.factors.spoilage; }, 1, 0.20);
  // Held at what is new, or at a tenth above the calculated: few trips.
  expect_factor([](const TripDraw& d) { return d.factors.panels; }, 0.9, 0.08);
  expect_factor([](const TripDraw& d) { return d.batteries; }, 0.85, 0.09);
}

TEST_F(TripDrawing, FuelHasACommonPartAndOneForEachGround) {
  plan(with_a_little_of_everything());
  const auto on = [](plan::Surface surface) {
    return [surface](const TripDraw& d) { return d.factors.fuel_on(surface, 0); };
  };
  // Not observed: 0.20, with 0.03 for sealed road and 0.25 for soft sand (models/use_priors.h).
  expect_factor(on(plan::Surface::sealed), 1, std::hypot(0.20, 0.03));
  expect_factor(on(plan::Surface::soft_sand), 1, std::hypot(0.20, 0.25));
  const Moments both = of([&](const TripDraw& d) {
    return std::log(d.factors.fuel_on(plan::Surface::sand, 0)) *
           std::log(d.factors.fuel_on(plan::Surface::soft_sand, 0));
  });
  // The common part, and 0.8 squared of what two soft grounds have beyond it.
  EXPECT_NEAR(both.mean, 0.2 * 0.2 + 0.64 * 0.20 * 0.25, 0.006);
  // A leg: 6 % of its own, and kilometres more: 5 % in the middle, 15 % one time in twenty.
  std::vector<double> further;
  PlanText text = with_a_little_of_everything();
  text.uncertainty = {"fuel: {leg: 0 %}"};
  plan(text);
  for (std::uint64_t trip = 0; trip < trips; ++trip) {
    further.push_back(draws_->draw(trip).factors.fuel_on_leg(0) - 1);
  }
  std::ranges::sort(further);
  EXPECT_NEAR(further[trips / 2], 0.05, 0.003);
  EXPECT_NEAR(further[trips * 19 / 20], 0.15, 0.015);
}

TEST_F(TripDrawing, EventsAreAsOftenAsTheirChances) {
  PlanText text = with_a_little_of_everything();
  text.uncertainty = {"delays: {day: 3 %, soft_leg: 10 %, length: 1 day}",
                      "containers: 1 %",
                      "illness: 2 %",
                      "supplies: {confirmed: 5 %, unconfirmed: 30 %}",
                      "compressors: 2 %",
                      "chargers: 3 %",
                      "punctures: 300 %"};
  plan(text);
  const auto share = [&](const std::function<bool(const TripDraw&)>& what) {
    return of([&](const TripDraw& d) { return what(d) ? 1 : 0; }).mean;
  };
  const auto any = [](const TripDraw& d, const std::function<bool(const TripEvent&)>& is) {
    return std::ranges::any_of(d.events, is);
  };
  const auto expect_share = [&](double is, double should) {
    EXPECT_NEAR(is, should, 3.5 * std::sqrt(should * (1 - should) / trips));
  };
  expect_share(
      share([&](const TripDraw& d) {
        return any(d, [](const TripEvent& e) { return e.source == Source::delays && e.day == 4; });
      }),
      1 - std::exp(-0.03));
  // The first leg alone has soft ground; how soft it is makes it likelier, 1 in mean.
  EXPECT_NEAR(share([&](const TripDraw& d) {
                return any(
                    d, [](const TripEvent& e) { return e.source == Source::delays && e.leg == 0; });
              }),
              1 - std::exp(-0.10), 0.02);
  EXPECT_EQ(share([&](const TripDraw& d) {
              return any(
                  d, [](const TripEvent& e) { return e.source == Source::delays && e.leg == 1; });
            }),
            0);
  // Lost by the tenth day: 1 - 0.99^10.
  expect_share(share([&](const TripDraw& d) {
                 return any(d, [](const TripEvent& e) {
                   return e.source == Source::containers && e.subject == 1 && e.item < 0 &&
                          e.day < 10;
                 });
               }),
               1 - std::pow(0.99, 10));
  expect_share(share([&](const TripDraw& d) {
                 return any(d, [](const TripEvent& e) {
                   return e.source == Source::compressors && e.day == 0;
                 });
               }),
               0.02);
  expect_share(share([&](const TripDraw& d) {
                 return any(d, [](const TripEvent& e) {
                   return e.source == Source::chargers && e.day == 0;
                 });
               }),
               0.03);
  // Either of two people.
  expect_share(
      share([&](const TripDraw& d) {
        return any(d, [](const TripEvent& e) { return e.source == Source::illness && e.day == 7; });
      }),
      1 - 0.98 * 0.98);
  expect_share(share([](const TripDraw& d) {
                 return std::ranges::any_of(d.missing, [](const MissingSupply& one) {
                   return one.place == 0 && one.supply == 0;
                 });
               }),
               0.05);
  expect_share(share([](const TripDraw& d) {
                 return std::ranges::any_of(d.missing, [](const MissingSupply& one) {
                   return one.place == 0 && one.supply == 1;
                 });
               }),
               0.30);
  // 40 km of track at 5 in 1000 km, three times as often; sealed road has its usual rate.
  const double punctures = share([&](const TripDraw& d) {
    return any(d, [](const TripEvent& e) { return e.source == Source::punctures && e.leg == 0; });
  });
  EXPECT_GT(punctures, 0.40);
  EXPECT_LT(punctures, 0.60);
}

TEST_F(TripDrawing, SoftGroundIsAsPlannedWhereFuelIsLeftOut) {
  PlanText text = with_a_little_of_everything();
  text.uncertainty = {"delays: {day: 0 %, soft_leg: 100 %}", "leave_out: fuel"};
  plan(text);
  const double halted = of([](const TripDraw& draw) {
                          return std::ranges::any_of(draw.events, [](const TripEvent& e) {
                            return e.source == Source::delays;
                          });
                        }).mean;
  // None of a Poisson with mean 1. Were it times exp(-0.08), it would be 0.603.
  EXPECT_NEAR(halted, 1 - std::exp(-1.0), 0.015);
}

TEST_F(TripDrawing, HaltsAreAboutAsLongAsIsSaid) {
  PlanText text = with_a_little_of_everything();
  text.uncertainty = {"delays: {day: 1 %, length: 2 days}"};
  plan(text);
  double sum_h = 0;
  int count = 0;
  for (std::uint64_t trip = 0; trip < trips; ++trip) {
    for (const TripEvent& event : draws_->draw(trip).events) {
      if (event.source != Source::delays) continue;
      EXPECT_GE(event.halt_h, 12);
      sum_h += event.halt_h;
      ++count;
    }
  }
  // Shorter ones count as half a day.
  EXPECT_NEAR(sum_h / count, 48, 5);
}

TEST_F(TripDrawing, WhatIsLeftOutStaysAsPlanned) {
  PlanText text = with_a_little_of_everything();
  std::string all;
  for (const auto& word : plan::source_words) {
    all += (all.empty() ? "" : ", ") + std::string(word.text);
  }
  text.uncertainty = {"leave_out: [" + all + "]"};
  plan(text);
  for (const std::uint64_t trip : {0U, 1U, 4711U}) {
    const TripDraw draw = draws_->draw(trip);
    EXPECT_TRUE(engine::is_as_planned(draw.weather));
    EXPECT_EQ(draw.factors, engine::Factors{});
    EXPECT_EQ(draw.batteries, 1);
    EXPECT_TRUE(draw.fills.empty());
    EXPECT_TRUE(draw.missing.empty());
    EXPECT_TRUE(draw.events.empty());
  }
}

TEST_F(TripDrawing, ASourceLeftAsUsualChangesNoOther) {
  plan(with_a_little_of_everything());
  for (std::uint64_t trip = 0; trip < 50; ++trip) {
    const TripDraw all = draws_->draw(trip);
    const TripDraw without = draws_->draw(trip, Source::drinking);
    EXPECT_EQ(without.weather.people, std::vector<double>(2, 1.0));
    EXPECT_TRUE(without.weather.drinking.empty());
    EXPECT_EQ(without.weather.heat, all.weather.heat);
    EXPECT_EQ(without.weather.work, all.weather.work);
    EXPECT_EQ(without.factors, all.factors);
    EXPECT_EQ(without.events.size(), all.events.size());
    // As usual is not as planned.
    EXPECT_DOUBLE_EQ(draws_->draw(trip, Source::cabinets).factors.cabinets, 1.25);
    EXPECT_DOUBLE_EQ(draws_->draw(trip, Source::batteries).batteries, 0.85);
  }
}

TEST_F(TripDrawing, SeedsDrawOtherTrips) {
  plan(with_a_little_of_everything());
  const TripDraws others(planned_, 12);
  EXPECT_NE(draws_->draw(3).weather.season_k, others.draw(3).weather.season_k);
  EXPECT_EQ(draws_->draw(3).weather.season_k, TripDraws(planned_, 11).draw(3).weather.season_k);
}

}  // namespace
}  // namespace trip_draw_test
}  // namespace drystage::answers
