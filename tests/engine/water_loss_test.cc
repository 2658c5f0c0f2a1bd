// Which hours, wind and shade a day's sweat is calculated with: the cautious ones.
#include "engine/water_loss.h"

#include <gtest/gtest.h>

#include <numeric>
#include <optional>

#include "models/heat_strain_table.h"
#include "models/water_need.h"

namespace drystage::engine {
namespace {

using models::WorkClass;

WeatherDay day(double max_c, double min_c, std::optional<double> wind_m_s, double sun_kwh_m2) {
  DayFigures figures;
  figures.weather.max_c = max_c;
  figures.weather.min_c = min_c;
  figures.weather.dew_point_c = 5;
  figures.weather.wind_m_s = wind_m_s;
  figures.weather.sun_kwh_m2 = sun_kwh_m2;
  return weather_day(figures, plan::Date(2027, 6, 21), {.latitude_deg = 25}, 0);
}

plan::Activity activity(const std::array<double, 5>& hours, double in_sun) {
  plan::Activity made;
  made.hours = hours;
  made.in_sun = in_sun;
  return made;
}

double sum(const std::array<double, 24>& hours) {
  return std::accumulate(hours.begin(), hours.end(), 0.0);
}

const plan::Activity nothing = activity({0, 0, 0, 0, 0}, 0);
const plan::Activity walk = activity({0, 0, 5, 0, 0}, 0.5);

TEST(WaterLoss, OfAWindThatIsNotKnownIsThatOfTheWorst) {
  for (const double max_c : {25.0, 33.0, 41.0, 48.0}) {
    const double unknown = sum(water_loss_g_m2(walk, day(max_c, max_c - 14, std::nullopt, 7)));
    for (const double wind_m_s : {0.3, 0.5, 1.0, 2.0, 3.0}) {
      EXPECT_GE(unknown * 1.003, sum(water_loss_g_m2(walk, day(max_c, max_c - 14, wind_m_s, 7))))
          << max_c << " " << wind_m_s;
    }
    EXPECT_GT(unknown, sum(water_loss_g_m2(walk, day(max_c, max_c - 14, 2, 7)))) << max_c;
  }
}

TEST(WaterLoss, AtRestGrowsWithAWindHotterThanSkin) {
  const auto at_rest = [](double wind_m_s) {
    return sum(water_loss_g_m2(nothing, day(48, 40, wind_m_s, 0)));
  };
  EXPECT_GT(at_rest(4), 1.05 * at_rest(0.3));
  EXPECT_GT(at_rest(12), 1.05 * at_rest(4));
  // In cooler air there is shelter.
  const auto in_mild_air = [](double wind_m_s) {
    return sum(water_loss_g_m2(nothing, day(28, 20, wind_m_s, 0)));
  };
  EXPECT_DOUBLE_EQ(in_mild_air(4), in_mild_air(0.3));
}

// Spread evenly over twelve hours of daylight the same five hours of work took a tenth less.
TEST(WaterLoss, OfWorkIsThatOfTheHottestHours) {
  const WeatherDay hot = day(43, 25, 2, 7);
  const auto hours = water_loss_g_m2(activity({0, 0, 5, 0, 0}, 1), hot);
  const auto rest = water_loss_g_m2(nothing, hot);
  for (int h = 0; h < 24; ++h) {
    const auto hour = static_cast<std::size_t>(h);
    const bool busy = hours.at(hour) > 1.01 * rest.at(hour);
    EXPECT_EQ(busy, h >= 10 && h < 16) << h;  // 10:30 to 15:30, by a clock that is the sun's
  }
}

TEST(WaterLoss, AtRestByDayIsMoreThanInTheDark) {
  const auto at = [](double sun_kwh_m2) {
    return sum(water_loss_g_m2(nothing, day(45, 30, 2, sun_kwh_m2)));
  };
  // The surroundings of shade are some 10 K hotter than the air: about a tenth of the day.
  EXPECT_GT(at(7), 1.05 * at(0));
  EXPECT_LT(at(7), 1.25 * at(0));
}

// Night air at 20 °C takes no sweat of resters; breath goes on.
TEST(WaterLoss, AtAltitudeIsMoreByTheBreath) {
  WeatherDay high = day(15, 0, 2, 5);
  const double low_g = sum(water_loss_g_m2(nothing, high));
  high.elevation_m = 4500;
  EXPECT_GT(sum(water_loss_g_m2(nothing, high)), low_g + 24);
  high.elevation_m = 1900;
  EXPECT_EQ(sum(water_loss_g_m2(nothing, high)), low_g);
}

TEST(WaterLoss, OfWorkInTheColdIsComfortSweatAndBreath) {
  const WeatherDay cold = day(-5, -5, 2, 0);
  const auto hours = water_loss_g_m2(activity({0, 0, 5, 0, 0}, 0), cold);
  const double expected = models::comfort_sweat_g_per_h_m2(165) +
                          models::extra_breath_g_per_h_m2(165, -5, cold.vapour_kpa);
  EXPECT_NEAR(hours.at(12), expected, 1e-9);
}

TEST(BeyondProvenWind, IsHotAndAbove3MetresASecond) {
  EXPECT_TRUE(beyond_proven_wind(day(40, 25, 3.5, 7)));
  EXPECT_FALSE(beyond_proven_wind(day(40, 25, 3, 7)));
  EXPECT_FALSE(beyond_proven_wind(day(34, 20, 12, 7)));
  EXPECT_FALSE(beyond_proven_wind(day(44, 25, std::nullopt, 7)));
}

}  // namespace
}  // namespace drystage::engine
