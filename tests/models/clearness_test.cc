#include "models/clearness.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "models/radiation.h"
#include "support/desert_year.h"

namespace drystage::models {
namespace {

TEST(Clearness, TheClearestDayIsThatOfHollandsAndHuget) {
  // Solar Energy 30:195 (1983), memory: by hand at two means.
  EXPECT_NEAR(clear_days_clearness(0.75), 0.6313 + 0.20025, 1e-12);
  EXPECT_NEAR(clear_days_clearness(0.5), 0.6313 + 0.1335 - 11.9 * std::pow(0.25, 8), 1e-12);
}

// Mean and deviation of exp(rate x) over `dullest` to `clearest`, in small steps.
support::Spread summed(double rate, double dullest, double clearest) {
  constexpr int pieces = 20000;
  double weights = 0;
  double first = 0;
  double second = 0;
  for (int i = 0; i < pieces; ++i) {
    const double clearness = dullest + (i + 0.5) / pieces * (clearest - dullest);
    const double weight = std::exp(rate * (clearness - clearest));
    weights += weight;
    first += weight * clearness;
    second += weight * clearness * clearness;
  }
  const double mean = first / weights;
  return {.mean = mean, .deviation = std::sqrt(second / weights - mean * mean)};
}

TEST(Clearness, DaysAreSpreadAsAnExponentialDistributionIs) {
  for (const double mean : {0.32, 0.39, 0.45, 0.6, 0.7, 0.74}) {
    const double clearest = clear_days_clearness(mean);
    double less = -100;
    double more = 300;
    for (int i = 0; i < 60; ++i) {
      const double middle = (less + more) / 2;
      (summed(middle, 0.05, clearest).mean < mean ? less : more) = middle;
    }
    const support::Spread wanted = summed(less, 0.05, clearest);
    EXPECT_NEAR(clearness_variation(mean), wanted.deviation / wanted.mean, 1e-3) << mean;
  }
}

TEST(Clearness, BeyondTheDataTheNearestMeanCounts) {
  EXPECT_EQ(clearness_variation(0.1), clearness_variation(0.3));
  EXPECT_EQ(clearness_variation(0.9), clearness_variation(0.75));
}

TEST(Clearness, OfDaysHasTheMonthsMeanAndItsVariation) {
  for (const double mean : {0.3, 0.45, 0.5, 0.6, 0.7, 0.75}) {
    const ClearnessOfDays days(mean);
    constexpr int n = 20'000;
    double sum = 0;
    double squares = 0;
    double before = 0;
    for (int i = 0; i < n; ++i) {
      const double over_mean = days.over_mean((i + 0.5) / n);
      EXPECT_GE(over_mean, before);
      before = over_mean;
      sum += over_mean;
      squares += over_mean * over_mean;
    }
    EXPECT_NEAR(sum / n, 1, 2e-3) << mean;
    EXPECT_NEAR(std::sqrt(squares / n - sum / n * sum / n), clearness_variation(mean), 2e-3)
        << mean;
    // From the dullest day to the clearest.
    EXPECT_NEAR(days.over_mean(0), 0.05 / mean, 1e-12);
    EXPECT_NEAR(days.over_mean(1), clear_days_clearness(mean) / mean, 1e-12);
  }
}

TEST(Clearness, IsNoMoreEvenThanRecordedDaysAreInWinter) {
  // The recorded deviation of a day's clearness over the month's mean is 0.09 to 0.26. The model is
  // near it in winter and spring and above it in summer; it must not lie far below it anywhere.
  for (int month = 1; month <= 12; ++month) {
    std::vector<double> clearness;
    for (const support::RecordedDay& day : support::desert_month(month)) {
      constexpr double mj_per_kwh = 3.6;
      clearness.push_back(day.sun_kwh_m2 * mj_per_kwh /
                          extraterrestrial_mj_m2(support::station_latitude_deg, day.day_of_year));
    }
    const support::Spread recorded = support::spread_of(clearness);
    const double ratio = clearness_variation(recorded.mean) / (recorded.deviation / recorded.mean);
    EXPECT_GT(ratio, 0.9) << month;
    EXPECT_LT(ratio, 1.75) << month;
  }
}

}  // namespace
}  // namespace drystage::models
