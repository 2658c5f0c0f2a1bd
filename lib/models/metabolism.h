#pragma once

#include <array>
#include <cstddef>

namespace drystage::models {

/// How hard a person works: the five classes of ISO 8996, in rising order.
enum class WorkClass { resting, low, moderate, high, very_high };

inline constexpr std::size_t work_class_count = 5;

/// Metabolic rate of each class, W per m² of body surface, indexed by `WorkClass`.
/// Source: ISO 8996, annex A, classification by level.
inline constexpr std::array<double, work_class_count> class_metabolic_w_m2{65.0, 100.0, 165.0,
                                                                           230.0, 290.0};

/// Basal metabolic rate, W/m². Source: ISO 8996 (44 W/m² for the standard man).
inline constexpr double basal_w_m2 = 44.0;

/// Hours slept in a day when nothing else fills them (common practice).
inline constexpr double sleep_h = 8.0;

enum class Sex { female, male };

/// Metabolic rate of a class, W/m².
[[nodiscard]] constexpr double metabolic_w_m2(WorkClass work) {
  return class_metabolic_w_m2[static_cast<std::size_t>(work)];
}

/// Basal metabolism, kJ a day, from body mass in kg (above 0), age in years (0 or more) and sex.
/// Held at 0 where the line for infants crosses it (under 0.6 kg).
/// Source: Schofield's equations as adopted by FAO/WHO/UNU, Human energy requirements (2001),
/// table 5.2 for adults, and Schofield (1985) for children under 18; kcal at 4.184 kJ. They are
/// means of populations: one person may differ by 10 %.
[[nodiscard]] double basal_kj_per_day(double mass_kg, double age_years, Sex sex);

/// Energy of a class as a multiple of basal metabolism (physical activity ratio): its W/m² over the
/// basal 44. Resting gives 1.5, low 2.3, moderate 3.8, high 5.2, very high 6.6. FAO/WHO/UNU (2001)
/// lists sitting 1.5 and walking without a load 3.2, so resting is sitting, and moderate is walking
/// with something to carry.
[[nodiscard]] constexpr double activity_ratio(WorkClass work) {
  return metabolic_w_m2(work) / basal_w_m2;
}

/// Energy of a whole day as a multiple of basal metabolism (physical activity level). In: hours in
/// each class, indexed by `WorkClass`, each 0 or more. What they leave of 24 h is sleep at 1.0, up
/// to 8 h of it, and beyond that rest. Hours that add up to more than 24 are shrunk to 24.
/// Source: the factorial method of FAO/WHO/UNU (2001), chapter 5.
[[nodiscard]] double physical_activity_level(
    const std::array<double, work_class_count>& hours_in_class);

/// Energy a person needs in a day, kJ: basal metabolism times the activity level.
/// Ranges as for the two functions it joins. Growth of children (1 to 2 % of the need after the
/// first year) and pregnancy are left out.
/// Source: FAO/WHO/UNU, Human energy requirements (2001).
[[nodiscard]] double daily_energy_kj(double mass_kg, double age_years, Sex sex,
                                     const std::array<double, work_class_count>& hours_in_class);

}  // namespace drystage::models
