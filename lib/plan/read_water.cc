#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

Container read_container(Log& log, const Node& node, const Plan& plan) {
  Container made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a container");
  made.name = fields.name("vessel.name");
  refuse_same_name(log, node.origin, "containers", made.name, plan.water.containers);
  read_holds(fields, made.holds_l, made.filled_l);
  made.quality = fields.word("water.containers.quality", quality_words);
  const Node* use = fields.get("water.containers.for");
  if (use != nullptr) {
    // A word that cannot be read is taken for what fits the quality, so as not to be blamed twice.
    made.use = read_word(log, *use, "for", use_words)
                   .value_or(made.quality == WaterQuality::brackish ? WaterUse::utility
                                                                    : WaterUse::drinking);
  }
  if (made.use == WaterUse::drinking && made.quality == WaterQuality::brackish) {
    log.error(fields.get("water.containers.quality")->origin,
              fmt::format("{} is for drinking but its water is brackish", fields.what()),
              "potable water, or \"for: utility\"");
  }
  made.opened_last = fields.word("water.containers.opened", opened_words);
  made.empty_kg = fields.number("vessel.empty_mass");
  const Carrier carrier = read_carrier(fields, "water.containers.in", plan);
  made.vehicle = carrier.index;
  made.spot = read_spot(fields, carrier.vehicle);
  made.gauge = read_gauge(fields, made.holds_l);
  fields.finish();
  return made;
}

/// What may be done with brackish water unless the plan says otherwise: everything else may end up
/// in somebody's mouth. Dishes are washed in salt water at sea (common practice).
bool asks_for_potable(std::string_view use) {
  static constexpr std::array<std::string_view, 12> washing{
      "washing", "wash",    "hygiene", "shower",   "showers",  "bath",
      "dishes",  "laundry", "toilet",  "cleaning", "flushing", "dust"};
  return std::ranges::find(washing, units::lower_ascii(use)) == washing.end();
}

UtilityUse read_use(Log& log, const Entry& entry, const Plan& plan) {
  UtilityUse use;
  use.mark = entry.origin.mark;
  use.name = key_name(log, entry, "utility use");
  refuse_same_name(log, entry.origin, "utility uses", use.name, plan.water.utility_uses);
  use.potable = asks_for_potable(use.name);
  if (entry.value.kind == Node::Kind::text) {
    use.volume_l = read_quantity(log, entry.value, "water.utility_use.*", use.name).value_or(0);
    use.every_days = 1;
    return use;
  }
  Fields fields(log, entry.value, "utility use " + units::in_quotes(entry.key));
  use.volume_l = fields.number("water.utility_use.volume");
  use.every_days = fields.number("water.utility_use.every") / 24;
  use.per_person = fields.word("water.utility_use.for", whom_words);
  use.potable = fields.yes_no_if("water.utility_use.potable").value_or(use.potable);
  fields.finish();
  return use;
}

}  // namespace

void read_water(Log& log, const Node& node, Plan& plan) {
  Fields fields(log, node, "water");
  for (const Node& item : fields.items("water.containers")) {
    plan.water.containers.push_back(read_container(log, item, plan));
  }
  if (const Node* uses = fields.get("water.utility_use")) {
    for (const Entry& entry : map_entries(log, *uses, "utility_use")) {
      plan.water.utility_uses.push_back(read_use(log, entry, plan));
    }
  }
  fields.finish();
}

}  // namespace drystage::plan
