#include "models/solar_heat.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace drystage::models {
namespace {

constexpr double altitude_step_deg = 15.0;
constexpr double lowest_altitude_deg = 5.0;
constexpr double most_beam_w_m2 = 1000.0;
constexpr double longwave_absorptivity = 0.95;
constexpr double radiation_w_m2k = 6.0;

// At 0, 15, ... 90 degrees; trapezoid mean over azimuth 0 to 180.
using Factors = std::array<double, 7>;
constexpr Factors sitting_factors{0.2691, 0.2835, 0.2464, 0.2360, 0.2164, 0.1915, 0.1770};
constexpr Factors standing_factors{0.2990, 0.2990, 0.2683, 0.2194, 0.1739, 0.1220, 0.0820};

}  // namespace

double effective_body_share(Posture posture) {
  return posture == Posture::standing ? 0.725 : 0.696;
}

double projected_area_factor(double altitude_deg, Posture posture) {
  const Factors& factors = posture == Posture::standing ? standing_factors : sitting_factors;
  const double place = std::clamp(altitude_deg, 0.0, 90.0) / altitude_step_deg;
  const std::size_t left = std::min(static_cast<std::size_t>(place), factors.size() - 2);
  const double part = place - static_cast<double>(left);
  return factors[left] + part * (factors[left + 1] - factors[left]);
}

double effective_radiant_field_w_m2(const Sunlight& light, const SunExposure& exposure,
                                    double projected_factor, Posture posture) {
  const double from_sky = 0.5 * exposure.sky_view * light.diffuse_w_m2;
  const double from_ground =
      0.5 * exposure.sky_view * light.global_w_m2 * exposure.ground_reflectance;
  const double from_sun = projected_factor * exposure.body_in_sun * light.beam_w_m2;
  return effective_body_share(posture) * (from_sky + from_ground + from_sun) *
         (exposure.absorptivity / longwave_absorptivity);
}

double radiant_excess_k(double field_w_m2, Posture posture) {
  return field_w_m2 / (radiation_w_m2k * effective_body_share(posture));
}

SunOnBody::SunOnBody(double altitude_deg, Posture posture, const SunExposure& exposure)
    : posture_(posture),
      exposure_(exposure),
      sine_of_altitude_(altitude_deg > 0.0
                            ? std::sin(std::clamp(altitude_deg, lowest_altitude_deg, 90.0) *
                                       std::numbers::pi / 180.0)
                            : 0.0),
      projected_factor_(projected_area_factor(altitude_deg, posture)) {}

double SunOnBody::radiant_excess_k(double global_w_m2, double diffuse_w_m2) const {
  Sunlight light;
  light.global_w_m2 = std::max(global_w_m2, 0.0);
  light.diffuse_w_m2 = std::clamp(diffuse_w_m2, 0.0, light.global_w_m2);
  if (sine_of_altitude_ > 0.0) {
    light.beam_w_m2 =
        std::min((light.global_w_m2 - light.diffuse_w_m2) / sine_of_altitude_, most_beam_w_m2);
  }
  return models::radiant_excess_k(
      effective_radiant_field_w_m2(light, exposure_, projected_factor_, posture_), posture_);
}

double sun_radiant_excess_k(double global_w_m2, double diffuse_w_m2, double altitude_deg,
                            Posture posture, const SunExposure& exposure) {
  return SunOnBody(altitude_deg, posture, exposure).radiant_excess_k(global_w_m2, diffuse_w_m2);
}

double shade_radiant_excess_k(double global_w_m2, double diffuse_w_m2) {
  constexpr double any_altitude_deg = 90.0;
  static const SunOnBody in_open_shade(any_altitude_deg, Posture::standing,
                                       {.sky_view = 0.4, .body_in_sun = 0.0});
  return in_open_shade.radiant_excess_k(global_w_m2, diffuse_w_m2);
}

}  // namespace drystage::models
