#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

double read_filled(Fields& fields, double capacity_ah) {
  static constexpr std::array kinds{Kind::fraction, Kind::charge};
  const Node* node = fields.get("filled");
  if (node == nullptr) return 1;
  const auto read = read_quantity_of(fields.log(), *node, "filled", kinds, not_negative);
  if (!read) return 1;
  double filled = read->value;
  if (read->kind == Kind::charge) {
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
  const auto floor = fields.quantity("floor", Kind::fraction, a_share);
  const auto cut_off = fields.quantity("cut_off", Kind::fraction, a_share);
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
  static constexpr Limits peukert{1, 2, false, "from 1 to 2"};
  static constexpr Limits efficiency{0, 1, true, "more than 0 %, up to 100 %"};
  Bank made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a battery");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "batteries", made.name, plan.power.banks);
  made.kind = fields.need_word("kind", battery_words).value_or(BatteryKind::agm);
  made.capacity_ah = fields.need_quantity("capacity", Kind::charge, positive).value_or(0);
  made.rate_h = fields.quantity_or("rate", Kind::time_h, made.rate_h, positive);
  made.voltage_v = fields.quantity_or("voltage", Kind::voltage, made.voltage_v, positive);
  made.filled = read_filled(fields, made.capacity_ah);
  read_levels(fields, made);
  if (const Node* exponent = fields.get("peukert")) {
    made.peukert = read_number(log, *exponent, "peukert", peukert);
  }
  made.efficiency = fields.quantity("efficiency", Kind::fraction, efficiency);
  made.mass_kg = fields.quantity_or("mass", Kind::mass, 0, not_negative);
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
