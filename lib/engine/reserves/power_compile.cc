// Making batteries, chargers, loads and cabinets ready to step.

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/reserves/power.h"
#include "engine/spots.h"
#include "engine/usual_lid.h"

namespace drystage::engine::reserves {
namespace {

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

Power::Bank compile_bank(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::Bank& bank = plan.power.banks[static_cast<std::size_t>(index)];
  const double capacity_ah = capacity_left(course.damage, index) * bank.capacity_ah;
  Power::Bank out;
  out.params =
      models::usual_battery(model_kind(bank.kind), capacity_ah, bank.rate_h, bank.voltage_v);
  out.params.peukert = bank.peukert.value_or(out.params.peukert);
  out.params.coulombic_efficiency = bank.efficiency.value_or(out.params.coulombic_efficiency);
  out.cut_off_ah = bank.cut_off * capacity_ah;
  const double gap = std::max(hysteresis, (bank.floor - bank.cut_off) / 2);
  out.reconnect_ah = out.cut_off_ah + gap * capacity_ah;
  out.store = add_store(course, {.name = bank.name,
                                 .kind = units::Kind::charge,
                                 .capacity = capacity_ah,
                                 .initial = bank.filled * capacity_ah,
                                 .vehicle = bank.vehicle,
                                 .empty_kg = bank.mass_kg,
                                 .spot = bank.spot,
                                 .family = Family::battery,
                                 .index = index});
  out.reserve = add_reserve(course, plan,
                            {.id = {.family = Family::battery, .of = index},
                             .owner = bank.name,
                             .title = plan.power.banks.size() > 1 ? bank.name : "Battery",
                             .kind = units::Kind::charge,
                             .capacity = capacity_ah,
                             .empty_at = out.cut_off_ah},
                            {.kind = plan::MarginKind::share, .value = bank.floor});
  out.lost = is_among(course.damage.vehicles, bank.vehicle);
  if (out.lost) course.reserves[static_cast<std::size_t>(out.reserve)].margin = {};
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
  } else if (plan::is_freezer(cabinet)) {
    params.kind = models::CabinetKind::frozen_below;
    params.barrier_w_per_k = good_contact_w_k;
    params.slab_share = 0;
    out.freezer_only = true;
  }
  out.fresh_kj_kg = out.start.slab_kj_kg;
}

void add_cabinet_stores(Power::Cabinet& out, const plan::Plan& plan, int index,
                        CourseBase& course) {
  const plan::Cabinet& cabinet = plan.cold[static_cast<std::size_t>(index)];
  const int vehicle = carrier(plan, course.damage, cabinet.vehicle);
  const double kj = models::cabinet_enthalpy_kj(out.params, out.start);
  const double scale_kj = std::abs(kj) + 50 * out.start.chilled_kj_per_k + 400 * out.start.slab_kg;
  out.heat = add_store(course, {.name = "heat in " + cabinet.name,
                                .kind = units::Kind::energy,
                                .capacity = scale_kj / kj_per_wh,
                                .initial = kj / kj_per_wh});
  if (cabinet.ice_box) {
    out.ice = add_store(course, {.name = "ice in " + cabinet.name,
                                 .kind = units::Kind::mass,
                                 .capacity = cabinet.ice_kg,
                                 .initial = cabinet.ice_kg,
                                 .kg_per_unit = 1,
                                 .vehicle = vehicle,
                                 .empty_kg = cabinet.mass_kg,
                                 .spot = spot_in(cabinet, vehicle),
                                 .family = Family::cold,
                                 .index = index});
  } else {
    add_thing(course, {.name = cabinet.name,
                       .vehicle = vehicle,
                       .kg = cabinet.mass_kg,
                       .spot = spot_in(cabinet, vehicle),
                       .family = Family::cold,
                       .index = index});
  }
  const double thaw_c = out.params.slab.freezing_c;
  ReserveInfo info{.id = {.family = Family::cold, .of = index},
                   .owner = cabinet.name,
                   .title = plan.cold.size() > 1 ? cabinet.name : "Cold",
                   .kind = units::Kind::temperature,
                   .sense = Sense::keep_below,
                   .endurance = Endurance::hours,
                   .decimals = 1};
  const plan::Margin food_safety{.kind = plan::MarginKind::temperature_c, .value = 5};
  out.reserve = add_reserve(course, plan, info, food_safety);
  MarginRule& rule = course.reserves[static_cast<std::size_t>(out.reserve)].margin;
  const bool own =
      plan.margins.contains(course.reserves[static_cast<std::size_t>(out.reserve)].name);
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
    if (!plan.power.banks.empty()) out.bank = feeding_bank(plan, course.damage, cabinet.bank);
  }
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
  add_cabinet_stores(out, plan, index, course);
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
  if (!applies(load.when, step)) return 0;
  if (load.after_dark_h) return load.draw_w * dark_overlap_h(step, *load.after_dark_h) / step.dt_h;
  return load.draw_w;
}

void add_loads(Power::Compiled& out, const plan::Plan& plan, const Damage& damage) {
  for (const plan::Load& load : plan.power.loads) {
    Power::Load compiled{.bank = feeding_bank(plan, damage, load.bank), .vital = load.never_shed};
    const auto index = static_cast<std::size_t>(compiled.bank);
    const plan::Bank& bank = plan.power.banks[index];
    const double capacity_ah = out.banks[index].params.capacity_ah;
    int last = 0;
    for (const plan::Load& other : plan.power.loads) {
      const bool same_bank = feeding_bank(plan, damage, other.bank) == compiled.bank;
      if (same_bank) last = std::max(last, other.shed_order);
    }
    if (load.shed_order > 0 && !load.never_shed) {
      const double share = static_cast<double>(load.shed_order - 1) / last;
      const double at = bank.floor - share * (bank.floor - bank.cut_off);
      compiled.shed_below_ah = at * capacity_ah;
      compiled.back_above_ah = (at + hysteresis) * capacity_ah;
    }
    if (compiled.shed_below_ah > 0) out.ranked.push_back(static_cast<int>(out.loads.size()));
    out.loads.push_back(compiled);
  }
}

/// What the loads draw, which goes by the calendar.
void add_draws(Power::Tables& tables, const Power::Compiled& out, const plan::Plan& plan,
               const CourseBase& course) {
  const std::vector<TimeStep>& steps = course.timeline->steps;
  const std::size_t banks = out.banks.size();
  const std::size_t loads = plan.power.loads.size();
  tables.load_w.assign(steps.size() * loads, 0);
  tables.vital_w.assign(steps.size() * banks, 0);
  tables.plain_w.assign(steps.size() * banks, 0);
  for (std::size_t s = course.first_step; s < steps.size(); ++s) {
    if (steps[s].dt_h <= 0) continue;
    for (std::size_t l = 0; l < loads; ++l) {
      const Power::Load& load = out.loads[l];
      const double watts = mean_load_w(plan.power.loads[l], steps[s]);
      const std::size_t cell = s * banks + static_cast<std::size_t>(load.bank);
      tables.load_w[s * loads + l] = watts;
      if (load.vital) tables.vital_w[cell] += watts;
      if (!load.vital && load.shed_below_ah <= 0) tables.plain_w[cell] += watts;
    }
  }
}

/// Room for what goes by the weather.
void make_room(Power::Tables& tables, const Power::Compiled& out, const Calendar& calendar) {
  const std::size_t banks = out.banks.size();
  const std::size_t cabinets = out.cabinets.size();
  tables.source_a.resize(2 * calendar.steps.size() * banks);
  tables.panel_a.resize(2 * calendar.steps.size() * banks);
  tables.in_reach.resize(calendar.days.size() * banks);
  tables.charging_c.resize(calendar.steps.size());
  tables.lid_w_k.resize(calendar.steps.size() * cabinets);
  tables.lid_day_w_k.resize(calendar.place_days.size() * cabinets);
  tables.drawn_ah_day.resize(calendar.place_days.size() * banks);
  tables.loads_ah_day.resize(banks);
  tables.use_ah_day.resize(calendar.place_days.size() * banks);
}

std::shared_ptr<Power::Tables> tables_of(const Power::Compiled& compiled, const plan::Plan& plan,
                                         const CourseBase& course) {
  const std::shared_ptr<Power::Tables>& like = compiled.tables;
  const Damage& damage = course.damage;
  Power::Inputs inputs{.timeline = course.timeline,
                       .power = plan.power,
                       .cold = plan.cold,
                       .damage = {.cabinets = damage.cabinets,
                                  .chargers = damage.chargers,
                                  .banks = damage.banks,
                                  .vehicles = damage.vehicles},
                       .slabs = {},
                       .people = plan.people.size()};
  for (const Power::Cabinet& cabinet : compiled.cabinets)
    inputs.slabs.push_back(cabinet.params.slab);
  if (like && like->first_step <= course.first_step && like->inputs == inputs) return like;
  auto tables = std::make_shared<Power::Tables>();
  tables->inputs = std::move(inputs);
  tables->first_step = course.first_step;
  add_draws(*tables, compiled, plan, course);
  make_room(*tables, compiled, *course.timeline);
  Power::fill(*tables, compiled, plan, course, course.made_ready());
  return tables;
}

}  // namespace

Power::Compiled Power::compile(const plan::Plan& plan, CourseBase& course, const Compiled* like) {
  Compiled out;
  for (std::size_t c = 0; c < plan.cold.size(); ++c) {
    out.cabinets.push_back(compile_cabinet(plan, static_cast<int>(c), course));
  }
  for (std::size_t b = 0; b < plan.power.banks.size(); ++b) {
    out.banks.push_back(compile_bank(plan, static_cast<int>(b), course));
  }
  for (std::size_t c = 0; c < plan.power.chargers.size() && !plan.power.banks.empty(); ++c) {
    const plan::Charger& charger = plan.power.chargers[c];
    add_thing(course, {.name = charger.name,
                       .vehicle = plan.power.banks[static_cast<std::size_t>(charger.bank)].vehicle,
                       .kg = charger.mass_kg,
                       .spot = charger.spot,
                       .family = Family::battery,
                       .index = static_cast<int>(c)});
  }
  add_loads(out, plan, course.damage);
  for (const Power::Load& load : out.loads) {
    course.loads.push_back({.bank = load.bank,
                            .reserve = out.banks[static_cast<std::size_t>(load.bank)].reserve,
                            .never_shed = load.vital});
  }
  // `heed` keeps them, or makes others.
  if (like != nullptr) out.tables = like->tables;
  const auto ice_box =
      std::ranges::find_if(out.cabinets, [](const Cabinet& c) { return c.ice >= 0; });
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity != plan::Commodity::ice || ice_box == out.cabinets.end()) continue;
    order.reserve = ice_box->reserve;
  }
  return out;
}

void Power::heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course) {
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    compiled.cabinets[c].stopped = is_among(course.damage.cabinets, static_cast<int>(c));
  }
  compiled.generators = generators(plan, course);
  compiled.tables = tables_of(compiled, plan, course);
}

}  // namespace drystage::engine::reserves
