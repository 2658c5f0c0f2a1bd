#include "models/chance.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {

Chance chance_of(std::uint64_t times, std::uint64_t trials) {
  if (trials == 0) return {};
  constexpr double z = 1.959963984540054;  // 97.5 % of a normal distribution lie below it
  const auto n = static_cast<double>(trials);
  const double p = static_cast<double>(times) / n;
  const double middle = (p + z * z / (2 * n)) / (1 + z * z / n);
  const double half = z / (1 + z * z / n) * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return {.chance = p,
          .low = times == 0 ? 0 : std::max(0.0, middle - half),
          .high = times == trials ? 1 : std::min(1.0, middle + half)};
}

double half_width(const Chance& chance) { return (chance.high - chance.low) / 2; }

}  // namespace drystage::models
