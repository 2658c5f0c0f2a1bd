#include "engine/reserves/generator.h"

#include <algorithm>

#include "units/index.h"

namespace drystage::engine::reserves {

std::vector<Generator> generators(const plan::Plan& plan, const Damage& damage) {
  std::vector<Generator> out;
  bool mains = false;
  for (std::size_t c = 0; c < plan.power.chargers.size(); ++c) {
    const plan::Charger& charger = plan.power.chargers[c];
    if (!works(plan, damage, c)) continue;
    const bool gives = charger.current_a > 0 || charger.power_w > 0;
    mains = mains || (charger.kind == plan::ChargerKind::mains && gives);
    if (charger.kind != plan::ChargerKind::generator) continue;
    out.push_back({.charger = static_cast<int>(c),
                   .bank = charger.bank,
                   .vehicle = carrier(plan, damage, charger.vehicle),
                   .power_w = charger.power_w,
                   .uses_l_h = charger.uses_l_h,
                   .from_h = charger.starts_h,
                   .to_h = charger.starts_h + charger.hours_day});
  }
  for (Generator& generator : out) generator.rests_on_mains = mains;
  return out;
}

double running_h(const Generator& generator, const Calendar& calendar, const TimeStep& step) {
  const bool mains = calendar.place_days[at(step.place_day)].mains;
  if (step.drive >= 0 || (mains && generator.rests_on_mains)) return 0;
  const double end = step.from_h + step.dt_h;
  double hours = 0;
  // Today's run, and what of yesterday's goes on after midnight.
  for (const double turn : {0.0, -24.0}) {
    if (turn < 0 && step.day == 0) break;
    hours += std::max(
        0.0, std::min(end, generator.to_h + turn) - std::max(step.from_h, generator.from_h + turn));
  }
  return hours;
}

}  // namespace drystage::engine::reserves
