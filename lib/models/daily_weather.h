#pragma once

namespace drystage::models {

/// How air temperature goes through a day: which part of the day's range it lies below the maximum
/// at each hour.
///
/// Lowest at sunrise and highest two hours after solar noon, with half a cosine wave between.
/// Source of times and shape: de Wit, Goudriaan and van Laar, Simulation of Assimilation,
/// Respiration and Transpiration of Crops (1978) (memory). Such a day's mean is the middle of its
/// extremes, whatever the season. Real days are warmer than that in summer and colder in winter,
/// when the night is long: so the falling wave is bent until the day's mean is that of Parton and
/// Logan (below). It is bent at most until it would no longer fall all the time.
///
/// Daylight is held within 6..18 h: beyond, there is no course that goes by the sun (ours).
///
/// Hours are solar hours: noon is 12. The course repeats every 24 h and any hour may be given. Two
/// unlike days in a row meet at midnight with a step.
class DailyCourse {
 public:
  /// `daylight_h`: from sunrise to sunset, h.
  explicit DailyCourse(double daylight_h = 12);

  /// Part of the day's range below its maximum, 0..1: 0 at 14 h, 1 at sunrise.
  [[nodiscard]] double below_max_at(double solar_hour) const;

  /// Mean of `below_max_at` over the hours [from, to), an exact integral. Any hours, over midnight
  /// and longer than a day too; `to` at or before `from` gives the value at `from`.
  [[nodiscard]] double mean_below_max(double solar_hour_from, double solar_hour_to) const;

 private:
  [[nodiscard]] double integral_to(double solar_hour) const;

  double sunrise_h_;
  double rising_h_;   ///< from sunrise to the maximum
  double falling_h_;  ///< from there to the next sunrise
  double bend_;       ///< how far the falling wave is bent, -1/4..1/4; above 0 it falls sooner
};

/// Part of the day's range by which a day's mean lies below its maximum, by the hours of daylight,
/// 0 < h < 24. 0.522 at 10 h, 0.502 at 12 h, 0.476 at 14 h.
/// Source: Parton and Logan, A model for diurnal variation in soil and air temperature,
/// Agricultural Meteorology 23:205 (1981), with their figures for air at 1.5 m; their equations
/// integrated over the day.
[[nodiscard]] double days_mean_below_max(double daylight_h);

}  // namespace drystage::models
