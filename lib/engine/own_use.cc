#include "engine/own_use.h"

#include <algorithm>
#include <cmath>

#include "engine/surfaces.h"

namespace drystage::engine {
namespace {

using plan::ObservedUse;
using plan::Surface;
using plan::Vehicle;

constexpr double km_h_per_m_s = 3.6;

// Work against rolling and drag over the heat of the fuel, idling apart. Petrol: 18 to 22 % of the
// heat on highways (US DOE, Vehicle Technologies Fact #709: to the wheels 20 to 26 %, of which
// braking takes 4 to 5), lower end. Diesel: a third more (US DOE and EPA, fueleconomy.gov, Where
// the Energy Goes).
constexpr double diesel_efficiency = 0.24;
constexpr double petrol_efficiency = 0.18;
// Of the engine's work, what comes to the wheels. Gearbox and final drive of an engine that stands
// lengthwise 0.88 to 0.92 (Bosch Automotive Handbook, memory), less for a transfer case and a
// second driven axle (ours).
constexpr double drivetrain_efficiency = 0.85;
// No engine does better on what it burns beyond idling: 0.45 for the best, times a good drivetrain
// (common practice).
constexpr double most_efficiency = 0.40;
constexpr double observed_density_kg_m3 = 1.134;
constexpr double least_ground = 1e-6;

std::size_t idx(Surface surface) { return static_cast<std::size_t>(surface); }

bool is_full(const ObservedUse& use) { return use.speed_km_h && use.mass_kg; }

/// The hardest ground with a figure that the efficiency can be had from.
const ObservedUse* on_hardest(const Vehicle& vehicle, bool full) {
  const ObservedUse* found = nullptr;
  for (const ObservedUse& use : vehicle.observed) {
    if (!is_hard(use.surface) || is_full(use) != full) continue;
    if (found == nullptr || use.surface < found->surface) found = &use;
  }
  return found;
}

double usual_efficiency(const Vehicle& vehicle) {
  if (vehicle.engine_efficiency > 0) return vehicle.engine_efficiency * drivetrain_efficiency;
  return vehicle.fuel == plan::FuelKind::diesel ? diesel_efficiency : petrol_efficiency;
}

/// Sets the efficiency so that the model gives the figure; idling makes way where it must.
void set_efficiency(const Vehicle& vehicle, const ObservedUse& use, models::Drivetrain& train) {
  const double with_all = implied_efficiency(vehicle, use);
  const double most = std::max(most_efficiency, with_all);
  const double efficiency = models::calibrated_efficiency(stretch_of(vehicle, use), train,
                                                          use.uses_l_km, observed_kg(vehicle, use));
  train.efficiency = efficiency > 0 && efficiency <= most ? efficiency : most;
  if (train.efficiency == efficiency) return;
  const models::Stretch stretch = stretch_of(vehicle, use);
  train.idle_l_h = use.uses_l_km * (1 - with_all / most) * stretch.speed_m_s * km_h_per_m_s;
}

/// What the ground takes beyond the tyre's own loss, by surface: usual, and observed.
struct Ground {
  std::array<double, plan::surface_count> usual{};
  std::array<std::optional<double>, plan::surface_count> own{};
  std::array<bool, plan::surface_count> own_full{};
};

Ground ground_of(const Vehicle& vehicle, const RoadModel& model) {
  Ground out;
  for (std::size_t s = 0; s < out.usual.size(); ++s) {
    out.usual.at(s) = rolling(static_cast<Surface>(s), plan::Tyres::usual) - tyre_rolling();
  }
  for (const ObservedUse& use : vehicle.observed) {
    const std::size_t s = idx(use.surface);
    if (use.surface == model.set_by) {
      out.own.at(s) = out.usual.at(s);
    } else {
      const double own = models::calibrated_rolling(stretch_of(vehicle, use), model.train,
                                                    use.uses_l_km, observed_kg(vehicle, use));
      out.own.at(s) = std::max(least_ground, own - tyre_rolling());
    }
    out.own_full.at(s) = is_full(use);
  }
  return out;
}

/// How many times the usual soft ground takes, from what was observed on soft ground.
void take_factors(const Ground& ground, std::array<double, plan::surface_count>& takes) {
  std::size_t from = idx(Surface::gravel);
  double from_ln = 0;
  const auto ln_usual = [&](std::size_t s) { return std::log(ground.usual.at(s)); };
  const auto ln_factor = [&](std::size_t s) -> std::optional<double> {
    if (!ground.own.at(s)) return std::nullopt;
    const double ln = std::log(*ground.own.at(s) / ground.usual.at(s));
    if (ln < 0 && !ground.own_full.at(s)) return std::nullopt;
    return ln;
  };
  for (std::size_t s = from + 1; s < takes.size(); ++s) {
    std::size_t to = s;
    while (to < takes.size() && !ln_factor(to)) ++to;
    double ln = from_ln;
    if (to < takes.size()) {
      const double share = (ln_usual(s) - ln_usual(from)) / (ln_usual(to) - ln_usual(from));
      ln += share * (*ln_factor(to) - from_ln);
    }
    takes.at(s) = ground.usual.at(s) * std::exp(ln);
    if (to == s) {
      from = s;
      from_ln = ln;
    }
  }
}

/// Holds what was not observed between what was, on harder and on softer ground.
void hold_in_order(const Ground& ground, std::array<double, plan::surface_count>& takes) {
  double most = HUGE_VAL;
  for (std::size_t s = takes.size(); s-- > 0;) {
    // Soft ground says nothing of hard ground.
    if (s == idx(Surface::gravel)) most = HUGE_VAL;
    if (ground.own.at(s)) {
      most = std::min(most, *ground.own.at(s));
    } else {
      takes.at(s) = std::min(takes.at(s), most);
    }
  }
  double least = 0;
  for (std::size_t s = 0; s < takes.size(); ++s) {
    takes.at(s) = ground.own.at(s) ? *ground.own.at(s) : std::max(takes.at(s), least);
    least = std::max(least, takes.at(s));
  }
}

}  // namespace

models::Stretch stretch_of(const Vehicle& vehicle, const ObservedUse& use) {
  const double speed_km_h = use.speed_km_h.value_or(surface_figures(use.surface).speed_km_h);
  return {.rolling = rolling(use.surface, plan::Tyres::usual),
          .drag_area_m2 = vehicle.drag_area_m2 +
                          (use.with_trailer && vehicle.trailer ? vehicle.trailer->drag_area_m2 : 0),
          .air_density_kg_m3 = observed_density_kg_m3,
          .speed_m_s = speed_km_h / km_h_per_m_s};
}

double observed_kg(const Vehicle& vehicle, const ObservedUse& use) {
  if (use.mass_kg) return *use.mass_kg;
  // Nothing that a plan may load more or less of: the model must not follow the load.
  return vehicle.empty_kg + vehicle.gear_kg +
         (use.with_trailer && vehicle.trailer ? vehicle.trailer->loaded_kg() : 0);
}

double implied_efficiency(const Vehicle& vehicle, const ObservedUse& use) {
  const bool diesel = vehicle.fuel == plan::FuelKind::diesel;
  const models::Drivetrain without_idling{.heating_mj_l =
                                              diesel ? models::diesel_mj_l : models::petrol_mj_l};
  return models::calibrated_efficiency(stretch_of(vehicle, use), without_idling, use.uses_l_km,
                                       observed_kg(vehicle, use));
}

RoadModel road_model(const Vehicle& vehicle) {
  const bool diesel = vehicle.fuel == plan::FuelKind::diesel;
  RoadModel out;
  out.train = {.heating_mj_l = diesel ? models::diesel_mj_l : models::petrol_mj_l,
               .efficiency = usual_efficiency(vehicle),
               .idle_l_h = vehicle.idle_l_h};
  if (const ObservedUse* use = on_hardest(vehicle, true)) {
    set_efficiency(vehicle, *use, out.train);
    out.set_by = use->surface;
  } else if (const ObservedUse* part = on_hardest(vehicle, false)) {
    const double efficiency = models::calibrated_efficiency(
        stretch_of(vehicle, *part), out.train, part->uses_l_km, observed_kg(vehicle, *part));
    if (efficiency > 0) out.train.efficiency = std::min(out.train.efficiency, efficiency);
  }
  const Ground ground = ground_of(vehicle, out);
  std::array<double, plan::surface_count> takes = ground.usual;
  take_factors(ground, takes);
  hold_in_order(ground, takes);
  for (std::size_t s = 0; s < takes.size(); ++s) out.rolling.at(s) = tyre_rolling() + takes.at(s);
  return out;
}

const ObservedUse* standing_figure(const Vehicle& vehicle, const RoadModel& model,
                                   Surface surface) {
  if (model.set_by == surface) return nullptr;
  const auto own = std::ranges::find(vehicle.observed, surface, &ObservedUse::surface);
  return own == vehicle.observed.end() ? nullptr : &*own;
}

}  // namespace drystage::engine
