#include "models/solar_panel.h"

#include <algorithm>

namespace drystage::models {

double cell_temperature_c(double plane_w_m2, double air_c, double noct_c) {
  constexpr double noct_air_c = 20.0;
  constexpr double noct_w_m2 = 800.0;
  return air_c + (noct_c - noct_air_c) * std::max(plane_w_m2, 0.0) / noct_w_m2;
}

double dc_power_w(double plane_w_m2, double cell_c, double rated_w, double power_per_k) {
  constexpr double rating_cell_c = 25.0;
  constexpr double rating_w_m2 = 1000.0;
  const double power_w = rated_w * std::max(plane_w_m2, 0.0) / rating_w_m2 *
                         (1.0 + power_per_k * (cell_c - rating_cell_c));
  return std::max(power_w, 0.0);
}

double panel_power_w(const SolarPanel& panel, double plane_w_m2, double air_c) {
  const double cell_c = cell_temperature_c(plane_w_m2, air_c, panel.noct_c);
  return (1.0 - std::clamp(panel.loss, 0.0, 1.0)) *
         dc_power_w(plane_w_m2, cell_c, panel.rated_w, panel.power_per_k);
}

}  // namespace drystage::models
