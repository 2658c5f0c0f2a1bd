#pragma once

namespace drystage::models {

/// Air temperature, °C, at an hour of a day whose highest and lowest temperatures are given.
///
/// Source: ASHRAE Fundamentals, climatic design information: the fraction of the daily range by
/// which each hour 1..24 lies below the maximum. Hour n is read as the moment n o'clock of local
/// time (hour 24 is the midnight that ends the day and hour 0 the same value), with straight lines
/// between; so the minimum is met at 5 h and the maximum holds from 14 h to 15 h. The course
/// repeats every 24 h and any `hour` may be given. Temperature follows the sun, not the clock:
/// where the clock is far from solar time, give the solar hour.
///
/// Two days in a row with unlike figures meet at midnight with a step of 0.18 of the difference of
/// maxima plus 0.82 of the difference of minima. `min_c` above `max_c` turns the course over.
[[nodiscard]] double air_c_at(double max_c, double min_c, double hour);

/// Mean of `air_c_at` over the hours [from, to), an exact integral. Any hours, over midnight and
/// longer than a day too; `hour_to` at or before `hour_from` gives the value at `hour_from`.
[[nodiscard]] double mean_air_c(double max_c, double min_c, double hour_from, double hour_to);

}  // namespace drystage::models
