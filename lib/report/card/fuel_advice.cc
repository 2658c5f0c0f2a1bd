#include <algorithm>
#include <string>
#include <vector>

#include "report/card/advice.h"
#include "units/list.h"

namespace drystage::report {
namespace {

std::string vehicles_with(const AdvisedTrip& trip, plan::FuelKind kind) {
  std::vector<std::string> names;
  for (const plan::Vehicle& vehicle : trip.plan().vehicles) {
    if (vehicle.fuel == kind) names.push_back(vehicle.name);
  }
  return units::listed(names);
}

/// "4.0 L (main tank)".
std::string unusable_words(const AdvisedTrip& trip) {
  std::string list;
  for (const plan::Vehicle& vehicle : trip.plan().vehicles) {
    for (const plan::Tank& tank : vehicle.tanks) {
      if (tank.unusable_l <= 0) continue;
      std::string name = tank.name;
      if (trip.plan().vehicles.size() > 1) name += " of " + vehicle.name;
      units::add_to(list, advised_volume(trip, tank.unusable_l) + " (" + name + ")");
    }
  }
  return list;
}

std::string resting_place(const AdvisedTrip& trip) {
  if (!trip.weather.cold) return "in shade,";
  return trip.weather.heat ? "in shade, by night out of the wind," : "out of the wind,";
}

}  // namespace

Advice fuel_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Fuel", .steps = {}};
  std::string idle = trip.weather.heat ? " no cooling," : "";
  if (trip.weather.cold) idle += " no heating,";
  out.steps.push_back("Engine off when you stand: no idling," + idle +
                      " no charging by it. Leak: engine off at once, no flame, repair it first.");
  if (trip.weather.cold) {
    out.steps.emplace_back(
        "Keep warm with clothes, sleeping bags and each other. Run no engine, stove or heater "
        "where you sleep, nor with its exhaust in snow: the fumes kill without smell.");
  }
  std::vector<std::string> generators;
  for (const plan::Charger& charger : trip.plan().power.chargers) {
    if (charger.kind == plan::ChargerKind::generator) generators.push_back(charger.name);
  }
  if (!generators.empty()) {
    const bool vital = std::ranges::any_of(trip.plan().power.loads, &plan::Load::never_shed);
    out.steps.push_back("Leave off " + units::listed(generators) +
                        (vital ? ", unless what must not stop needs it." : "."));
  }
  out.steps.emplace_back("Drive slower and steadily, no detours; on sand less air in the tyres.");
  const std::string unusable = unusable_words(trip);
  if (!unusable.empty()) {
    out.steps.push_back("If your gauge shows all fuel, take off " + unusable + ".");
  }
  const std::string diesel = vehicles_with(trip, plan::FuelKind::diesel);
  const std::string petrol = vehicles_with(trip, plan::FuelKind::petrol);
  if (!diesel.empty() && !petrol.empty()) {
    out.steps.push_back("Never mix fuels: diesel into " + diesel + ", petrol into " + petrol + ".");
  }
  if (trip.plan().vehicles.size() > 1) {
    out.steps.emplace_back("Vehicles that burn the same fuel share it. Nobody goes on alone.");
  }
  if (!diesel.empty() && trip.weather.cold) {
    out.steps.emplace_back(
        "In frost diesel may wax and block the filter. Ask for winter fuel before you go. Wait "
        "for the warmest hours; never a flame under a tank.");
  }
  out.steps.push_back("It does not reach: stop " + resting_place(trip) +
                      " in sight of the road, with some left to charge the radio. Do not walk for "
                      "fuel.");
  return out;
}

}  // namespace drystage::report
