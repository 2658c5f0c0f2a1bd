#include <fmt/core.h>

#include <utility>

#include "plan/itinerary_reader.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// The place that a key names; null where it is not known.
const Place* read_end(Fields& fields, Key key, const Plan& plan, int& index) {
  const Node* node = fields.get(key);
  const auto place = node == nullptr ? std::nullopt : read_place_name(fields.log(), *node, plan);
  index = place.value_or(0);
  return place ? &plan.places[at(index)] : nullptr;
}

}  // namespace

void read_roads(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "roads")) {
    Road made;
    made.mark = made.drive.mark = item.origin.mark;
    made.drive.off_itinerary = true;
    Fields fields(log, item, "a road");
    const Place* from = read_end(fields, "roads.from", plan, made.from);
    const Place* to = read_end(fields, "roads.to", plan, made.drive.to);
    if (from != nullptr && from == to) {
      log.error(fields.get("roads.to")->origin,
                fmt::format("a road from {} to itself", units::in_quotes(to->name)),
                "the names of two places");
      from = to = nullptr;
    }
    read_way(fields, "roads.distance", from, to, made.drive);
    made.one_way = fields.yes_no("roads.one_way");
    fields.finish();
    plan.roads.push_back(std::move(made));
  }
}

}  // namespace drystage::plan
