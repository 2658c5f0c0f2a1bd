#include "models/punctures.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace drystage::models {
namespace {

constexpr std::size_t most_counted = 2 * most_spares + 1;

/// Poisson's chances of 0, 1, 2 ... and of at most so many. Where the mean is so great that they
/// are all as good as nothing, they are nothing.
struct Poisson {
  std::array<double, most_counted> of{};
  std::array<double, most_counted> at_most{};

  /// Of the first `count` numbers.
  Poisson(double mean, int count) {
    double chance = std::exp(-mean);
    double sum = 0;
    for (std::size_t n = 0; n < static_cast<std::size_t>(count); ++n) {
      if (n > 0) chance *= mean / static_cast<double>(n);
      sum += chance;
      of.at(n) = chance;
      at_most.at(n) = std::min(1.0, sum);
    }
  }
};

Spares within_bounds(const Spares& spares) {
  return {.wheels = std::clamp(spares.wheels, 0, most_spares),
          .repairs = std::clamp(spares.repairs, 0, most_spares)};
}

double chance_of(const Poisson& holes, const Poisson& cuts, const Spares& spares) {
  double chance = 0;
  for (int cut = 0; cut <= spares.wheels; ++cut) {
    const auto left = static_cast<std::size_t>(spares.repairs + spares.wheels - cut);
    chance += cuts.of.at(static_cast<std::size_t>(cut)) * holes.at_most.at(left);
  }
  return chance;
}

}  // namespace

double chance_enough(const Punctures& expected, const Spares& spares) {
  const Spares kept = within_bounds(spares);
  const int count = kept.wheels + kept.repairs + 1;
  return chance_of(Poisson(expected.holes, count), Poisson(expected.cuts, count), kept);
}

int spares_needed(const Punctures& expected, const Spares& spares, double chance) {
  if (expected.holes + expected.cuts <= 0) return 0;
  Spares kept = within_bounds(spares);
  const int there = kept.wheels + kept.repairs;
  const Poisson holes(expected.holes, there + 1);
  const Poisson cuts(expected.cuts, there + 1);
  if (chance_of(holes, cuts, kept) >= chance) {
    while (kept.wheels + kept.repairs > 0) {
      Spares fewer = kept;
      --(fewer.repairs > 0 ? fewer.repairs : fewer.wheels);
      if (chance_of(holes, cuts, fewer) < chance) break;
      kept = fewer;
    }
    return kept.wheels + kept.repairs;
  }
  int more = 0;
  do {
    ++more;
    ++kept.wheels;
  } while (kept.wheels < most_spares && chance_enough(expected, kept) < chance);
  return there + more;
}

}  // namespace drystage::models
