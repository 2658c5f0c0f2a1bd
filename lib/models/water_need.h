#pragma once

#include "models/metabolism.h"

namespace drystage::models {

/// Part of a person's water that comes in food, 0..1: the cautious end of 20 to 30 %.
/// Dry stores give less, but are cooked with water that is counted as utility water.
/// Source: EFSA, Scientific opinion on dietary reference values for water (2010).
inline constexpr double food_water_share = 0.20;

/// Litres a day beyond `temperate_water_l_per_day`. Source: EFSA (2010).
inline constexpr double pregnancy_water_l_per_day = 0.3;
inline constexpr double lactation_water_l_per_day = 0.7;

/// The most that should be drunk, L per hour and per day: 1½ and 12 US quarts. More than this, for
/// hours, thins the blood's salt: the day's figure calls for a warning, not for a
/// smaller need.
/// Source: TB MED 507, Heat stress control and heat casualty management, fluid replacement table.
inline constexpr double most_drinking_l_per_h = 1.5 * 0.946352946;
inline constexpr double most_drinking_l_per_day = 12.0 * 0.946352946;

/// Water a person needs in a temperate day of moderate activity, L, from food and drink together.
/// In: age in years (below 0 counts as 0) and sex. Where the source gives a range, its upper end.
/// Source: adequate intakes, EFSA (2010): 0.7 to six months (as milk), 1.0 to one year, 1.2 to two,
/// 1.3 to four, 1.6 to nine; boys 2.1 and girls 1.9 to fourteen; then men 2.5 and women 2.0.
[[nodiscard]] double temperate_water_l_per_day(double age_years, Sex sex);

/// What to plan with, L a day from food and drink: the temperate need, but for everybody of 14 and
/// over not less than the 2.5 L that the Sphere Handbook gives as the lower end of survival needs
/// for any adult (EFSA has 2.0 for women).
inline constexpr double survival_water_l_per_day = 2.5;
[[nodiscard]] double planning_water_l_per_day(double age_years, Sex sex);

/// The part of it that must be drunk, L per hour, spread evenly over 24 h.
/// `food_share` is the part that comes in food, held within 0..1.
[[nodiscard]] double base_drinking_l_per_h(double age_years, Sex sex,
                                           double food_share = food_water_share);

/// Water lost in breathing beyond what the temperate day already counts, grams per hour and m² of
/// body surface: never below 0. In: metabolic rate W/m², air °C, vapour pressure kPa.
/// The temperate day is taken as resting, 20 °C, 1.2 kPa: 7 g/(h·m²), a third of a litre a day.
/// `breathing` is how much more air is breathed than at sea level (`altitude.h`), 1 or more.
/// Source: respiratory evaporation of ISO 7933:2004.
[[nodiscard]] double extra_breath_g_per_h_m2(double metabolic_w_m2, double air_c,
                                             double vapour_pressure_kpa, double breathing = 1.0);

/// Sweat of work in comfort, beyond what the temperate day already counts, grams per hour and m² of
/// body surface, for a metabolic rate in W/m²: never below 0. Who works in the cold dresses so as
/// to sweat this much; who works in mild air sweats it too, where heat strain alone would ask for
/// none. The temperate day is taken as the class `low`.
/// Source: ISO 7730 (Fanger), evaporation by sweat in comfort, 0.42 (M - 58.15) W/m² (memory).
[[nodiscard]] double comfort_sweat_g_per_h_m2(double metabolic_w_m2);

/// What a person must drink in an hour, L: the base and all that the heat takes, a gram of water
/// being a millilitre. In: base in L/h, loss beyond the base in g/h (sweat and extra breath for
/// the whole body). Never below the base. Not held to the ceilings above.
[[nodiscard]] double drinking_l_per_h(double base_l_per_h, double loss_g_per_h);

}  // namespace drystage::models
