#include "engine/fuel_checks.h"

#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "engine/own_use.h"
#include "engine/surfaces.h"
#include "units/format.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

using plan::Diagnostic;
using plan::ObservedUse;
using plan::Severity;
using plan::Vehicle;

constexpr double least_efficiency = 0.15;
constexpr double likely_efficiency = 0.33;
constexpr double impossible_efficiency = 0.45;

std::string words(const ObservedUse& use) {
  return fmt::format("{} on {}", units::format(use.uses_l_km, units::Kind::fuel_use),
                     plan::surface_word(use.surface));
}

std::string speed_and_mass(const Vehicle& vehicle, const ObservedUse& use) {
  const double speed_km_h = use.speed_km_h.value_or(surface_figures(use.surface).speed_km_h);
  return fmt::format("{}{} and {}{}", units::format(speed_km_h, units::Kind::speed),
                     use.speed_km_h ? "" : " (usual there)",
                     units::format(observed_kg(vehicle, use), units::Kind::mass),
                     use.mass_kg ? "" : " (without people and what they load)");
}

bool says_all(const ObservedUse& use) { return use.speed_km_h && use.mass_kg; }

std::string efficiency_words(const Vehicle& vehicle, const ObservedUse& use, double efficiency) {
  return fmt::format("{}: {} at {} means that {:.0f} % of the fuel's heat comes to the wheels",
                     units::in_quotes(vehicle.name), words(use), speed_and_mass(vehicle, use),
                     100 * efficiency);
}

constexpr const char* too_high_hint =
    "one of these is likely wrong: the figure or its unit, the speed, the mass (was it so heavy?), "
    "a tail wind, a long descent, drag_area";
constexpr const char* too_low_hint =
    "one of these is likely wrong: the figure or its unit, the speed, the mass (was it heavier?), "
    "a headwind, hills, a trailer, drag_area";

void remark_on_efficiency(const Vehicle& vehicle, const ObservedUse& use,
                          std::vector<Diagnostic>& out) {
  if (!is_hard(use.surface)) return;
  const double efficiency = implied_efficiency(vehicle, use);
  if (efficiency >= least_efficiency && efficiency <= likely_efficiency) return;
  // Where the mass is not said it is taken low, and a load may be what used more.
  if (efficiency < least_efficiency && !says_all(use)) return;
  out.push_back({.severity = Severity::warning,
                 .mark = use.mark,
                 .what = efficiency_words(vehicle, use, efficiency),
                 .expected = "15 % to 33 %",
                 .hint = efficiency > likely_efficiency ? too_high_hint : too_low_hint});
}

/// Whether a figure on soft ground is less than sealed road would take.
void remark_on_soft_ground(const Vehicle& vehicle, const RoadModel& model, const ObservedUse& use,
                           std::vector<Diagnostic>& out) {
  if (is_hard(use.surface)) return;
  models::Stretch sealed = stretch_of(vehicle, use);
  sealed.rolling = tyre_rolling();
  const double least =
      models::litres(models::fuel_demand(sealed, model.train, 1, {}), observed_kg(vehicle, use));
  if (use.uses_l_km >= least) return;
  out.push_back(
      {.severity = Severity::warning,
       .mark = use.mark,
       .what = fmt::format("{}: {} is less than it would use on sealed road as slowly",
                           units::in_quotes(vehicle.name), words(use)),
       .expected = fmt::format("more than {}", units::format(least, units::Kind::fuel_use)),
       .hint = "are the figure and its unit right, and the speed and the mass?"});
}

/// Whether one figure is too low beside one of harder ground.
bool crosses(const Vehicle& vehicle, const RoadModel& model, const ObservedUse& softer,
             const ObservedUse& harder) {
  if (softer.uses_l_km >= harder.uses_l_km) return false;
  if (!is_hard(softer.surface) || !says_all(softer) || !says_all(harder)) return true;
  // On hard ground less may be true where it was driven more slowly.
  const auto rolling_of = [&](const ObservedUse& use) {
    return models::calibrated_rolling(stretch_of(vehicle, use), model.train, use.uses_l_km,
                                      *use.mass_kg);
  };
  return rolling_of(softer) < rolling_of(harder);
}

void remark_on_order(const Vehicle& vehicle, const RoadModel& model, const ObservedUse& softer,
                     std::vector<Diagnostic>& out) {
  const ObservedUse* worst = nullptr;
  for (const ObservedUse& harder : vehicle.observed) {
    if (harder.surface >= softer.surface || !crosses(vehicle, model, softer, harder)) continue;
    if (worst == nullptr || harder.uses_l_km > worst->uses_l_km) worst = &harder;
  }
  if (worst == nullptr) return;
  out.push_back({.severity = Severity::warning,
                 .mark = softer.mark,
                 .what = fmt::format("{}: {} is less than {}, which is harder ground",
                                     units::in_quotes(vehicle.name), words(softer), words(*worst)),
                 .expected = "more on softer ground, as fast and as heavy",
                 .hint = "both are used as they stand: are they right? Say the speed and the mass "
                         "of each"});
}

}  // namespace

std::vector<Diagnostic> fuel_problems(const plan::Plan& plan) {
  std::vector<Diagnostic> out;
  for (const Vehicle& vehicle : plan.vehicles) {
    for (const ObservedUse& use : vehicle.observed) {
      // Without its speed it may have been driven slowly: that is asked about, not refused.
      if (!is_hard(use.surface) || !use.speed_km_h) continue;
      const double efficiency = implied_efficiency(vehicle, use);
      if (efficiency <= impossible_efficiency) continue;
      out.push_back({.mark = use.mark,
                     .what = efficiency_words(vehicle, use, efficiency) + ": no engine does that",
                     .expected = "15 % to 33 %, at most 45 %",
                     .hint = too_high_hint});
    }
  }
  return out;
}

std::vector<Diagnostic> fuel_remarks(const plan::Plan& plan) {
  std::vector<Diagnostic> out;
  for (const Vehicle& vehicle : plan.vehicles) {
    const RoadModel model = road_model(vehicle);
    for (const ObservedUse& use : vehicle.observed) {
      remark_on_efficiency(vehicle, use, out);
      remark_on_soft_ground(vehicle, model, use, out);
      remark_on_order(vehicle, model, use, out);
    }
  }
  return out;
}

}  // namespace drystage::engine
