#pragma once

namespace drystage::models {

/// What using a cabinet lets in, as conductances in W/K between its surroundings and its chilled
/// part. A conductance, since both grow with how much warmer it is outside.

/// Goods that go in as warm as the surroundings and come out cold: `litres_day` of water, or of
/// what is mostly water, in the `hours_day` hours in which the lid is opened (above 0). Litres of 0
/// or more.
///   4.19 kJ for each litre and kelvin (Earle, Unit Operations in Food Processing).
[[nodiscard]] double warm_goods_w_per_k(double litres_day, double hours_day);

/// Air that is exchanged: `openings_day` times a day all the air that `volume_l` holds, in the
/// `hours_day` hours in which the lid is opened (above 0). Air at `air_c` with a vapour pressure of
/// `vapour_kpa` comes to `inside_c`, and what vapour is then too much condenses. Warmer inside than
/// outside, vapour does not count.
/// Method: enthalpy of moist air at 101.325 kPa, 1.006 T + w (2501 + 1.86 T) kJ for each kg of dry
/// air (ASHRAE Fundamentals, psychrometrics). That all the air goes each time is on the safe side.
[[nodiscard]] double exchanged_air_w_per_k(double volume_l, double openings_day, double hours_day,
                                           double air_c, double vapour_kpa, double inside_c);

/// Enthalpy of moist air, kJ for each kg of dry air, at 101.325 kPa; vapour beyond saturation is
/// not counted. Source: ASHRAE Fundamentals, psychrometrics.
[[nodiscard]] double moist_air_kj_kg(double air_c, double vapour_kpa);

}  // namespace drystage::models
