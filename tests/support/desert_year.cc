#include "support/desert_year.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numeric>
#include <sstream>
#include <string>

namespace drystage::support {

double RecordedDay::max_c() const { return std::ranges::max(air_c); }
double RecordedDay::min_c() const { return std::ranges::min(air_c); }
double RecordedDay::mean_c() const {
  return std::accumulate(air_c.begin(), air_c.end(), 0.0) / static_cast<double>(air_c.size());
}

std::vector<RecordedDay> desert_year() {
  std::ifstream file(std::string(DRYSTAGE_TEST_DATA) + "/published/data/desert_year.csv");
  EXPECT_TRUE(file.is_open());
  std::vector<RecordedDay> out;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#' || line.starts_with("month")) continue;
    std::istringstream cells(line);
    RecordedDay day;
    char mark = 0;
    cells >> day.month >> mark >> day.day >> mark >> day.sun_kwh_m2 >> mark >> day.wind_m_s >>
        mark >> day.dew_point_c;
    for (double& air_c : day.air_c) cells >> mark >> air_c;
    EXPECT_FALSE(cells.fail()) << line;
    day.day_of_year = static_cast<int>(out.size()) + 1;
    out.push_back(day);
  }
  EXPECT_EQ(out.size(), 365U);
  return out;
}

std::vector<RecordedDay> desert_month(int month) {
  std::vector<RecordedDay> out = desert_year();
  std::erase_if(out, [month](const RecordedDay& day) { return day.month != month; });
  return out;
}

Spread spread_of(const std::vector<double>& values) {
  const auto count = static_cast<double>(values.size());
  Spread out;
  out.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  for (const double value : values) out.deviation += (value - out.mean) * (value - out.mean);
  out.deviation = std::sqrt(out.deviation / count);
  return out;
}

}  // namespace drystage::support
