#include "models/resting_voltage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace drystage::models {

namespace {

constexpr double table_v = 12.0;
constexpr double least_resting_v = 10.5;
constexpr double most_resting_v = 13.2;

/// From empty to full, a quarter each.
using RestingVolts = std::array<double, 5>;
constexpr RestingVolts flooded_v{11.60, 11.97, 12.18, 12.43, 12.70};
constexpr RestingVolts agm_v{11.80, 12.00, 12.30, 12.60, 12.80};

double share_at(const RestingVolts& volts, double resting_v) {
  if (resting_v <= volts.front()) {
    return 0.0;
  }
  for (std::size_t i = 1; i < volts.size(); ++i) {
    if (resting_v < volts[i]) {
      const double part = (resting_v - volts[i - 1]) / (volts[i] - volts[i - 1]);
      return (static_cast<double>(i - 1) + part) / static_cast<double>(volts.size() - 1);
    }
  }
  return 1.0;
}

double resting_error(double share) {
  constexpr double from_half = 0.07;
  constexpr double at_empty = 0.15;
  return from_half + (at_empty - from_half) * std::max(0.0, 1.0 - 2.0 * share);
}

}  // namespace

std::optional<RestingCharge> resting_charge(BatteryKind kind, double nominal_v, double resting_v) {
  if (kind == BatteryKind::lfp || !std::isfinite(nominal_v) || nominal_v <= 0.0) {
    return std::nullopt;
  }
  const double of_12_v = resting_v * table_v / nominal_v;
  if (!(of_12_v >= least_resting_v && of_12_v <= most_resting_v)) {
    return std::nullopt;
  }
  const double share = share_at(kind == BatteryKind::flooded ? flooded_v : agm_v, of_12_v);
  return RestingCharge{share, resting_error(share)};
}

}  // namespace drystage::models
