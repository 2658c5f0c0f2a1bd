#include "answers/mishaps/left_behind.h"

#include <algorithm>

namespace drystage::answers {
namespace {

template <class Things>
void move_over(Things& things, int from, int to) {
  for (auto& thing : things) {
    if (thing.vehicle == from) thing.vehicle = to;
  }
}

/// A vehicle that goes on, of the same fuel if there is one.
int taker_of(const plan::Plan& plan, int vehicle) {
  int taker = -1;
  for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
    const plan::Vehicle& other = plan.vehicles[static_cast<std::size_t>(v)];
    if (v == vehicle || other.lost) continue;
    const bool same_fuel = other.fuel == plan.vehicles[static_cast<std::size_t>(vehicle)].fuel;
    if (taker < 0 || same_fuel) taker = v;
    if (same_fuel) break;
  }
  return taker;
}

/// What was on the banks left behind goes to one that is still there.
void replug(plan::Plan& plan, int vehicle) {
  auto& banks = plan.power.banks;
  for (plan::Bank& bank : banks) bank.lost = bank.lost || bank.vehicle == vehicle;
  const auto other = std::ranges::find(banks, false, &plan::Bank::lost);
  const auto lost = [&](int bank) { return banks[static_cast<std::size_t>(bank)].lost; };
  const int to = static_cast<int>(other - banks.begin());
  const bool there_is_one = other != banks.end();
  for (plan::Charger& charger : plan.power.chargers) {
    if (!lost(charger.bank)) continue;
    charger.current_a = 0;
    charger.power_w = 0;
    charger.hours_day = 0;
  }
  if (!there_is_one) return;
  for (plan::Load& load : plan.power.loads) {
    if (lost(load.bank)) load.bank = to;
  }
  for (plan::Cabinet& cabinet : plan.cold) {
    if (!cabinet.ice_box && lost(cabinet.bank)) cabinet.bank = to;
  }
}

}  // namespace

void leave_behind(plan::Plan& plan, int vehicle) {
  const int taker = taker_of(plan, vehicle);
  if (taker < 0) return;
  plan.vehicles[static_cast<std::size_t>(vehicle)].lost = true;
  for (plan::Container& can : plan.water.containers)
    can.moved = can.moved || can.vehicle == vehicle;
  move_over(plan.water.containers, vehicle, taker);
  move_over(plan.people, vehicle, taker);
  move_over(plan.food, vehicle, taker);
  move_over(plan.cold, vehicle, taker);
  for (plan::Consumable& each : plan.consumables) move_over(each.stores, vehicle, taker);
  if (!plan.power.banks.empty()) replug(plan, vehicle);
  for (plan::Charger& charger : plan.power.chargers) {
    if (charger.vehicle != vehicle) continue;
    const bool runs = plan.vehicles[static_cast<std::size_t>(taker)].fuel == charger.fuel;
    if (charger.kind == plan::ChargerKind::dc_dc) charger.current_a = 0;
    if (charger.kind == plan::ChargerKind::generator && !runs) charger.hours_day = 0;
    charger.vehicle = taker;
  }
}

}  // namespace drystage::answers
