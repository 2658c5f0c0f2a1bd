// What helps when a bank runs low, or a cabinet with it gets warm: more panel, more battery.

#include <fmt/core.h>

#include "engine/reserves/power.h"
#include "engine/usual_sizes.h"

namespace drystage::engine::reserves {
namespace {

// What is added of them (common practice).
constexpr std::array<double, 6> panels_w{50, 100, 150, 200, 300, 400};
constexpr std::array<double, 3> batteries_ah{50, 100, 200};

void add_panels(std::vector<Remedy>& out, int bank) {
  for (const double watts : panels_w) {
    out.push_back({.name = {fmt::format("{:.0f} W more of solar panel, laid flat", watts)},
                   .size = usual_panel_kg(watts),
                   .apply = [=](plan::Plan& plan) {
                     plan.power.chargers.push_back({.name = "added panel",
                                                    .kind = plan::ChargerKind::solar,
                                                    .bank = bank,
                                                    .power_w = watts});
                   }});
  }
}

void add_batteries(std::vector<Remedy>& out, const plan::Plan& plan, int bank) {
  const auto index = static_cast<std::size_t>(bank);
  const plan::Bank& target = plan.power.banks[index];
  for (const double ah : batteries_ah) {
    const double kg = usual_bank_kg(target.kind, ah, target.voltage_v);
    out.push_back({.name = {fmt::format("{:.0f} Ah more in {}", ah, target.name)},
                   .size = kg,
                   .apply = [=](plan::Plan& changed) {
                     changed.power.banks[index].capacity_ah += ah;
                     changed.power.banks[index].mass_kg += kg;
                   }});
  }
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
