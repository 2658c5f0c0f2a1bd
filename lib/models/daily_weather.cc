#include "models/daily_weather.h"

#include <array>
#include <cmath>
#include <cstddef>

namespace drystage::models {
namespace {

constexpr std::size_t hours = 24;
using Knots = std::array<double, hours + 1>;

// Fraction of the daily range below the maximum at 0, 1, .. 24 h; 0 h repeats 24 h.
// ASHRAE Fundamentals, climatic design information (memory).
constexpr Knots below_max = {0.82, 0.88, 0.92, 0.95, 0.98, 1.00, 0.98, 0.91, 0.74,
                             0.55, 0.38, 0.23, 0.13, 0.05, 0.00, 0.00, 0.06, 0.14,
                             0.24, 0.39, 0.50, 0.59, 0.68, 0.75, 0.82};

// The integral of the same from 0 h to each hour.
constexpr Knots integral_from_midnight = [] {
  Knots sums{};
  for (std::size_t i = 0; i < hours; ++i) {
    sums[i + 1] = sums[i] + 0.5 * (below_max[i] + below_max[i + 1]);
  }
  return sums;
}();

struct Moment {
  double whole_days;
  std::size_t hour;  // 0..23
  double past_hour;  // 0..1
};

Moment moment_of(double hour) {
  const double whole_days = std::floor(hour / 24.0);
  const double in_day = hour - 24.0 * whole_days;
  const auto index = in_day < 24.0 ? static_cast<std::size_t>(in_day) : hours - 1;
  return {whole_days, index, in_day - static_cast<double>(index)};
}

double fraction_at(double hour) {
  const Moment at = moment_of(hour);
  return below_max[at.hour] + at.past_hour * (below_max[at.hour + 1] - below_max[at.hour]);
}

double integral_to(double hour) {
  const Moment at = moment_of(hour);
  return at.whole_days * integral_from_midnight[hours] + integral_from_midnight[at.hour] +
         0.5 * at.past_hour * (below_max[at.hour] + fraction_at(hour));
}

}  // namespace

double air_c_at(double max_c, double min_c, double hour) {
  return max_c - fraction_at(hour) * (max_c - min_c);
}

double mean_air_c(double max_c, double min_c, double hour_from, double hour_to) {
  if (hour_to <= hour_from) {
    return air_c_at(max_c, min_c, hour_from);
  }
  const double fraction = (integral_to(hour_to) - integral_to(hour_from)) / (hour_to - hour_from);
  return max_c - fraction * (max_c - min_c);
}

}  // namespace drystage::models
