#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <map>

#include "plan/sections.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

/// What may be in a vehicle when it is weighed, as full as at the start. `per_l`: what a litre more
/// in it weighs; 0 of what has none.
struct Thing {
  Ticket::With with;
  double empty_kg = 0;
  double per_l = 0;
  double holds_l = 0;
};

std::vector<Thing> things_of(const Plan& plan, int index) {
  const Vehicle& vehicle = plan.vehicles[at(index)];
  std::vector<Thing> made;
  const auto add = [&made](const std::string& name, double kg, const Spot& spot) {
    made.push_back({.with = {.name = name, .kg = kg, .spot = spot}, .empty_kg = kg});
  };
  const auto add_vessel = [&made](const auto& one, double kg_l) {
    made.push_back(
        {.with = {.name = one.name, .kg = one.empty_kg + one.filled_l * kg_l, .spot = one.spot},
         .empty_kg = one.empty_kg,
         .per_l = kg_l,
         .holds_l = one.holds_l});
  };
  constexpr double water_kg_l = 1;
  for (const Person& person : plan.people) {
    if (person.vehicle == index) add(person.name, person.mass_kg, {.bay = person.seat});
  }
  for (const Container& one : plan.water.containers) {
    if (one.vehicle == index) add_vessel(one, water_kg_l);
  }
  for (const Tank& one : vehicle.tanks) add_vessel(one, fuel_kg_l(vehicle.fuel));
  if (vehicle.gear_kg > 0) add("gear", vehicle.gear_kg, {});
  for (const Gear& one : vehicle.gear) add(one.name, one.mass_kg, one.spot);
  for (const Cabinet& one : plan.cold) {
    if (one.vehicle == index) add(one.name, one.mass_kg + one.ice_kg, one.spot);
  }
  for (const FoodItem& one : plan.food) {
    if (one.vehicle != index) continue;
    add(one.name, one.mass_kg, one.cabinet < 0 ? one.spot : plan.cold[at(one.cabinet)].spot);
  }
  for (const Bank& one : plan.power.banks) {
    if (one.vehicle == index) add(one.name, one.mass_kg, one.spot);
  }
  for (const Charger& one : plan.power.chargers) {
    const auto bank = at(one.bank);
    if (one.mass_kg <= 0 || bank >= plan.power.banks.size()) continue;
    if (plan.power.banks[bank].vehicle == index) add(one.name, one.mass_kg, one.spot);
  }
  for (const Consumable& consumable : plan.consumables) {
    for (const ConsumableStore& one : consumable.stores) {
      if (one.vehicle != index) continue;
      const Spot spot = one.cabinet < 0 ? one.spot : plan.cold[at(one.cabinet)].spot;
      add(one.name, one.empty_kg + one.filled * consumable.unit_kg, spot);
    }
  }
  if (vehicle.tyres && vehicle.tyres->spare_wheels * vehicle.tyres->wheel_kg > 0) {
    add(spare_wheels_name, vehicle.tyres->spare_wheels * vehicle.tyres->wheel_kg,
        vehicle.tyres->spot);
  }
  return made;
}

class TicketReader {
 public:
  TicketReader(Log& log, const Vehicle& vehicle, std::vector<Thing> things)
      : log_(log), vehicle_(vehicle), things_(std::move(things)), taken_(things_.size(), false) {}

  Ticket read(const Node& node) {
    made_.mark = node.origin.mark;
    Fields fields(log_, node, "a weighing of " + units::in_quotes(vehicle_.name));
    made_.front_kg = fields.number("vehicles.weighed.front");
    made_.rear_kg = fields.number("vehicles.weighed.rear");
    for (const Node* one : one_or_more(log_, fields.get("vehicles.weighed.with"), "with")) {
      read_name(*one);
    }
    constexpr Key key = "vehicles.weighed.levels";
    if (const Node* levels = fields.get(key)) {
      for (const Entry& entry : map_entries(log_, *levels, key.name())) read_level(entry);
    }
    fields.finish();
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (taken_[i]) made_.with.push_back(things_[i].with);
    }
    return std::move(made_);
  }

 private:
  void read_name(const Node& node) {
    if (node.text == "trailer") {
      made_.towing = true;
      if (vehicle_.trailer) return;
      log_.error(node.origin, fmt::format("{} has no trailer", units::in_quotes(vehicle_.name)),
                 "what was in the vehicle, or on its ball");
      return;
    }
    if (const auto index = find(node)) taken_[*index] = true;
  }

  void read_level(const Entry& entry) {
    const auto index = find(key_node(entry));
    const auto level_l = read_quantity(log_, entry.value, "vehicles.weighed.levels", entry.key);
    if (!index || !level_l) return;
    Thing& thing = things_[*index];
    if (thing.per_l <= 0) {
      log_.error(entry.origin, fmt::format("{} has no level", units::in_quotes(entry.key)),
                 "a container or a tank", "put other things under \"with\"");
      return;
    }
    if (*level_l > thing.holds_l * (1 + 1e-9)) {
      log_.error(
          entry.origin,
          fmt::format("{} holds less than {}", units::in_quotes(entry.key), entry.value.text),
          "no more than it holds");
    }
    thing.with.kg = thing.empty_kg + *level_l * thing.per_l;
    taken_[*index] = true;
  }

  std::optional<std::size_t> find(const Node& node) {
    std::vector<std::string> names;
    for (const Thing& thing : things_) names.push_back(thing.with.name);
    // What has an error of its own may be missing here for that reason.
    if (log_.errors() > 0 && std::ranges::count(names, node.text) != 1) {
      return std::nullopt;
    }
    const auto index = read_reference(log_, node, "thing or person", names);
    if (!index) return std::nullopt;
    if (std::ranges::count(names, names[at(*index)]) > 1) {
      log_.error(node.origin,
                 fmt::format("two things in it are called {}", units::in_quotes(node.text)),
                 "another name for one of them");
    }
    return at(*index);
  }

  Log& log_;
  const Vehicle& vehicle_;
  std::vector<Thing> things_;
  std::vector<bool> taken_;
  Ticket made_;
};

}  // namespace

void read_weighed(Log& log, const Node& vehicles, Plan& plan) {
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const Node* weighed = vehicles.items[v].find("weighed");
    if (weighed == nullptr) continue;
    if (weighed->kind == Node::Kind::empty) {
      log_wrong_form(log, *weighed, "weighed", "one weighing, or a list of them");
    }
    const bool one = weighed->kind == Node::Kind::map;
    const std::vector<Thing> things = things_of(plan, static_cast<int>(v));
    if (one) {
      plan.vehicles[v].tickets.push_back(
          TicketReader(log, plan.vehicles[v], things).read(*weighed));
      continue;
    }
    for (const Node& item : list_items(log, *weighed, "weighed")) {
      plan.vehicles[v].tickets.push_back(TicketReader(log, plan.vehicles[v], things).read(item));
    }
  }
}

}  // namespace drystage::plan
