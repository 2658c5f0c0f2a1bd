#pragma once

#include "plan/weather.h"

namespace drystage::engine {

// A spell: a week of the weather that a climate makes likely now and then. One definition serves
// `run`, `mishaps` and `size`. Moisture of the air and wind stay the plan's.

/// How far above its normals a climate's highest and lowest temperatures are in a hot spell, in
/// deviations of the day's mean (its `spread`).
///
/// Ours. A day's mean is like that of the day before: the correlation is 0.6 to 0.9 in the recorded
/// year of a desert station (NREL, TMY3 722780). With 0.75 the mean of seven days has 0.76 of a
/// day's deviation, by the closed form of a series of the first order, and 1.5 is two of these. In
/// that year the hottest seven days of a month were 0.6 to 1.2 deviations above the month's mean.
inline constexpr double spell_spreads = 1.5;

/// How far below its mean the sun is in a dull spell, in deviations of a day's sun.
///
/// Ours, as rare as the hot spell. A day's sun is less like that of the day before: 0.4. The mean
/// of seven days has 0.54 of a day's deviation, and two of these are 1.1.
inline constexpr double spell_sun_deviations = 1.1;

/// What a hot spell adds to a month's highest and lowest temperatures, K.
double spell_hotter_k(const plan::Weather& normals);

/// The sun of a day in a spell, as a share of its month's mean: in a hot one that of a clear day,
/// above 1; in a dull one below 1. 1 in usual weather, and where the sun does not rise.
double spell_sun_share(plan::Spell spell, double mean_kwh_m2, double latitude_deg, int day_of_year);

}  // namespace drystage::engine
