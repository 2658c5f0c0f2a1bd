#include "units/parse.h"

#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <cmath>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace drystage::units {
namespace {

double value(std::string_view text, Kind kind) {
  const Result<double> result = parse(text, kind);
  EXPECT_TRUE(result.ok()) << text << ": " << (result ? "" : result.problem().line());
  return result ? *result : std::nan("");
}

struct Case {
  std::string_view text;
  Kind kind;
  double value;
};

void expect_all(const std::vector<Case>& cases) {
  for (const Case& c : cases) EXPECT_DOUBLE_EQ(value(c.text, c.kind), c.value) << c.text;
}

// Exact definitions: NIST Special Publication 811 (2008), appendix B; the imperial gallon is that
// of the UK Weights and Measures Act 1985, the pound, yard and mile those of the 1959 agreement.
TEST(Parse, KeepsTheExactDefinitionsOfCustomaryUnits) {
  expect_all({
      {"1 US gal", Kind::volume, 3.785411784},
      {"1 US qt", Kind::volume, 3.785411784 / 4},
      {"1 US pt", Kind::volume, 3.785411784 / 8},
      {"1 imp gal", Kind::volume, 4.54609},
      {"1 imp qt", Kind::volume, 4.54609 / 4},
      {"1 imp pt", Kind::volume, 4.54609 / 8},
      {"1 ft3", Kind::volume, 28.316846592},
      {"1 mi", Kind::distance, 1.609344},
      {"1 nmi", Kind::distance, 1.852},
      {"1 ft", Kind::length, 0.3048},
      {"1 in", Kind::length, 0.0254},
      {"1 yd", Kind::length, 0.9144},
      {"1 lb", Kind::mass, 0.45359237},
      {"1 stone", Kind::mass, 6.35029318},
      {"1 ft2", Kind::area, 0.09290304},
      {"1 mph", Kind::speed, 1.609344},
      {"1 mph", Kind::wind, 0.44704},
      {"1 knot", Kind::speed, 1.852},
      {"1 kcal", Kind::energy, 4184.0 / 3600.0},
      {"1 kcal/kg", Kind::energy_per_mass, 4.184},
      {"1 bar", Kind::pressure, 100.0},
      {"1 mbar", Kind::pressure, 0.1},
  });
  // NIST SP 811 gives the pound-force per square inch to seven figures: 6.894757 kPa.
  EXPECT_NEAR(value("1 psi", Kind::pressure), 6.894757, 5e-7);
}

// NIST SP 811, appendix B.8: t/°C = (t/°F - 32)/1.8 and t/°C = T/K - 273.15.
TEST(Parse, ReadsThermometersAndDifferencesApart) {
  EXPECT_NEAR(value("32 °F", Kind::temperature), 0.0, 1e-12);
  EXPECT_NEAR(value("212 °F", Kind::temperature), 100.0, 1e-12);
  EXPECT_NEAR(value("-40 °F", Kind::temperature), -40.0, 1e-12);
  EXPECT_NEAR(value("273.15 K", Kind::temperature), 0.0, 1e-12);
  EXPECT_DOUBLE_EQ(value("-18 °C", Kind::temperature), -18.0);
  EXPECT_DOUBLE_EQ(value("6 °C", Kind::temperature_difference), 6.0);
  EXPECT_DOUBLE_EQ(value("6 K", Kind::temperature_difference), 6.0);
  EXPECT_DOUBLE_EQ(value("10 °F", Kind::temperature_difference), 10.0 / 1.8);
  EXPECT_DOUBLE_EQ(value("0.35 W/°C", Kind::conductance), 0.35);
  EXPECT_DOUBLE_EQ(value("0.9 W/°F", Kind::conductance), 0.9 * 1.8);
}

// From the definitions: 100 x 4.54609 / (23 x 1.609344) and 100 x 3.785411784 / (23 x 1.609344).
TEST(Parse, TurnsDistancePerFuelOver) {
  EXPECT_NEAR(100 * value("23 mpg (imp)", Kind::fuel_use), 12.2818, 5e-5);
  EXPECT_NEAR(100 * value("23 mpg (US)", Kind::fuel_use), 10.2267, 5e-5);
  expect_all({
      {"10 km/L", Kind::fuel_use, 0.1},
      {"23 mi/imp gal", Kind::fuel_use, 4.54609 / (23 * 1.609344)},
      {"0.1 L/km", Kind::fuel_use, 0.1},
      {"4 US gal/100 mi", Kind::fuel_use, 4 * 3.785411784 / 160.9344},
  });
}

TEST(Parse, TurnsNothingElseOver) {
  EXPECT_FALSE(parse("5 h/km", Kind::speed));
  EXPECT_FALSE(parse("5 day/L", Kind::volume_per_day));
  EXPECT_FALSE(parse("5 days", Kind::meals_per_day));
}

// Every spelling of a quantity in the shape of plan that the guide shows.
TEST(Parse, ReadsEveryQuantityOfAnOrdinaryPlanExactly) {
  const std::vector<Case> cases{
      {"7 h", Kind::time_h, 7},
      {"3 days", Kind::time_h, 72},
      {"15 L", Kind::volume, 15},
      {"150 km", Kind::distance, 150},
      {"50 %", Kind::fraction, 0.5},
      {"70 %", Kind::fraction, 0.7},
      {"73 %", Kind::fraction, 0.73},
      {"5 °C", Kind::temperature, 5},
      {"62 kg", Kind::mass, 62},
      {"168 cm", Kind::length, 1.68},
      {"5.5 L/day", Kind::volume_per_day, 5.5},
      {"0.1 m", Kind::length, 0.1},
      {"1.4 m2", Kind::area, 1.4},
      {"90 km/h", Kind::speed, 90},
      {"11.2 L/100km", Kind::fuel_use, 11.2 / 100},
      {"24 L/100km", Kind::fuel_use, 0.24},
      {"1.2 L/h", Kind::fuel_rate, 1.2},
      {"0.9 A", Kind::current, 0.9},
      {"0.35 W/K", Kind::conductance, 0.35},
      {"-18 °C", Kind::temperature, -18},
      {"10 days", Kind::time_h, 240},
      {"100 Ah", Kind::charge, 100},
      {"12 V", Kind::voltage, 12},
      {"160 W", Kind::power, 160},
      {"0°", Kind::angle, 0},
      {"3 h/day", Kind::time_per_day, 3},
      {"80 Wh/day", Kind::energy_per_day, 80},
      {"3.5 m/s", Kind::wind, 3.5},
      {"5.4 kWh/m2/day", Kind::daily_radiation, 5.4},
      {"27.1°", Kind::angle, 27.1},
      {"980 m", Kind::elevation, 980},
  };
  for (const Case& c : cases) EXPECT_EQ(value(c.text, c.kind), c.value) << c.text;
}

TEST(Parse, ReadsTheOtherSpellings) {
  expect_all({
      {"20L", Kind::volume, 20},
      {"20 l", Kind::volume, 20},
      {"20 litres", Kind::volume, 20},
      {"20 liter", Kind::volume, 20},
      {"250 mL", Kind::volume, 0.25},
      {"250 ml", Kind::volume, 0.25},
      {"1 m³", Kind::volume, 1000},
      {"5 US gallons", Kind::volume, 5 * 3.785411784},
      {"5 gal (US)", Kind::volume, 5 * 3.785411784},
      {"5 imperial gallons", Kind::volume, 5 * 4.54609},
      {"23 mpg(US)", Kind::fuel_use, 3.785411784 / (23 * 1.609344)},
      {"23  mpg ( imp )", Kind::fuel_use, 4.54609 / (23 * 1.609344)},
      {"8 L / 100 km", Kind::fuel_use, 0.08},
      {"8 L per 100 km", Kind::fuel_use, 0.08},
      {"1.4 m²", Kind::area, 1.4},
      {"1.4 m^2", Kind::area, 1.4},
      {"5 kWh/m²/day", Kind::daily_radiation, 5},
      {"18 MJ/m2/day", Kind::daily_radiation, 5},
      {"80 W·h/day", Kind::energy_per_day, 80},
      {"1 kWh/day", Kind::energy_per_day, 1000},
      {"3.6 MJ", Kind::energy, 1000},
      {"1500 mAh", Kind::charge, 1.5},
      {"90 min", Kind::time_h, 1.5},
      {"1 week", Kind::time_h, 168},
      {"2 d", Kind::time_h, 48},
      {"80 kph", Kind::speed, 80},
      {"36 km/h", Kind::wind, 10},
      {"7 L/week", Kind::volume_per_day, 1},
      {"3 L/2 days", Kind::volume_per_day, 1.5},
      {"3 /day", Kind::meals_per_day, 3},
      {"3 per day", Kind::meals_per_day, 3},
      {"3 meals/day", Kind::meals_per_day, 3},
      {"6 meals", Kind::meals, 6},
      {"418.4 kJ/100g", Kind::energy_per_mass, 4184},
      {"25 degC", Kind::temperature, 25},
      {"25 C", Kind::temperature, 25},
      {"45 deg", Kind::angle, 45},
      {"30 per cent", Kind::fraction, 0.3},
      {"0.5 t", Kind::mass, 500},
      {"1013 hPa", Kind::pressure, 101.3},
  });
  EXPECT_NEAR(value("3.141592653589793 rad", Kind::angle), 180.0, 1e-12);
}

TEST(Parse, ReadsTheNumberInEveryPlainForm) {
  expect_all({
      {"+20 L", Kind::volume, 20},
      {"\xE2\x88\x92"
       "18 °C",
       Kind::temperature, -18},  // U+2212, the minus of typesetting
      {".5 L", Kind::volume, 0.5},
      {"5. L", Kind::volume, 5},
      {"2e1 L", Kind::volume, 20},
      {"2E+1 L", Kind::volume, 20},
      {"  20 L\t", Kind::volume, 20},
      {"20\xC2\xA0L", Kind::volume, 20},      // U+00A0
      {"20\xE2\x80\xAFL", Kind::volume, 20},  // U+202F
      {"20\xE2\x80\x89L", Kind::volume, 20},  // U+2009
  });
}

TEST(ParseAny, TakesTheFirstKindThatFits) {
  const std::array kinds{Kind::volume, Kind::fraction, Kind::time_h, Kind::distance,
                         Kind::temperature};
  const auto expect = [&](std::string_view text, Kind kind, double wanted) {
    const Result<Quantity> result = parse_any(text, kinds);
    ASSERT_TRUE(result.ok()) << text;
    EXPECT_EQ(result->kind, kind) << text;
    EXPECT_DOUBLE_EQ(result->value, wanted) << text;
  };
  expect("20 L", Kind::volume, 20);
  expect("40 %", Kind::fraction, 0.4);
  expect("3 days", Kind::time_h, 72);
  expect("150 km", Kind::distance, 150);
  expect("5 °C", Kind::temperature, 5);
}

TEST(Parse, GivesTheSameFromManyThreads) {
  std::atomic<int> wrong{0};
  std::vector<std::thread> threads;
  threads.reserve(4);
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&wrong] {
      for (int i = 0; i < 500; ++i) {
        const Result<double> good = parse("8 L/100km", Kind::fuel_use);
        if (!good || *good != 0.08) ++wrong;
        if (parse("8 furlongs", Kind::distance)) ++wrong;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(wrong.load(), 0);
}

}  // namespace
}  // namespace drystage::units
