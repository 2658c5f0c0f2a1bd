// The size of a hot and of a dull week, against closed forms and the recorded year of a desert
// station.

#include "engine/spell.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "support/desert_year.h"

namespace drystage {
namespace {

using support::desert_month;
using support::RecordedDay;

// Deviation of the mean of n days of a series of the first order, over that of a day: time series
// textbooks.
double of_a_mean(int n, double lag_1) {
  double sum = 1;
  for (int k = 1; k < n; ++k) sum += 2 * (1 - static_cast<double>(k) / n) * std::pow(lag_1, k);
  return std::sqrt(sum / n);
}

template <class Value>
std::vector<double> values(int month, Value value) {
  std::vector<double> out;
  for (const RecordedDay& day : desert_month(month)) out.push_back(value(day));
  return out;
}

std::vector<double> weekly(const std::vector<double>& days) {
  std::vector<double> out;
  for (std::size_t first = 0; first + plan::spell_days <= days.size(); ++first) {
    double sum = 0;
    for (std::size_t d = first; d < first + plan::spell_days; ++d) sum += days[d];
    out.push_back(sum / plan::spell_days);
  }
  return out;
}

TEST(Spell, BothAreTwoDeviationsOfAWeek) {
  EXPECT_NEAR(engine::spell_spreads / of_a_mean(plan::spell_days, 0.75), 2, 0.03);
  EXPECT_NEAR(engine::spell_sun_deviations / of_a_mean(plan::spell_days, 0.4), 2, 0.06);
}

TEST(Spell, NoRecordedWeekOfAMonthIsHotter) {
  for (int month = 1; month <= 12; ++month) {
    const std::vector<double> days =
        values(month, [](const RecordedDay& day) { return day.mean_c(); });
    const support::Spread all = support::spread_of(days);
    plan::Weather normals;
    normals.spread_c = all.deviation;
    const double hotter_k = std::ranges::max(weekly(days)) - all.mean;
    EXPECT_LT(hotter_k, engine::spell_hotter_k(normals)) << month;
    // Nor is it out of all proportion.
    EXPECT_GT(hotter_k, 0.4 * engine::spell_hotter_k(normals)) << month;
  }
}

TEST(Spell, AsGoodAsNoRecordedWeekOfAMonthIsDuller) {
  for (int month = 1; month <= 12; ++month) {
    const std::vector<double> days =
        values(month, [](const RecordedDay& day) { return day.sun_kwh_m2; });
    const double mean = support::spread_of(days).mean;
    const double recorded = std::ranges::min(weekly(days)) / mean;
    const double modelled =
        engine::spell_sun_share(plan::Spell::dull, mean, support::station_latitude_deg,
                                desert_month(month)[15].day_of_year);
    EXPECT_GT(recorded, modelled - 0.03) << month;
    EXPECT_LT(recorded, modelled + 0.2) << month;
  }
}

TEST(Spell, AHotWeekHasTheSunOfAClearDay) {
  // The clearest recorded day of each month over its mean.
  for (int month = 1; month <= 12; ++month) {
    const std::vector<double> days =
        values(month, [](const RecordedDay& day) { return day.sun_kwh_m2; });
    const double mean = support::spread_of(days).mean;
    const double modelled = engine::spell_sun_share(
        plan::Spell::hot, mean, support::station_latitude_deg, desert_month(month)[15].day_of_year);
    EXPECT_NEAR(modelled, std::ranges::max(days) / mean, 0.1) << month;
  }
}

TEST(Spell, WithoutASpreadAUsualOneCounts) {
  plan::Weather normals;
  EXPECT_DOUBLE_EQ(engine::spell_hotter_k(normals), 1.5 * 3.5);
  normals.spread_c = 0;
  EXPECT_DOUBLE_EQ(engine::spell_hotter_k(normals), 0);
}

TEST(Spell, WhereTheSunDoesNotRiseItCannotBeDuller) {
  EXPECT_EQ(engine::spell_sun_share(plan::Spell::dull, 0, 80, 355), 1);
  EXPECT_EQ(engine::spell_sun_share(plan::Spell::dull, 0.5, 80, 355), 1);
  EXPECT_EQ(engine::spell_sun_share(plan::Spell::usual, 5, 30, 100), 1);
}

}  // namespace
}  // namespace drystage
