#include "engine/reserves/power.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using models::BatteryFlows;
using models::CabinetState;

/// A charge reckoned at 25 °C, such as a cut-off, as it stands in the cold of the day. (See
/// models::cold_floor_ah.)
double in_the_cold(const Power::Bank& bank, double charge_ah, double in_reach) {
  return bank.params.capacity_ah - (bank.params.capacity_ah - charge_ah) * in_reach;
}

double in_reach(const Power::Compiled& compiled, std::size_t bank, const TimeStep& step) {
  return compiled.tables
      ->in_reach[static_cast<std::size_t>(step.day) * compiled.banks.size() + bank];
}

/// What a bank's loads draw, W: those that may be shed, and those that never are; and the charge at
/// which the next of them goes.
struct Draw {
  double sheddable_w = 0;
  double vital_w = 0;
  double next_shed_ah = 0;
};

/// Sheds and restores loads by the charge, and sums up what is on.
Draw draw_of(const Power::Compiled& compiled, Power::State& state, Run& run, std::size_t index,
             const TimeStep& step, double hour) {
  Draw draw;
  const Power::Bank& bank = compiled.banks[index];
  const double reach = in_reach(compiled, index, step);
  // A load whose charge has just been come down to goes, whatever the last digit says.
  const double charge = state.charge_ah[index] - 1e-9 * bank.params.capacity_ah;
  const std::size_t cell = step.index * compiled.banks.size() + index;
  const double factor = run.factors().loads;
  draw.vital_w = compiled.tables->vital_w[cell] * factor;
  draw.sheddable_w = compiled.tables->plain_w[cell] * factor;
  for (const int number : compiled.ranked) {
    const auto l = static_cast<std::size_t>(number);
    const Power::Load& load = compiled.loads[l];
    if (load.bank != static_cast<int>(index)) continue;
    const double shed_ah = in_the_cold(bank, load.shed_below_ah, reach);
    if (state.shed[l] == 0 && charge < shed_ah) {
      state.shed[l] = 1;
      run.tell(EventKind::shed, hour, number);
    } else if (state.shed[l] != 0 && charge >= in_the_cold(bank, load.back_above_ah, reach)) {
      state.shed[l] = 0;
      run.tell(EventKind::restored, hour, number);
    }
    if (state.shed[l] != 0) continue;
    draw.sheddable_w += compiled.tables->load_w[step.index * compiled.loads.size() + l] * factor;
    if (shed_ah < charge) draw.next_shed_ah = std::max(draw.next_shed_ah, shed_ah);
  }
  return draw;
}

/// What all but generators offer in half a step.
double source_a(const Power::Compiled& compiled, const Run& run, std::size_t bank,
                std::size_t half_step) {
  const std::size_t cell = half_step * compiled.banks.size() + bank;
  const double planned_a = compiled.tables->source_a[cell];
  const double more = run.factors().panels - 1;
  return more == 0 ? planned_a : planned_a + more * compiled.tables->panel_a[cell];
}

double generator_a(const Power::Compiled& compiled, const Run& run, int bank, double voltage_v,
                   const TimeStep& step) {
  double amps = 0;
  for (const Generator& generator : compiled.generators) {
    if (generator.bank != bank) continue;
    const double share = run.signals.generator_share[at(generator.charger)];
    const double hours = running(generator, *run.course().timeline, step).hours * share;
    amps += generator.power_w / (voltage_v * Power::charging_over_nominal) * hours / step.dt_h;
  }
  return amps;
}

void write_down(const Power::Bank& bank, const BatteryFlows& flows, double wanted_ah, Run& run) {
  run.note_drawn(bank.reserve, wanted_ah * flows.served);
  run.gain(bank.store, bank.reserve, flows.gained_ah);
  run.use(bank.store, bank.reserve, flows.used_ah);
  run.lose(bank.store, bank.reserve, flows.lost_ah);
}

/// Tells of loads that must never be shed and found no charge for some of a step.
void tell_unserved(const Power::Compiled& compiled, std::size_t index, double missing_ah,
                   double hour, Run& run) {
  if (!run.fall_short(compiled.banks[index].reserve, missing_ah, hour)) return;
  for (std::size_t l = 0; l < compiled.loads.size(); ++l) {
    const Power::Load& load = compiled.loads[l];
    if (!load.vital || load.bank != static_cast<int>(index)) continue;
    run.tell(EventKind::vital_unserved, hour, static_cast<int>(l));
  }
}

/// Tells once a day that a bank is too cold to take what is offered.
void tell_refused(const Power::Bank& bank, Power::State& state, std::size_t index, double source,
                  double bank_c, const TimeStep& step, Run& run) {
  if (source <= 0 || state.refused_day[index] == step.day) return;
  if (!models::too_cold_to_charge(bank.params.kind, bank_c)) return;
  state.refused_day[index] = step.day;
  run.tell(EventKind::charge_refused, step.from_h, static_cast<int>(index));
}

/// Steps one bank; answers the share of the step in which it served what may be shed. Loads go at
/// the moment at which the charge comes down to where they are to go; sunshine is taken by halves
/// of the step, since a bank gains by it and loses to the night at different rates.
double step_bank(const Power::Compiled& compiled, Power::State& state, Run& run, std::size_t index,
                 const TimeStep& step) {
  const Power::Bank& bank = compiled.banks[index];
  const int number = static_cast<int>(index);
  const double a_per_w = 1 / bank.params.voltage_v;
  double& charge = state.charge_ah[index];
  const std::array<double, 2> sources{source_a(compiled, run, index, 2 * step.index),
                                      source_a(compiled, run, index, 2 * step.index + 1)};
  const double generator = generator_a(compiled, run, number, bank.params.voltage_v, step);
  const double bank_c = compiled.tables->charging_c[step.index];
  tell_refused(bank, state, index, sources[0] + sources[1] + generator, bank_c, step, run);
  double cabinets_w = 0;
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    if (!run.is_judged(compiled.cabinets[c].reserve)) continue;
    if (compiled.cabinets[c].bank == number) cabinets_w += state.flows[c].electric_wh / step.dt_h;
  }
  cabinets_w *= run.factors().cabinets;
  const double reach = in_reach(compiled, index, step);
  const double cut_off_ah = in_the_cold(bank, bank.cut_off_ah, reach);
  const double middle_h = step.dt_h / 2;
  double done_h = 0;
  double served_h = 0;
  while (done_h < step.dt_h) {
    const bool off = state.disconnected[index] != 0;
    const Draw draw = draw_of(compiled, state, run, index, step, step.from_h + done_h);
    const double watts = draw.vital_w + (off ? 0 : draw.sheddable_w + cabinets_w);
    // Only where the sun overtakes the loads, or falls behind them, do the halves matter.
    const double load_a = watts * a_per_w - generator;
    const bool alike = done_h <= 0 && (sources[0] - load_a) * (sources[1] - load_a) >= 0;
    const bool second = done_h >= middle_h;
    const double until_h = second || alike ? step.dt_h : middle_h;
    const double left_h = until_h - done_h;
    const double floor_ah =
        off ? in_the_cold(bank, 0, reach) : std::max(cut_off_ah, draw.next_shed_ah);
    const double sun = alike ? (sources[0] + sources[1]) / 2 : sources.at(second ? 1 : 0);
    const double source = sun + generator;
    const double before = charge;
    BatteryFlows flows = models::step_battery(bank.params, charge, watts * a_per_w, source, bank_c,
                                              left_h, floor_ah);
    if (flows.served >= 1 || off) {
      write_down(bank, flows, watts * a_per_w * left_h, run);
      if (off && flows.served < 1 && draw.vital_w > 0) {
        const double missing_ah = draw.vital_w * a_per_w * left_h * (1 - flows.served);
        const double since_h = step.from_h + done_h + flows.served * left_h;
        tell_unserved(compiled, index, missing_ah, since_h, run);
      }
      if (!off) served_h += left_h;
      done_h = until_h;
      continue;
    }
    // Only up to that moment; what comes after it draws less.
    charge = before;
    const double until_then_h = flows.served * left_h;
    flows = models::step_battery(bank.params, charge, watts * a_per_w, source, bank_c, until_then_h,
                                 in_the_cold(bank, 0, reach));
    write_down(bank, flows, watts * a_per_w * until_then_h, run);
    done_h += until_then_h;
    served_h += until_then_h;
    if (floor_ah > cut_off_ah) continue;
    state.disconnected[index] = 1;
    run.tell(EventKind::cut_off, step.from_h + done_h, number);
  }
  return served_h / step.dt_h;
}

/// Switches banks on again that have been charged well above their cut-off.
void reconnect(const Power::Compiled& compiled, Power::State& state, Run& run,
               const TimeStep& step) {
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    const Power::Bank& bank = compiled.banks[b];
    const double back_ah = in_the_cold(bank, bank.reconnect_ah, in_reach(compiled, b, step));
    if (state.disconnected[b] == 0 || state.charge_ah[b] < back_ah) continue;
    state.disconnected[b] = 0;
    run.tell(EventKind::reconnected, step.from_h, static_cast<int>(b));
  }
}

/// What a bank gives in a day of staying put, nothing coming in.
double use_ah_day(const Power::Compiled& compiled, const Run& run, std::size_t bank,
                  const TimeStep& step) {
  const Power::Tables& tables = *compiled.tables;
  const std::size_t cell = static_cast<std::size_t>(step.place_day) * compiled.banks.size() + bank;
  const double more = run.factors().loads - 1;
  const double more_cold = run.factors().cabinets - 1;
  if (more == 0 && more_cold == 0) return tables.use_ah_day[cell];
  const double drawn_ah = tables.drawn_ah_day[cell];
  const double loads_ah = tables.loads_ah_day[bank];
  return compiled.banks[bank].given_ah_day(drawn_ah + more * loads_ah +
                                           more_cold * (drawn_ah - loads_ah));
}

void set_levels(const Power::Compiled& compiled, const Power::State& state, Run& run,
                const TimeStep& step) {
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    const Power::Bank& bank = compiled.banks[b];
    const double reach = in_reach(compiled, b, step);
    const double fixed_ah = run.course().reserves[at(bank.reserve)].margin.fixed;
    run.reserve_level(bank.reserve) = state.charge_ah[b];
    run.use_per_day(bank.reserve) = use_ah_day(compiled, run, b, step);
    run.empty_at(bank.reserve) = in_the_cold(bank, bank.cut_off_ah, reach);
    run.margin_more(bank.reserve) = bank.lost ? 0 : in_the_cold(bank, fixed_ah, reach) - fixed_ah;
  }
}

}  // namespace

Power::State Power::begin(const Compiled& compiled, Run& run) {
  State state;
  for (const Bank& bank : compiled.banks) {
    state.charge_ah.push_back(run.level(bank.store));
    run.reserve_level(bank.reserve) = run.level(bank.store);
  }
  state.disconnected.assign(compiled.banks.size(), 0);
  state.shed.assign(compiled.loads.size(), 0);
  state.refused_day.assign(compiled.banks.size(), -1);
  for (const Cabinet& cabinet : compiled.cabinets) {
    state.cabinets.push_back(cabinet.start);
    run.reserve_level(cabinet.reserve) = cabinet.freezer_only
                                             ? frozen_temperature_c(cabinet, cabinet.start)
                                             : cabinet.start.chilled_c;
    run.level_at_end(cabinet.reserve) = run.reserve_level(cabinet.reserve);
  }
  state.before = state.cabinets;
  state.flows.resize(compiled.cabinets.size());
  return state;
}

void Power::supply(const Compiled& compiled, State& state, Run& run, int order) {
  const OrderInfo& info = run.course().orders[at(order)];
  if (info.order.commodity != plan::Commodity::ice) return;
  double room = run.order_room(order);
  double taken = 0;
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    const Cabinet& cabinet = compiled.cabinets[c];
    if (cabinet.ice < 0) continue;
    CabinetState& box = state.cabinets[c];
    const double part = std::min(room, cabinet.full_ice_kg - run.level(cabinet.ice));
    if (part <= 0) continue;
    const double kg = box.slab_kg + part;
    const double before_kj = models::cabinet_enthalpy_kj(cabinet.params, box);
    box.slab_kj_kg = (box.slab_kj_kg * box.slab_kg + cabinet.fresh_kj_kg * part) / kg;
    box.slab_kg = kg;
    const double change_wh =
        (models::cabinet_enthalpy_kj(cabinet.params, box) - before_kj) * wh_per_kj;
    run.lose(cabinet.heat, Run::no_reserve, -change_wh);
    run.gain(cabinet.ice, Run::no_reserve, part);
    room -= part;
    taken += part;
  }
  if (info.reserve >= 0) run.ordered(order, info.reserve, taken);
}

void Power::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  reconnect(compiled, state, run, step);
  // First as if there were electricity enough; put right below where there is not.
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    const Cabinet& cabinet = compiled.cabinets[c];
    if (!run.is_judged(cabinet.reserve)) continue;
    const double ambient_c = cabinet.ambient_c(step, run.conditions(step).air_c);
    settle_contents(cabinet, state.cabinets[c], run, c, ambient_c);
    state.before[c] = state.cabinets[c];
    const bool served = cabinet.bank < 0 || state.disconnected[at(cabinet.bank)] == 0;
    const bool on = served && !cabinet.stopped;
    state.flows[c] = models::step_cabinet(in_use(compiled, run, c, step), state.cabinets[c],
                                          ambient_c, step.dt_h, on);
  }
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    if (!run.is_judged(compiled.banks[b].reserve)) continue;
    if (state.disconnected[b] != 0) {
      step_bank(compiled, state, run, b, step);
      continue;
    }
    const double served = step_bank(compiled, state, run, b, step);
    if (state.disconnected[b] == 0) continue;
    for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
      const Cabinet& cabinet = compiled.cabinets[c];
      if (cabinet.bank != static_cast<int>(b) || cabinet.stopped) continue;
      if (!run.is_judged(cabinet.reserve)) continue;
      state.cabinets[c] = state.before[c];
      state.flows[c] =
          step_served(in_use(compiled, run, c, step), state.cabinets[c],
                      cabinet.ambient_c(step, run.conditions(step).air_c), step.dt_h, served);
    }
  }
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    if (!run.is_judged(compiled.cabinets[c].reserve)) continue;
    publish_cabinet(compiled, state.before[c], state.cabinets[c], state.flows[c], run, step, c);
  }
  set_levels(compiled, state, run, step);
}

void Power::lose_excess(const Compiled& compiled, State& state, Run& run) {
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    const Bank& bank = compiled.banks[b];
    const double room_ah = bank.lost ? 0 : bank.params.capacity_ah;
    const double lost_ah = state.charge_ah[b] - room_ah;
    if (lost_ah <= 0) continue;
    state.charge_ah[b] = room_ah;
    run.lose(bank.store, bank.reserve, lost_ah);
    if (bank.lost) state.disconnected[b] = 1;
  }
}

void Power::set_level(const Compiled& compiled, State& state, Run& run, int reserve, double level) {
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    const Bank& bank = compiled.banks[b];
    if (bank.reserve != reserve) continue;
    const double more_ah = level - state.charge_ah[b];
    state.charge_ah[b] = level;
    if (more_ah > 0) run.gain(bank.store, bank.reserve, more_ah);
    if (more_ah < 0) run.lose(bank.store, bank.reserve, -more_ah);
    // A bank found above its cut-off has not been cut off.
    if (level > bank.cut_off_ah) state.disconnected[b] = 0;
  }
  for (std::size_t c = 0; c < compiled.cabinets.size(); ++c) {
    const Cabinet& cabinet = compiled.cabinets[c];
    if (cabinet.reserve != reserve) continue;
    CabinetState& inside = state.cabinets[c];
    const double before_kj = models::cabinet_enthalpy_kj(cabinet.params, inside);
    (cabinet.freezer_only ? inside.slab_kj_kg : inside.chilled_c) =
        cabinet.freezer_only ? models::food_enthalpy_kj_kg(cabinet.params.slab, level) : level;
    const double more_kj = models::cabinet_enthalpy_kj(cabinet.params, inside) - before_kj;
    run.set_store(cabinet.heat, Run::no_reserve, run.level(cabinet.heat) + more_kj * wh_per_kj);
    run.reserve_level(reserve) = run.level_at_end(reserve) = level;
  }
}

}  // namespace drystage::engine::reserves
