// What helps when a bank runs low, or a cabinet with it gets warm: more panel, more battery.

#include <fmt/core.h>

#include "engine/reserves/power.h"
#include "engine/usual_sizes.h"

namespace drystage::engine::reserves {
namespace {

// What is added of them, in steps, up to so many (common practice).
constexpr double panel_step_w = 50;
constexpr int most_panel_steps = 8;
constexpr double battery_step_ah = 50;
constexpr int most_battery_steps = 4;

void add_panels(std::vector<Remedy>& out, int bank) {
  const auto panel = [bank](int n) {
    const double watts = n * panel_step_w;
    return Remedy{.name = {fmt::format("{:.0f} W more of solar panel, laid flat", watts)},
                  .size = usual_panel_kg(watts),
                  .apply = [=](plan::Plan& plan) {
                    plan.power.chargers.push_back(plan::solar_panel("added panel", bank, watts));
                  }};
  };
  const std::string kind = fmt::format("panel of bank {}", bank);
  for (int n = 1; n <= most_panel_steps; ++n) out.push_back(in_steps(kind, panel, n));
}

void add_batteries(std::vector<Remedy>& out, const plan::Plan& plan, int bank) {
  const auto index = static_cast<std::size_t>(bank);
  const plan::Bank& target = plan.power.banks[index];
  const auto more = [index, name = target.name, chemistry = target.kind,
                     voltage_v = target.voltage_v](int n) {
    const double ah = n * battery_step_ah;
    const double kg = usual_bank_kg(chemistry, ah, voltage_v);
    return Remedy{.name = {fmt::format("{:.0f} Ah more in {}", ah, name)},
                  .size = kg,
                  .apply = [=](plan::Plan& changed) {
                    changed.power.banks[index].capacity_ah += ah;
                    changed.power.banks[index].mass_kg += kg;
                  }};
  };
  const std::string kind = fmt::format("battery {}", bank);
  for (int n = 1; n <= most_battery_steps; ++n) out.push_back(in_steps(kind, more, n));
}

}  // namespace

std::vector<Remedy> Power::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                    double /*lacking*/) {
  std::vector<Remedy> out;
  for (std::size_t b = 0; b < compiled.banks.size(); ++b) {
    const int bank = static_cast<int>(b);
    bool concerned = compiled.banks[b].reserve == reserve;
    for (const Cabinet& cabinet : compiled.cabinets) {
      concerned = concerned || (cabinet.bank == bank && cabinet.reserve == reserve);
    }
    if (!concerned) continue;
    add_panels(out, bank);
    add_batteries(out, plan, bank);
  }
  return out;
}

}  // namespace drystage::engine::reserves
