#include "units/format.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>

#include "units/parse.h"

namespace drystage::units {
namespace {

constexpr std::array systems{System::metric, System::us, System::imperial};

TEST(Format, WritesEachSystemInItsOwnUnits) {
  EXPECT_EQ(format(20, Kind::volume), "20 L");
  EXPECT_EQ(format(3.785411784, Kind::volume, System::us), "1 US gal");
  EXPECT_EQ(format(4.54609, Kind::volume, System::imperial), "1 imp gal");
  EXPECT_EQ(format(160.9344, Kind::distance, System::us), "100 mi");
  EXPECT_EQ(format(45.359237, Kind::mass, System::imperial), "100 lb");
  EXPECT_EQ(format(304.8, Kind::elevation, System::us), "1000 ft");
  EXPECT_EQ(format(0.108, Kind::fuel_use), "10.8 L/100km");
  EXPECT_EQ(format(4.54609 / (23 * 1.609344), Kind::fuel_use, System::imperial), "23 mpg (imp)");
  EXPECT_EQ(format(3.785411784 / (23 * 1.609344), Kind::fuel_use, System::us), "23 mpg (US)");
  EXPECT_EQ(format(0, Kind::temperature, System::us), "32 °F");
  EXPECT_EQ(format(100, Kind::temperature, System::us), "212 °F");
  EXPECT_EQ(format(5, Kind::temperature, System::imperial), "5 °C");
  EXPECT_EQ(format(5, Kind::temperature_difference, System::us), "9 °F");
  EXPECT_EQ(format(0.4, Kind::fraction), "40 %");
  EXPECT_EQ(format(27.1, Kind::angle), "27.1°");
}

TEST(Format, CountsDigitsAsAsked) {
  EXPECT_EQ(format_number(12345.678, significant(3)), "12346");
  EXPECT_EQ(format_number(12.345, significant(3)), "12.3");
  EXPECT_EQ(format_number(0.012345, significant(3)), "0.0123");
  EXPECT_EQ(format_number(1.5, significant(3)), "1.5");
  EXPECT_EQ(format_number(20, decimals(2)), "20.00");
  EXPECT_EQ(format_number(2.5, decimals(0)), "2");  // a tie goes to the even digit (IEEE 754)
  EXPECT_EQ(format_number(3.14159, decimals(-4)), "3");
}

TEST(Format, NeverWritesAMinusBeforeNothing) {
  EXPECT_EQ(format_number(-0.0, significant(3)), "0");
  EXPECT_EQ(format_number(-0.001, decimals(1)), "0.0");
  EXPECT_EQ(format_number(-0.1, decimals(1)), "-0.1");
}

TEST(Format, MarksWhatIsNotFinite) {
  EXPECT_EQ(format(std::numeric_limits<double>::infinity(), Kind::volume), "?");
  EXPECT_EQ(format(std::nan(""), Kind::volume), "?");
  EXPECT_EQ(format(0, Kind::fuel_use, System::us), "?");  // no use at all has no mpg
}

TEST(Format, OfDisplayAgreesWithItsParts) {
  const Display us = display(Kind::temperature, System::us);
  EXPECT_EQ(us.unit, "°F");
  EXPECT_DOUBLE_EQ(us.scale, 1.8);
  EXPECT_NEAR(us.offset, 32.0, 1e-12);
  EXPECT_FALSE(us.inverse);
  const Display metric = display(Kind::fuel_use, System::metric);
  EXPECT_EQ(metric.unit, "L/100km");
  EXPECT_EQ(metric.scale, 100.0);
  EXPECT_TRUE(display(Kind::fuel_use, System::us).inverse);
}

TEST(Format, IsReadBackForEveryKindAndSystem) {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> exponent(-3.0, 6.0);
  for (std::size_t k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    for (const System system : systems) {
      for (int i = 0; i < 200; ++i) {
        const double sign = random() % 2 == 0 ? 1.0 : -1.0;
        const double wanted = sign * std::pow(10.0, exponent(random));
        const std::string text = format(wanted, kind, system, significant(12));
        const Result<double> back = parse(text, kind);
        ASSERT_TRUE(back.ok()) << text << ": " << back.problem().line();
        // Twelve digits of the number shown; a thermometer's offset is up to 460 of its degrees.
        EXPECT_NEAR(*back, wanted, 1e-11 * std::abs(wanted) + 1e-9) << text;
      }
    }
  }
}

TEST(Format, IsReadBackAtTheEndsOfTheRange) {
  for (const double wanted : {1e15, 1e300, -1e300, 123456789012345.0}) {
    const Result<double> back = parse(format(wanted, Kind::volume), Kind::volume);
    ASSERT_TRUE(back.ok()) << wanted;
    EXPECT_NEAR(*back / wanted, 1.0, 1e-14);
  }
}

TEST(Kind, ExamplesAndUnitsAreThemselvesReadable) {
  for (std::size_t k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    EXPECT_TRUE(parse(example(kind), kind).ok()) << example(kind);
    EXPECT_TRUE(parse("2 " + std::string(usual_unit(kind)), kind).ok()) << usual_unit(kind);
    EXPECT_FALSE(name(kind).empty());
    if (kind == Kind::fraction) continue;  // its canonical form is the bare number
    const Result<double> two = parse("2 " + std::string(canonical_unit(kind)), kind);
    ASSERT_TRUE(two.ok()) << canonical_unit(kind);
    EXPECT_EQ(*two, 2.0) << canonical_unit(kind);
  }
}

}  // namespace
}  // namespace drystage::units
