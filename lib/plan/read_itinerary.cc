#include <fmt/core.h>

#include <algorithm>

#include "plan/itinerary_reader.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

std::vector<std::string> item_keys() {
  std::vector<std::string> made;
  for (const Key key : keys_of("itinerary")) made.emplace_back(key.name());
  return made;
}

// The one key of an itinerary item and what is under it; null, with an error, if there is not
// exactly one that is known.
const Entry* item_of(Log& log, const Node& node) {
  if (node.kind != Node::Kind::map || node.entries.empty()) {
    log_wrong_form(log, node, "an itinerary item", one_of(item_keys()));
    return nullptr;
  }
  const Entry* found = nullptr;
  const auto known = item_keys();
  for (const Entry& entry : node.entries) {
    if (std::ranges::find(known, entry.key) == known.end()) {
      log.error(entry.origin,
                fmt::format("an itinerary item has no key {}", units::in_quotes(entry.key)),
                one_of(known), did_you_mean(entry.key, known));
      continue;
    }
    if (found != nullptr) {
      log.error(entry.origin,
                fmt::format(R"("{}" and "{}" in one itinerary item)", found->key, entry.key),
                "one of them in each item, in the order in which they happen");
      continue;
    }
    found = &entry;
  }
  return found;
}

At read_at(Log& log, const Node& node, bool first, Position& here, const Plan& plan) {
  At made;
  const auto place = read_place_name(log, node, plan);
  made.place = place.value_or(0);
  if (!first && place && here.known && here.place != *place) {
    log.error(node.origin,
              fmt::format("at {}, but the itinerary is at {} by now", units::in_quotes(node.text),
                          units::in_quotes(plan.places[at(here.place)].name)),
              "a drive to get there");
  }
  here = {place.has_value(), made.place};
  return made;
}

}  // namespace

std::optional<int> read_place_name(Log& log, const Node& node, const Plan& plan) {
  return read_reference(log, node, "place", names_of(plan.places));
}

Stay read_stay(Log& log, const Node& node, const Plan& plan) {
  Stay made;
  Fields fields(log, node, "a stay");
  made.nights = fields.whole_number_if("itinerary.stay.nights").value_or(1);
  made.activity = fields.reference_if("itinerary.stay.activity", names_of(plan.activities));
  fields.finish();
  return made;
}

void read_itinerary(Log& log, const Node& node, Plan& plan) {
  Position here;
  bool first = true;
  const std::size_t errors = log.errors();
  for (const Node& item : list_items(log, node, "itinerary")) {
    const Entry* entry = item_of(log, item);
    if (entry == nullptr) {
      first = false;
      continue;
    }
    if (first && entry->key != "at") {
      log.error(entry->origin, fmt::format("a {} before any place", entry->key),
                "the first item says where the trip begins: {at: PLACE}");
    }
    const Mark mark = entry->origin.mark;
    if (entry->key == "at") {
      At made = read_at(log, entry->value, first, here, plan);
      made.mark = mark;
      plan.itinerary.emplace_back(made);
    } else if (entry->key == "drive") {
      Drive made = read_drive(log, entry->value, here, plan);
      made.mark = mark;
      here = {made.to >= 0, made.to};
      if (made.to < 0) made.to = 0;
      plan.itinerary.emplace_back(std::move(made));
    } else if (entry->key == "side_trip") {
      for (ItineraryItem& part : read_side_trip(log, entry->value, here, plan)) {
        std::visit([&](auto& one) { one.mark = mark; }, part);
        plan.itinerary.push_back(std::move(part));
      }
    } else if (entry->key == "stay") {
      Stay made = read_stay(log, entry->value, plan);
      made.mark = mark;
      plan.itinerary.emplace_back(made);
    } else {
      Resupply made = read_resupply(log, entry->value, here, plan);
      made.mark = mark;
      plan.itinerary.emplace_back(std::move(made));
    }
    first = false;
  }
  if (plan.itinerary.empty() && log.errors() == errors) {
    log.error(node.origin, "the itinerary is empty",
              "{at: PLACE}, and then drives, stays and resupplies");
  }
}

}  // namespace drystage::plan
