#include <algorithm>
#include <string>
#include <vector>

#include "report/card/advice.h"
#include "report/text/capital.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

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

Advice battery_advice(const AdvisedTrip& trip, std::size_t reserve) {
  const engine::ReserveInfo& info = trip.planned.course.reserves[reserve];
  const std::string name = info.name.substr(info.name.find(':') + 1);
  Advice out{.title = capital(reserve_words(info)), .steps = {}};
  const auto found = std::ranges::find(trip.plan().power.banks, name, &plan::Bank::name);
  const int bank = static_cast<int>(found - trip.plan().power.banks.begin());
  out.steps = shedding(trip, bank);
  std::string sources;
  for (const plan::Charger& charger : trip.plan().power.chargers) {
    if (charger.bank != bank) continue;
    units::add_to(sources, charger_words(charger), "; ");
  }
  out.steps.push_back(sources.empty() ? std::string("Nothing charges it on this trip.")
                                      : "Charge it: " + sources + ".");
  if (trip.weather.cold) {
    out.steps.push_back(frost_words(trip.plan().power.banks[static_cast<std::size_t>(bank)]));
  }
  out.steps.emplace_back(
      "Charge what you call for help with before all else. Leave the starting battery alone.");
  return out;
}

}  // namespace drystage::report
