#pragma once

#include <span>
#include <vector>

#include "models/cholesky.h"

namespace drystage::models {

/// How sure the calculation is before anything was read. A factor says how much more or less is
/// used than calculated: 1.1 is a tenth more. There is a common one, and one more for each part of
/// the use (fuel: by surface; water: no parts), by which the common one is multiplied. Logarithms
/// of factors are normal about 0, and independent, with these standard deviations.
struct UsePrior {
  double common_sd = 0.0;         ///< 0: no common factor
  std::vector<double> part_sd{};  ///< 0: no factor of its own
};

/// What was used from one reading to the next. All amounts in one unit, any, and finite.
struct UseInterval {
  /// Calculated with all factors 1, by part, each 0 or more. One for which the prior has no
  /// standard deviation goes with the common factor alone.
  std::vector<double> expected{};
  double used = 0.0;         ///< as read; less than 0 if the errors of the readings make it so
  double begin_error = 0.0;  ///< standard error of the reading at its beginning; 0: known exactly
  double end_error = 0.0;    ///< and at its end
  /// Its beginning is the reading at the end of the interval before it, with that one's error.
  bool shares_begin = false;
  /// By how much use differs from one such time to another with the same factors: the standard
  /// deviation of the amount.
  double scatter = 0.0;
};

/// A median, and the range which has the truth in it 95 times in 100.
struct UseFactor {
  double factor = 1.0;
  double low = 1.0;
  double high = 1.0;
};

/// No factor is said to be further from 1, nor is an end of its range.
inline constexpr double least_use_factor = 0.2;
inline constexpr double most_use_factor = 5.0;

/// From here on, in standard errors, what is found to be wrong counts less the further off it is.
inline constexpr double odd_from = 3.0;

/// How far off, in their standard errors, an interval's readings and use are found to have been.
/// Beyond `odd_from` either way a reading is worth a second look. 0 for an error of 0.
struct UseMisfit {
  double begin = 0.0;  ///< above 0: more was read than there was
  double end = 0.0;
  double use = 0.0;  ///< above 0: more was used than the factors say (`scatter`)
};

struct UseFactors {
  UseFactor common{};
  /// By part: common and own factor together. As many as the prior or an interval has.
  std::vector<UseFactor> parts{};
  std::vector<UseMisfit> misfits{};  ///< by interval

  /// Of a future use that is calculated to be so much by part: what it will be in all, over what is
  /// calculated. What is known of its parts together is heeded (if the common factor is high, all
  /// are). A part beyond `parts` goes with the common factor alone. Less than 0 counts as 0; of
  /// nothing it is the common factor.
  [[nodiscard]] UseFactor of(std::span<const double> mix) const;

  std::vector<double> logs{};  ///< of the common factor, then of each part's own
  SquareMatrix covariance{0};  ///< of these logarithms
};

/// Factors after these readings. Parts of an interval add up as amounts; factors are normal as
/// logarithms. The most probable factors are sought by Gauss-Newton steps, and the range is that of
/// a normal distribution about them (Laplace's approximation).
///
/// With no interval the prior comes back. If all was used just as calculated, every factor is 1,
/// whatever the errors. A reading between two intervals is wrong for both, and so they are weighed
/// together. Errors are normal up to `odd_from`, beyond that they count by their size and not by
/// its square (Huber), so that one odd reading among good ones does little. Nothing is known better
/// than to 1e-5 of the largest amount. Intervals of which a number is not finite are left out, and
/// the next one then begins with its own error. Less than 0 counts as 0, of amounts calculated, of
/// errors and of standard deviations.
///
/// Source: Bayes' rule with normal errors; Gauss-Newton, Laplace and Huber, Robust Estimation of a
/// Location Parameter (1964), as in every handbook of statistics (memory).
[[nodiscard]] UseFactors learn(const UsePrior& prior, std::span<const UseInterval> intervals);

}  // namespace drystage::models
