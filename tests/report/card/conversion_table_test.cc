// Litres, gallons, kilometres and miles, against their definitions.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "report/card/dip_tables.h"

namespace drystage {
namespace {

// NIST Special Publication 811, appendix B.8, and UK SI 1995/1804: exact.
constexpr double us_gal_l = 3.785411784;
constexpr double imp_gal_l = 4.54609;
constexpr double mile_km = 1.609344;

const std::map<std::string, double> factors{
    {"L in US gal", 1 / us_gal_l}, {"L in imp gal", 1 / imp_gal_l},
    {"US gal in L", us_gal_l},     {"US gal in imp gal", us_gal_l / imp_gal_l},
    {"imp gal in L", imp_gal_l},   {"imp gal in US gal", imp_gal_l / us_gal_l},
    {"km in mi", 1 / mile_km},     {"mi in km", mile_km}};

TEST(ConversionTable, IsThatOfTheDefinitions) {
  const std::vector<std::string> heads = report::conversion_heads();
  ASSERT_EQ(heads.size(), factors.size() + 1);
  for (const std::vector<std::string>& row : report::conversion_rows()) {
    ASSERT_EQ(row.size(), heads.size());
    const double number = std::stod(row.front());
    for (std::size_t c = 1; c < row.size(); ++c) {
      const double exact = number * factors.at(heads[c]);
      const double shown = std::stod(row[c]);
      const bool distance = heads[c].find("mi") == 0 || heads[c].find("km") == 0;
      const double unit = exact < 10 ? 0.01 : 0.1;
      // What there is is rounded down, what is to be driven up.
      EXPECT_LE(distance ? exact : shown, (distance ? shown : exact) + 1e-9) << heads[c];
      EXPECT_LT(std::abs(shown - exact), unit) << heads[c];
    }
  }
}

}  // namespace
}  // namespace drystage
