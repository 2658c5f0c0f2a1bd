#include <algorithm>

#include "engine/reserves/power.h"
#include "models/spoilage.h"
#include "units/index.h"

namespace drystage::engine::reserves {

using models::CabinetFlows;
using models::CabinetState;

namespace {

// Of what was frozen at the outset: less is no more than the last crumbs.
constexpr double crumbs = 0.05;

void add_flows(CabinetFlows& sum, const CabinetFlows& more, double offset_h) {
  sum.leak_in_kj += more.leak_in_kj;
  sum.pumped_kj += more.pumped_kj;
  sum.electric_wh += more.electric_wh;
  sum.compressor_on_h += more.compressor_on_h;
  sum.melted_kg += more.melted_kg;
  sum.max_chilled_c = std::max(sum.max_chilled_c, more.max_chilled_c);
  sum.hours_above_5c += more.hours_above_5c;
  sum.hours_above_32c += more.hours_above_32c;
  if (more.hour_thawed >= 0) sum.hour_thawed = offset_h + more.hour_thawed;
}

}  // namespace

double frozen_temperature_c(const Power::Cabinet& cabinet, const CabinetState& state) {
  return state.slab_kg > 0 ? models::food_temperature_c(cabinet.params.slab, state.slab_kj_kg)
                           : state.chilled_c;
}

void settle_contents(const Power::Cabinet& cabinet, CabinetState& state, Run& run,
                     std::size_t index, double air_c) {
  Signals& signals = run.signals;
  const double chilled_kj_k = cabinet.liner_kj_k + signals.chilled_kj_k[index];
  const double all_kj_k = signals.bought_kj_k[index] + signals.stated_kj_k[index];
  // Of what was bought some may be gone again.
  const double left = all_kj_k > 0 ? std::min(1.0, signals.chilled_kj_k[index] / all_kj_k) : 0;
  const double bought_kj_k = left * all_kj_k;
  const double bought_kj = left * (signals.bought_kj_k[index] * air_c + signals.stated_kj[index]);
  const double rest_kj_k = chilled_kj_k - bought_kj_k;
  double change_kj = (rest_kj_k - state.chilled_kj_per_k) * state.chilled_c + bought_kj;
  if (all_kj_k > 0) {
    state.chilled_c = (rest_kj_k * state.chilled_c + bought_kj) / chilled_kj_k;
    signals.bought_kj_k[index] = 0;
    signals.stated_kj_k[index] = 0;
    signals.stated_kj[index] = 0;
  }
  state.chilled_kj_per_k = chilled_kj_k;
  if (cabinet.ice < 0) {
    const double kg = run.signals.frozen_kg[index];
    const double added_kg = kg - state.slab_kg;
    change_kj += added_kg * (added_kg > 0 ? cabinet.fresh_kj_kg : state.slab_kj_kg);
    if (added_kg > 0) {
      state.slab_kj_kg = (state.slab_kj_kg * state.slab_kg + cabinet.fresh_kj_kg * added_kg) / kg;
    }
    state.slab_kg = kg;
  }
  const double change_wh = change_kj * wh_per_kj;
  if (change_wh > 0) run.gain(cabinet.heat, Run::no_reserve, change_wh);
  if (change_wh < 0) run.lose(cabinet.heat, Run::no_reserve, -change_wh);
}

CabinetFlows step_served(const models::CabinetParams& params, CabinetState& state, double air_c,
                         double dt_h, double served) {
  const double on_h = dt_h * served;
  CabinetFlows flows = models::step_cabinet(params, state, air_c, on_h, true);
  if (on_h <= 0) flows.max_chilled_c = state.chilled_c;
  add_flows(flows, models::step_cabinet(params, state, air_c, dt_h - on_h, false), on_h);
  return flows;
}

models::CabinetParams in_use(const Power::Compiled& compiled, const Run& run, std::size_t index,
                             const TimeStep& step) {
  models::CabinetParams params = compiled.cabinets[index].params;
  params.lid_w_per_k =
      compiled.tables->lid_w_k[step.index * compiled.cabinets.size() + index] * run.factors().lids;
  return params;
}

void publish_cabinet(const Power::Compiled& compiled, const CabinetState& before,
                     const CabinetState& after, const CabinetFlows& flows, Run& run,
                     const TimeStep& step, std::size_t index) {
  const Power::Cabinet& cabinet = compiled.cabinets[index];
  const double leak_wh = flows.leak_in_kj * wh_per_kj;
  if (leak_wh >= 0) run.gain(cabinet.heat, Run::no_reserve, leak_wh);
  if (leak_wh < 0) run.lose(cabinet.heat, Run::no_reserve, -leak_wh);
  run.use(cabinet.heat, Run::no_reserve, flows.pumped_kj * wh_per_kj);
  if (cabinet.ice >= 0) {
    run.lose(cabinet.ice, Run::no_reserve, std::min(flows.melted_kg, run.level(cabinet.ice)));
  }
  Signals& signals = run.signals;
  signals.chilled_c[index] = (before.chilled_c + after.chilled_c) / 2;
  signals.chilled_from_c[index] = before.chilled_c;
  signals.chilled_to_c[index] = after.chilled_c;
  signals.above_5c_h[index] = flows.hours_above_5c;
  signals.clock_h[index] =
      flows.hours_above_5c + (models::great_heat_rate - 1) * flows.hours_above_32c;
  const bool thawed =
      after.slab_kg > 0 && after.slab_kj_kg >= models::thawed_end_kj_kg(cabinet.params.slab);
  if (thawed) run.signals.has_thawed[index] = 1;
  signals.thawed_at_h[index] = thawed ? std::max(0.0, flows.hour_thawed) : without_limit;
  const double from_c = frozen_temperature_c(cabinet, before);
  const double to_c = frozen_temperature_c(cabinet, after);
  // How warm frozen goods are is nobody's business until they have thawed.
  if (signals.has_thawed[index] != 0) {
    signals.frozen_c[index] = (from_c + to_c) / 2;
    signals.frozen_above_5c_h[index] =
        step.dt_h * models::share_above(models::danger_from_c, from_c, to_c);
    signals.frozen_clock_h[index] = step.dt_h * models::mean_food_clock_rate(from_c, to_c);
  }
  if (after.slab_kg > 0 && cabinet.ice < 0 && !cabinet.freezer_only)
    run.note_frozen(cabinet.reserve, std::max(from_c, to_c));
  run.level_at_start(cabinet.reserve) = cabinet.freezer_only ? from_c : before.chilled_c;
  // The last crumbs of a slab that has been eaten thaw too; that is no news.
  const bool much = after.slab_kg > crumbs * cabinet.start.slab_kg;
  if (flows.hour_thawed >= 0 && cabinet.ice < 0 && much) {
    run.tell(EventKind::thawed, step.from_h + flows.hour_thawed, static_cast<int>(index));
  }
  run.reserve_level(cabinet.reserve) =
      cabinet.freezer_only ? to_c : std::max(flows.max_chilled_c, after.chilled_c);
  run.level_at_end(cabinet.reserve) = cabinet.freezer_only ? to_c : after.chilled_c;
  if (step.last_of_day && run.keeps_endurance()) {
    const double above_k = cabinet.above_when == plan::While::driving ? 0 : cabinet.above_ambient_k;
    models::CabinetParams params = cabinet.params;
    params.lid_w_per_k =
        compiled.tables
            ->lid_day_w_k[static_cast<std::size_t>(step.place_day) * compiled.cabinets.size() +
                          index];
    run.endurance_h(cabinet.reserve) = models::hold_over_h(
        params, after, run.course().timeline->conditions.days[at(step.day)].max_c + above_k,
        cabinet.limit_c);
  }
}

}  // namespace drystage::engine::reserves
