#include <fmt/core.h>

#include <algorithm>

#include "plan/cans.h"
#include "plan/loading_reader.h"
#include "plan/sections.h"
#include "plan/word_lists.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

Tank read_tank(Log& log, const Node& node, const Vehicle& vehicle) {
  Tank made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a tank");
  made.name = fields.name("vessel.name");
  refuse_same_name(log, node.origin, "tanks", made.name, vehicle.tanks);
  read_holds(fields, made.holds_l, made.filled_l);
  made.unusable_l = fields.number("vehicles.tanks.unusable");
  if (made.unusable_l > made.holds_l && made.holds_l > 0) {
    log.error(
        fields.get("vehicles.tanks.unusable")->origin,
        fmt::format("{} holds {} of which {} cannot be used", fields.what(),
                    fields.get("vessel.holds")->text, fields.get("vehicles.tanks.unusable")->text),
        "no more than it holds");
  }
  made.empty_kg = fields.number("vessel.empty_mass");
  made.spot = read_spot(fields, &vehicle);
  made.gauge = read_gauge(fields, made.holds_l);
  fields.get("vehicles.tanks.for");  // read once all vehicles are known
  fields.finish();
  return made;
}

ObservedUse read_observed(Log& log, const Node& node, const Vehicle& vehicle) {
  ObservedUse made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "an observed use");
  if (const Node* surface = fields.get("vehicles.observed.surface")) {
    if (const auto read = read_surface(log, *surface, "surface")) {
      made.surface = *read;
      const bool twice =
          std::any_of(vehicle.observed.begin(), vehicle.observed.end(),
                      [&](const ObservedUse& other) { return other.surface == *read; });
      if (twice) {
        log.error(surface->origin, fmt::format("two figures for the use on {}", surface->text),
                  "one for each surface");
      }
    }
  }
  made.uses_l_km = fields.number("vehicles.observed.uses");
  made.speed_km_h = fields.number_if("vehicles.observed.speed");
  made.mass_kg = fields.number_if("vehicles.observed.mass");
  made.with_trailer = fields.yes_no("vehicles.observed.with_trailer");
  if (made.with_trailer && !vehicle.trailer) {
    log.error(fields.get("vehicles.observed.with_trailer")->origin,
              "a figure with a trailer, but there is no trailer",
              "with_trailer only for a vehicle that has one", "trailer: {mass: ...}");
  }
  fields.finish();
  return made;
}

Trailer read_trailer(Log& log, const Node& node, const Vehicle& vehicle) {
  Fields fields(log, node, "the trailer of " + units::in_quotes(vehicle.name));
  Trailer made;
  made.mark = node.origin.mark;
  made.mass_kg = fields.number("vehicles.trailer.mass");
  made.drag_area_m2 = fields.number("vehicles.trailer.drag_area");
  read_coupling(fields, vehicle, made);
  fields.finish();
  return made;
}

TyreKit read_tyres(Log& log, const Node& node, const Vehicle& vehicle) {
  Fields fields(log, node, "the tyres of " + units::in_quotes(vehicle.name));
  TyreKit made;
  made.spare_wheels = fields.whole_number_if("vehicles.tyres.spare_wheels").value_or(0);
  made.repairs = fields.whole_number_if("vehicles.tyres.repairs").value_or(0);
  made.wheel_kg = fields.number("vehicles.tyres.wheel_mass");
  made.beyond_repair = fields.number("vehicles.tyres.beyond_repair");
  made.spot = read_spot(fields, &vehicle);
  constexpr Key key = "vehicles.tyres.punctures";
  if (const Node* punctures = fields.get(key)) {
    for (const Entry& entry : map_entries(log, *punctures, key.name())) {
      const auto surface = read_surface_key(log, entry);
      const auto rate = read_quantity(log, entry.value, key, entry.key);
      if (!surface || !rate) continue;
      made.own_per_1000_km.at(static_cast<std::size_t>(*surface)) = *rate;
    }
  }
  fields.finish();
  return made;
}

void read_mass(Log& log, const Node& node, Vehicle& vehicle) {
  Fields fields(log, node, "the mass of vehicle " + units::in_quotes(vehicle.name));
  const auto empty = fields.number_if("vehicles.mass.empty");
  vehicle.empty_kg = empty.value_or(0);
  vehicle.gear_kg = fields.number("vehicles.mass.gear");
  vehicle.limit_kg = fields.number_if("vehicles.mass.limit");
  read_limits(fields, vehicle.limits);
  if (empty && vehicle.limit_kg && *vehicle.limit_kg < *empty) {
    log.error(fields.get("vehicles.mass.limit")->origin,
              fmt::format("the limit of {} is less than the empty mass",
                          fields.get("vehicles.mass.limit")->text),
              "the mass allowed with everything loaded");
  }
  fields.finish();
}

Vehicle read_vehicle(Log& log, const Node& node, const Plan& plan) {
  Vehicle made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a vehicle");
  made.name = fields.name("vehicles.name");
  refuse_same_name(log, node.origin, "vehicles", made.name, plan.vehicles);
  made.fuel = fields.word("vehicles.fuel", fuel_words);
  if (const Node* mass = fields.get("vehicles.mass")) {
    read_mass(log, *mass, made);
  }
  read_chassis(fields, made);
  if (const Node* tanks = fields.get("vehicles.tanks")) {
    const auto& items = list_items(log, *tanks, "tanks");
    for (const Node& item : items) made.tanks.push_back(read_tank(log, item, made));
    if (items.empty() && tanks->kind != Node::Kind::map && tanks->kind != Node::Kind::text) {
      log.error(tanks->origin, fmt::format("{} has no tank", fields.what()), "at least one tank");
    }
  }
  made.drag_area_m2 = fields.number("vehicles.drag_area");
  made.engine_efficiency = fields.number("vehicles.engine_efficiency");
  made.idle_l_h = fields.number("vehicles.idle");
  if (const Node* trailer = fields.get("vehicles.trailer")) {
    made.trailer = read_trailer(log, *trailer, made);
  }
  if (const Node* tyres = fields.get("vehicles.tyres")) made.tyres = read_tyres(log, *tyres, made);
  for (const Node& item : fields.items("vehicles.observed")) {
    made.observed.push_back(read_observed(log, item, made));
  }
  for (const Node* one : one_or_more(log, fields.get("vehicles.own"), "own")) {
    const auto stock = read_word(log, *one, "own", stock_words);
    const bool again = stock && std::ranges::find(made.own, *stock) != made.own.end();
    if (stock && !again) made.own.push_back(*stock);
  }
  // read_company reads them, once it is known where the trip goes.
  fields.get("vehicles.from");
  fields.get("vehicles.until");
  fields.get("vehicles.weighed");  // read once all that may have been in it is known
  fields.finish();
  return made;
}

/// The vehicles that a can is for, besides its own. `any` is every one that burns the same.
std::vector<int> read_for(Log& log, const Node& node, const Plan& plan, int own) {
  std::vector<int> made;
  const std::vector<std::string> names = names_of(plan.vehicles);
  const Vehicle& its = plan.vehicles[at(own)];
  const bool is_any = node.kind == Node::Kind::text && node.text == "any" &&
                      std::ranges::find(names, "any") == names.end();
  if (is_any) {
    for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
      if (v != own && plan.vehicles[at(v)].fuel == its.fuel) made.push_back(v);
    }
    return made;
  }
  for (const Node* one : one_or_more(log, &node, "for")) {
    const auto vehicle = read_reference(log, *one, "vehicle", names);
    if (!vehicle || *vehicle == own) continue;
    if (plan.vehicles[at(*vehicle)].fuel != its.fuel) {
      log.error(one->origin,
                fmt::format("for: {} burns another fuel than {}", units::in_quotes(one->text),
                            units::in_quotes(its.name)),
                "vehicles that burn the same fuel");
    } else if (std::ranges::find(made, *vehicle) == made.end()) {
      made.push_back(*vehicle);
    }
  }
  return made;
}

void read_shared_cans(Log& log, const Node& node, Plan& plan) {
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    Vehicle& vehicle = plan.vehicles[v];
    const Node* tanks = node.items[v].find("tanks");
    for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
      const Node* whom = tanks->items[t].find("for");
      if (whom == nullptr) continue;
      if (!is_can(vehicle.tanks[t])) {
        log.error(whom->origin,
                  fmt::format("{} is fitted, and only a can is poured into other vehicles",
                              units::in_quotes(vehicle.tanks[t].name)),
                  "for: of a can", "a can has an empty_mass, or is called can or jerry");
        continue;
      }
      vehicle.tanks[t].also_for = read_for(log, *whom, plan, static_cast<int>(v));
    }
  }
}

}  // namespace

double usual_idle_l_h() { return default_number("vehicles.idle").value(); }

void read_vehicles(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "vehicles")) {
    plan.vehicles.push_back(read_vehicle(log, item, plan));
  }
  read_shared_cans(log, node, plan);
}

}  // namespace drystage::plan
