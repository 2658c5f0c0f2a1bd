#pragma once

#include <span>

#include "models/use_factors.h"

namespace drystage::models {

/// How sure a calculated use is before anything was read, and how much it differs from day to day.
struct UsualUse {
  UsePrior prior{};
  double day_scatter = 0.0;  ///< standard deviation of a day's use, as a share of it
};

/// Drinking of people whose own drinking is in the plan (`observed`), or as the model has it.
///  - By the model 0.25. Between persons at the same work in the same heat sweat differs by about a
///    third (Pahnke, Trinity and Coyle 2006: 34 % among 132 athletes); two thirds lie within a
///    quarter of the mean (memory of general physiology). A party's mean differs less than one
///    person, but errors of the weather are common to all of them.
///  - As observed 0.10: one person's sweat in like weather differs by some 0.15 L/h from one day to
///    another (Smith, Bello and Price 2021), and a few days were observed.
///  - From day to day 0.15: the same source, at about 1 L/h.
[[nodiscard]] UsualUse usual_drinking(bool observed);

/// Utility water: 0.20, from day to day 0.30 (common practice: one wash more or less).
[[nodiscard]] UsualUse usual_utility();

/// Meals eaten of those planned: 0.10, from day to day 0.15 (common practice: one of them is left
/// out, or eaten twice).
[[nodiscard]] UsualUse usual_meals();

/// Fuel, with a part for each plan::Surface, in its order.
///  - Common 0.20 by the model alone: within about a third (docs/models.md); 0.06 with a
///  consumption
///    of the user's own: fills of one car differ by 8 % (a published log: 6.3 L/100 km, deviation
///    0.5), of which several were taken, and load, wind and tyres are other ones now.
///  - By surface, beyond the common one: sealed 0.03, worn 0.05, packed gravel and gravel 0.08,
///  loose
///    gravel and track 0.12, rock 0.15, sand 0.20, soft sand 0.25 (common practice: soft ground
///    takes from 0.6 to 1.6 times what was thought).
///  - From day to day 0.06 (the same log, less what is due to filling).
[[nodiscard]] UsualUse usual_fuel(bool own_consumption);

/// Cooking gas and other consumables: 0.25, from day to day 0.30 (common practice).
[[nodiscard]] UsualUse usual_consumable();

/// Standard deviations beyond which a use is unusual (one time in ten it is more), and beyond which
/// it is no rate of use but a loss (one in 740). Which is which is ours.
inline constexpr double unusual_from = 1.2816;
inline constexpr double loss_from = 3.0;

/// The most that is used where the calculation is right but for what `usual` says of it, by so many
/// standard deviations. In the interval's unit; errors of its readings are in it.
[[nodiscard]] double most_usual_use(const UsualUse& usual, const UseInterval& interval,
                                    double deviations);

/// For UseInterval::scatter: of a time of which these amounts are calculated for each day, or part
/// of one, and the days differ independently. In their unit.
[[nodiscard]] double scatter_of_days(const UsualUse& usual, std::span<const double> days);

}  // namespace drystage::models
