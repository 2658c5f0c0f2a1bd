#include "models/use_factors.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numbers>
#include <random>
#include <span>
#include <vector>

namespace drystage::models::use_factors_test {
namespace {

constexpr double normal_95 = 1.959964;

/// One part, or none, with its own readings at both ends.
UseInterval alone(double expected, double used, double begin_error, double end_error) {
  return {{expected}, used, begin_error, end_error, false, 0};
}

void expect_same(const UseFactor& a, const UseFactor& b, double within) {
  EXPECT_NEAR(a.factor, b.factor, within);
  EXPECT_NEAR(a.low, b.low, within);
  EXPECT_NEAR(a.high, b.high, within);
}

double width(const UseFactor& factor) { return std::log(factor.high / factor.low); }

/// The same on every compiler: the standard's distributions are not.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : bits_(seed) {}
  double even() { return (static_cast<double>(bits_() >> 11U) + 0.5) * 0x1p-53; }
  double normal() {
    const double distance = std::sqrt(-2 * std::log(even()));
    return distance * std::cos(2 * std::numbers::pi * even());
  }

 private:
  std::mt19937_64 bits_;
};

struct Trip {
  double common_log = 0;
  std::vector<double> part_logs;
  std::vector<UseInterval> intervals;
  [[nodiscard]] double factor(std::size_t part) const {
    return std::exp(common_log + part_logs[part]);
  }
};

/// A trip whose factors are drawn from the prior, filled up to the brim at its start, with a
/// reading after each of its intervals. `scatter` is a share of what is expected.
Trip random_trip(const UsePrior& prior, std::size_t intervals, double reading_error, double scatter,
                 Chance& chance) {
  Trip trip;
  trip.common_log = prior.common_sd * chance.normal();
  for (const double sd : prior.part_sd) {
    trip.part_logs.push_back(sd * chance.normal());
  }
  double begin_off = 0;
  for (std::size_t i = 0; i < intervals; ++i) {
    UseInterval interval;
    double total = 0;
    for (std::size_t part = 0; part < prior.part_sd.size(); ++part) {
      const double amount = 40 * chance.even() * chance.even();
      interval.expected.push_back(amount);
      total += amount;
      interval.used += amount * trip.factor(part);
    }
    interval.scatter = scatter * total;
    const double end_off = reading_error * chance.normal();
    interval.used += interval.scatter * chance.normal() + begin_off - end_off;
    interval.begin_error = i == 0 ? 0 : reading_error;
    interval.end_error = reading_error;
    interval.shares_begin = i > 0;
    trip.intervals.push_back(interval);
    begin_off = end_off;
  }
  return trip;
}

TEST(UseFactors, WithoutReadingsThePriorComesBack) {
  const UseFactors found = learn({0.2, {0.1, 0}}, {});
  expect_same(found.common, {1, std::exp(-normal_95 * 0.2), std::exp(normal_95 * 0.2)}, 1e-6);
  ASSERT_EQ(found.parts.size(), 2U);
  const double both = std::hypot(0.2, 0.1);
  expect_same(found.parts[0], {1, std::exp(-normal_95 * both), std::exp(normal_95 * both)}, 1e-6);
  expect_same(found.parts[1], found.common, 1e-12);
  // Half of each: what they have of their own counts half, what is common wholly.
  const double half = std::hypot(0.2, 0.05);
  const std::vector<double> mix{10, 10};
  expect_same(found.of(mix), {1, std::exp(-normal_95 * half), std::exp(normal_95 * half)}, 1e-6);
  expect_same(UseFactors{}.of(mix), {1, 1, 1}, 0);
}

// The textbook's update of a normal prior by a normal observation, in logarithms, where an error of
// e L in U L is one of e / U. It holds for small errors.
TEST(UseFactors, OneGoodReadingIsTheNormalUpdate) {
  const double prior_sd = 0.2;
  for (const double used : {70.0, 100.0, 110.0, 150.0}) {
    const double error = 1.5;
    const double observed_sd = error / used;
    const double weight = 1 / (observed_sd * observed_sd);
    const double prior_weight = 1 / (prior_sd * prior_sd);
    const double log = std::log(used / 100) * weight / (weight + prior_weight);
    const double sd = 1 / std::sqrt(weight + prior_weight);
    const std::vector<UseInterval> intervals{alone(100, used, 0, error)};
    const UseFactors found = learn({prior_sd, {}}, intervals);
    expect_same(found.common,
                {std::exp(log), std::exp(log - normal_95 * sd), std::exp(log + normal_95 * sd)},
                5e-4);
    // The error may be of the other reading, or of both, or of the use itself.
    const double each = error / std::sqrt(3.0);
    UseInterval shared = alone(100, used, each, each);
    shared.scatter = each;
    expect_same(learn({prior_sd, {}}, {&shared, 1}).common, found.common, 1e-9);
  }
}

struct Quantiles {
  double low, median, high;
};

/// Of the exact posterior of one factor, by summing it up over a fine grid of its logarithm.
Quantiles exact(double prior_sd, double expected, double used, double error) {
  const int cells = 40000;
  const double end = 3;
  const auto log_at = [&](int i) { return -end + 2 * end * i / cells; };
  std::vector<double> sums;
  double sum = 0;
  for (int i = 0; i <= cells; ++i) {
    const double off = (used - expected * std::exp(log_at(i))) / error;
    const double from_prior = log_at(i) / prior_sd;
    sum += std::exp(-0.5 * (off * off + from_prior * from_prior));
    sums.push_back(sum);
  }
  const auto at = [&](double share) {
    const auto place = std::ranges::lower_bound(sums, share * sum) - sums.begin();
    return std::exp(log_at(static_cast<int>(place)));
  };
  return {at(0.025), at(0.5), at(0.975)};
}

TEST(UseFactors, APoorReadingIsNearTheExactPosterior) {
  for (const double used : {40.0, 70.0, 100.0, 130.0, 170.0}) {
    for (const double error : {5.0, 15.0, 30.0, 60.0}) {
      const std::vector<UseInterval> intervals{alone(100, used, 0, error)};
      const UseFactor found = learn({0.25, {}}, intervals).common;
      const Quantiles whole = exact(0.25, 100, used, error);
      const double wide = whole.high - whole.low;
      EXPECT_NEAR(found.factor, whole.median, 0.05 * wide) << used << " " << error;
      EXPECT_NEAR(found.low, whole.low, 0.12 * wide) << used << " " << error;
      EXPECT_NEAR(found.high, whole.high, 0.12 * wide) << used << " " << error;
    }
  }
}

TEST(UseFactors, WhatWasUsedAsCalculatedLeavesThemAtOne) {
  Chance chance(3);
  for (const double error : {0.0, 0.1, 2.0, 500.0}) {
    std::vector<UseInterval> intervals;
    for (int i = 0; i < 12; ++i) {
      UseInterval interval{
          {50 * chance.even(), 0, 80 * chance.even()}, 0, error, error, i % 5 > 0, i % 2 * error};
      interval.used = interval.expected[0] + interval.expected[2];
      intervals.push_back(interval);
    }
    const UseFactors found = learn({0.2, {0.03, 0.1, 0.2}}, intervals);
    EXPECT_NEAR(found.common.factor, 1, 1e-9);
    for (const UseFactor& part : found.parts) {
      EXPECT_NEAR(part.factor, 1, 1e-9);
      EXPECT_LT(part.low, 1);
      EXPECT_GT(part.high, 1);
    }
    const std::vector<double> mix{1, 2, 3};
    EXPECT_NEAR(found.of(mix).factor, 1, 1e-9);
    EXPECT_LE(width(found.of(mix)), width(learn({0.2, {0.03, 0.1, 0.2}}, {}).of(mix)));
  }
}

void expect_covered(std::size_t covered, std::size_t asked) {
  const double share = static_cast<double>(covered) / static_cast<double>(asked);
  EXPECT_GE(share, 0.93) << covered << " of " << asked;
  EXPECT_LE(share, 0.97) << covered << " of " << asked;
}

bool covers(const UseFactor& found, double truth) {
  return found.low <= truth && truth <= found.high;
}

TEST(UseFactors, TheRangeHoldsTheTruthNineteenTimesInTwentyWithOnePart) {
  Chance chance(1);
  const std::size_t trips = 2000;
  const UsePrior prior{0.25, {0}};
  for (const double error : {1.0, 4.0}) {
    for (const std::size_t readings : {1U, 3U, 8U}) {
      std::size_t covered = 0;
      for (std::size_t i = 0; i < trips; ++i) {
        const Trip trip = random_trip(prior, readings, error, 0.1, chance);
        covered += covers(learn(prior, trip.intervals).common, trip.factor(0)) ? 1U : 0U;
      }
      expect_covered(covered, trips);
    }
  }
}

TEST(UseFactors, TheRangeHoldsTheTruthNineteenTimesInTwentyWithThreeSurfaces) {
  Chance chance(2);
  const std::size_t trips = 2000;
  const UsePrior prior{0.2, {0.03, 0.12, 0.2}};
  std::vector<std::size_t> covered(5, 0);
  for (std::size_t i = 0; i < trips; ++i) {
    const Trip trip = random_trip(prior, 6, 2, 0.05, chance);
    const UseFactors found = learn(prior, trip.intervals);
    covered[0] += covers(found.common, std::exp(trip.common_log)) ? 1U : 0U;
    const std::vector<double> mix{20, 30, 10};
    double to_come = 0;
    for (std::size_t part = 0; part < 3; ++part) {
      covered[part + 1] += covers(found.parts[part], trip.factor(part)) ? 1U : 0U;
      to_come += mix[part] * trip.factor(part);
    }
    covered[4] += covers(found.of(mix), to_come / 60) ? 1U : 0U;
  }
  for (const std::size_t each : covered) {
    expect_covered(each, trips);
  }
}

TEST(UseFactors, EveryReadingNarrowsTheRange) {
  Chance chance(5);
  const UsePrior prior{0.2, {0.05, 0.1, 0.2}};
  for (int repeat = 0; repeat < 20; ++repeat) {
    // All as calculated, so that nothing but their number matters.
    std::vector<UseInterval> intervals = random_trip(prior, 10, 3, 0.05, chance).intervals;
    for (UseInterval& interval : intervals) {
      interval.used = interval.expected[0] + interval.expected[1] + interval.expected[2];
    }
    UseFactors before = learn(prior, {});
    for (std::size_t many = 1; many <= intervals.size(); ++many) {
      const UseFactors now = learn(prior, std::span(intervals).first(many));
      EXPECT_LT(width(now.common), width(before.common));
      for (std::size_t part = 0; part < 3; ++part) {
        EXPECT_LT(width(now.parts[part]), width(before.parts[part]) + 1e-12);
      }
      before = now;
    }
  }
}

TEST(UseFactors, TwoTripsWeighMoreThanOne) {
  const UsePrior prior{0.25, {}};
  const std::vector<UseInterval> once{alone(100, 120, 0, 10)};
  const std::vector<UseInterval> twice{once[0], once[0]};
  const UseFactor one = learn(prior, once).common;
  const UseFactor two = learn(prior, twice).common;
  EXPECT_GT(two.factor, one.factor);
  EXPECT_LT(two.factor, 1.2);
  EXPECT_LT(width(two), width(one));
}

// What one wrong dip gives to an interval it takes from the next: together they know better.
TEST(UseFactors, TheTwoSidesOfAReadingAreWeighedTogether) {
  const UsePrior prior{0.25, {}};
  UseInterval first = alone(50, 58, 0, 8);
  UseInterval second{{50}, 42, 8, 0, true, 0};
  const std::vector<UseInterval> shared{first, second};
  const UseFactor together = learn(prior, shared).common;
  // 100 were used between two exact readings, whatever was read between.
  EXPECT_NEAR(together.factor, 1, 1e-3);
  EXPECT_LT(width(together), 0.01);
  second.shares_begin = false;
  const std::vector<UseInterval> apart{first, second};
  EXPECT_GT(width(learn(prior, apart).common), 0.2);
}

TEST(UseFactors, OneOddReadingAmongGoodOnesDoesLittle) {
  const UsePrior prior{0.2, {}};
  std::vector<UseInterval> intervals;
  for (int i = 0; i < 6; ++i) {
    intervals.push_back({{30}, 33, i == 0 ? 0.0 : 1.0, 1, i > 0, 1});
  }
  const UseFactor good = learn(prior, intervals).common;
  // A stick read 15 L too high on the third evening, and rightly on the next.
  intervals[2].used -= 15;
  intervals[3].used += 15;
  const UseFactors odd = learn(prior, intervals);
  EXPECT_NEAR(odd.common.factor, good.factor, 0.02);
  EXPECT_GT(odd.misfits[2].end, odd_from);
  EXPECT_DOUBLE_EQ(odd.misfits[3].begin, odd.misfits[2].end);
  EXPECT_LT(std::abs(odd.misfits[5].end), odd_from);
  // A day on which 20 L more was used counts less than six such days would have it.
  intervals[2].used += 15;
  intervals[3].used += 5;
  const UseFactors bogged = learn(prior, intervals);
  EXPECT_GT(bogged.misfits[3].use, odd_from);
  EXPECT_NEAR(bogged.common.factor, good.factor, 0.07);
}

TEST(UseFactors, WhereNothingWasUsedNothingIsLearnt) {
  const UsePrior prior{0.2, {0.1, 0.1}};
  const UseFactors before = learn(prior, {});
  for (const double used : {-3.0, 0.0, 0.5, 3.0}) {
    for (const double expected : {0.0, 1e-9, 0.001}) {
      const UseInterval interval{{expected, 0}, used, 2, 2, false, 0};
      const UseFactors found = learn(prior, {&interval, 1});
      expect_same(found.common, before.common, 1e-3);
      expect_same(found.parts[0], before.parts[0], 1e-3);
      expect_same(found.parts[1], before.parts[1], 1e-3);
    }
  }
  // A day of rest is a second look at the same tank.
  std::vector<UseInterval> intervals{{{60}, 66, 0, 3, false, 0}, {{0}, 0, 3, 3, true, 0}};
  const double once = width(learn({0.2, {}}, std::span(intervals).first(1)).common);
  EXPECT_LT(width(learn({0.2, {}}, intervals).common), 0.9 * once);
}

TEST(UseFactors, StayWithinTheirLimits) {
  for (const double used : {-1000.0, -10.0, 0.0, 1000.0, 1e9}) {
    for (const double error : {0.0, 1.0}) {
      const std::vector<UseInterval> intervals{alone(100, used, 0, error)};
      const UseFactor found = learn({5, {}}, intervals).common;
      EXPECT_GE(found.low, least_use_factor);
      EXPECT_LE(found.low, found.factor);
      EXPECT_LE(found.factor, found.high);
      EXPECT_LE(found.high, most_use_factor);
      EXPECT_NEAR(found.factor, used > 100 ? most_use_factor : least_use_factor, 1e-6);
    }
  }
}

TEST(UseFactors, WhatIsNotFiniteIsLeftOut) {
  const double infinite = std::numeric_limits<double>::infinity();
  const double unknown = std::numeric_limits<double>::quiet_NaN();
  const UsePrior prior{0.2, {0.1}};
  const std::vector<UseInterval> good{{{50}, 60, 0, 2, false, 0}, {{40}, 41, 3, 2, false, 0}};
  const UseFactors known = learn(prior, good);
  for (const UseInterval& bad :
       {UseInterval{{50}, unknown, 0, 2, true, 0}, UseInterval{{infinite}, 50, 0, 2, true, 0},
        UseInterval{{50}, 50, 0, infinite, true, 0}, UseInterval{{50}, 50, 0, 2, true, unknown}}) {
    UseInterval next = good[1];
    next.shares_begin = true;
    const std::vector<UseInterval> intervals{good[0], bad, next};
    const UseFactors found = learn(prior, intervals);
    expect_same(found.common, known.common, 1e-9);
    ASSERT_EQ(found.misfits.size(), 3U);
    EXPECT_DOUBLE_EQ(found.misfits[1].end, 0);
    EXPECT_DOUBLE_EQ(found.misfits[2].end, known.misfits[1].end);
  }
  expect_same(learn({unknown, {-1}}, good).common, {1, 1, 1}, 0);
}

RC_GTEST_PROP(UseFactors, OrderOfPartsAndUnitChangeNothing, ()) {
  Chance chance(*rc::gen::arbitrary<std::uint64_t>());
  const UsePrior prior{0.2 * chance.even(), {0.3 * chance.even(), 0.2 * chance.even(), 0}};
  const auto trip =
      random_trip({0.4, {0.2, 0.2, 0.2}}, 1 + chance.even() * 12 > 7 ? 9 : 4, 3, 0.1, chance);
  const double unit = std::exp(8 * chance.normal());
  const auto turn = [](std::vector<double>& parts) {
    std::rotate(parts.begin(), parts.begin() + 1, parts.end());
  };
  UsePrior turned_prior = prior;
  turn(turned_prior.part_sd);
  std::vector<UseInterval> turned = trip.intervals;
  std::vector<UseInterval> scaled = trip.intervals;
  for (std::size_t i = 0; i < turned.size(); ++i) {
    turn(turned[i].expected);
    for (double& expected : scaled[i].expected) {
      expected *= unit;
    }
    for (double* amount :
         {&scaled[i].used, &scaled[i].begin_error, &scaled[i].end_error, &scaled[i].scatter}) {
      *amount *= unit;
    }
  }
  const UseFactors found = learn(prior, trip.intervals);
  const UseFactors other = learn(turned_prior, turned);
  const UseFactors other_unit = learn(prior, scaled);
  for (std::size_t part = 0; part < 3; ++part) {
    expect_same(other.parts[(part + 2) % 3], found.parts[part], 1e-8);
    expect_same(other_unit.parts[part], found.parts[part], 1e-8);
  }
  const std::vector<double> mix{1, 2, 3};
  const std::vector<double> turned_mix{2, 3, 1};
  expect_same(other.of(turned_mix), found.of(mix), 1e-8);
  expect_same(other_unit.of(mix), found.of(mix), 1e-8);
}

RC_GTEST_PROP(UseFactors, AreFiniteAndInOrderWhateverWasRead, ()) {
  Chance chance(*rc::gen::arbitrary<std::uint64_t>());
  const auto any = [&] {
    const double kind = chance.even();
    return kind < 0.3 ? 0.0 : kind < 0.6 ? chance.normal() : std::exp(12 * chance.normal());
  };
  UsePrior prior{any(), {}};
  const auto parts = static_cast<std::size_t>(chance.even() * 5);
  for (std::size_t part = 0; part < parts; ++part) {
    prior.part_sd.push_back(any());
  }
  std::vector<UseInterval> intervals(static_cast<std::size_t>(chance.even() * 15));
  for (UseInterval& interval : intervals) {
    for (std::size_t part = 0; part < parts; ++part) {
      interval.expected.push_back(any());
    }
    interval.used = any();
    interval.begin_error = any();
    interval.end_error = any();
    interval.scatter = any();
    interval.shares_begin = chance.even() < 0.5;
  }
  const UseFactors found = learn(prior, intervals);
  std::vector<UseFactor> all = found.parts;
  all.push_back(found.common);
  all.push_back(found.of(std::vector<double>(parts, 1.0)));
  for (const UseFactor& each : all) {
    RC_ASSERT(least_use_factor <= each.low && each.low <= each.factor);
    RC_ASSERT(each.factor <= each.high && each.high <= most_use_factor);
  }
  for (const UseMisfit& misfit : found.misfits) {
    RC_ASSERT(std::isfinite(misfit.begin) && std::isfinite(misfit.end) &&
              std::isfinite(misfit.use));
  }
}

}  // namespace
}  // namespace drystage::models::use_factors_test
