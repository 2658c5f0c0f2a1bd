#pragma once

namespace drystage::models {

/// Elevation below which thin air is taken to change nothing, m (ours; illness is known from about
/// 2500 m on).
inline constexpr double lowest_altitude_m = 2000.0;

/// How much more air a person breathes at an elevation in m than at sea level, for the same work:
/// 1 up to 2000 m, then rising. Held as at 6500 m above that.
///
/// For a given production of carbon dioxide the volume breathed is inverse to the pressure of that
/// gas in the lungs (alveolar ventilation equation). For people used to the altitude it falls from
/// 40 mmHg by about 4.5 mmHg in each 1000 m above 2000 m: 35 at 3100 m, 30 at 4300 m, 23 at 5800 m.
/// Source: West, High Altitude Medicine and Physiology (memory).
[[nodiscard]] double breathing_factor(double elevation_m);

/// Part of the base of drinking that altitude takes on top, by elevation in m: 0 up to 2000 m, then
/// rising without a corner to a half at 4000 m, and so above. It stands for urine (altitude
/// diuresis, up to 0.5 L a day: Hoyt and Honig 1996, memory), dry air on the skin and breathing
/// through the mouth.
///
/// It is set (ours) so that an adult at rest at 4000 m drinks 3 L a day, the lower end of the 3 to
/// 4 L of US Army TB MED 505, Altitude acclimatization and illness management (memory).
[[nodiscard]] double altitude_base_share(double elevation_m);

/// Sleeping higher than this, m, may bring altitude illness to those not used to it; above the
/// second figure nobody should sleep more than the third, m, higher than the night before.
/// Source: US CDC, Yellow Book 2024, High elevation travel and altitude illness (500 m); Wilderness
/// Medical Society, Practice guidelines for acute altitude illness (2500 and 3000 m; memory).
inline constexpr double illness_altitude_m = 2500.0;
inline constexpr double slow_ascent_above_m = 3000.0;
inline constexpr double most_ascent_m = 500.0;

}  // namespace drystage::models
