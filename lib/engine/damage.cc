#include "engine/damage.h"

#include "units/index.h"

namespace drystage::engine {
namespace {

template <class Thing>
void append(std::vector<Thing>& list, const std::vector<Thing>& more) {
  list.insert(list.end(), more.begin(), more.end());
}

int taker_of(const plan::Plan& plan, const std::vector<int>& left, int vehicle) {
  const plan::FuelKind fuel = plan.vehicles[at(vehicle)].fuel;
  int taker = vehicle;
  for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
    if (is_among(left, v)) continue;
    if (plan.vehicles[at(v)].fuel == fuel) return v;
    if (taker == vehicle) taker = v;
  }
  return taker;
}

}  // namespace

void Damage::add(const Damage& more) {
  append(containers, more.containers);
  append(tanks, more.tanks);
  append(stores, more.stores);
  append(cabinets, more.cabinets);
  append(chargers, more.chargers);
  append(banks, more.banks);
  append(vehicles, more.vehicles);
  append(punctured, more.punctured);
}

void Damage::add_new(Damage more) {
  const auto drop_known = [](auto& list, const auto& known) {
    std::erase_if(list, [&](const auto& thing) { return is_among(known, thing); });
  };
  drop_known(more.containers, containers);
  drop_known(more.tanks, tanks);
  drop_known(more.stores, stores);
  add(more);
}

Damage lost_on_the_way(const plan::Plan& plan) {
  Damage out;
  for (const plan::Change& change : plan.changes) {
    append(out.containers, change.containers);
    append(out.tanks, change.tanks);
    append(out.stores, change.stores);
  }
  return out;
}

double capacity_left(const Damage& damage, int bank) {
  double left = 1;
  for (const WornBank& worn : damage.banks) {
    if (worn.bank == bank) left *= worn.left;
  }
  return left;
}

int carrier(const plan::Plan& plan, const Damage& damage, int vehicle) {
  std::vector<int> left;
  for (const int next : damage.vehicles) {
    left.push_back(next);
    if (next == vehicle) vehicle = taker_of(plan, left, vehicle);
  }
  return vehicle;
}

int feeding_bank(const plan::Plan& plan, const Damage& damage, int bank) {
  const std::vector<plan::Bank>& banks = plan.power.banks;
  std::vector<int> left;
  const auto is_left = [&left](const plan::Bank& one) { return is_among(left, one.vehicle); };
  for (const int next : damage.vehicles) {
    left.push_back(next);
    const auto other = std::ranges::find_if_not(banks, is_left);
    if (other == banks.end()) break;
    if (is_left(banks[at(bank)])) {
      bank = static_cast<int>(other - banks.begin());
    }
  }
  return bank;
}

bool works(const plan::Plan& plan, const Damage& damage, std::size_t charger) {
  const plan::Charger& its = plan.power.chargers[charger];
  const auto is_left = [&damage](int vehicle) { return is_among(damage.vehicles, vehicle); };
  if (is_among(damage.chargers, static_cast<int>(charger))) return false;
  if (is_left(plan.power.banks[at(its.bank)].vehicle)) return false;
  if (its.kind == plan::ChargerKind::dc_dc) return !is_left(its.vehicle);
  if (its.kind != plan::ChargerKind::generator || its.burns >= 0) return true;
  if (!is_left(its.vehicle)) return true;
  const auto feeds = static_cast<std::size_t>(carrier(plan, damage, its.vehicle));
  return plan.vehicles[feeds].fuel == its.fuel;
}

}  // namespace drystage::engine
