#include <fmt/core.h>

#include "plan/sections.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

FrozenPart read_frozen(Log& log, const Node& node, bool is_freezer) {
  FrozenPart made;
  made.mark = node.origin.mark;
  Fields fields(log, node, is_freezer ? "freezer" : "frozen_below");
  made.barrier_w_k = fields.number("cold.frozen_below.barrier");
  made.wall_share = fields.number("cold.frozen_below.walls");
  if (is_freezer) made.set_point_c = fields.number_if("cold.freezer.set_point");
  fields.finish();
  return made;
}

void read_rating(Log& log, Fields& fields, Cabinet& made, double voltage_v) {
  const Node* node = fields.get("cold.rated");
  if (node == nullptr) return;
  Fields rated(log, *node, "the rating of " + fields.what());
  if (const Node* draw = rated.get("cold.rated.draw")) {
    made.rated_draw_w = read_draw(log, *draw, "cold.rated.draw", voltage_v).value_or(0);
  }
  const auto ambient = rated.number_if("cold.rated.ambient");
  const auto inside = rated.number_if("cold.rated.inside");
  made.rated_ambient_c = ambient.value_or(made.rated_ambient_c);
  made.rated_inside_c = inside.value_or(made.rated_inside_c);
  if (ambient && inside && *inside >= *ambient) {
    log.error(rated.get("cold.rated.inside")->origin,
              "rated inside is not colder than rated ambient",
              "the temperatures at which the maker measured the draw");
  }
  rated.finish();
}

void read_standing_place(Log& log, const Node& node, Cabinet& made) {
  Fields fields(log, node, "stands_in");
  made.above_ambient_k = fields.number("cold.stands_in.above_ambient");
  made.above_ambient_while = fields.word("cold.stands_in.while", while_words);
  fields.finish();
}

Lid read_lid(Log& log, const Node& node) {
  Lid made;
  Fields fields(log, node, "lid");
  made.openings_day = fields.number_if("cold.lid.openings");
  made.warm_l_day = fields.number_if("cold.lid.warm");
  fields.finish();
  return made;
}

void read_ice_box(Fields& fields, const Node& ice, Cabinet& made) {
  Log& log = fields.log();
  made.ice_box = true;
  made.ice_kg = read_quantity(log, ice, "cold.ice", "ice").value_or(0);
  constexpr std::string_view reason = "this is an ice box, because it has \"ice\"";
  for (const Key key : std::to_array<Key>({"cold.set_point", "cold.rated", "cold.running",
                                           "cold.frozen_below", "cold.freezer", "cold.on"})) {
    fields.refuse(key, reason);
  }
  fields.need("cold.heat_leak");
  made.heat_leak_w_k = fields.number_if("cold.heat_leak");
  if (made.ice_kg > made.volume_l && made.volume_l > 0) {
    log.error(ice.origin,
              fmt::format("{} of ice do not fit into {} of {}", ice.text,
                          fields.get("cold.volume")->text, fields.what()),
              "at most about 0.9 kg per litre");
  }
}

void read_machine(Fields& fields, Cabinet& made, const Plan& plan) {
  Log& log = fields.log();
  double voltage_v = default_number("power.batteries.voltage").value();
  if (plan.power.banks.empty()) {
    fields.get("cold.on");
    log.error(fields.origin(), fmt::format("{} has no battery to run on", fields.what()),
              "a battery under \"power: batteries\"", "an ice box is written with \"ice: 10 kg\"");
  } else {
    made.bank = fields.reference("cold.on", names_of(plan.power.banks));
    voltage_v = plan.power.banks[at(made.bank)].voltage_v;
  }
  made.set_point_c = fields.number("cold.set_point");
  read_rating(log, fields, made, voltage_v);
  if (const Node* running = fields.get("cold.running")) {
    made.running_w = read_draw(log, *running, "cold.running", voltage_v);
    if (made.running_w && made.rated_draw_w > 0 && *made.running_w < made.rated_draw_w) {
      log.error(running->origin, "the draw while running is less than the rated mean draw",
                "the draw while the compressor turns");
    }
  }
  made.heat_leak_w_k = fields.number_if("cold.heat_leak");
  const Node* below = fields.get("cold.frozen_below");
  const Node* freezer = fields.get("cold.freezer");
  if (below != nullptr && freezer != nullptr) {
    log.error(freezer->origin,
              fmt::format(R"({} has both "frozen_below" and "freezer")", fields.what()),
              "one of the two");
  }
  if (below != nullptr) made.frozen = read_frozen(log, *below, false);
  if (freezer != nullptr) made.frozen = read_frozen(log, *freezer, true);
}

Cabinet read_cabinet(Log& log, const Node& node, const Plan& plan) {
  Cabinet made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a cabinet");
  made.name = fields.name("cold.name");
  refuse_same_name(log, node.origin, "cabinets", made.name, plan.cold);
  made.volume_l = fields.number("cold.volume");
  made.mass_kg = fields.number("cold.mass");
  const Node* ice = fields.get("cold.ice");
  if (ice != nullptr) {
    read_ice_box(fields, *ice, made);
  } else {
    read_machine(fields, made, plan);
  }
  made.starts_at_c = made.ice_box ? fields.number("cold.starts_at", "ice")
                                  : fields.number_if("cold.starts_at").value_or(made.set_point_c);
  if (const Node* stands = fields.get("cold.stands_in")) read_standing_place(log, *stands, made);
  if (const Node* lid = fields.get("cold.lid")) made.lid = read_lid(log, *lid);
  const Carrier carrier = read_carrier(fields, "cold.in", plan);
  made.vehicle = carrier.index;
  made.spot = read_spot(fields, carrier.vehicle);
  fields.finish();
  return made;
}

}  // namespace

void read_cold(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "cold")) {
    plan.cold.push_back(read_cabinet(log, item, plan));
  }
}

}  // namespace drystage::plan
