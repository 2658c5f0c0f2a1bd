#include "engine/party.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "models/heat_strain.h"
#include "models/heat_strain_table.h"
#include "models/metabolism.h"
#include "models/solar_heat.h"
#include "models/water_need.h"

namespace drystage::engine {
namespace {

using models::WorkClass;

constexpr double ml_per_l = 1000;
constexpr double adult_years = 18;
constexpr int meals_a_day = 3;

// The hours of a day's activity are spread evenly over the daylight, or over more of the day about
// solar noon if there are more of them; never over less than this.
constexpr double least_span_h = 8;

// Air about people at rest in a vehicle, a tent or the lee of one (ISO 7933's own still air).
constexpr double sheltered_m_s = 0.3;

models::Sex sex(const plan::Person& person) {
  return person.sex == plan::Sex::female ? models::Sex::female : models::Sex::male;
}

double active_hours(const plan::Activity& activity) {
  double sum = 0;
  for (const double hours : activity.hours) sum += hours;
  return sum;
}

/// The hours over which a day's activity is spread.
struct Span {
  double from_h = 0;
  double length_h = 0;
};

Span active_span(const WeatherDay& weather, double active_h) {
  const double daylight_h = weather.radiation.sunset_rad * 24 / std::numbers::pi;
  const double length_h = std::clamp(std::max(daylight_h, active_h), least_span_h, 24.0);
  const double noon_h = 12 - weather.solar_minus_clock_h;
  return {.from_h = noon_h - length_h / 2, .length_h = length_h};
}

/// Share of a clock hour that falls into a span, which may pass midnight.
double share_in(const Span& span, int hour) {
  double sum = 0;
  for (const double turn : {-24.0, 0.0, 24.0}) {
    const double from = span.from_h + turn;
    sum += std::max(0.0, std::min(hour + 1.0, from + span.length_h) - std::max(1.0 * hour, from));
  }
  return std::min(1.0, sum);
}

/// The surroundings of one clock hour.
struct Hour {
  double air_c = 0;
  double sun_excess_k = 0;
};

std::array<Hour, 24> hours_of(const WeatherDay& weather) {
  std::array<Hour, 24> hours;
  const models::DayRadiation& sky = weather.radiation;
  for (int h = 0; h < 24; ++h) {
    Hour& hour = hours.at(static_cast<std::size_t>(h));
    hour.air_c = mean_air_c(weather, h, h + 1);
    const double solar_from = h + weather.solar_minus_clock_h;
    const models::HourlyRadiation light = models::mean_radiation(sky, solar_from, solar_from + 1);
    if (light.global_w_m2 <= 0) continue;
    const double angle = (solar_from + 0.5 - 12) * std::numbers::pi / 12;
    const double sine = sky.sine_latitude * sky.sine_declination +
                        sky.cosine_latitude * sky.cosine_declination * std::cos(angle);
    const double altitude_deg = std::asin(std::clamp(sine, -1.0, 1.0)) * 180 / std::numbers::pi;
    hour.sun_excess_k = models::sun_radiant_excess_k(light.global_w_m2, light.diffuse_w_m2,
                                                     altitude_deg, models::Posture::standing);
  }
  return hours;
}

/// Water lost to heat in each clock hour beyond the temperate base, g per m² of body surface.
std::array<double, 24> heat_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather) {
  const std::array<Hour, 24> hours = hours_of(weather);
  const Span span = active_span(weather, active_hours(activity));
  const auto loss = [&](std::size_t work, const Hour& hour, double excess_k) {
    const auto work_class = static_cast<WorkClass>(work);
    const double strain = models::water_loss_g_per_h_m2(work_class, hour.air_c, weather.vapour_kpa,
                                                        excess_k, weather.wind_m_s);
    return std::max(strain, models::comfort_sweat_g_per_h_m2(models::metabolic_w_m2(work_class)));
  };
  const auto loss_at_rest = [&](const Hour& hour) {
    return models::water_loss_g_per_h_m2(WorkClass::resting, hour.air_c, weather.vapour_kpa, 0,
                                         std::min(weather.wind_m_s, sheltered_m_s));
  };
  std::array<double, 24> out{};
  for (std::size_t h = 0; h < out.size(); ++h) {
    const Hour& hour = hours.at(h);
    const double share = share_in(span, static_cast<int>(h)) / span.length_h;
    double busy = 0;
    for (std::size_t work = 0; work < activity.hours.size(); ++work) {
      const double part = activity.hours.at(work) * share;
      if (part <= 0) continue;
      busy += part;
      const double shade = loss(work, hour, 0);
      const double sun = activity.in_sun > 0 && hour.sun_excess_k > 0
                             ? loss(work, hour, hour.sun_excess_k)
                             : shade;
      out.at(h) += part * (shade + activity.in_sun * (sun - shade));
    }
    if (busy < 1) out.at(h) += (1 - busy) * loss_at_rest(hour);
  }
  return out;
}

}  // namespace

std::array<double, 24> party_drinking_l_h(const plan::Plan& plan, const plan::Activity& activity,
                                          const WeatherDay& weather) {
  // Who is not used to heat sweats less and suffers more: they too are given water for the sweat of
  // those who are.
  double surface_m2 = 0;
  double base_l_h = 0;
  for (const plan::Person& person : plan.people) {
    if (person.drinking_l_day) {
      base_l_h += *person.drinking_l_day / 24;
      continue;
    }
    surface_m2 += models::body_surface_m2(person.mass_kg, person.height_m);
    base_l_h += models::base_drinking_l_per_h(person.age_years, sex(person));
  }
  std::array<double, 24> sum{};
  if (surface_m2 > 0) sum = heat_loss_g_m2(activity, weather);
  for (double& hour : sum) hour = base_l_h + hour * surface_m2 / ml_per_l;
  return sum;
}

bool beyond_proven_heat(const plan::Activity& activity, const WeatherDay& weather) {
  // Of what the standard bounds, cold and strong wind are no danger here; heat, damp and work are.
  constexpr double mild_c = 30;
  constexpr double most_wind_m_s = 3;
  std::size_t hardest = 0;
  for (std::size_t work = 0; work < activity.hours.size(); ++work) {
    if (activity.hours.at(work) > 0) hardest = work;
  }
  for (const Hour& hour : hours_of(weather)) {
    if (hour.air_c < mild_c) continue;
    const double excess_k = activity.in_sun > 0 ? hour.sun_excess_k : 0;
    if (!models::heat_strain_validated(static_cast<WorkClass>(hardest), hour.air_c,
                                       weather.vapour_kpa, excess_k,
                                       std::min(weather.wind_m_s, most_wind_m_s))) {
      return true;
    }
  }
  return false;
}

double person_drinking_l_day(const plan::Person& person, const plan::Activity& activity,
                             const WeatherDay& weather) {
  plan::Plan alone;
  alone.people.push_back(person);
  double sum = 0;
  for (const double hour : party_drinking_l_h(alone, activity, weather)) sum += hour;
  return sum;
}

double person_energy_kj(const plan::Person& person, const plan::Activity& activity) {
  return models::daily_energy_kj(person.mass_kg, person.age_years, sex(person), activity.hours);
}

double three_meals_kj(const plan::Plan& plan, const std::vector<int>& day_activities) {
  const bool adults = std::ranges::any_of(
      plan.people, [](const plan::Person& p) { return p.age_years >= adult_years; });
  double sum = 0;
  double count = 0;
  for (const plan::Person& person : plan.people) {
    if (adults && person.age_years < adult_years) continue;
    for (const int activity : day_activities) {
      sum += person_energy_kj(person, plan.activities[static_cast<std::size_t>(activity)]);
      ++count;
    }
  }
  return count > 0 ? sum / count : 0;
}

double party_meals_day(const plan::Plan& plan, const plan::Activity& activity,
                       double three_meals_kj) {
  double meals = 0;
  for (const plan::Person& person : plan.people) {
    if (person.meals_day) {
      meals += *person.meals_day;
    } else if (three_meals_kj > 0) {
      meals += meals_a_day * person_energy_kj(person, activity) / three_meals_kj;
    }
  }
  return meals;
}

double party_utility_l(const plan::Plan& plan, int day) {
  constexpr double whole_days = 1e-9;
  double sum = 0;
  for (const plan::UtilityUse& use : plan.water.utility_uses) {
    const double times = std::floor((day + 1) / use.every_days + whole_days) -
                         std::floor(day / use.every_days + whole_days);
    sum += times * use.volume_l * (use.per_person ? static_cast<double>(plan.people.size()) : 1.0);
  }
  return sum;
}

double party_utility_l_day(const plan::Plan& plan) {
  double sum = 0;
  for (const plan::UtilityUse& use : plan.water.utility_uses) {
    sum += use.volume_l / use.every_days *
           (use.per_person ? static_cast<double>(plan.people.size()) : 1.0);
  }
  return sum;
}

}  // namespace drystage::engine
