#include <fmt/core.h>

#include <algorithm>

#include "plan/loading_reader.h"
#include "plan/sections.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

std::string metres(double length_m) { return units::format(length_m, units::Kind::length); }

/// Logs a place that is not in the vehicle. How long it is is known with its wheelbase.
void check_within(Log& log, const Node& node, const std::string& what, const Chassis& chassis,
                  double at_m) {
  if (!chassis.wheelbase_m) return;
  const double from_m = -chassis.front_overhang_m;
  const double to_m = *chassis.wheelbase_m + chassis.rear_overhang_m;
  constexpr double rounding_m = 1e-9;
  if (at_m >= from_m - rounding_m && at_m <= to_m + rounding_m) return;
  log.error(node.origin,
            fmt::format("{} is {} {}, and the vehicle ends at {}", what, metres(std::abs(at_m)),
                        at_m < 0 ? "ahead of the front axle" : "behind the front axle",
                        metres(at_m < 0 ? -from_m : to_m)),
            fmt::format("{} to {}", metres(from_m), metres(to_m)),
            "if something reaches beyond its ends, say so: overhang: {front: ..., rear: ...}");
}

Bay read_bay(Log& log, const Entry& entry, const Vehicle& vehicle) {
  Bay made;
  made.mark = entry.origin.mark;
  made.name = key_name(log, entry, "bay");
  refuse_same_name(log, entry.origin, "bays", made.name, vehicle.bays);
  Fields fields(log, entry.value, "bay " + units::in_quotes(entry.key));
  if (const auto at = fields.number_if("vehicles.bays.at")) {
    made.at_m = *at;
    check_within(log, *fields.get("vehicles.bays.at"), fields.what(), vehicle.chassis, *at);
  }
  made.height_m = fields.number_if("vehicles.bays.height");
  made.right_m = fields.number("vehicles.bays.right");
  made.limit_kg = fields.number_if("vehicles.bays.limit");
  made.on_roof = fields.yes_no("vehicles.bays.roof");
  fields.finish();
  return made;
}

Gear read_gear(Log& log, const Node& node, const Vehicle& vehicle) {
  Gear made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a piece of gear");
  made.name = fields.name("vehicles.gear.name");
  refuse_same_name(log, node.origin, "pieces of gear", made.name, vehicle.gear);
  made.mass_kg = fields.number("vehicles.gear.mass");
  made.needed = fields.yes_no("vehicles.gear.needed");
  made.spot = read_spot(fields, &vehicle);
  fields.finish();
  return made;
}

/// Two, four, or six of which four are twins.
int read_wheels(Fields& fields) {
  const int usual = Chassis{}.wheels;
  const int read = fields.whole_number_if("vehicles.wheels").value_or(usual);
  if (read % 2 == 0) return read;
  fields.log().error(fields.get("vehicles.wheels")->origin,
                     fmt::format("{} does not stand on {} wheels", fields.what(), read),
                     "2, 4 or 6");
  return usual;
}

}  // namespace

void read_chassis(Fields& fields, Vehicle& made) {
  Log& log = fields.log();
  Chassis& chassis = made.chassis;
  chassis.wheelbase_m = fields.number_if("vehicles.wheelbase");
  static const Node nothing;
  const Node* said = fields.get("vehicles.overhang");
  Fields overhang(log, said == nullptr ? nothing : *said, "overhang");
  chassis.front_overhang_m = overhang.number("vehicles.overhang.front");
  chassis.rear_overhang_m = overhang.number("vehicles.overhang.rear");
  overhang.finish();
  chassis.track_m = fields.number_if("vehicles.track");
  chassis.wheels = read_wheels(fields);
  chassis.centre_height_m = fields.number_if("vehicles.centre_height");
  made.limits.load_index = fields.whole_number_if("vehicles.load_index");
  if (const Node* bays = fields.get("vehicles.bays")) {
    for (const Entry& entry : map_entries(log, *bays, "bays")) {
      made.bays.push_back(read_bay(log, entry, made));
    }
  }
  for (const Node& item : fields.items("vehicles.gear")) {
    made.gear.push_back(read_gear(log, item, made));
  }
}

void read_limits(Fields& mass, LoadLimits& made) {
  made.front_kg = mass.number_if("vehicles.mass.front_limit");
  made.rear_kg = mass.number_if("vehicles.mass.rear_limit");
  made.wheel_kg = mass.number_if("vehicles.mass.wheel_limit");
  made.roof_kg = mass.number_if("vehicles.mass.roof_limit");
  made.ball_kg = mass.number_if("vehicles.mass.ball_limit");
  made.combination_kg = mass.number_if("vehicles.mass.combination_limit");
}

void read_coupling(Fields& trailer, const Vehicle& vehicle, Trailer& made) {
  Log& log = trailer.log();
  made.ball_kg = trailer.number_if("vehicles.trailer.ball");
  made.coupling_m =
      trailer.number_if("vehicles.trailer.coupling").value_or(vehicle.chassis.rear_overhang_m);
  made.limit_kg = trailer.number_if("vehicles.trailer.limit");
  if (made.ball_kg && *made.ball_kg > made.mass_kg && made.mass_kg > 0) {
    log.error(trailer.get("vehicles.trailer.ball")->origin,
              fmt::format("{} presses on the ball with more than it weighs", trailer.what()),
              "about a tenth of its mass");
  }
  for (const Node& item : trailer.items("vehicles.trailer.gear")) {
    Trailer::Gear gear;
    gear.mark = item.origin.mark;
    Fields fields(log, item, "a thing in the trailer");
    gear.name = fields.name("vehicles.trailer.gear.name");
    refuse_same_name(log, item.origin, "things in the trailer", gear.name, made.gear);
    gear.mass_kg = fields.number("vehicles.trailer.gear.mass");
    gear.ahead_m = fields.number("vehicles.trailer.gear.ahead");
    fields.finish();
    made.gear.push_back(gear);
  }
  made.drawbar_m = trailer.number("vehicles.trailer.drawbar");
  if (!made.gear.empty() && trailer.get("vehicles.trailer.drawbar") == nullptr) {
    log.error(trailer.origin(), fmt::format("{} lacks \"drawbar\"", trailer.what()),
              "how far its axle is from the ball, where its gear has places", "drawbar: 3 m");
  }
  for (const Trailer::Gear& gear : made.gear) {
    if (made.drawbar_m <= 0 || gear.ahead_m <= made.drawbar_m) continue;
    log.error({gear.mark, {}},
              fmt::format("{} lies ahead of the ball, which is {} ahead of the axle",
                          units::in_quotes(gear.name), metres(made.drawbar_m)),
              "a place in the trailer");
  }
  if (made.limit_kg && made.mass_kg > *made.limit_kg) {
    log.error(trailer.get("vehicles.trailer.limit")->origin,
              fmt::format("the limit of {} is less than {}",
                          trailer.get("vehicles.trailer.limit")->text, "its own mass"),
              "the most it may weigh loaded");
  }
}

Carrier read_carrier(Fields& fields, Key key, const Plan& plan) {
  const std::size_t errors = fields.log().errors();
  const int index = vehicle_of(fields, key, plan);
  const bool known = fields.log().errors() == errors;
  return {.index = index, .vehicle = known ? vehicle_at(plan, index) : nullptr};
}

Spot read_spot(Fields& fields, const Vehicle* vehicle) {
  Spot made;
  if (const Node* bay = fields.get("spot.bay"); bay != nullptr && vehicle != nullptr) {
    made.bay = read_reference(fields.log(), *bay, "bay", names_of(vehicle->bays));
  }
  made.at_m = fields.number_if("spot.at");
  if (made.at_m && vehicle != nullptr) {
    check_within(fields.log(), *fields.get("spot.at"), fields.what(), vehicle->chassis, *made.at_m);
  }
  made.height_m = fields.number_if("spot.height");
  made.right_m = fields.number_if("spot.right");
  return made;
}

void refuse_spot(Fields& fields, std::string_view reason) {
  for (const Key key : std::to_array<Key>({"spot.bay", "spot.at", "spot.height", "spot.right"})) {
    fields.refuse(key, reason);
  }
}

double Trailer::loaded_kg() const {
  double sum_kg = mass_kg;
  for (const Gear& one : gear) sum_kg += one.mass_kg;
  return sum_kg;
}

double Trailer::on_ball_kg() const {
  double sum_kg = ball_kg.value_or(usual_ball_share * mass_kg);
  for (const Gear& one : gear) sum_kg += one.mass_kg * one.ahead_m / drawbar_m;
  return sum_kg;
}

}  // namespace drystage::plan
