#pragma once

namespace drystage::models {

/// Cell temperature at 800 W/m², 20 °C air and 1 m/s, unloaded, open at the back (NOCT, IEC 61215):
/// what a panel on a free-standing rack has. Source: PVWatts (the installed NOCT of a rack).
inline constexpr double usual_noct_c = 45.0;

/// How much more it comes to for a panel that lies flat on a roof with no air behind it. Source:
/// Fuentes, SAND85-0330, direct mount (memory).
inline constexpr double flat_on_roof_k = 18.0;

/// NOCT of a panel that says nothing of it, by how it is tilted: one that lies flat (0°) is taken
/// to lie on the roof, one that is tilted to stand free.
constexpr double installed_noct_c(double tilt_deg) {
  return tilt_deg == 0.0 ? usual_noct_c + flat_on_roof_k : usual_noct_c;
}

/// A photovoltaic panel as its label describes it, and what is lost between it and the bank.
struct SolarPanel {
  double rated_w;  ///< at 1000 W/m² and a cell of 25 °C
  double noct_c = usual_noct_c;
  /// Change of power per kelvin of cell, as a fraction. PVWatts version 5 takes -0.0047 for a
  /// standard panel (memory).
  double power_per_k = -0.0047;
  double loss = 0.0;  ///< fraction lost, 0..1
};

/// Cell temperature, °C, at an irradiance in the plane of the panel (W/m², below 0 taken as 0), an
/// air temperature and the panel's NOCT. Source: IEC 61215, the definition of NOCT, taken as a
/// straight line through no sun and 800 W/m².
[[nodiscard]] double cell_temperature_c(double plane_w_m2, double air_c, double noct_c);

/// Direct-current power, W, before losses, of a panel of `rated_w` at an irradiance in its plane
/// and a cell temperature. Never below 0, and 0 for an irradiance below 0. Source: PVWatts version
/// 5 manual, the module equation; its weak-light branch below 125 W/m² is left out.
[[nodiscard]] double dc_power_w(double plane_w_m2, double cell_c, double rated_w,
                                double power_per_k);

/// Direct-current power, W, that reaches the bank: cell temperature, panel and losses together.
[[nodiscard]] double panel_power_w(const SolarPanel& panel, double plane_w_m2, double air_c);

}  // namespace drystage::models
