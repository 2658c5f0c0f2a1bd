#pragma once

namespace drystage::models {

/// Daily radiation on a level surface outside the atmosphere, MJ/m². Latitude north positive, held
/// within -90..90; `day_of_year` 1..366. 0 in the polar night.
/// Source: FAO-56 equation 21 (with 23, 24 and 25; the polar cases follow from the geometry).
[[nodiscard]] double extraterrestrial_mj_m2(double latitude_deg, int day_of_year);

/// Hours from sunrise to sunset of the sun's centre on a level horizon without refraction, 0..24.
/// Source: FAO-56 equation 34.
[[nodiscard]] double daylight_hours(double latitude_deg, int day_of_year);

/// What a daily radiation figure is: the radiation of one day, or the mean of a month's days.
/// A mean hides clear days among dull ones, so its diffuse part differs.
enum class RadiationFigure { one_day, monthly_mean };

/// Part of the daily global radiation that is diffuse, 0..1, from the clearness index (global over
/// extraterrestrial, held within 0..1) and the sunset hour angle in degrees.
/// Source: Erbs, Klein and Duffie, Solar Energy 28:293 (1982), in Duffie and Beckman, equations
/// 2.11.1 and 2.12.1 (memory). The monthly form is held at its ends, clearness 0.3 and 0.8: outside
/// them it has no data and soon leaves 0..1. A month duller than 0.3 is thus given too much beam.
[[nodiscard]] double diffuse_fraction(double clearness_index, double sunset_hour_angle_deg,
                                      RadiationFigure figure);

/// Solar radiation on level ground, W/m². Beam is global less diffuse, never below 0.
struct HourlyRadiation {
  double global_w_m2;
  double diffuse_w_m2;
};

/// One day's course of radiation at one latitude, ready to be asked for any hours.
///
/// With w the hour angle and the sine of the sun's elevation A + B cos w:
///   global(w)  = global_scale (a + b cos w)(A + B cos w)   Collares-Pereira and Rabl
///   diffuse(w) = diffuse_scale (A + B cos w)               Liu and Jordan
/// while the sun is up. Written so, instead of with cos w - cos ws, it holds in the polar day too.
/// Both are scaled so that the day's integrals are the day's totals exactly. On dull days the two
/// forms cross near sunrise and sunset; there diffuse is held at global (no beam below 0) and the
/// rest of the day takes up the difference.
/// Source: Duffie and Beckman, Solar Engineering of Thermal Processes, section 2.13.
struct DayRadiation {
  double global_wh_m2;   ///< the whole day's; 0 where the sun does not rise
  double diffuse_wh_m2;  ///< the whole day's
  double sine_latitude;
  double cosine_latitude;
  double sine_declination;
  double cosine_declination;
  double sunset_rad;  ///< hour angle of sunset, 0..π
  double beam_rad;    ///< hour angle within which there is beam, 0..sunset_rad
  double shape_a;     ///< a and b above
  double shape_b;
  double global_scale;   ///< W/m²
  double diffuse_scale;  ///< W/m²
  double outside_mj_m2;  ///< the whole day's, outside the atmosphere
  double unit_half_day;  ///< integral of global over half the day, at a scale of 1
};

/// The course of a day's radiation from its global total on level ground, kWh/m² (below 0 is taken
/// as 0). A total above the extraterrestrial one is impossible but kept: the clearness index is
/// held at 1 for the diffuse part alone. A total on a day without sunrise has no hour to fall in
/// and is dropped; `global_wh_m2` says what was kept.
[[nodiscard]] DayRadiation day_radiation(double latitude_deg, int day_of_year, double global_kwh_m2,
                                         RadiationFigure figure = RadiationFigure::one_day);

/// The same place and date with another total.
[[nodiscard]] DayRadiation with_total(const DayRadiation& like, double global_kwh_m2,
                                      RadiationFigure figure = RadiationFigure::one_day);

/// Mean radiation over the solar hours [from, to), an exact integral. Solar noon is 12; the day's
/// course repeats every 24 h, so any hours may be given, over midnight and longer than a day too.
/// `solar_hour_to` at or before `solar_hour_from` gives the value at `solar_hour_from`.
[[nodiscard]] HourlyRadiation mean_radiation(const DayRadiation& day, double solar_hour_from,
                                             double solar_hour_to);

/// How a plane is set up: `tilt_deg` from level, 0..180; `azimuth_deg` the bearing it faces, from
/// north by east; any value when level.
struct Plane {
  double tilt_deg;
  double azimuth_deg;
};

/// Reflectance of bare ground used where nothing better is known (Liu and Jordan 1963).
inline constexpr double usual_ground_albedo = 0.2;

/// Mean irradiance, W/m², on a tilted plane over the solar hours [from, to): beam by the angle of
/// incidence, an isotropic sky, and level ground that reflects `ground_albedo` (0..1) of the
/// global. The exact integral of the course above, with the hours when the sun is behind the plane
/// left out. Nothing shades the plane. Hours as in `mean_radiation`.
/// Source: Liu and Jordan (1963); Duffie and Beckman, equations 1.6.2 and 2.15.1.
[[nodiscard]] double mean_plane_w_m2(const DayRadiation& day, Plane plane, double ground_albedo,
                                     double solar_hour_from, double solar_hour_to);

/// Solar hours at one place and date, worked out but for how much sun the day has. To ask it of
/// many days that differ in that alone takes a small part of the time.
class SunStretch {
 public:
  /// Hours as in `mean_radiation`, of which `day` says place and date. `plane`: on that as well.
  SunStretch(const DayRadiation& day, double solar_hour_from, double solar_hour_to,
             const Plane* plane = nullptr);

  /// As `mean_radiation` and, of the plane it was made with, `mean_plane_w_m2` with the usual
  /// ground.
  [[nodiscard]] HourlyRadiation mean(const DayRadiation& day) const;
  [[nodiscard]] double mean_plane_w_m2(const DayRadiation& day) const;

 private:
  /// How the hours lie to those in which there is beam.
  enum class Beam { all, none, some };
  [[nodiscard]] Beam beam(const DayRadiation& day) const;

  double from_h_;
  double to_h_;
  bool dark_;            ///< no sun in any of it
  double nearest_rad_;   ///< hour angles of what is lit, from noon ...
  double farthest_rad_;  ///< ... whichever way
  double global_ = 0;    ///< mean over the stretch, at a scale of 1
  double diffuse_ = 0;   ///< the same
  Plane plane_{};
  double beam_global_ =
      0;  ///< on the plane: what there is of beam for each of the global scale ...
  double beam_diffuse_ = 0;  ///< ... less so much for each of the diffuse one
  double sky_view_ = 1;      ///< shares of sky and ground that the plane sees
  double ground_view_ = 0;
};

/// Cosine of the angle between the sun and the normal of a plane at an hour angle (radians,
/// afternoon positive); below 0 when the sun is behind the plane. It does not ask whether the sun
/// is up. Source: Duffie and Beckman, equation 1.6.2.
[[nodiscard]] double cosine_of_incidence(const DayRadiation& day, Plane plane,
                                         double hour_angle_rad);

}  // namespace drystage::models
