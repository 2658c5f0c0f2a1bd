#include <fmt/core.h>

#include <algorithm>

#include "plan/items.h"
#include "plan/size_offers.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

constexpr std::string_view can_example = "20 L, {holds: 10 L, empty_mass: 0.7 kg, cost: 18}";

OfferForm<VesselOffer> vessel_form(std::string_view key) {
  return {.key = key,
          .size = &VesselOffer::holds,
          .size_key = "size.tanks.holds",
          .example = can_example};
}

void read_vessel(Fields& fields, VesselOffer& offer) {
  offer.empty_kg = fields.number_if("size.tanks.empty_mass");
  offer.cost = read_cost(fields);
  offer.space_l = read_space(fields, offer.holds);
}

// What there may be several of.
void read_can(Fields& fields, VesselOffer& offer) {
  read_vessel(fields, offer);
  offer.most = fields.whole_number_if("size.fuel_cans.most");
}

bool same_vessel(const VesselOffer& a, const VesselOffer& b) {
  return a.holds == b.holds && a.vehicle.value_or(0) == b.vehicle.value_or(0);
}

std::vector<VesselOffer> read_containers(Fields& containers, Key key, const Plan& plan) {
  const Node* node = containers.get(key);
  if (node == nullptr) return {};
  const auto read = [&](Fields& fields, VesselOffer& offer) {
    read_can(fields, offer);
    offer.vehicle = fields.reference_if("size.containers.*.in", names_of(plan.vehicles));
  };
  return read_offers(containers.log(), *node, vessel_form(key.name()), read, same_vessel);
}

void read_fuel_cans(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.fuel_cans;
  const auto vehicle = read_reference(log, key_node(entry), "vehicle", names_of(plan.vehicles));
  if (vehicle && is_twice(log, entry, "fuel_cans", made, *vehicle, &FuelCanOffers::vehicle)) return;
  auto cans = read_offers(log, entry.value, vessel_form(entry.key), read_can, same_vessel);
  if (vehicle) made.push_back({*vehicle, std::move(cans)});
}

// Stores of a consumable. Sizes are read in its unit; what one takes up is not reckoned from them.
void read_consumable_offers(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.consumables;
  const auto index = read_reference(log, key_node(entry), "consumable", names_of(plan.consumables));
  if (!index) return;
  if (is_twice(log, entry, "consumables", made, *index, &ConsumableOffers::consumable)) return;
  const Consumable& of = plan.consumables[at(*index)];
  const auto read = [](Fields& fields, VesselOffer& offer) {
    offer.empty_kg = fields.number_if("size.consumables.empty_mass");
    offer.cost = read_cost(fields);
    offer.space_l = read_space(fields);
    offer.most = fields.whole_number_if("size.consumables.most");
  };
  OfferForm<VesselOffer> form{
      .key = entry.key,
      .size = &VesselOffer::holds,
      .size_key = "size.consumables.holds",
      .example = "2 kg, {holds: 5 kg, empty_mass: 6 kg}",
      .unit = of.unit,
      .read_size = [&of](Log& to, const Node& node, Key key, std::string_view name) {
        return read_consumable_amount(to, node, key, name, of);
      }};
  made.push_back({*index, read_offers(log, entry.value, form, read, same_vessel)});
}

void read_spare_wheels(Log& log, const Entry& entry, Plan& plan) {
  const auto vehicle = read_reference(log, key_node(entry), "vehicle", names_of(plan.vehicles));
  const auto most = read_whole_number(log, entry.value, "size.spare_wheels", entry.key);
  if (!vehicle || !most) return;
  auto& made = plan.size.spare_wheels;
  if (is_twice(log, entry, "spare_wheels", made, *vehicle, &SpareWheelOffers::vehicle)) return;
  if (!plan.vehicles[at(*vehicle)].tyres) {
    log.error(entry.origin,
              fmt::format("spare_wheels: {} has no \"tyres\"", units::in_quotes(entry.key)),
              "a vehicle with \"tyres\"", "write tyres: {spare_wheels: 1} under the vehicle");
    return;
  }
  made.push_back({*vehicle, *most});
}

// The part of a fuel tank's contents that cannot be used; one that is more than the tank holds is
// an error told elsewhere.
double unusable_l(const Item& item, const Plan& plan) {
  if (item.sort != Item::Sort::tank) return 0;
  const Vehicle& vehicle = plan.vehicles[at(item.of)];
  const Tank& tank = vehicle.tanks[at(item.index)];
  return tank.unusable_l > tank.holds_l ? 0 : tank.unusable_l;
}

void read_tanks(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.tanks;
  auto items = items_of(plan);
  std::erase_if(items, [](const Item& item) {
    return item.sort != Item::Sort::container && item.sort != Item::Sort::tank;
  });
  const auto tank = read_item(log, key_node(entry), "tanks", "water container or fuel tank", items);
  if (tank && is_twice(log, entry, "tanks", made, *tank, &TankOffers::tank)) return;
  auto form = vessel_form(entry.key);
  form.example = "60 L, {holds: 80 L, empty_mass: 9 kg, cost: 340}";
  std::string more_than;
  if (const double rest_l = tank ? unusable_l(*tank, plan) : 0; rest_l > 0) {
    more_than = fmt::format("more than the {} of it that cannot be used",
                            units::format(rest_l, units::Kind::volume));
    form.more_than = rest_l;
    form.why = more_than;
  }
  auto sizes = read_offers(log, entry.value, form, read_vessel, same_vessel);
  if (tank) made.push_back({*tank, std::move(sizes)});
}

// The mass allowed to one vehicle, which must be able to move.
void read_mass_limit(Log& log, const Node& node, std::string_view key, int vehicle, Plan& plan) {
  const auto index = static_cast<std::size_t>(vehicle);
  const auto limit_kg = read_quantity(log, node, "size.limits.mass", key);
  if (limit_kg && *limit_kg < plan.vehicles[index].empty_kg) {
    log.error(node.origin, fmt::format("the limit of {} is less than the empty mass", node.text),
              "the mass allowed with everything loaded");
  }
  plan.size.limits.mass_kg[index] = limit_kg;
}

void read_mass_limits(Log& log, const Node& node, Plan& plan) {
  if (node.kind != Node::Kind::text) {
    for (const Entry& entry : map_entries(log, node, "mass")) {
      const auto vehicle = read_reference(log, key_node(entry), "vehicle", names_of(plan.vehicles));
      if (vehicle) read_mass_limit(log, entry.value, entry.key, *vehicle, plan);
    }
  } else if (plan.vehicles.size() == 1) {
    read_mass_limit(log, node, "mass", 0, plan);
  } else if (plan.vehicles.empty()) {
    log.error(node.origin, "mass: the plan has no vehicle", "a vehicle under \"vehicles\"");
  } else {
    log.error(node.origin,
              fmt::format("mass: {} for {} vehicles: of which?", node.text, plan.vehicles.size()),
              fmt::format("mass: {{{}: {}}}", plan.vehicles.front().name, node.text),
              "name the vehicles");
  }
}

void read_limits(Log& log, const Node& node, Plan& plan) {
  Fields fields(log, node, "limits");
  if (const Node* mass = fields.get("size.limits.mass")) read_mass_limits(log, *mass, plan);
  plan.size.limits.space_l = fields.number_if("size.limits.space");
  plan.size.limits.budget = fields.number_if("size.limits.budget");
  fields.finish();
}

// The key under which sizes of a thing are listed; empty if there are none.
std::string_view listed_under(const Item& item, const Size& size) {
  const auto has = [&](const auto& offers, auto which) {
    return std::ranges::find(offers, item.index, which) != offers.end();
  };
  switch (item.sort) {
    case Item::Sort::container:
    case Item::Sort::tank:
      return std::ranges::find(size.tanks, item, &TankOffers::tank) != size.tanks.end() ? "tanks"
                                                                                        : "";
    case Item::Sort::battery:
      return has(size.batteries, &BatteryOffers::bank) ? "batteries" : "";
    case Item::Sort::panel:
      return has(size.panels, &PanelOffers::charger) ? "panels" : "";
    case Item::Sort::cabinet:
      return has(size.cabinets, &CabinetOffers::cabinet) ? "cabinets" : "";
    case Item::Sort::store:  // one of so many of a size
    case Item::Sort::vehicle:
    case Item::Sort::trailer:
      return "";
    case Item::Sort::food:
      break;
  }
  const bool listed = std::ranges::find(size.food, item.name, &FoodOffer::item) != size.food.end();
  return listed ? "food" : "";
}

void read_keep(Log& log, const Node* keep, Plan& plan) {
  auto& made = plan.size.keep;
  const auto items = items_of(plan);
  for (const Node* node : one_or_more(log, keep, "keep")) {
    const auto item = read_item(log, *node, "keep", Key("size.keep")->value.of, items);
    if (!item) continue;
    const auto under = listed_under(*item, plan.size);
    if (std::ranges::find(made, *item) != made.end()) {
      log.error(node->origin, fmt::format("keep: {} is named twice", units::in_quotes(node->text)),
                "each one once");
    } else if (!under.empty()) {
      log.error(node->origin,
                fmt::format("{} is to be kept, but other sizes of it are on offer under {}",
                            units::in_quotes(node->text), units::in_quotes(under)),
                fmt::format("either \"keep\" or {}", units::in_quotes(under)), "which is it?");
    } else {
      made.push_back(*item);
    }
  }
}

// Where a key stands: what it has nothing behind has no place of its own.
const Origin& spot_of(const Fields& fields, std::string_view key) {
  const auto entry = std::ranges::find(fields.node().entries, key, &Entry::key);
  return entry == fields.node().entries.end() ? fields.origin() : entry->origin;
}

// The map under a key; null, and logged if the key is there, where it is none or empty. That
// nothing is on offer is said by leaving the key out.
const Node* filled_map(Fields& size, Key key) {
  const Node* node = size.get(key);
  if (node == nullptr) return nullptr;
  const std::string expected = fmt::format("{}: {}", key.name(), example_of(key));
  if (node->kind == Node::Kind::list || node->kind == Node::Kind::text) {
    log_wrong_form(size.log(), *node, key.name(), expected);
    return nullptr;
  }
  if (!node->entries.empty()) return node;
  size.log().error(spot_of(size, key.name()), fmt::format("{}: nothing is listed", key.name()),
                   expected, "or leave the key out");
  return nullptr;
}

// The things under one key, each with its offers.
template <class Read>
void read_each(Fields& size, Key key, Plan& plan, const Read& read) {
  const Node* node = filled_map(size, key);
  if (node == nullptr) return;
  for (const Entry& entry : node->entries) read(size.log(), entry, plan);
}

void read_container_offers(Fields& size, Plan& plan) {
  const Node* node = filled_map(size, "size.containers");
  if (node == nullptr) return;
  Fields fields(size.log(), *node, "containers");
  plan.size.drinking = read_containers(fields, "size.containers.drinking", plan);
  plan.size.utility = read_containers(fields, "size.containers.utility", plan);
  fields.finish();
}

}  // namespace

void read_size(Log& log, const Node& node, Plan& plan) {
  plan.size.limits.mass_kg.resize(plan.vehicles.size());
  Fields size(log, node, "size");
  read_container_offers(size, plan);
  read_each(size, "size.fuel_cans", plan, read_fuel_cans);
  read_each(size, "size.tanks", plan, read_tanks);
  read_each(size, "size.batteries", plan, read_battery_offers);
  read_each(size, "size.panels", plan, read_panel_offers);
  read_each(size, "size.cabinets", plan, read_cabinet_offers);
  read_each(size, "size.food", plan, read_food_offer);
  read_each(size, "size.consumables", plan, read_consumable_offers);
  read_each(size, "size.spare_wheels", plan, read_spare_wheels);
  if (const Node* limits = size.get("size.limits")) read_limits(log, *limits, plan);
  read_keep(log, size.get("size.keep"), plan);
  size.finish();
}

}  // namespace drystage::plan
