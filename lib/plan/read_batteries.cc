#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

double read_filled(Fields& fields, double capacity_ah) {
  constexpr Key key = "power.batteries.filled";
  const double usual = default_number(key).value();
  const Node* node = fields.get(key);
  const auto read =
      node == nullptr ? std::nullopt : read_quantity_of(fields.log(), *node, key, key.name());
  if (!read) return usual;
  double filled = read->value;
  if (read->kind == units::Kind::charge) {
    if (capacity_ah <= 0) return usual;
    filled /= capacity_ah;
  }
  if (filled > 1) {
    fields.log().error(
        node->origin,
        fmt::format("{} is filled with {}, more than it holds", fields.what(), node->text),
        "at most 100 %");
    return usual;
  }
  return filled;
}

// A usual level by the kind.
double usual_level(Key key, BatteryKind kind) {
  return default_number(key, text_of(battery_words, kind)).value();
}

void read_levels(Fields& fields, Bank& made) {
  const auto floor = fields.number_if("power.batteries.floor");
  const auto cut_off = fields.number_if("power.batteries.cut_off");
  made.floor = floor.value_or(std::max(usual_levels(made.kind).floor, cut_off.value_or(0)));
  made.cut_off = cut_off.value_or(std::min(usual_levels(made.kind).cut_off, made.floor));
  if (floor && cut_off && *floor < *cut_off) {
    fields.log().error(fields.get("power.batteries.floor")->origin,
                       fmt::format("the floor of {} is below its cut-off of {}", fields.what(),
                                   fields.get("power.batteries.cut_off")->text),
                       "a floor at or above the cut-off");
  }
}

Bank read_bank(Log& log, const Node& node, const Plan& plan) {
  Bank made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a battery");
  made.name = fields.name("power.batteries.name");
  refuse_same_name(log, node.origin, "batteries", made.name, plan.power.banks);
  made.kind = fields.word("power.batteries.kind", battery_words);
  made.capacity_ah = fields.number("power.batteries.capacity");
  made.rate_h = fields.number("power.batteries.rate");
  made.voltage_v = fields.number("power.batteries.voltage");
  made.filled = read_filled(fields, made.capacity_ah);
  read_levels(fields, made);
  made.peukert = fields.number_if("power.batteries.peukert");
  made.efficiency = fields.number_if("power.batteries.efficiency");
  made.mass_kg = fields.number("power.batteries.mass");
  const Carrier carrier = read_carrier(fields, "power.batteries.in", plan);
  made.vehicle = carrier.index;
  made.spot = read_spot(fields, carrier.vehicle);
  fields.finish();
  return made;
}

}  // namespace

UsualLevels usual_levels(BatteryKind kind) {
  return {.floor = usual_level("power.batteries.floor", kind),
          .cut_off = usual_level("power.batteries.cut_off", kind)};
}

void read_batteries(Log& log, const Node& power, Plan& plan) {
  const Node* batteries = power.find("batteries");
  if (batteries == nullptr) return;
  for (const Node& item : list_items(log, *batteries, "batteries")) {
    plan.power.banks.push_back(read_bank(log, item, plan));
  }
}

}  // namespace drystage::plan
