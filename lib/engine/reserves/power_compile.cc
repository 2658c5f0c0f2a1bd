// Making batteries, chargers, loads and cabinets ready to step.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "engine/reserves/power.h"
#include "engine/usual_lid.h"
#include "models/solar_panel.h"

namespace drystage::engine::reserves {
namespace {

using plan::ChargerKind;
using plan::While;

// Heat capacity of a cabinet's liner and air for each litre inside (common practice: some 3 kg of
// plastic and sheet in a 45 L chest).
constexpr double liner_kj_k_per_l = 0.1;

// Heat passes well between the air of a freezer, or the ice of an ice box, and what lies in it
// (common practice: some 8 W/m²K over half a square metre).
constexpr double good_contact_w_k = 4;

// A bank that was cut off comes back this much of its capacity above the cut-off (common practice
// for low-voltage disconnects; it keeps the switch from chattering).
constexpr double hysteresis = 0.05;

constexpr double kj_per_wh = 3.6;

// How far a bank lags behind the air (ours: 12 kg of 100 Ah in a box, 1 W/K: 3 h). What is colder
// counts, the air of the hour or that of the hours before, so that a bank is never taken to be
// warmer than it may be.
constexpr int bank_lag_h = 3;

models::BatteryKind model_kind(plan::BatteryKind kind) {
  switch (kind) {
    case plan::BatteryKind::flooded:
      return models::BatteryKind::flooded;
    case plan::BatteryKind::agm:
      return models::BatteryKind::agm;
    case plan::BatteryKind::lfp:
      return models::BatteryKind::lfp;
  }
  return models::BatteryKind::agm;
}

Power::Bank compile_bank(const plan::Bank& bank, const plan::Plan& plan, CourseBase& course) {
  Power::Bank out;
  out.params =
      models::usual_battery(model_kind(bank.kind), bank.capacity_ah, bank.rate_h, bank.voltage_v);
  out.params.peukert = bank.peukert.value_or(out.params.peukert);
  out.params.coulombic_efficiency = bank.efficiency.value_or(out.params.coulombic_efficiency);
  out.cut_off_ah = bank.cut_off * bank.capacity_ah;
  const double gap = std::max(hysteresis, (bank.floor - bank.cut_off) / 2);
  out.reconnect_ah = out.cut_off_ah + gap * bank.capacity_ah;
  out.store = add_store(course, {.name = bank.name,
                                 .unit = "Ah",
                                 .capacity = bank.capacity_ah,
                                 .initial = bank.filled * bank.capacity_ah});
  out.reserve = add_reserve(course, plan,
                            {.name = "battery:" + bank.name,
                             .title = plan.power.banks.size() > 1 ? bank.name : "Battery",
                             .unit = "Ah",
                             .capacity = bank.capacity_ah,
                             .empty_at = out.cut_off_ah},
                            {.kind = plan::MarginKind::share, .value = bank.floor});
  out.lost = bank.lost;
  if (bank.lost) course.reserves[static_cast<std::size_t>(out.reserve)].margin = {};
  return out;
}

/// What lies frozen in a cabinet: its mixed properties, mass and enthalpy.
struct Frozen {
  models::FoodThermal food;
  double kg = 0;
  double kj_kg = 0;
};

Frozen frozen_goods(const plan::Plan& plan, int cabinet) {
  std::vector<models::FoodPortion> portions;
  Frozen out;
  double kj = 0;
  for (const plan::FoodItem& item : plan.food) {
    if (item.cabinet != cabinet || item.kept != plan::Kept::frozen) continue;
    const models::FoodThermal food = models::food_thermal(item.water_fraction, item.freezing_c);
    portions.push_back({.food = food, .mass_kg = item.mass_kg});
    kj += item.mass_kg * models::food_enthalpy_kj_kg(food, item.starts_at_c);
    out.kg += item.mass_kg;
  }
  out.food = models::mix_foods(portions);
  if (out.kg > 0) out.kj_kg = kj / out.kg;
  return out;
}

void set_compartments(Power::Cabinet& out, const plan::Cabinet& cabinet, const Frozen& frozen) {
  models::CabinetParams& params = out.params;
  params.set_point_c = cabinet.set_point_c;
  params.slab = frozen.food;
  out.start.slab_kg = frozen.kg;
  out.start.slab_kj_kg = frozen.kj_kg;
  out.start.chilled_c = cabinet.starts_at_c;
  if (cabinet.ice_box) {
    params.kind = models::CabinetKind::ice_box;
    params.barrier_w_per_k = cabinet.frozen ? cabinet.frozen->barrier_w_k : good_contact_w_k;
    params.slab_share = 0;
    out.start.slab_kg = cabinet.ice_kg;
    out.start.slab_kj_kg = models::frozen_end_kj_kg(models::ice_thermal());
    out.full_ice_kg = cabinet.ice_kg;
  } else if (cabinet.frozen) {
    params.kind = cabinet.frozen->set_point_c ? models::CabinetKind::freezer
                                              : models::CabinetKind::frozen_below;
    params.frozen_set_point_c = cabinet.frozen->set_point_c.value_or(params.frozen_set_point_c);
    params.barrier_w_per_k = cabinet.frozen->barrier_w_k;
    params.slab_share = cabinet.frozen->wall_share;
  } else if (cabinet.set_point_c <= freezer_set_point_c) {
    params.kind = models::CabinetKind::frozen_below;
    params.barrier_w_per_k = good_contact_w_k;
    params.slab_share = 0;
    out.freezer_only = true;
  }
  out.fresh_kj_kg = out.start.slab_kj_kg;
}

void add_cabinet_stores(Power::Cabinet& out, const plan::Cabinet& cabinet, const plan::Plan& plan,
                        CourseBase& course) {
  const double kj = models::cabinet_enthalpy_kj(out.params, out.start);
  const double scale_kj = std::abs(kj) + 50 * out.start.chilled_kj_per_k + 400 * out.start.slab_kg;
  out.heat = add_store(course, {.name = "heat in " + cabinet.name,
                                .unit = "Wh",
                                .capacity = scale_kj / kj_per_wh,
                                .initial = kj / kj_per_wh});
  if (cabinet.ice_box) {
    out.ice = add_store(course, {.name = "ice in " + cabinet.name,
                                 .unit = "kg",
                                 .capacity = cabinet.ice_kg,
                                 .initial = cabinet.ice_kg,
                                 .kg_per_unit = 1,
                                 .vehicle = cabinet.vehicle});
  }
  const std::string name = "cold:" + cabinet.name;
  const double thaw_c = out.params.slab.freezing_c;
  const bool own = plan.margins.contains(name);
  ReserveInfo info{.name = name,
                   .title = plan.cold.size() > 1 ? cabinet.name : "Cold",
                   .unit = "°C",
                   .sense = Sense::keep_below,
                   .endurance = Endurance::hours,
                   .decimals = 1};
  const plan::Margin food_safety{.kind = plan::MarginKind::temperature_c, .value = 5};
  out.reserve = add_reserve(course, plan, info, food_safety);
  MarginRule& rule = course.reserves[static_cast<std::size_t>(out.reserve)].margin;
  if (out.freezer_only && !own) rule = {.fixed = thaw_c};
  out.limit_c = rule.fixed;
}

Power::Cabinet compile_cabinet(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::Cabinet& cabinet = plan.cold[static_cast<std::size_t>(index)];
  Power::Cabinet out;
  const models::RatedDraw rated{.mean_w = cabinet.rated_draw_w,
                                .ambient_c = cabinet.rated_ambient_c,
                                .inside_c = cabinet.rated_inside_c};
  set_compartments(out, cabinet, frozen_goods(plan, index));
  if (!cabinet.ice_box) {
    out.params.compressor = models::rated_compressor(rated, cabinet.running_w.value_or(0));
    if (!plan.power.banks.empty()) out.bank = cabinet.bank;
  }
  out.stopped = cabinet.stopped;
  out.params.leak_w_per_k = cabinet.heat_leak_w_k.value_or(models::rated_leak_w_per_k(rated));
  out.above_ambient_k = cabinet.above_ambient_k;
  out.above_when = cabinet.above_ambient_while;
  out.liner_kj_k = liner_kj_k_per_l * cabinet.volume_l;
  out.start.chilled_kj_per_k = out.liner_kj_k;
  for (const plan::FoodItem& item : plan.food) {
    if (item.cabinet != index || item.kept != plan::Kept::chilled) continue;
    out.start.chilled_kj_per_k +=
        item.mass_kg * models::food_thermal(item.water_fraction).above_kj_kg_k;
  }
  add_cabinet_stores(out, cabinet, plan, course);
  return out;
}

/// Hours of a step that lie within `hours` after sunset, of this evening or the one before.
double dark_overlap_h(const TimeStep& step, double hours) {
  double sum = 0;
  for (const double start : {step.dark_h, step.dark_h + 24}) {
    sum += std::max(0.0, std::min(start + step.dt_h, hours) - std::max(start, 0.0));
  }
  return std::min(sum, step.dt_h);
}

double mean_load_w(const plan::Load& load, const TimeStep& step) {
  if (load.energy_wh_day > 0) return load.energy_wh_day / 24;
  if (load.hours_day) return load.draw_w * *load.hours_day / 24;
  const bool driving = step.drive >= 0;
  const bool on = load.when == While::always || (load.when == While::driving) == driving;
  if (!on) return 0;
  if (load.after_dark_h) return load.draw_w * dark_overlap_h(step, *load.after_dark_h) / step.dt_h;
  return load.draw_w;
}

/// The same load over a whole day of staying put, Wh.
double standing_wh(const plan::Load& load) {
  if (load.energy_wh_day > 0) return load.energy_wh_day;
  if (load.hours_day) return load.draw_w * *load.hours_day;
  if (load.when == While::driving) return 0;
  return load.draw_w * load.after_dark_h.value_or(24);
}

/// Mean irradiance on a panel over clock hours, W/m².
double on_panel_w_m2(const plan::Charger& charger, const WeatherDay& weather, double from_h,
                     double to_h) {
  double solar_from = from_h + weather.solar_minus_clock_h;
  double solar_to = to_h + weather.solar_minus_clock_h;
  // The middle of the stretch within the day, so that it can be seen whether the sun is up.
  const double turn = 24 * std::floor((solar_from + solar_to) / 2 / 24);
  solar_from -= turn;
  solar_to -= turn;
  const double half_day_h = weather.radiation.sunset_rad * 12 / std::numbers::pi;
  if (solar_to < 12 - half_day_h || solar_from > 12 + half_day_h) return 0;
  if (charger.tilt_deg == 0) {
    return models::mean_radiation(weather.radiation, solar_from, solar_to).global_w_m2;
  }
  const models::Plane plane{.tilt_deg = charger.tilt_deg, .azimuth_deg = charger.facing_deg};
  return models::mean_plane_w_m2(weather.radiation, plane, models::usual_ground_albedo, solar_from,
                                 solar_to);
}

/// What a charger offers in the half of a step that begins `after_h` into it, A.
double source_a(const plan::Charger& charger, double voltage_v, const TimeStep& step,
                const PlaceDay& place_day, double after_h) {
  const double charging_v = voltage_v * Power::charging_over_nominal;
  switch (charger.kind) {
    case ChargerKind::dc_dc:
      return step.drive >= 0 ? charger.current_a : 0;
    case ChargerKind::mains: {
      if (step.drive >= 0 || !place_day.mains) return 0;
      return charger.current_a > 0 ? charger.current_a : charger.power_w / charging_v;
    }
    case ChargerKind::solar: {
      const double sun_w_m2 = on_panel_w_m2(charger, place_day.weather, step.from_h + after_h,
                                            step.from_h + after_h + step.dt_h / 2);
      if (sun_w_m2 <= 0) return 0;
      const models::SolarPanel panel{
          .rated_w = charger.power_w,
          .noct_c = charger.noct_c.value_or(models::installed_noct_c(charger.tilt_deg)),
          .loss = charger.loss};
      return models::panel_power_w(panel, sun_w_m2, step.air_c) / charging_v;
    }
    case ChargerKind::generator:
      return 0;
  }
  return 0;
}

void add_loads(Power::Compiled& out, const plan::Plan& plan) {
  for (const plan::Load& load : plan.power.loads) {
    const plan::Bank& bank = plan.power.banks[static_cast<std::size_t>(load.bank)];
    int last = 0;
    for (const plan::Load& other : plan.power.loads) {
      if (other.bank == load.bank) last = std::max(last, other.shed_order);
    }
    Power::Load compiled{.bank = load.bank, .vital = load.never_shed};
    if (load.shed_order > 0 && !load.never_shed) {
      const double share = static_cast<double>(load.shed_order - 1) / last;
      const double at = bank.floor - share * (bank.floor - bank.cut_off);
      compiled.shed_below_ah = at * bank.capacity_ah;
      compiled.back_above_ah = (at + hysteresis) * bank.capacity_ah;
    }
    if (compiled.shed_below_ah > 0) out.ranked.push_back(static_cast<int>(out.loads.size()));
    out.loads.push_back(compiled);
  }
}

void add_steps(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
               const CourseBase& course) {
  const Timeline& timeline = *course.timeline;
  const std::size_t banks = out.banks.size();
  const std::size_t loads = plan.power.loads.size();
  tables.load_w.assign(timeline.steps.size() * loads, 0);
  tables.vital_w.assign(timeline.steps.size() * banks, 0);
  tables.plain_w.assign(timeline.steps.size() * banks, 0);
  tables.source_a.assign(2 * timeline.steps.size() * banks, 0);
  for (std::size_t s = course.first_step; s < timeline.steps.size(); ++s) {
    const TimeStep& step = timeline.steps[s];
    if (step.dt_h <= 0) continue;
    const PlaceDay& place_day = timeline.place_days[static_cast<std::size_t>(step.place_day)];
    for (std::size_t l = 0; l < loads; ++l) {
      const Power::Load& load = out.loads[l];
      const double watts = mean_load_w(plan.power.loads[l], step);
      const std::size_t cell = s * banks + static_cast<std::size_t>(load.bank);
      tables.load_w[s * loads + l] = watts;
      if (load.vital) tables.vital_w[cell] += watts;
      if (!load.vital && load.shed_below_ah <= 0) tables.plain_w[cell] += watts;
    }
    for (const plan::Charger& charger : plan.power.chargers) {
      const auto bank = static_cast<std::size_t>(charger.bank);
      const double volts = out.banks[bank].params.voltage_v;
      double* first = tables.source_a.data() + 2 * s * banks + bank;
      *first += source_a(charger, volts, step, place_day, 0);
      *(first + banks) += source_a(charger, volts, step, place_day, step.dt_h / 2);
    }
  }
}

/// Ah a day that each bank gives while staying put with nothing coming in: its autonomy.
void add_autonomy(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
                  const CourseBase& course) {
  const Timeline& timeline = *course.timeline;
  const int first_day =
      course.first_step < timeline.steps.size() ? timeline.steps[course.first_step].day : 0;
  const std::size_t banks = out.banks.size();
  tables.use_ah_day.assign(timeline.place_days.size() * banks, 0);
  for (std::size_t h = 0; h < timeline.place_days.size(); ++h) {
    if (timeline.place_days[h].day < first_day) continue;
    double* row = tables.use_ah_day.data() + h * banks;
    for (const plan::Load& load : plan.power.loads) {
      const auto bank = static_cast<std::size_t>(load.bank);
      row[bank] += standing_wh(load) / out.banks[bank].params.voltage_v;
    }
    for (const Power::Cabinet& cabinet : out.cabinets) {
      if (cabinet.bank < 0 || cabinet.stopped) continue;
      const auto bank = static_cast<std::size_t>(cabinet.bank);
      const double above_k = cabinet.above_when == While::driving ? 0 : cabinet.above_ambient_k;
      const plan::Cabinet& its =
          plan.cold[static_cast<std::size_t>(&cabinet - out.cabinets.data())];
      for (int hour = 0; hour < 24; ++hour) {
        const double ambient_c =
            timeline.place_days[h].air_c.at(static_cast<std::size_t>(hour)) + above_k;
        models::CabinetParams params = cabinet.params;
        if (const double share = lid_share(hour, hour + 1); share > 0) {
          params.lid_w_per_k =
              share * lid_w_per_k(plan, its, ambient_c, timeline.place_days[h].weather.vapour_kpa);
        }
        row[bank] +=
            models::steady_cabinet(params, ambient_c).mean_w / out.banks[bank].params.voltage_v;
      }
    }
    for (std::size_t bank = 0; bank < banks; ++bank) {
      const models::BatteryParams& params = out.banks[bank].params;
      row[bank] *= models::peukert_factor(params, row[bank] / 24);
    }
  }
}

/// The coldest of the air in the hour of a step and in the hours before. Whole hours, so that it
/// does not depend on how an hour is cut into steps.
double charging_c(const TimeStep& step, const PlaceDay& place_day) {
  constexpr int hours = 24;
  double coldest_c = HUGE_VAL;
  const int hour = static_cast<int>(std::floor(step.from_h + step.dt_h / 2));
  for (int before = 0; before <= bank_lag_h; ++before) {
    const int then = (hour - before + hours) % hours;
    coldest_c = std::min(coldest_c, place_day.air_c.at(static_cast<std::size_t>(then)));
  }
  return coldest_c;
}

/// What the cold does to the banks.
void add_cold(Power::Tables& tables, const Power::Compiled& out, const CourseBase& course) {
  const Timeline& timeline = *course.timeline;
  tables.charging_c.assign(timeline.steps.size(), 0);
  for (std::size_t s = course.first_step; s < timeline.steps.size(); ++s) {
    const TimeStep& step = timeline.steps[s];
    tables.charging_c[s] =
        charging_c(step, timeline.place_days[static_cast<std::size_t>(step.place_day)]);
  }
  for (const DayInfo& day : timeline.days) {
    for (const Power::Bank& bank : out.banks) {
      tables.in_reach.push_back(1 / models::cold_factor(bank.params.kind, day.mean_c));
    }
  }
}

/// What the lids let in.
void add_lids(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
              const CourseBase& course) {
  const Timeline& timeline = *course.timeline;
  const std::size_t cabinets = out.cabinets.size();
  tables.lid_w_k.assign(timeline.steps.size() * cabinets, 0);
  tables.lid_day_w_k.assign(timeline.place_days.size() * cabinets, 0);
  for (std::size_t c = 0; c < cabinets; ++c) {
    const plan::Cabinet& cabinet = plan.cold[c];
    for (std::size_t s = course.first_step; s < timeline.steps.size(); ++s) {
      const TimeStep& step = timeline.steps[s];
      const double share = lid_share(step.from_h, step.from_h + step.dt_h);
      if (share <= 0) continue;
      const double vapour_kpa =
          timeline.place_days[static_cast<std::size_t>(step.place_day)].weather.vapour_kpa;
      tables.lid_w_k[s * cabinets + c] =
          share * lid_w_per_k(plan, cabinet, out.cabinets[c].ambient_c(step), vapour_kpa);
    }
    for (std::size_t h = 0; h < timeline.place_days.size(); ++h) {
      const WeatherDay& weather = timeline.place_days[h].weather;
      tables.lid_day_w_k[h * cabinets + c] =
          lid_hours / 24 * lid_w_per_k(plan, cabinet, weather.max_c, weather.vapour_kpa);
    }
  }
}

std::shared_ptr<const Power::Tables> tables_of(const Power::Compiled& compiled,
                                               const plan::Plan& plan, const CourseBase& course,
                                               const std::shared_ptr<const Power::Tables>& like) {
  Power::Inputs inputs{.timeline = course.timeline,
                       .power = plan.power,
                       .cold = plan.cold,
                       .slabs = {},
                       .people = plan.people.size()};
  for (const Power::Cabinet& cabinet : compiled.cabinets)
    inputs.slabs.push_back(cabinet.params.slab);
  if (like && like->first_step <= course.first_step && like->inputs == inputs) return like;
  auto tables = std::make_shared<Power::Tables>();
  tables->inputs = std::move(inputs);
  tables->first_step = course.first_step;
  add_steps(*tables, compiled, plan, course);
  add_autonomy(*tables, compiled, plan, course);
  add_cold(*tables, compiled, course);
  add_lids(*tables, compiled, plan, course);
  return tables;
}

}  // namespace

Power::Compiled Power::compile(const plan::Plan& plan, CourseBase& course, const Compiled* like) {
  Compiled out;
  for (std::size_t c = 0; c < plan.cold.size(); ++c) {
    out.cabinets.push_back(compile_cabinet(plan, static_cast<int>(c), course));
  }
  for (const plan::Bank& bank : plan.power.banks) {
    out.banks.push_back(compile_bank(bank, plan, course));
  }
  out.generators = generators(plan);
  add_loads(out, plan);
  for (const Power::Load& load : out.loads) {
    course.loads.push_back({.bank = load.bank,
                            .reserve = out.banks[static_cast<std::size_t>(load.bank)].reserve,
                            .never_shed = load.vital});
  }
  out.tables = tables_of(out, plan, course, like == nullptr ? nullptr : like->tables);
  const auto ice_box =
      std::ranges::find_if(out.cabinets, [](const Cabinet& c) { return c.ice >= 0; });
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity != plan::Commodity::ice || ice_box == out.cabinets.end()) continue;
    order.reserve = ice_box->reserve;
  }
  return out;
}

}  // namespace drystage::engine::reserves
