// What of banks and cabinets goes by the weather.

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "engine/reserves/power.h"
#include "engine/usual_lid.h"
#include "models/solar_panel.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::ChargerKind;
using plan::While;

// How far a bank lags behind the air (ours: 12 kg of 100 Ah in a box, 1 W/K: 3 h). What is colder
// counts, the air of the hour or that of the hours before, so that a bank is never taken to be
// warmer than it may be.
constexpr int bank_lag_h = 3;

/// The same load over a whole day of staying put, Wh.
double standing_wh(const plan::Load& load) {
  if (load.energy_wh_day > 0) return load.energy_wh_day;
  if (load.hours_day) return load.draw_w * *load.hours_day;
  if (load.when == While::driving) return 0;
  return load.draw_w * load.after_dark_h.value_or(24);
}

/// Solar hours within the day, so that it can be seen whether the sun is up.
struct SolarHours {
  double from_h;
  double to_h;
};

SolarHours solar_hours(const WeatherDay& weather, double from_h, double to_h) {
  const double solar_from = from_h + weather.solar_minus_clock_h;
  const double solar_to = to_h + weather.solar_minus_clock_h;
  const double turn = 24 * std::floor((solar_from + solar_to) / 2 / 24);
  return {.from_h = solar_from - turn, .to_h = solar_to - turn};
}

models::Plane plane_of(const plan::Charger& charger) {
  return {.tilt_deg = charger.tilt_deg, .azimuth_deg = charger.facing_deg};
}

/// Mean irradiance on a panel over clock hours, W/m².
double on_panel_w_m2(const plan::Charger& charger, const WeatherDay& weather, double from_h,
                     double to_h) {
  const SolarHours hours = solar_hours(weather, from_h, to_h);
  const double half_day_h = weather.radiation.sunset_rad * 12 / std::numbers::pi;
  if (hours.to_h < 12 - half_day_h || hours.from_h > 12 + half_day_h) return 0;
  if (charger.tilt_deg == 0) {
    return models::mean_radiation(weather.radiation, hours.from_h, hours.to_h).global_w_m2;
  }
  return models::mean_plane_w_m2(weather.radiation, plane_of(charger), models::usual_ground_albedo,
                                 hours.from_h, hours.to_h);
}

/// The same where it has been worked out but for how much sun there is.
double on_panel_w_m2(const plan::Charger& charger, const WeatherDay& weather,
                     const models::SunStretch& light) {
  return charger.tilt_deg == 0 ? light.mean(weather.radiation).global_w_m2
                               : light.mean_plane_w_m2(weather.radiation);
}

/// What a charger offers in the half of a step that begins `after_h` into it, A. `light`: on a
/// panel, worked out; null: it is not.
double source_a(const plan::Charger& charger, double voltage_v, const Timeline& timeline,
                const TimeStep& step, double after_h, const models::SunStretch* light) {
  const auto place_day = static_cast<std::size_t>(step.place_day);
  const double charging_v = voltage_v * Power::charging_over_nominal;
  if (!applies(charger.when, step)) return 0;
  switch (charger.kind) {
    case ChargerKind::dc_dc:
      return step.drive >= 0 &&
                     timeline.companies[at(step.company)].vehicles[at(charger.vehicle)] != 0
                 ? charger.current_a
                 : 0;
    case ChargerKind::mains: {
      if (step.drive >= 0 || !timeline.place_days[place_day].mains) return 0;
      return charger.current_a > 0 ? charger.current_a : charger.power_w / charging_v;
    }
    case ChargerKind::solar: {
      const WeatherDay& weather = timeline.conditions.place_days[place_day].weather;
      const double from_h = step.from_h + after_h;
      const double sun_w_m2 = light != nullptr
                                  ? on_panel_w_m2(charger, weather, *light)
                                  : on_panel_w_m2(charger, weather, from_h, from_h + step.dt_h / 2);
      if (sun_w_m2 <= 0) return 0;
      const models::SolarPanel panel{
          .rated_w = charger.power_w,
          .noct_c = charger.noct_c.value_or(models::installed_noct_c(charger.tilt_deg)),
          .loss = charger.loss};
      return models::panel_power_w(panel, sun_w_m2, timeline.conditions.steps[step.index].air_c) /
             charging_v;
    }
    case ChargerKind::generator:
      return 0;
  }
  return 0;
}

std::size_t panel_count(const plan::Plan& plan) {
  return static_cast<std::size_t>(
      std::ranges::count(plan.power.chargers, ChargerKind::solar, &plan::Charger::kind));
}

/// A charger that works, and where what it offers is written.
struct Source {
  const plan::Charger& charger;
  std::size_t bank;
  double volts;
  std::size_t panel;  ///< how many panels come before it
};

std::vector<Source> sources(const Power::Compiled& out, const plan::Plan& plan,
                            const Damage& damage) {
  std::vector<Source> found;
  std::size_t panel = 0;
  for (std::size_t c = 0; c < plan.power.chargers.size(); ++c) {
    const plan::Charger& charger = plan.power.chargers[c];
    const auto bank = static_cast<std::size_t>(charger.bank);
    if (works(plan, damage, c)) {
      found.push_back({charger, bank, out.banks[bank].params.voltage_v, panel});
    }
    if (charger.kind == ChargerKind::solar) ++panel;
  }
  return found;
}

/// What all but generators offer.
void fill_sources(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
                  const CourseBase& course, const IndexRange& steps) {
  const Timeline& timeline = *course.timeline;
  const std::size_t banks = out.banks.size();
  const std::size_t panels_in_all = panel_count(plan);
  const std::vector<Source> all = sources(out, plan, course.damage);
  for (std::size_t s = steps.from; s < steps.until; ++s) {
    const TimeStep& step = timeline.steps[s];
    double* row = tables.source_a.data() + 2 * s * banks;
    double* panels = tables.panel_a.data() + 2 * s * banks;
    std::fill(row, row + 2 * banks, 0.0);
    std::fill(panels, panels + 2 * banks, 0.0);
    if (step.dt_h <= 0) continue;
    const bool ready = tables.light && s >= tables.light_from;
    for (const Source& source : all) {
      const bool is_panel = source.charger.kind == ChargerKind::solar;
      for (const std::size_t half : {0U, 1U}) {
        const double after_h = half == 0 ? 0 : step.dt_h / 2;
        const models::SunStretch* light =
            ready && is_panel
                ? &(*tables.light)[(2 * (s - tables.light_from) + half) * panels_in_all +
                                   source.panel]
                : nullptr;
        const double amps = source_a(source.charger, source.volts, timeline, step, after_h, light);
        row[source.bank + half * banks] += amps;
        if (is_panel) panels[source.bank + half * banks] += amps;
      }
    }
  }
}

/// Ah a day that each bank gives while staying put with nothing coming in: its autonomy.
void fill_autonomy(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
                   const Conditions& conditions, const IndexRange& place_days) {
  const std::size_t banks = out.banks.size();
  std::ranges::fill(tables.loads_ah_day, 0.0);
  for (std::size_t l = 0; l < out.loads.size(); ++l) {
    const auto bank = static_cast<std::size_t>(out.loads[l].bank);
    tables.loads_ah_day[bank] +=
        standing_wh(plan.power.loads[l]) / out.banks[bank].params.voltage_v;
  }
  for (std::size_t h = place_days.from; h < place_days.until; ++h) {
    const PlaceConditions& place = conditions.place_days[h];
    double* row = tables.drawn_ah_day.data() + h * banks;
    std::ranges::copy(tables.loads_ah_day, row);
    for (const Power::Cabinet& cabinet : out.cabinets) {
      if (cabinet.bank < 0 || cabinet.stopped) continue;
      const auto bank = static_cast<std::size_t>(cabinet.bank);
      const double above_k = cabinet.above_when == While::driving ? 0 : cabinet.above_ambient_k;
      const plan::Cabinet& its =
          plan.cold[static_cast<std::size_t>(&cabinet - out.cabinets.data())];
      for (int hour = 0; hour < 24; ++hour) {
        const double ambient_c = place.air_c.at(static_cast<std::size_t>(hour)) + above_k;
        models::CabinetParams params = cabinet.params;
        if (const double share = lid_share(hour, hour + 1); share > 0) {
          params.lid_w_per_k = share * lid_w_per_k(plan, its, ambient_c, place.weather.vapour_kpa);
        }
        row[bank] +=
            models::steady_cabinet(params, ambient_c).mean_w / out.banks[bank].params.voltage_v;
      }
    }
    for (std::size_t bank = 0; bank < banks; ++bank) {
      tables.use_ah_day[h * banks + bank] = out.banks[bank].given_ah_day(row[bank]);
    }
  }
}

/// The coldest of the air in the hour of a step and in the hours before. Whole hours, so that it
/// does not depend on how an hour is cut into steps.
double charging_c(const TimeStep& step, const PlaceConditions& place) {
  constexpr int hours = 24;
  double coldest_c = HUGE_VAL;
  const int hour = static_cast<int>(std::floor(step.from_h + step.dt_h / 2));
  for (int before = 0; before <= bank_lag_h; ++before) {
    const int then = (hour - before + hours) % hours;
    coldest_c = std::min(coldest_c, place.air_c.at(static_cast<std::size_t>(then)));
  }
  return coldest_c;
}

void fill_charging_cold(Power::Tables& tables, const Timeline& timeline, const IndexRange& steps) {
  for (std::size_t s = steps.from; s < steps.until; ++s) {
    const TimeStep& step = timeline.steps[s];
    const auto place_day = static_cast<std::size_t>(step.place_day);
    tables.charging_c[s] = charging_c(step, timeline.conditions.place_days[place_day]);
  }
}

/// What the lids let in.
void fill_lids(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
               const Timeline& timeline, const IndexRange& steps, const IndexRange& place_days) {
  const Conditions& conditions = timeline.conditions;
  const std::size_t cabinets = out.cabinets.size();
  for (std::size_t c = 0; c < cabinets; ++c) {
    const plan::Cabinet& cabinet = plan.cold[c];
    for (std::size_t s = steps.from; s < steps.until; ++s) {
      const TimeStep& step = timeline.steps[s];
      const double share = lid_share(step.from_h, step.from_h + step.dt_h);
      if (share <= 0) continue;
      const double vapour_kpa =
          conditions.place_days[static_cast<std::size_t>(step.place_day)].weather.vapour_kpa;
      const double ambient_c = out.cabinets[c].ambient_c(step, conditions.steps[s].air_c);
      tables.lid_w_k[s * cabinets + c] = share * lid_w_per_k(plan, cabinet, ambient_c, vapour_kpa);
    }
    if (!tables.autonomy) continue;
    for (std::size_t h = place_days.from; h < place_days.until; ++h) {
      const WeatherDay& weather = conditions.place_days[h].weather;
      tables.lid_day_w_k[h * cabinets + c] =
          lid_hours / 24 * lid_w_per_k(plan, cabinet, weather.max_c, weather.vapour_kpa);
    }
  }
}

void fill_cold(Power::Tables& tables, const Power::Compiled& out, const Conditions& conditions,
               const IndexRange& days) {
  const std::size_t banks = out.banks.size();
  for (std::size_t d = days.from; d < days.until; ++d) {
    for (std::size_t b = 0; b < banks; ++b) {
      tables.in_reach[d * banks + b] =
          1 / models::cold_factor(out.banks[b].params.kind, conditions.days[d].mean_c);
    }
  }
}

}  // namespace

void Power::fill(Tables& tables, const Compiled& compiled, const plan::Plan& plan,
                 const CourseBase& course, const IndexRange& steps) {
  const Timeline& timeline = *course.timeline;
  const IndexRange days = days_of_steps(timeline, steps);
  const IndexRange place_days = place_days_of(timeline, days);
  fill_sources(tables, compiled, plan, course, steps);
  if (tables.autonomy) fill_autonomy(tables, compiled, plan, timeline.conditions, place_days);
  fill_cold(tables, compiled, timeline.conditions, days);
  fill_charging_cold(tables, timeline, steps);
  fill_lids(tables, compiled, plan, timeline, steps, place_days);
}

std::shared_ptr<const Power::Light> Power::light_on_panels(const plan::Plan& plan,
                                                           const CourseBase& course) {
  const Timeline& timeline = *course.timeline;
  auto out = std::make_shared<Light>();
  out->reserve(2 * (timeline.steps.size() - course.first_step) * panel_count(plan));
  for (std::size_t s = course.first_step; s < timeline.steps.size(); ++s) {
    const TimeStep& step = timeline.steps[s];
    const WeatherDay& weather =
        timeline.conditions.place_days[static_cast<std::size_t>(step.place_day)].weather;
    for (const double from_h : {step.from_h, step.from_h + step.dt_h / 2}) {
      const SolarHours hours = solar_hours(weather, from_h, from_h + step.dt_h / 2);
      for (const plan::Charger& charger : plan.power.chargers) {
        if (charger.kind != ChargerKind::solar) continue;
        const models::Plane plane = plane_of(charger);
        out->emplace_back(weather.radiation, hours.from_h, hours.to_h,
                          charger.tilt_deg == 0 ? nullptr : &plane);
      }
    }
  }
  return out;
}

void Power::refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                   const IndexRange& steps) {
  // Other courses may share them.
  if (compiled.tables.use_count() > 1) compiled.tables = std::make_shared<Tables>(*compiled.tables);
  fill(*compiled.tables, compiled, plan, course, steps);
  compiled.tables->inputs.timeline = nullptr;  // no longer what a course laid out alike would have
}

}  // namespace drystage::engine::reserves
