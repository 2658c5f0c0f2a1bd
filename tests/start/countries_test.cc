// Usual weather by kind of country: its figures against a recorded year, and what becomes of them
// at another latitude.
#include "start/countries.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/radiation.h"
#include "support/desert_year.h"

namespace drystage::start {
namespace {

const Country& country_of(std::string_view name) {
  for (const Country& country : countries) {
    if (country.name == name) return country;
  }
  throw std::invalid_argument("no such country");
}

TEST(Countries, HotDesertIsAsRecordedAtItsStation) {
  for (int month = 1; month <= 12; ++month) {
    double sun = 0;
    double dew_point = 0;
    double max = 0;
    const auto days = support::desert_month(month);
    for (const support::RecordedDay& day : days) {
      sun += day.sun_kwh_m2 / static_cast<double>(days.size());
      dew_point += day.dew_point_c / static_cast<double>(days.size());
      max += day.max_c() / static_cast<double>(days.size());
    }
    const UsualMonth usual =
        usual_month(country_of("hot desert"), support::station_latitude_deg, month);
    EXPECT_NEAR(usual.sun_kwh_m2, sun, 0.01) << month;
    EXPECT_NEAR(usual.dew_point_c, dew_point, 0.6) << month;
    // The highest are normals of 30 years, which the months of a typical year are not.
    EXPECT_NEAR(usual.max_c, max, 3.5) << month;
  }
}

TEST(Countries, SouthOfTheEquatorTheMonthsAreSixLater) {
  for (const Country& country : countries) {
    for (int month = 1; month <= 12; ++month) {
      const double latitude = (country.least_deg + country.most_deg) / 2;
      const UsualMonth north = usual_month(country, latitude, month);
      const UsualMonth south = usual_month(country, -latitude, (month + 5) % 12 + 1);
      EXPECT_EQ(south.max_c, north.max_c);
      EXPECT_EQ(south.min_c, north.min_c);
      EXPECT_EQ(south.dew_point_c, north.dew_point_c);
      // The sun is 3.4 % nearer in January than the mean, squared; and months are not alike long.
      EXPECT_NEAR(south.sun_kwh_m2, north.sun_kwh_m2, 0.10 * north.sun_kwh_m2 + 0.05);
    }
  }
}

TEST(Countries, TheSunStaysBetweenTheDullestAndAClearMonth) {
  for (const Country& country : countries) {
    for (double latitude = country.least_deg; latitude <= country.most_deg; ++latitude) {
      for (int month = 1; month <= 12; ++month) {
        const double outside = models::extraterrestrial_mj_m2(latitude, 30 * month - 15) / 3.6;
        const double sun = usual_month(country, latitude, month).sun_kwh_m2;
        EXPECT_LE(sun, 0.82 * outside + 0.1) << country.name << latitude << ' ' << month;
        EXPECT_GE(sun, 0.25 * outside - 0.1) << country.name << latitude << ' ' << month;
      }
    }
  }
}

TEST(Countries, AreWarmestWhereTheyAreHighestAndNeverTooMoist) {
  for (const Country& country : countries) {
    for (const UsualMonth& month : country.months) {
      EXPECT_LT(month.min_c, month.max_c) << country.name;
      EXPECT_LT(month.dew_point_c, (month.min_c + month.max_c) / 2) << country.name;
    }
    EXPECT_GT(country.months[6].max_c, country.months[0].max_c) << country.name;
  }
}

TEST(Countries, AreOfferedAtEveryLatitudeOfBothHemispheresUpTo70) {
  for (int latitude = 0; latitude <= 70; ++latitude) {
    EXPECT_FALSE(usual_countries(latitude).empty()) << latitude;
    EXPECT_EQ(usual_countries(-latitude), usual_countries(latitude));
  }
  EXPECT_TRUE(usual_countries(70.1).empty());
  EXPECT_EQ(usual_countries(60), std::vector<std::string>{"boreal"});
}

}  // namespace
}  // namespace drystage::start
