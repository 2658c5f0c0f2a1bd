#include <algorithm>
#include <string>
#include <vector>

#include "report/card/advice.h"
#include "report/text/words.h"
#include "units/index.h"
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

std::string charger_words(const plan::Charger& charger) {
  const std::string name = charger.name;
  switch (charger.kind) {
    case plan::ChargerKind::dc_dc:
      return name + " while driving; standing only with fuel to spare";
    case plan::ChargerKind::solar:
      return name + " clean, out of shade, turned to the sun";
    case plan::ChargerKind::mains:
      return name + " where mains is sure, see below";
    case plan::ChargerKind::generator:
      break;
  }
  return name + " outside, away from doors, windows and tents, with fuel to spare";
}

std::string frost_words(const plan::Bank& bank) {
  if (bank.kind == plan::BatteryKind::lfp) {
    return "Below freezing it takes no charge, and is harmed by it unless made for that: warm it "
           "first. In the cold the last of its charge is out of reach.";
  }
  return "In frost it takes little charge, and freezes when it is run down: keep it warm, charge "
         "it early. In the cold the last of its charge is out of reach.";
}

/// In which order a bank's loads are switched off, and what must go on.
std::vector<std::string> shedding(const AdvisedTrip& trip, int bank) {
  std::vector<const plan::Load*> ranked;
  std::vector<std::string> rest;
  std::vector<std::string> vital;
  for (const plan::Load& load : trip.plan().power.loads) {
    if (load.bank != bank) continue;
    if (load.never_shed) {
      vital.push_back(load.name);
    } else if (load.shed_order > 0) {
      ranked.push_back(&load);
    } else {
      rest.push_back(load.name);
    }
  }
  std::ranges::stable_sort(ranked, {}, &plan::Load::shed_order);
  std::vector<std::string> first(ranked.size());
  std::ranges::transform(ranked, first.begin(), [](const plan::Load* load) { return load->name; });
  std::vector<std::string> cabinets;
  for (const plan::Cabinet& cabinet : trip.plan().cold) {
    if (!cabinet.ice_box && cabinet.bank == bank) cabinets.push_back(cabinet.name);
  }
  std::string order;
  for (const auto* names : {&first, &rest}) {
    if (!names->empty()) units::add_to(order, units::listed(*names), "; then ");
  }
  if (!cabinets.empty()) {
    units::add_to(order, units::listed(cabinets), "; last of all ");
  }
  std::vector<std::string> out;
  if (!order.empty()) {
    out.push_back(
        "Switch off in this order, but never what you call for help with, even if it is listed: " +
        order + ".");
  }
  if (!vital.empty()) {
    out.push_back(
        capital(units::listed(vital)) +
        " must go on: change to its second source in time. Raise the alarm while it still "
        "runs.");
  }
  return out;
}

}  // namespace

Advice fuel_advice(const AdvisedTrip& trip) {
  Advice out{.title = "Fuel"};
  std::string idle = trip.weather.heat ? " no cooling," : "";
  if (trip.weather.cold) idle += " no heating,";
  out.say("Engine off when you stand: no idling," + idle +
          " no charging by it. Leak: engine off at once, no flame, repair it first.");
  out.say_if(trip.weather.cold,
             "Keep warm with clothes, sleeping bags and each other. Run no engine, stove or heater "
             "where you sleep, nor with its exhaust in snow: the fumes kill without smell.");
  std::vector<std::string> generators;
  for (const plan::Charger& charger : trip.plan().power.chargers) {
    if (charger.kind == plan::ChargerKind::generator) generators.push_back(charger.name);
  }
  if (!generators.empty()) {
    const bool vital = std::ranges::any_of(trip.plan().power.loads, &plan::Load::never_shed);
    out.say("Leave off " + units::listed(generators) +
            (vital ? ", unless what must not stop needs it." : "."));
  }
  out.say("Drive slower and steadily, no detours; on sand less air in the tyres.");
  const std::string unusable = unusable_words(trip);
  if (!unusable.empty()) {
    out.say("If your gauge shows all fuel, take off " + unusable + ".");
  }
  const std::string diesel = vehicles_with(trip, plan::FuelKind::diesel);
  const std::string petrol = vehicles_with(trip, plan::FuelKind::petrol);
  if (!diesel.empty() && !petrol.empty()) {
    out.say("Never mix fuels: diesel into " + diesel + ", petrol into " + petrol + ".");
  }
  out.say_if(trip.plan().vehicles.size() > 1,
             "Vehicles that burn the same fuel share it. Nobody goes on alone.");
  out.say_if(
      !diesel.empty() && trip.weather.cold,
      "In frost diesel may wax and block the filter. Ask for winter fuel before you go. Wait "
      "for the warmest hours; never a flame under a tank.");
  out.say("It does not reach: stop " + resting_place(trip) +
          " in sight of the road, with some left to charge the radio. Do not walk for "
          "fuel.");
  return out;
}

Advice battery_advice(const AdvisedTrip& trip, std::size_t reserve) {
  const engine::ReserveInfo& info = trip.planned.course.reserves[reserve];
  const std::string name = info.name.substr(info.name.find(':') + 1);
  Advice out{.title = capital(reserve_words(info))};
  const auto found = std::ranges::find(trip.plan().power.banks, name, &plan::Bank::name);
  const int bank = static_cast<int>(found - trip.plan().power.banks.begin());
  out.steps = shedding(trip, bank);
  std::string sources;
  for (const plan::Charger& charger : trip.plan().power.chargers) {
    if (charger.bank != bank) continue;
    units::add_to(sources, charger_words(charger), "; ");
  }
  out.say(sources.empty() ? std::string("Nothing charges it on this trip.")
                          : "Charge it: " + sources + ".");
  if (trip.weather.cold) {
    out.say(frost_words(trip.plan().power.banks[at(bank)]));
  }
  out.say("Charge what you call for help with before all else. Leave the starting battery alone.");
  return out;
}

}  // namespace drystage::report
