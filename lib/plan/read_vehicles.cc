#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

Tank read_tank(Log& log, const Node& node, const Vehicle& vehicle) {
  Tank made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a tank");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "tanks", made.name, vehicle.tanks);
  read_holds(fields, made.holds_l, made.filled_l);
  made.unusable_l = fields.quantity_or("unusable", Kind::volume, 0, not_negative);
  if (made.unusable_l > made.holds_l && made.holds_l > 0) {
    log.error(fields.get("unusable")->spot,
              fmt::format("{} holds {} of which {} cannot be used", fields.what(),
                          fields.get("holds")->text, fields.get("unusable")->text),
              "no more than it holds");
  }
  made.empty_kg = fields.quantity_or("empty_mass", Kind::mass, 0, not_negative);
  made.position_m = fields.quantity("at", Kind::length);
  made.gauge = read_gauge(fields, made.holds_l);
  fields.finish();
  return made;
}

ObservedUse read_observed(Log& log, const Node& node, const Vehicle& vehicle) {
  constexpr double least_l_km = 0.04;  // common practice: no self-built vehicle uses less
  constexpr double most_l_km = 0.60;
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
  if (const auto uses = fields.need_quantity("uses", Kind::fuel_use, positive)) {
    made.uses_l_km = *uses;
    if (*uses < least_l_km || *uses > most_l_km) {
      log.warning(fields.get("uses")->spot,
                  fmt::format("{} is an unusual use of fuel", fields.get("uses")->text),
                  "for a loaded vehicle, 4 to 60 L/100km", "is the number right?");
    }
  }
  made.speed_km_h = fields.quantity("speed", Kind::speed, positive);
  made.mass_kg = fields.quantity("mass", Kind::mass, positive);
  made.with_trailer = fields.yes_no_or("with_trailer", false);
  if (made.with_trailer && !vehicle.trailer) {
    log.error(fields.get("with_trailer")->spot, "a figure with a trailer, but there is no trailer",
              "with_trailer only for a vehicle that has one", "trailer: {mass: 700 kg}");
  }
  fields.finish();
  return made;
}

Trailer read_trailer(Log& log, const Node& node, const Vehicle& vehicle) {
  // A low box behind a tall vehicle: a third of the vehicle's own (ours). A caravan adds more.
  constexpr double usual_drag_area_m2 = 0.5;
  Fields fields(log, node, "the trailer of " + units::in_quotes(vehicle.name));
  Trailer made;
  made.mass_kg = fields.need_quantity("mass", Kind::mass, positive).value_or(0);
  made.drag_area_m2 = fields.quantity_or("drag_area", Kind::area, usual_drag_area_m2, not_negative);
  fields.finish();
  return made;
}

void read_mass(Log& log, const Node& node, Vehicle& vehicle) {
  Fields fields(log, node, "the mass of vehicle " + units::in_quotes(vehicle.name));
  const auto empty = fields.need_quantity("empty", Kind::mass, positive);
  vehicle.empty_kg = empty.value_or(0);
  vehicle.gear_kg = fields.quantity_or("gear", Kind::mass, 0, not_negative);
  vehicle.limit_kg = fields.quantity("limit", Kind::mass, positive);
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
  made.drag_area_m2 = fields.quantity_or("drag_area", Kind::area, made.drag_area_m2, positive);
  static constexpr Limits efficiency{0, 0.6, true, "more than 0 %, up to 60 %"};
  made.engine_efficiency = fields.quantity_or("engine_efficiency", Kind::fraction, 0, efficiency);
  made.idle_l_h = fields.quantity_or("idle", Kind::fuel_rate, made.idle_l_h, not_negative);
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
