// Random numbers by what they are for: known answers, and goodness of fit with fixed seeds.

#include "models/random.h"

#include <Random123/philox.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace drystage::models {
namespace random_test {
namespace {

double below(double deviations) { return 0.5 * std::erfc(-deviations / std::numbers::sqrt2); }

/// The largest distance between what is drawn and a distribution (Kolmogorov and Smirnov).
template <class Distribution>
double distance(std::vector<double> values, const Distribution& share_below) {
  std::ranges::sort(values);
  const auto n = static_cast<double>(values.size());
  double most = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double share = share_below(values[i]);
    most = std::max({most, std::abs(share - static_cast<double>(i) / n),
                     std::abs(share - static_cast<double>(i + 1) / n)});
  }
  return most;
}

// Beyond it lies one sample in a hundred (textbooks: 1.63 over the root of n).
double one_in_hundred(std::size_t n) { return 1.63 / std::sqrt(static_cast<double>(n)); }

TEST(Random, IsPhilox) {
  // The known answer that Random123 ships: counter 0, key 0 (memory).
  const r123::Philox4x32::ctr_type made = r123::Philox4x32()({{0, 0, 0, 0}}, {{0, 0}});
  EXPECT_EQ(made[0], 0x6627e8d5U);
  EXPECT_EQ(made[1], 0xe169c58dU);
  EXPECT_EQ(made[2], 0xbc57ac4cU);
  EXPECT_EQ(made[3], 0x9b00dbd8U);
  // Of its first 64 bits the upper 52, in the middle of their interval.
  const double expected = (static_cast<double>(0x6627e8d5e169cULL) + 0.5) * 0x1p-52;
  EXPECT_EQ(RandomSource{}.uniform(0), expected);
}

TEST(Random, DependsOnWhatItIsForAndNotOnWhenItIsAsked) {
  const RandomSource source{.seed = 7, .trip = 4711, .stream = 3};
  const double later = source.normal(9);
  const double first = source.normal(2);
  EXPECT_EQ(source.normal(2), first);
  EXPECT_EQ(source.normal(9), later);
  EXPECT_NE(first, later);
  const auto with = [&](auto change) {
    RandomSource other = source;
    change(other);
    return other.normal(2);
  };
  EXPECT_NE(with([](RandomSource& s) { s.seed = 8; }), first);
  EXPECT_NE(with([](RandomSource& s) { s.trip = 4712; }), first);
  EXPECT_NE(with([](RandomSource& s) { s.stream = 4; }), first);
  // Beyond 32 bits as well.
  EXPECT_NE(with([](RandomSource& s) { s.seed += 1ULL << 32U; }), first);
  EXPECT_NE(with([](RandomSource& s) { s.trip += 1ULL << 32U; }), first);
}

TEST(Random, LiesEvenlyAndNormally) {
  constexpr std::uint32_t n = 20'000;
  std::vector<double> even;
  std::vector<double> first;
  std::vector<double> second;
  double together = 0;
  for (std::uint32_t place = 0; place < n; ++place) {
    const RandomSource source{.seed = 1, .trip = place % 100, .stream = 5};
    even.push_back(source.uniform(place));
    EXPECT_GT(even.back(), 0);
    EXPECT_LT(even.back(), 1);
    const RandomSource::Pair both = source.normals(place + n);
    first.push_back(both.first);
    second.push_back(both.second);
    together += both.first * both.second / n;
  }
  EXPECT_LT(distance(even, [](double x) { return x; }), one_in_hundred(n));
  EXPECT_LT(distance(first, below), one_in_hundred(n));
  EXPECT_LT(distance(second, below), one_in_hundred(n));
  // Independent: the mean product of n has a deviation of one over the root of n.
  EXPECT_NEAR(together, 0, 3 / std::sqrt(1.0 * n));
}

TEST(Random, EventsArePoissons) {
  for (const double mean : {0.01, 0.7, 4.0}) {
    constexpr int n = 20'000;
    std::vector<int> counts(40, 0);
    for (int i = 0; i < n; ++i) {
      const RandomSource source{.seed = 3, .trip = static_cast<std::uint64_t>(i)};
      ++counts[static_cast<std::size_t>(poisson_quantile(source.uniform(0), mean, 39))];
    }
    // Pearson's sum over cells in which at least five are expected; beyond 3 deviations of a
    // chi-square with k degrees (mean k, variance 2 k) lies fewer than one in a hundred.
    double sum = 0;
    int cells = 0;
    double term = std::exp(-mean);
    for (int k = 0; k < 40; ++k) {
      const double expected = n * term;
      if (expected >= 5) {
        const double off = counts[static_cast<std::size_t>(k)] - expected;
        sum += off * off / expected;
        ++cells;
      }
      term *= mean / (k + 1);
    }
    const double degrees = std::max(1, cells - 1);
    EXPECT_LT(sum, degrees + 3 * std::sqrt(2 * degrees)) << mean;
  }
}

TEST(Random, EventsAreAtMostWhatIsAsked) {
  EXPECT_EQ(poisson_quantile(0.999999, 50, 3), 3);
  EXPECT_EQ(poisson_quantile(0.5, 0, 3), 0);
  // e^-0.5 = 0.6065 have none; 0.9098 at most one.
  EXPECT_EQ(poisson_quantile(0.60, 0.5, 9), 0);
  EXPECT_EQ(poisson_quantile(0.61, 0.5, 9), 1);
  EXPECT_EQ(poisson_quantile(0.91, 0.5, 9), 2);
}

}  // namespace
}  // namespace random_test
}  // namespace drystage::models
