#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

double read_filled(Fields& fields, double capacity_ah) {
  const Node* node = fields.get("filled");
  if (node == nullptr) return 1;
  const auto read = read_quantity_of(fields.log(), *node, "batteries.filled", "filled");
  if (!read) return 1;
  double filled = read->value;
  if (read->kind == units::Kind::charge) {
    if (capacity_ah <= 0) return 1;
    filled /= capacity_ah;
  }
  if (filled > 1) {
    fields.log().error(
        node->spot,
        fmt::format("{} is filled with {}, more than it holds", fields.what(), node->text),
        "at most 100 %");
    return 1;
  }
  return filled;
}

void read_levels(Fields& fields, Bank& made) {
  const auto floor = fields.quantity("batteries.floor");
  const auto cut_off = fields.quantity("batteries.cut_off");
  made.floor = floor.value_or(std::max(usual_levels(made.kind).floor, cut_off.value_or(0)));
  made.cut_off = cut_off.value_or(std::min(usual_levels(made.kind).cut_off, made.floor));
  if (floor && cut_off && *floor < *cut_off) {
    fields.log().error(fields.get("floor")->spot,
                       fmt::format("the floor of {} is below its cut-off of {}", fields.what(),
                                   fields.get("cut_off")->text),
                       "a floor at or above the cut-off");
  }
}

Bank read_bank(Log& log, const Node& node, const Plan& plan) {
  Bank made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a battery");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "batteries", made.name, plan.power.banks);
  made.kind = fields.need_word("kind", battery_words).value_or(BatteryKind::agm);
  made.capacity_ah = fields.need_quantity("batteries.capacity").value_or(0);
  made.rate_h = fields.quantity_or("batteries.rate", made.rate_h);
  made.voltage_v = fields.quantity_or("batteries.voltage", made.voltage_v);
  made.filled = read_filled(fields, made.capacity_ah);
  read_levels(fields, made);
  made.peukert = fields.quantity("batteries.peukert");
  made.efficiency = fields.quantity("batteries.efficiency");
  made.mass_kg = fields.quantity_or("batteries.mass", 0);
  made.vehicle = vehicle_of(fields, plan);
  fields.finish();
  return made;
}

}  // namespace

void read_batteries(Log& log, const Node& power, Plan& plan) {
  const Node* batteries = power.find("batteries");
  if (batteries == nullptr) return;
  for (const Node& item : list_items(log, *batteries, "batteries")) {
    plan.power.banks.push_back(read_bank(log, item, plan));
  }
}

}  // namespace drystage::plan
