#pragma once

namespace drystage::models {

// How the clearness of single days (global radiation on the level over that outside the
// atmosphere) is spread about a month's mean: an exponential distribution, rising towards clear
// days and cut off at the clearest.
//
// Source: Bendt, Collares-Pereira and Rabl, The frequency distribution of daily insolation values,
// Solar Energy 27:1 (1981), after Liu and Jordan (1960): clearness from 0.05 up; the clearest day
// by Hollands and Huget, Solar Energy 30:195 (1983), 0.6313 + 0.267 K - 11.9 (K - 0.75)^8. All
// memory. The mean is held within 0.3..0.75, the range of the data.

/// Clearness of the clearest days of a month, from its mean.
[[nodiscard]] double clear_days_clearness(double mean);

/// Standard deviation of a day's clearness over the month's mean, both from the mean alone. 0.39 at
/// a mean of 0.5, 0.16 at 0.7.
[[nodiscard]] double clearness_variation(double mean);

/// The days of a month as they follow from its mean.
class ClearnessOfDays {
 public:
  explicit ClearnessOfDays(double mean);
  /// The clearness over the month's mean that a share (0 to 1) of all days does not reach.
  [[nodiscard]] double over_mean(double share_of_days) const;

 private:
  double mean_;
  double range_;  ///< from the dullest days to the clearest
  double rate_;   ///< of the fall-off, away from the clearest; 0: none
  double all_;
};

}  // namespace drystage::models
