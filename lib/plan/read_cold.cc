#include <fmt/core.h>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

FrozenPart read_frozen(Log& log, const Node& node, bool is_freezer) {
  FrozenPart made;
  made.mark = node.spot.mark;
  Fields fields(log, node, is_freezer ? "freezer" : "frozen_below");
  made.barrier_w_k = fields.quantity_or("cold.barrier", made.barrier_w_k);
  made.wall_share = fields.quantity_or("cold.walls", made.wall_share);
  if (is_freezer) made.set_point_c = fields.need_quantity("cold.freezer.set_point");
  fields.finish();
  return made;
}

void read_rating(Log& log, Fields& fields, Cabinet& made, double voltage_v) {
  const Node* node = fields.need("rated", "{draw: 0.9 A, ambient: 32 °C, inside: 4 °C}");
  if (node == nullptr) return;
  Fields rated(log, *node, "the rating of " + fields.what());
  if (const Node* draw = rated.need("draw", "0.9 A")) {
    made.rated_draw_w = read_draw(log, *draw, "cold.rated.draw", voltage_v).value_or(0);
  }
  const auto ambient = rated.need_quantity("cold.rated.ambient");
  const auto inside = rated.need_quantity("cold.rated.inside");
  made.rated_ambient_c = ambient.value_or(made.rated_ambient_c);
  made.rated_inside_c = inside.value_or(made.rated_inside_c);
  if (ambient && inside && *inside >= *ambient) {
    log.error(rated.get("inside")->spot, "rated inside is not colder than rated ambient",
              "the temperatures at which the maker measured the draw");
  }
  rated.finish();
}

void read_standing_place(Log& log, const Node& node, Cabinet& made) {
  Fields fields(log, node, "stands_in");
  made.above_ambient_k = fields.need_quantity("cold.above_ambient").value_or(0);
  made.above_ambient_while = fields.word_or("while", While::always, while_words);
  fields.finish();
}

Lid read_lid(Log& log, const Node& node) {
  Lid made;
  Fields fields(log, node, "lid");
  made.openings_day = fields.quantity("cold.openings");
  made.warm_l_day = fields.quantity("cold.warm");
  fields.finish();
  return made;
}

void read_ice_box(Fields& fields, const Node& ice, Cabinet& made) {
  Log& log = fields.log();
  made.ice_box = true;
  made.ice_kg = read_quantity(log, ice, "cold.ice", "ice").value_or(0);
  constexpr std::string_view reason = "this is an ice box, because it has \"ice\"";
  for (const std::string_view key :
       {"set_point", "rated", "running", "frozen_below", "freezer", "on"}) {
    fields.refuse(key, reason);
  }
  made.heat_leak_w_k = fields.need_quantity("cold.heat_leak");
  if (made.ice_kg > made.volume_l && made.volume_l > 0) {
    log.error(ice.spot,
              fmt::format("{} of ice do not fit into {} of {}", ice.text,
                          fields.get("volume")->text, fields.what()),
              "at most about 0.9 kg per litre");
  }
}

void read_machine(Fields& fields, Cabinet& made, const Plan& plan) {
  Log& log = fields.log();
  double voltage_v = 12;
  if (plan.power.banks.empty()) {
    fields.get("on");
    log.error(fields.spot(), fmt::format("{} has no battery to run on", fields.what()),
              "a battery under \"power: batteries\"", "an ice box is written with \"ice: 10 kg\"");
  } else {
    made.bank =
        fields.reference_or("on", 0, "battery", names_of(plan.power.banks), "power: batteries");
    voltage_v = plan.power.banks[static_cast<std::size_t>(made.bank)].voltage_v;
  }
  made.set_point_c = fields.need_quantity("cold.set_point").value_or(4);
  read_rating(log, fields, made, voltage_v);
  if (const Node* running = fields.get("running")) {
    made.running_w = read_draw(log, *running, "cold.running", voltage_v);
    if (made.running_w && made.rated_draw_w > 0 && *made.running_w < made.rated_draw_w) {
      log.error(running->spot, "the draw while running is less than the rated mean draw",
                "the draw while the compressor turns");
    }
  }
  made.heat_leak_w_k = fields.quantity("cold.heat_leak");
  const Node* below = fields.get("frozen_below");
  const Node* freezer = fields.get("freezer");
  if (below != nullptr && freezer != nullptr) {
    log.error(freezer->spot,
              fmt::format(R"({} has both "frozen_below" and "freezer")", fields.what()),
              "one of the two");
  }
  if (below != nullptr) made.frozen = read_frozen(log, *below, false);
  if (freezer != nullptr) made.frozen = read_frozen(log, *freezer, true);
}

Cabinet read_cabinet(Log& log, const Node& node, const Plan& plan) {
  Cabinet made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a cabinet");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "cabinets", made.name, plan.cold);
  made.volume_l = fields.need_quantity("cold.volume").value_or(0);
  made.mass_kg = fields.quantity_or("cold.mass", 0);
  const Node* ice = fields.get("ice");
  if (ice != nullptr) {
    read_ice_box(fields, *ice, made);
  } else {
    read_machine(fields, made, plan);
  }
  made.starts_at_c = fields.quantity_or("cold.starts_at", made.ice_box ? 4 : made.set_point_c);
  if (const Node* stands = fields.get("stands_in")) read_standing_place(log, *stands, made);
  if (const Node* lid = fields.get("lid")) made.lid = read_lid(log, *lid);
  made.vehicle = vehicle_of(fields, plan);
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
