#pragma once

#include "models/heat_strain.h"

namespace drystage::models {

/// Sunshine reaching a person's place, W/m².
struct Sunlight {
  double beam_w_m2 = 0.0;     ///< direct, on a surface facing the sun
  double diffuse_w_m2 = 0.0;  ///< from the sky, on level ground
  double global_w_m2 = 0.0;   ///< both, on level ground
};

/// How a person meets it. The defaults are someone in the open.
struct SunExposure {
  double sky_view = 1.0;            ///< share of the sky seen, 0..1
  double body_in_sun = 1.0;         ///< share of the body not shaded from the beam, 0..1
  double absorptivity = 0.7;        ///< of skin and clothing for sunlight (0.57 to 0.84)
  double ground_reflectance = 0.3;  ///< sand 0.2 to 0.45 (Oke, Boundary layer climates; memory)
};

/// Share of the body surface that exchanges radiation: 0.696 sitting (and crouching), 0.725
/// standing. Source: ASHRAE 55, normative appendix C.
[[nodiscard]] double effective_body_share(Posture posture);

/// Area a person shows to the sun over their effective surface, mean over all the ways they may
/// face, for the sun's altitude in degrees (held within 0..90).
/// Source: mean over azimuth of the projected area factors of ASHRAE 55, appendix C (after Arens
/// et al. 2015); crouching is taken as sitting.
[[nodiscard]] double projected_area_factor(double altitude_deg, Posture posture);

/// Effective radiant field of sunshine, W per m² of body surface. In: light and exposure as above
/// (0 or more), `projected_factor` the area shown to the sun.
/// Source: ASHRAE 55, appendix C; Arens, Hoyt, Zhou, Huang, Zhang and Schiavon, Modeling the
/// comfort effects of short-wave solar radiation indoors, Building and Environment 88 (2015). The
/// long-wave absorptivity of the body is 0.95.
[[nodiscard]] double effective_radiant_field_w_m2(const Sunlight& light,
                                                  const SunExposure& exposure,
                                                  double projected_factor, Posture posture);

/// Kelvin by which sunshine raises the mean radiant temperature above that of the surroundings:
/// the field over 6 W/(m²·K) and the effective share of the body. Source: the same.
[[nodiscard]] double radiant_excess_k(double field_w_m2, Posture posture);

/// The same for a person in the open, from irradiance on level ground (W/m², global and diffuse)
/// and the sun's altitude in degrees. The beam is what global leaves above diffuse, over the sine
/// of the altitude, which is taken no lower than 5° so that the last light cannot grow without
/// bound, and is held to 1000 W/m². A sun at or below the horizon gives no beam.
///
/// Add it to the air temperature to have the mean radiant temperature. It leaves out long-wave
/// radiation out of doors, where the hot ground (some 10 K more) and the clear sky (some 10 K less)
/// about cancel by day.
[[nodiscard]] double sun_radiant_excess_k(double global_w_m2, double diffuse_w_m2,
                                          double altitude_deg, Posture posture,
                                          const SunExposure& exposure = {});

/// The same, ready to be asked for any light at one altitude of the sun.
class SunOnBody {
 public:
  SunOnBody(double altitude_deg, Posture posture, const SunExposure& exposure = {});
  [[nodiscard]] double radiant_excess_k(double global_w_m2, double diffuse_w_m2) const;

 private:
  Posture posture_;
  SunExposure exposure_;
  double sine_of_altitude_;  ///< not below that of the lowest sun; 0: it gives no beam
  double projected_factor_;
};

/// The same in shade out of doors: under an awning, a tree or in the lee of a vehicle, from which
/// two fifths of the sky and of the sunlit ground are seen (ours): about 10 K in strong sun.
/// Beside it: shade in a hot dry town measured 5 to 10 K above the air (Middel and others, 50
/// grades of shade, Bulletin of the American Meteorological Society 102, 2021; memory).
[[nodiscard]] double shade_radiant_excess_k(double global_w_m2, double diffuse_w_m2);

}  // namespace drystage::models
