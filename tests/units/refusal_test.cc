#include <fmt/core.h>
#include <gtest/gtest.h>

#include <array>
#include <clocale>
#include <cmath>
#include <locale>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "units/format.h"
#include "units/parse.h"
#include "units/text.h"

namespace drystage::units {
namespace {

using namespace std::string_view_literals;

// The whole message in one line, or "accepted".
std::string refusal(std::string_view text, Kind kind) {
  const Result<double> result = parse(text, kind);
  return result ? "accepted" : result.problem().line();
}

TEST(Refusal, OfABareNumberShowsTheFix) {
  EXPECT_EQ(refusal("90", Kind::volume),
            "90 has no unit; expected a volume, such as 20 L; write 90 L");
  EXPECT_EQ(refusal("0", Kind::angle), "0 has no unit; expected an angle, such as 27.1°; write 0°");
  EXPECT_EQ(refusal("11.2", Kind::fuel_use),
            "11.2 has no unit; expected a fuel use per distance, such as 11.2 L/100km; "
            "write 11.2 L/100km");
  EXPECT_EQ(refusal("0.5", Kind::fraction),
            "0.5 has no unit; expected a share, such as 50 %; write 50 %");
  EXPECT_EQ(refusal("50", Kind::fraction),
            "50 has no unit; expected a share, such as 50 %; write 50 %");
}

TEST(Refusal, OfABareGallonGivesTheTwoSpellingsThatWork) {
  constexpr std::string_view tail =
      " can be two sizes; expected a volume, such as 20 L; write 5 US gal or 5 imp gal";
  for (const std::string_view word : {"gal", "Gal", "GAL", "gallon", "gallons", "Gallons"}) {
    EXPECT_EQ(refusal(fmt::format("5 {}", word), Kind::volume),
              fmt::format("\"{}\"{}", word, tail));
  }
  EXPECT_EQ(refusal("2 gal/day", Kind::volume_per_day),
            "\"gal\" can be two sizes; expected a volume per day, such as 5.5 L/day; "
            "write 2 US gal/day or 2 imp gal/day");
}

TEST(Refusal, OfBareMilesPerGallonGivesTheTwoSpellingsThatWork) {
  for (const std::string_view word : {"mpg", "MPG", "Mpg"}) {
    EXPECT_EQ(refusal(fmt::format("23 {}", word), Kind::fuel_use),
              fmt::format("\"{}\" can be two sizes; expected a fuel use per distance, such as "
                          "11.2 L/100km; write 23 mpg (US) or 23 mpg (imp)",
                          word));
  }
  EXPECT_EQ(refusal("23 mi/gal", Kind::fuel_use),
            "\"gal\" can be two sizes; expected a fuel use per distance, such as 11.2 L/100km; "
            "write 23 mi/US gal or 23 mi/imp gal");
}

TEST(Refusal, NeverOffersAFixThatIsItselfRefused) {
  for (const std::string_view fix : {"5 US gal", "5 imp gal", "5 US qt", "5 imp pt"}) {
    EXPECT_EQ(refusal(fix, Kind::volume), "accepted") << fix;
  }
  for (const std::string_view fix : {"23 mpg (US)", "23 mpg (imp)", "23 mi/US gal"}) {
    EXPECT_EQ(refusal(fix, Kind::fuel_use), "accepted") << fix;
  }
}

TEST(Refusal, OfOtherAmbiguousWordsSaysWhatToUse) {
  EXPECT_EQ(refusal("2 ton", Kind::mass),
            "\"ton\" can be three sizes; expected a mass, such as 62 kg; "
            "give it in t (1000 kg) or kg");
  EXPECT_EQ(refusal("8 oz", Kind::mass),
            "\"oz\" can be a mass or a volume; expected a mass, such as 62 kg; give it in g or mL");
  EXPECT_EQ(refusal("2 months", Kind::time_h),
            "\"months\" can be several lengths; expected a time, such as 7 h; give it in days");
}

TEST(Refusal, NeverHintsAtAUnitOfAnotherDimensionOrAnotherAmount) {
  EXPECT_EQ(refusal("1/4 h", Kind::time_h),
            "1/4 h is a fraction; expected a time, such as 7 h; write 0.25 h");
  EXPECT_EQ(refusal("5 KM", Kind::mass),
            "\"KM\" is not a unit known here; expected a mass, such as 62 kg");
  EXPECT_EQ(refusal("5 Kt", Kind::volume),
            "\"Kt\" is not a unit known here; expected a volume, such as 20 L");
  EXPECT_EQ(
      refusal("5 KM", Kind::distance),
      "\"KM\" is not a unit known here; expected a distance, such as 150 km; did you mean km?");
}

TEST(Refusal, OfAnotherDimensionNamesBoth) {
  EXPECT_EQ(refusal("20 kg", Kind::volume), "20 kg is a mass; expected a volume, such as 20 L");
  EXPECT_EQ(refusal("5 m2", Kind::fuel_use),
            "5 m2 is an area; expected a fuel use per distance, such as 11.2 L/100km");
  EXPECT_EQ(refusal("10 °", Kind::fraction), "10 ° is an angle; expected a share, such as 50 %");
  EXPECT_EQ(refusal("5 kg/m", Kind::mass),
            "5 kg/m is not a kind of amount used here; expected a mass, such as 62 kg");
}

TEST(Refusal, KeepsAPowerApartFromAnEnergyPerDayAndAShareFromATimePerDay) {
  EXPECT_EQ(refusal("80 W", Kind::energy_per_day),
            "80 W is a power; expected an energy per day, such as 80 Wh/day");
  EXPECT_EQ(refusal("80 Wh/day", Kind::power),
            "80 Wh/day is an energy per day; expected a power, such as 14 W");
  EXPECT_EQ(refusal("50 %", Kind::time_per_day),
            "50 % is a share; expected a time per day, such as 3 h/day");
  EXPECT_EQ(refusal("3 h/day", Kind::fraction),
            "3 h/day is a time per day; expected a share, such as 50 %");
}

TEST(Refusal, OfAnUnknownUnitNamesTheNearest) {
  EXPECT_EQ(refusal("5 Liters", Kind::volume),
            "\"Liters\" is not a unit known here; expected a volume, such as 20 L; "
            "did you mean liters?");
  EXPECT_EQ(refusal("5 US Gal", Kind::volume),
            "\"US Gal\" is not a unit known here; expected a volume, such as 20 L; "
            "did you mean US gal?");
  EXPECT_EQ(refusal("23 MPG (US)", Kind::fuel_use),
            "\"MPG(US)\" is not a unit known here; expected a fuel use per distance, such as "
            "11.2 L/100km; did you mean mpg (US)?");
  EXPECT_EQ(refusal("5 L/dya", Kind::volume_per_day),
            "\"dya\" is not a unit known here; expected a volume per day, such as 5.5 L/day; "
            "did you mean day?");
  EXPECT_EQ(refusal("5 zorkmids", Kind::mass),
            "\"zorkmids\" is not a unit known here; expected a mass, such as 62 kg");
}

TEST(Refusal, OfACommaShowsThePoint) {
  EXPECT_EQ(refusal("10,8 L", Kind::volume),
            "10,8 L has a decimal comma; expected a volume, such as 20 L; write 10.8 L");
  EXPECT_EQ(refusal("-1,5 °C", Kind::temperature),
            "-1,5 °C has a decimal comma; expected a temperature, such as 5 °C; write -1.5 °C");
  EXPECT_EQ(refusal("1,000 L", Kind::volume),
            "1,000 L has a comma in its number; expected a volume, such as 20 L; "
            "write 1000 L or 1.000 L");
}

TEST(Refusal, OfMoreThanOneNumberSaysSo) {
  EXPECT_EQ(refusal("1 000 L", Kind::volume),
            "1 000 L has a space inside its number; expected a volume, such as 20 L; "
            "write 1000 L");
  EXPECT_EQ(refusal("2-3 L", Kind::volume),
            "2-3 L is a range; expected a volume, such as 20 L; write one number");
  EXPECT_EQ(refusal("3 h 30 min", Kind::time_h),
            "3 h 30 min has a second number; expected a time, such as 7 h; "
            "write one number and one unit, such as 3.5 h");
  EXPECT_EQ(refusal("1/2 L", Kind::volume),
            "1/2 L is a fraction; expected a volume, such as 20 L; write 0.5 L");
  EXPECT_EQ(refusal("1.2.3 L", Kind::volume),
            "1.2.3 L has two decimal points; expected a volume, such as 20 L");
}

TEST(Refusal, OfWhatIsNoNumber) {
  EXPECT_EQ(refusal("", Kind::volume), "nothing is written here; expected a volume, such as 20 L");
  EXPECT_EQ(refusal(" \t", Kind::volume),
            "nothing is written here; expected a volume, such as 20 L");
  for (const std::string_view text : {"L", "nan L", "inf L", "-inf L", "nan", "-", "+ L", "lots"}) {
    EXPECT_EQ(refusal(text, Kind::volume),
              fmt::format("\"{}\" has no number; expected a volume, such as 20 L", text));
  }
  for (const std::string_view text : {"about 20 L", "--5 L", "+-5 L", "$5"}) {
    EXPECT_EQ(
        refusal(text, Kind::volume),
        fmt::format("\"{}\" does not start with a number; expected a volume, such as 20 L", text));
  }
}

TEST(Refusal, OfNumbersOutsideADouble) {
  EXPECT_EQ(refusal("1e999 L", Kind::volume),
            "\"1e999 L\" is too large or too small a number; expected a volume, such as 20 L");
  EXPECT_EQ(refusal("1e308 t", Kind::mass),
            "1e308 t has no finite value in kg; expected a mass, such as 62 kg");
  EXPECT_EQ(refusal("0 mpg (US)", Kind::fuel_use),
            "0 mpg (US) has no finite value in L/km; expected a fuel use per distance, such as "
            "11.2 L/100km");
}

TEST(Refusal, OfUnitsThatCanBeReadInTwoWaysOrNotAtAll) {
  for (const std::string_view text :
       {"5 L/",      "5 /",        "5 L//day",   "5 (L)",
        "5 L)",      "5 L^",       "5 L^4",      "5 m22",
        "5 L·",      "0x10 L",     "5 L; rm",    "5 L*L*L*L*L*L*L*L*L*L",
        "5 W/m2 K",  "5 °Cx",      "27.1° N",    "27.1°N",
        "5 L/0 day", "5 L/-2 day", "5 lg(re L)", "5 days since 2000",
        "5 K @ 3",   "5 5",        "20 L 20 L"}) {
    for (std::size_t kind = 0; kind < kind_count; ++kind) {
      EXPECT_NE(refusal(text, static_cast<Kind>(kind)), "accepted") << text;
    }
  }
}

TEST(Refusal, HoldsAgainstHostileBytes) {
  const std::vector<std::string> hostile{std::string("20 L\0", 5),
                                         std::string("20\0 L", 5),
                                         std::string(10000, '9') + " L",
                                         "20 " + std::string(10000, 'L'),
                                         std::string(10000, ' '),
                                         "20 \xFF\xFE",
                                         "20 \xC0\xAF",
                                         "20 \xED\xA0\x80",
                                         "20 \xF4\x90\x80\x80",
                                         "\xE2\x88",
                                         "20 L\n",
                                         "20 \x1B[31mL",
                                         std::string("20 \xC2\x9B") + "31mL",
                                         "1e" + std::string(90, '9') + " L"};
  for (const std::string& text : hostile) {
    const Result<double> result = parse(text, Kind::volume);
    ASSERT_FALSE(result.ok());
    const std::string message = result.problem().line();
    EXPECT_LT(message.size(), 200U);
    EXPECT_TRUE(is_printable_utf8(message)) << message;
  }
}

TEST(Refusal, OrAFiniteNumberIsAllThatRandomTextGives) {
  std::mt19937 random(20270208);
  const std::array pieces{"5"sv, "1e3"sv, " "sv,   "L"sv, "/"sv, "100"sv,      "km"sv,   "°"sv,
                          "C"sv, "%"sv,   "day"sv, "("sv, ")"sv, "US"sv,       "gal"sv,  "mpg"sv,
                          "-"sv, "."sv,   ","sv,   "^"sv, "2"sv, "\xC2\xB7"sv, "\xFF"sv, "W"sv};
  int accepted = 0;
  for (int i = 0; i < 20000; ++i) {
    std::string text = "5 ";
    for (std::size_t n = random() % 6; n > 0; --n) text += pieces.at(random() % pieces.size());
    const auto kind = static_cast<Kind>(random() % kind_count);
    const Result<double> result = parse(text, kind);
    if (result) {
      ++accepted;
      EXPECT_TRUE(std::isfinite(*result)) << text;
    } else {
      EXPECT_FALSE(result.problem().what.empty()) << text;
      EXPECT_FALSE(result.problem().expected.empty()) << text;
      EXPECT_TRUE(is_printable_utf8(result.problem().line())) << text;
    }
  }
  EXPECT_GT(accepted, 20);  // the pieces do make units now and then
}

TEST(ParseAny, SaysAllThatWouldHaveDone) {
  const std::array kinds{Kind::volume, Kind::fraction, Kind::time_h};
  EXPECT_EQ(parse_any("20", kinds).problem().line(),
            "20 has no unit; expected a volume, a share or a time, such as 20 L, 50 % or 7 h; "
            "write 20 L, 20 % or 20 h");
  EXPECT_EQ(parse_any("20 kg", kinds).problem().line(),
            "20 kg is a mass; expected a volume, a share or a time, such as 20 L, 50 % or 7 h");
}

struct CommaFacet : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

TEST(Locale, ChangesNeitherReadingNorWriting) {
  const std::locale before =
      std::locale::global(std::locale(std::locale::classic(), new CommaFacet));
  // Named locales may not be installed; where one is, the C library prints commas too.
  for (const char* locale : {"de_DE.UTF-8", "de_DE", "fr_FR.UTF-8"}) {
    if (std::setlocale(LC_ALL, locale) != nullptr) break;
  }
  const Result<double> use = parse("10.75 L/100km", Kind::fuel_use);
  const Result<double> comma = parse("10,75 L/100km", Kind::fuel_use);
  const std::string small = format(0.1075, Kind::fuel_use, System::metric, decimals(2));
  const std::string large = format(1234567.5, Kind::volume, System::metric, decimals(1));
  std::setlocale(LC_ALL, "C");
  std::locale::global(before);
  ASSERT_TRUE(use.ok());
  EXPECT_EQ(*use, 0.1075);
  EXPECT_FALSE(comma.ok());
  EXPECT_EQ(small, "10.75 L/100km");
  EXPECT_EQ(large, "1234567.5 L");
}

}  // namespace
}  // namespace drystage::units
