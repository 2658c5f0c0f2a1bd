// The sun against an independent implementation of the NREL Solar Position Algorithm (npm nrel-spa
// 2.0.2). generate/sun_grid.mjs made the recorded values.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "models/sun.h"

namespace drystage::models {
namespace {

using Row = std::vector<double>;

// The rows of numbers of a recorded file; comments and the line of names are passed over.
std::vector<Row> recorded(const std::string& name) {
  std::ifstream file(std::string(DRYSTAGE_TEST_DATA) + "/published/data/" + name);
  EXPECT_TRUE(file.is_open()) << name;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#' || line.starts_with("year")) {
      continue;
    }
    Row row;
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) {
      row.push_back(std::stod(cell));
    }
    rows.push_back(row);
  }
  return rows;
}

int whole(double value) { return static_cast<int>(std::lround(value)); }

TEST(SunGrid, PositionsAreWithinAFiftiethOfADegree) {
  const std::vector<Row> rows = recorded("sun_positions.csv");
  ASSERT_GE(rows.size(), 1000U);
  double worst_zenith_deg = 0.0;
  double worst_azimuth_deg = 0.0;
  for (const Row& row : rows) {
    ASSERT_EQ(row.size(), 10U);
    const double moment = julian_day(whole(row[0]), whole(row[1]), whole(row[2]), row[3]);
    const SunPosition sun = sun_position(moment, row[4], row[5]);
    // A pressure of 0 in the record leaves refraction out, here as there.
    const double seen_zenith_deg =
        sun.zenith_deg - refraction_deg(90.0 - sun.zenith_deg, row[6] / 10.0, row[7]);
    const double zenith_error_deg = std::abs(seen_zenith_deg - row[8]);
    // Near the zenith a bearing means little: what counts is the arc it spans in the sky.
    const double azimuth_error_deg = std::abs(std::remainder(sun.azimuth_deg - row[9], 360.0) *
                                              std::sin(row[8] * std::numbers::pi / 180.0));
    EXPECT_LT(zenith_error_deg, 0.02) << row[0] << "-" << row[1] << "-" << row[2] << " " << row[3];
    EXPECT_LT(azimuth_error_deg, 0.02) << row[0] << "-" << row[1] << "-" << row[2] << " " << row[3];
    worst_zenith_deg = std::max(worst_zenith_deg, zenith_error_deg);
    worst_azimuth_deg = std::max(worst_azimuth_deg, azimuth_error_deg);
  }
  RecordProperty("worst_zenith_deg", std::to_string(worst_zenith_deg));
  RecordProperty("worst_azimuth_deg", std::to_string(worst_azimuth_deg));
}

TEST(SunGrid, SunriseNoonAndSunsetAreWithinAMinute) {
  const std::vector<Row> rows = recorded("sun_times.csv");
  ASSERT_GE(rows.size(), 300U);
  std::size_t over_midnight = 0;
  double worst_s = 0.0;
  for (const Row& row : rows) {
    ASSERT_EQ(row.size(), 9U);
    const SunTimes times =
        sun_times(whole(row[0]), whole(row[1]), whole(row[2]), row[3], row[4], row[5]);
    EXPECT_FALSE(times.always_up || times.always_down);
    const double error_s =
        3600.0 * std::max({std::abs(times.rise_h - row[6]), std::abs(times.noon_h - row[7]),
                           std::abs(times.set_h - row[8])});
    EXPECT_LT(error_s, 60.0) << row[0] << "-" << row[1] << "-" << row[2] << " at " << row[3] << " "
                             << row[4];
    worst_s = std::max(worst_s, error_s);
    over_midnight += (row[6] < 0.0 || row[8] > 24.0) ? 1U : 0U;
  }
  EXPECT_GE(over_midnight, 50U);  // the record does hold days that cross midnight
  RecordProperty("worst_s", std::to_string(worst_s));
}

}  // namespace
}  // namespace drystage::models
