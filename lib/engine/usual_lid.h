#pragma once

#include "plan/plan.h"

namespace drystage::engine {

/// How a cabinet is used where the plan does not say; all of it ours. How often it is opened is the
/// default of its key.

/// The hours of the day in which it is opened.
inline constexpr double lid_from_h = 7;
inline constexpr double lid_to_h = 21;
inline constexpr double lid_hours = lid_to_h - lid_from_h;

/// What each person puts in warm and takes out cold in a day: drinks, and what is left of a meal.
inline constexpr double usual_warm_l_person_day = 2;
/// But no more into a cabinet than this share of what it holds.
inline constexpr double most_warm_share_day = 0.1;

/// What is put warm into a cabinet each day, as litres of water: as the plan says, else this
/// cabinet's share, by volume, of what all people put into all cabinets that are no freezers.
double warm_l_day(const plan::Plan& plan, const plan::Cabinet& cabinet);

/// What the lid of a cabinet lets in during its hours, W/K, in air of so much warmth and vapour.
double lid_w_per_k(const plan::Plan& plan, const plan::Cabinet& cabinet, double ambient_c,
                   double vapour_kpa);

/// The share of a stretch of time, by the clock, that falls into the lid's hours.
double lid_share(double from_h, double to_h);

}  // namespace drystage::engine
