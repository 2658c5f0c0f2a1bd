#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

Tank read_tank(Log& log, const Node& node, const Vehicle& vehicle) {
  Tank made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a tank");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "tanks", made.name, vehicle.tanks);
  read_holds(fields, "vehicles.tanks.holds", "vehicles.tanks.filled", made.holds_l, made.filled_l);
  made.unusable_l = fields.quantity_or("vehicles.tanks.unusable", 0);
  if (made.unusable_l > made.holds_l && made.holds_l > 0) {
    log.error(fields.get("unusable")->spot,
              fmt::format("{} holds {} of which {} cannot be used", fields.what(),
                          fields.get("holds")->text, fields.get("unusable")->text),
              "no more than it holds");
  }
  made.empty_kg = fields.quantity_or("vehicles.tanks.empty_mass", 0);
  made.position_m = read_unused_position(fields, "vehicles.tanks.at");
  made.gauge = read_gauge(fields, made.holds_l);
  fields.finish();
  return made;
}

ObservedUse read_observed(Log& log, const Node& node, const Vehicle& vehicle) {
  ObservedUse made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "an observed use");
  if (const Node* surface = fields.need("surface", "sealed")) {
    if (const auto read = read_surface(log, *surface, "surface")) {
      made.surface = *read;
      const bool twice =
          std::any_of(vehicle.observed.begin(), vehicle.observed.end(),
                      [&](const ObservedUse& other) { return other.surface == *read; });
      if (twice) {
        log.error(surface->spot, fmt::format("two figures for the use on {}", surface->text),
                  "one for each surface");
      }
    }
  }
  made.uses_l_km = fields.need_quantity("vehicles.observed.uses").value_or(made.uses_l_km);
  made.speed_km_h = fields.quantity("vehicles.observed.speed");
  made.mass_kg = fields.quantity("vehicles.observed.mass");
  made.with_trailer = fields.yes_no_or("with_trailer", false);
  if (made.with_trailer && !vehicle.trailer) {
    log.error(fields.get("with_trailer")->spot, "a figure with a trailer, but there is no trailer",
              "with_trailer only for a vehicle that has one", "trailer: {mass: ...}");
  }
  fields.finish();
  return made;
}

Trailer read_trailer(Log& log, const Node& node, const Vehicle& vehicle) {
  // A low box behind a tall vehicle: a third of the vehicle's own (ours). A caravan adds more.
  constexpr double usual_drag_area_m2 = 0.5;
  Fields fields(log, node, "the trailer of " + units::in_quotes(vehicle.name));
  Trailer made;
  made.mass_kg = fields.need_quantity("vehicles.trailer.mass").value_or(0);
  made.drag_area_m2 = fields.quantity_or("vehicles.trailer.drag_area", usual_drag_area_m2);
  fields.finish();
  return made;
}

void read_mass(Log& log, const Node& node, Vehicle& vehicle) {
  Fields fields(log, node, "the mass of vehicle " + units::in_quotes(vehicle.name));
  const auto empty = fields.need_quantity("vehicles.mass.empty");
  vehicle.empty_kg = empty.value_or(0);
  vehicle.gear_kg = fields.quantity_or("vehicles.mass.gear", 0);
  vehicle.limit_kg = fields.quantity("vehicles.mass.limit");
  if (empty && vehicle.limit_kg && *vehicle.limit_kg < *empty) {
    log.error(fields.get("limit")->spot,
              fmt::format("the limit of {} is less than the empty mass", fields.get("limit")->text),
              "the mass allowed with everything loaded");
  }
  fields.finish();
}

Vehicle read_vehicle(Log& log, const Node& node, const Plan& plan) {
  Vehicle made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a vehicle");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "vehicles", made.name, plan.vehicles);
  made.fuel = fields.need_word("fuel", fuel_words).value_or(FuelKind::diesel);
  if (const Node* mass = fields.need("mass", "{empty: 2480 kg, limit: 3500 kg}")) {
    read_mass(log, *mass, made);
  }
  if (const Node* tanks = fields.need("tanks", "[{name: tank, holds: 80 L, filled: 80 L}]")) {
    const auto& items = list_items(log, *tanks, "tanks");
    for (const Node& item : items) made.tanks.push_back(read_tank(log, item, made));
    if (items.empty() && tanks->kind != Node::Kind::map && tanks->kind != Node::Kind::text) {
      log.error(tanks->spot, fmt::format("{} has no tank", fields.what()), "at least one tank");
    }
  }
  made.drag_area_m2 = fields.quantity_or("vehicles.drag_area", made.drag_area_m2);
  made.engine_efficiency = fields.quantity_or("vehicles.engine_efficiency", 0);
  made.idle_l_h = fields.quantity_or("vehicles.idle", made.idle_l_h);
  if (const Node* trailer = fields.get("trailer")) {
    made.trailer = read_trailer(log, *trailer, made);
  }
  if (const Node* observed = fields.get("observed")) {
    for (const Node& item : list_items(log, *observed, "observed")) {
      made.observed.push_back(read_observed(log, item, made));
    }
  }
  fields.finish();
  return made;
}

}  // namespace

void read_vehicles(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "vehicles")) {
    plan.vehicles.push_back(read_vehicle(log, item, plan));
  }
}

}  // namespace drystage::plan
