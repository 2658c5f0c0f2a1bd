#include "models/radiation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

using std::numbers::pi;
constexpr double rad_per_deg = pi / 180.0;
constexpr double rad_per_hour = pi / 12.0;

// The day's geometry: FAO-56 equations 23 to 25.
struct Geometry {
  double sine_latitude;
  double cosine_latitude;
  double sine_declination;
  double cosine_declination;
  double inverse_distance;  // relative, Earth to sun, squared
  double sunset_rad;

  // Sine of the sun's elevation = level + swing cos w.
  [[nodiscard]] double level() const { return sine_latitude * sine_declination; }
  [[nodiscard]] double swing() const { return cosine_latitude * cosine_declination; }
};

Geometry geometry_of(double latitude_deg, int day_of_year) {
  const double year_angle = 2.0 * pi * static_cast<double>(day_of_year) / 365.0;
  const double latitude = std::clamp(latitude_deg, -90.0, 90.0) * rad_per_deg;
  const double declination = 0.409 * std::sin(year_angle - 1.39);
  Geometry day{std::sin(latitude),
               std::cos(latitude),
               std::sin(declination),
               std::cos(declination),
               1.0 + 0.033 * std::cos(year_angle),
               0.0};
  if (day.level() >= day.swing()) {
    day.sunset_rad = pi;
  } else if (day.level() > -day.swing()) {
    day.sunset_rad = std::acos(-day.level() / day.swing());
  }
  return day;
}

double extraterrestrial_of(const Geometry& day) {
  constexpr double solar_constant_mj_m2_min = 0.0820;
  constexpr double minutes_per_day = 1440.0;
  return minutes_per_day / pi * solar_constant_mj_m2_min * day.inverse_distance *
         (day.sunset_rad * day.level() + day.swing() * std::sin(day.sunset_rad));
}

// c0 + c1 cos w + s1 sin w.
struct Wave {
  double c0;
  double c1;
  double s1 = 0.0;
};

// An hour angle with its sine and cosine, which cost more than all that is made of them.
struct HourAngle {
  explicit HourAngle(double rad) : w(rad), sine(std::sin(rad)), cosine(std::cos(rad)) {}
  double w;
  double sine;
  double cosine;
};

// The integral of (c0 + c1 cos w) times a wave, from hour angle 0 to w.
double product_integral(Wave left, Wave right, const HourAngle& at) {
  const auto [w, sine, cosine] = at;
  return left.c0 * right.c0 * w + (left.c0 * right.c1 + left.c1 * right.c0) * sine +
         left.c1 * right.c1 * 0.5 * (w + sine * cosine) + left.c0 * right.s1 * (1.0 - cosine) +
         left.c1 * right.s1 * 0.5 * sine * sine;
}

Wave elevation_wave(const DayRadiation& day) {
  return {day.sine_latitude * day.sine_declination, day.cosine_latitude * day.cosine_declination};
}

// Global over the sine of the elevation.
Wave global_wave(const DayRadiation& day) {
  return {day.global_scale * day.shape_a, day.global_scale * day.shape_b};
}

// The hour angle beyond which the Liu and Jordan form would pass the global one.
double crossing_rad(const DayRadiation& day) {
  const double cosine = (day.diffuse_scale / day.global_scale - day.shape_a) / day.shape_b;
  return std::min(std::acos(std::clamp(cosine, -1.0, 1.0)), day.sunset_rad);
}

// Integrals over hour angle from solar noon, of global and diffuse.
struct Integrals {
  double global;
  double diffuse;
};

Integrals operator+(const Integrals& a, const Integrals& b) {
  return {a.global + b.global, a.diffuse + b.diffuse};
}
Integrals operator-(const Integrals& a, const Integrals& b) {
  return {a.global - b.global, a.diffuse - b.diffuse};
}
Integrals operator*(double times, const Integrals& a) {
  return {times * a.global, times * a.diffuse};
}

double global_to(const DayRadiation& day, const HourAngle& light) {
  return product_integral(global_wave(day), elevation_wave(day), light);
}

// To w, |w| <= π.
Integrals integrals_to(const DayRadiation& day, double w) {
  const HourAngle light(std::clamp(w, -day.sunset_rad, day.sunset_rad));
  const double global = global_to(day, light);
  const Wave flat{day.diffuse_scale, 0.0};
  const Wave up = elevation_wave(day);
  // Where there is no beam, all is diffuse.
  const HourAngle inner =
      std::abs(light.w) <= day.beam_rad ? light : HourAngle(std::copysign(day.beam_rad, light.w));
  return {global, product_integral(flat, up, inner) + global - global_to(day, inner)};
}

// Finds the scale at which the diffuse course, held below the global one, makes the day's total.
// The total is a rising, concave function of the scale, so Newton's steps from below stay below.
void fit_diffuse(DayRadiation& day, double half_day) {
  for (int step = 0; step < 60; ++step) {
    day.beam_rad = crossing_rad(day);
    const double missing = half_day - integrals_to(day, day.sunset_rad).diffuse;
    const double rise = product_integral({1.0, 0.0}, elevation_wave(day), HourAngle(day.beam_rad));
    if (missing <= 1e-13 * half_day || rise <= 0.0) {
      break;
    }
    day.diffuse_scale += missing / rise;
  }
}

// A day's running integral, made to repeat every 24 h, over an interval of hours.
template <typename Running>
auto integral_over(double hour_from, double hour_to, const Running& from_noon_to) {
  const auto until = [&](double hour) {
    const double days = std::floor(hour / 24.0);
    const auto part = from_noon_to((hour - 24.0 * days - 12.0) * rad_per_hour);
    return days == 0.0 ? part : days * (from_noon_to(pi) - from_noon_to(-pi)) + part;
  };
  return until(hour_to) - until(hour_from);
}

// Whether hours of one day lie in its night, before the sun rises or after it has set.
bool in_the_night(const DayRadiation& day, double hour_from, double hour_to) {
  const double half_day_h = day.sunset_rad / rad_per_hour;
  const double first = std::min(hour_from, hour_to);
  const double last = std::max(hour_from, hour_to);
  return (first >= 0.0 && last <= 12.0 - half_day_h) ||
         (first >= 12.0 + half_day_h && last <= 24.0);
}

double hour_angle_of(double solar_hour) {
  return std::remainder(solar_hour - 12.0, 24.0) * rad_per_hour;
}

HourlyRadiation radiation_at(const DayRadiation& day, double hour_angle) {
  const Wave up = elevation_wave(day);
  const double cosine = std::cos(hour_angle);
  if (std::abs(hour_angle) >= day.sunset_rad) {
    return {0.0, 0.0};
  }
  const double sine_of_elevation = std::max(up.c0 + up.c1 * cosine, 0.0);
  const Wave global = global_wave(day);
  const double global_w_m2 = std::max(global.c0 + global.c1 * cosine, 0.0) * sine_of_elevation;
  return {global_w_m2, std::min(day.diffuse_scale * sine_of_elevation, global_w_m2)};
}

Wave incidence_wave(const DayRadiation& day, Plane plane) {
  const double sine_tilt = std::sin(plane.tilt_deg * rad_per_deg);
  const double cosine_tilt = std::cos(plane.tilt_deg * rad_per_deg);
  const double north = sine_tilt * std::cos(plane.azimuth_deg * rad_per_deg);
  const double west = -sine_tilt * std::sin(plane.azimuth_deg * rad_per_deg);
  return {day.sine_declination * (day.sine_latitude * cosine_tilt + day.cosine_latitude * north),
          day.cosine_declination * (day.cosine_latitude * cosine_tilt - day.sine_latitude * north),
          day.cosine_declination * west};
}

// Integral from noon to w of the beam on a plane: beam normal to the sun is a wave without any
// division by the sun's elevation, so sunrise needs no special care.
double beam_to(const DayRadiation& day, Wave incidence, double w) {
  const Wave global = global_wave(day);
  const Wave beam{global.c0 - day.diffuse_scale, global.c1};
  const double limit = std::clamp(w, -day.beam_rad, day.beam_rad);
  const double low = std::min(limit, 0.0);
  const double high = std::max(limit, 0.0);

  // The sun is before the plane within `reach` of the hour angle `middle`, seen on a circle.
  const double swing = std::hypot(incidence.c1, incidence.s1);
  const double middle = std::atan2(incidence.s1, incidence.c1);
  double reach = 0.0;
  if (incidence.c0 >= swing) {
    reach = pi;
  } else if (incidence.c0 > -swing) {
    reach = std::acos(-incidence.c0 / swing);
  }
  double sum = 0.0;
  for (const double turn : {-2.0 * pi, 0.0, 2.0 * pi}) {
    const double start = std::max(low, middle - reach + turn);
    const double end = std::min(high, middle + reach + turn);
    if (end > start) {
      sum += product_integral(beam, incidence, HourAngle(end)) -
             product_integral(beam, incidence, HourAngle(start));
    }
  }
  return limit < 0.0 ? -sum : sum;
}

}  // namespace

double extraterrestrial_mj_m2(double latitude_deg, int day_of_year) {
  return extraterrestrial_of(geometry_of(latitude_deg, day_of_year));
}

double daylight_hours(double latitude_deg, int day_of_year) {
  return 24.0 / pi * geometry_of(latitude_deg, day_of_year).sunset_rad;
}

double diffuse_fraction(double clearness_index, double sunset_hour_angle_deg,
                        RadiationFigure figure) {
  constexpr double winter_deg = 81.4;
  const bool winter = sunset_hour_angle_deg <= winter_deg;
  const double k = std::clamp(clearness_index, 0.0, 1.0);
  if (figure == RadiationFigure::monthly_mean) {
    const double held = std::clamp(k, 0.3, 0.8);
    return winter ? 1.391 + held * (-3.560 + held * (4.189 - held * 2.137))
                  : 1.311 + held * (-3.022 + held * (3.427 - held * 1.821));
  }
  if (winter) {
    return k < 0.715 ? 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143;
  }
  const double fraction = k < 0.722 ? 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) : 0.175;
  return std::min(fraction, 1.0);  // the cubic passes 1 by less than 0.01 near k = 0.06
}

DayRadiation day_radiation(double latitude_deg, int day_of_year, double global_kwh_m2,
                           RadiationFigure figure) {
  const Geometry sky = geometry_of(latitude_deg, day_of_year);
  const double ws = sky.sunset_rad;
  DayRadiation day{};
  day.sine_latitude = sky.sine_latitude;
  day.cosine_latitude = sky.cosine_latitude;
  day.sine_declination = sky.sine_declination;
  day.cosine_declination = sky.cosine_declination;
  day.sunset_rad = ws;
  day.shape_a = 0.409 + 0.5016 * std::sin(ws - pi / 3.0);
  day.shape_b = 0.6609 - 0.4767 * std::sin(ws - pi / 3.0);
  day.outside_mj_m2 = extraterrestrial_of(sky);
  day.global_scale = 1.0;
  day.unit_half_day = global_to(day, HourAngle(ws));
  return with_total(day, global_kwh_m2, figure);
}

DayRadiation with_total(const DayRadiation& like, double global_kwh_m2, RadiationFigure figure) {
  DayRadiation day = like;
  const double ws = day.sunset_rad;
  day.global_wh_m2 = day.diffuse_wh_m2 = 0.0;
  day.global_scale = day.diffuse_scale = day.beam_rad = 0.0;
  if (global_kwh_m2 <= 0.0 || day.outside_mj_m2 <= 0.0 || day.unit_half_day <= 0.0) return day;
  constexpr double mj_per_kwh = 3.6;
  const double fraction =
      diffuse_fraction(global_kwh_m2 * mj_per_kwh / day.outside_mj_m2, ws / rad_per_deg, figure);
  day.global_wh_m2 = 1000.0 * global_kwh_m2;
  day.diffuse_wh_m2 = day.global_wh_m2 * fraction;

  const double half_day = 0.5 * day.global_wh_m2 * rad_per_hour;  // W/m² times radians
  day.global_scale = half_day / day.unit_half_day;
  day.diffuse_scale =
      fraction * half_day / product_integral({1.0, 0.0}, elevation_wave(day), HourAngle(ws));
  fit_diffuse(day, fraction * half_day);
  return day;
}

HourlyRadiation mean_radiation(const DayRadiation& day, double solar_hour_from,
                               double solar_hour_to) {
  if (day.global_scale <= 0.0 || in_the_night(day, solar_hour_from, solar_hour_to)) {
    return {0.0, 0.0};
  }
  if (solar_hour_to <= solar_hour_from) {
    return radiation_at(day, hour_angle_of(solar_hour_from));
  }
  const double span_rad = (solar_hour_to - solar_hour_from) * rad_per_hour;
  const Integrals sum =
      integral_over(solar_hour_from, solar_hour_to, [&](double w) { return integrals_to(day, w); });
  const double global_w_m2 = std::max(sum.global / span_rad, 0.0);
  const double diffuse_w_m2 = std::max(sum.diffuse / span_rad, 0.0);
  return {global_w_m2, std::min(diffuse_w_m2, global_w_m2)};
}

double mean_plane_w_m2(const DayRadiation& day, Plane plane, double ground_albedo,
                       double solar_hour_from, double solar_hour_to) {
  if (day.global_scale <= 0.0) {
    return 0.0;
  }
  const Wave incidence = incidence_wave(day, plane);
  double beam_w_m2 = 0.0;
  if (solar_hour_to <= solar_hour_from) {
    const double w = hour_angle_of(solar_hour_from);
    if (std::abs(w) < day.beam_rad) {
      const Wave global = global_wave(day);
      const double normal = global.c0 + global.c1 * std::cos(w) - day.diffuse_scale;
      beam_w_m2 = normal * std::max(cosine_of_incidence(day, plane, w), 0.0);
    }
  } else {
    beam_w_m2 = integral_over(solar_hour_from, solar_hour_to,
                              [&](double w) { return beam_to(day, incidence, w); }) /
                ((solar_hour_to - solar_hour_from) * rad_per_hour);
  }
  const HourlyRadiation level = mean_radiation(day, solar_hour_from, solar_hour_to);
  const double cosine_tilt = std::cos(plane.tilt_deg * rad_per_deg);
  return std::max(beam_w_m2, 0.0) + 0.5 * (1.0 + cosine_tilt) * level.diffuse_w_m2 +
         0.5 * (1.0 - cosine_tilt) * std::clamp(ground_albedo, 0.0, 1.0) * level.global_w_m2;
}

SunStretch::SunStretch(const DayRadiation& day, double solar_hour_from, double solar_hour_to,
                       const Plane* plane)
    : from_h_(solar_hour_from), to_h_(solar_hour_to) {
  // The brightest day there can be, without diffuse light: beam from sunrise to sunset.
  DayRadiation unit = day;
  unit.global_scale = 1.0;
  unit.diffuse_scale = 0.0;
  unit.beam_rad = unit.sunset_rad;
  const double from_rad = (from_h_ - 12.0) * rad_per_hour;
  const double to_rad = (to_h_ - 12.0) * rad_per_hour;
  const double lit_from = std::max(from_rad, -unit.sunset_rad);
  const double lit_to = std::min(to_rad, unit.sunset_rad);
  const bool of_one_day = from_h_ >= 0.0 && to_h_ <= 24.0 && from_h_ < to_h_;
  dark_ = day.unit_half_day <= 0.0 || (of_one_day && lit_from >= lit_to);
  farthest_rad_ = of_one_day ? std::max(std::abs(lit_from), std::abs(lit_to)) : 2.0 * pi;
  nearest_rad_ = lit_from > 0.0 ? lit_from : std::max(0.0, -lit_to);
  if (!of_one_day) nearest_rad_ = -1.0;  // never beyond the beam, never within: asked of the day
  if (plane != nullptr) {
    plane_ = *plane;
    const double cosine_tilt = std::cos(plane_.tilt_deg * rad_per_deg);
    sky_view_ = 0.5 * (1.0 + cosine_tilt);
    ground_view_ = 0.5 * (1.0 - cosine_tilt);
  }
  if (dark_ || !of_one_day) return;
  const double span_rad = to_rad - from_rad;
  global_ = (global_to(unit, HourAngle(lit_to)) - global_to(unit, HourAngle(lit_from))) / span_rad;
  const auto diffuse_to = [&](double w) {
    return product_integral({1.0, 0.0}, elevation_wave(unit), HourAngle(w));
  };
  diffuse_ = (diffuse_to(lit_to) - diffuse_to(lit_from)) / span_rad;
  if (plane == nullptr) return;
  const Wave incidence = incidence_wave(unit, plane_);
  const auto beam_in = [&] {
    return (beam_to(unit, incidence, to_rad) - beam_to(unit, incidence, from_rad)) / span_rad;
  };
  beam_global_ = beam_in();
  unit.diffuse_scale = 1.0;
  beam_diffuse_ = beam_global_ - beam_in();
}

SunStretch::Beam SunStretch::beam(const DayRadiation& day) const {
  // Only on a dull day is there light without beam.
  if (farthest_rad_ <= day.beam_rad) return Beam::all;
  return nearest_rad_ >= day.beam_rad ? Beam::none : Beam::some;
}

HourlyRadiation SunStretch::mean(const DayRadiation& day) const {
  if (dark_ || day.global_scale <= 0.0) return {0.0, 0.0};
  const double global_w_m2 = std::max(day.global_scale * global_, 0.0);
  switch (beam(day)) {
    case Beam::all:
      return {global_w_m2, std::clamp(day.diffuse_scale * diffuse_, 0.0, global_w_m2)};
    case Beam::none:
      return {global_w_m2, global_w_m2};
    case Beam::some:
      break;
  }
  return mean_radiation(day, from_h_, to_h_);
}

double SunStretch::mean_plane_w_m2(const DayRadiation& day) const {
  if (dark_ || day.global_scale <= 0.0) return 0.0;
  const Beam its = beam(day);
  if (its == Beam::some) {
    return models::mean_plane_w_m2(day, plane_, usual_ground_albedo, from_h_, to_h_);
  }
  const double beam_w_m2 =
      its == Beam::none ? 0.0 : day.global_scale * beam_global_ - day.diffuse_scale * beam_diffuse_;
  const HourlyRadiation level = mean(day);
  return std::max(beam_w_m2, 0.0) + sky_view_ * level.diffuse_w_m2 +
         ground_view_ * usual_ground_albedo * level.global_w_m2;
}

double cosine_of_incidence(const DayRadiation& day, Plane plane, double hour_angle_rad) {
  const Wave wave = incidence_wave(day, plane);
  return wave.c0 + wave.c1 * std::cos(hour_angle_rad) + wave.s1 * std::sin(hour_angle_rad);
}

}  // namespace drystage::models
