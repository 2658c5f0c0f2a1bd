#include <fmt/core.h>

#include <algorithm>

#include "plan/commodity.h"
#include "plan/itinerary_reader.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

constexpr std::string_view what_to_take = "fill, to next, or an amount such as 60 L";
constexpr std::string_view what_to_empty = "empty, to next, or an amount such as 12 L";

bool is_fuel(Commodity commodity) {
  return commodity == Commodity::diesel || commodity == Commodity::petrol;
}

bool burns(const Vehicle& vehicle, Commodity commodity) {
  return vehicle.fuel == (commodity == Commodity::diesel ? FuelKind::diesel : FuelKind::petrol);
}

// What is used wherever the place supplies it cannot be taken along.
bool is_ordered(Commodity commodity) {
  return commodity != Commodity::mains && commodity != Commodity::tyres;
}

// The key for orders of what can be taken.
Key order_key(Commodity commodity) {
  static constexpr std::array<Key, commodity_count - 2> keys{
      "itinerary.resupply.drinking_water", "itinerary.resupply.utility_water",
      "itinerary.resupply.diesel",         "itinerary.resupply.petrol",
      "itinerary.resupply.food",           "itinerary.resupply.ice"};
  return keys.at(static_cast<std::size_t>(commodity.kind));
}

std::optional<double> read_amount(Log& log, const Node& node, std::string_view name,
                                  Commodity commodity, const Plan& plan) {
  if (commodity.kind != Commodity::consumable) {
    return read_quantity(log, node, order_key(commodity), name);
  }
  return read_consumable_amount(log, node, "itinerary.resupply.consumables", name,
                                plan.consumables[at(commodity.of)]);
}

// "fill", "to next", or an amount, into `order`.
void read_take(Log& log, const Node& node, std::string_view name, const Plan& plan, Order& order) {
  order.mark = node.origin.mark;
  const bool is_emptied = order.commodity.kind == Commodity::consumable &&
                          plan.consumables[at(order.commodity.of)].fills;
  const std::string_view expected = is_emptied ? what_to_empty : what_to_take;
  const std::string_view wrong_word = is_emptied ? "fill" : "empty";
  for (const Word<Take>& word : consumable_take_words) {
    if (node.kind != Node::Kind::text || node.text != word.text || word.text == wrong_word)
      continue;
    order.take = word.value;
    return;
  }
  order.take = Take::amount;
  const bool looks_like_number =
      node.kind == Node::Kind::text && node.text.find_first_of("0123456789") != std::string::npos;
  if (!looks_like_number) {
    if (node.kind != Node::Kind::text) {
      log_wrong_form(log, node, name, expected);
    } else {
      log.error(node.origin, fmt::format("{}: unknown word {}", name, units::in_quotes(node.text)),
                std::string(expected),
                is_emptied && node.text == "fill" ? "did you mean empty?"
                                                  : did_you_mean(node.text, texts(take_words)));
    }
    return;
  }
  order.amount = read_amount(log, node, name, order.commodity, plan).value_or(0);
}

// Logs what makes the order impossible for the plan as a whole.
void check_taker(Log& log, const Entry& entry, Commodity commodity, const Plan& plan) {
  const auto& containers = plan.water.containers;
  const auto holds = [&](WaterUse use) {
    return std::any_of(containers.begin(), containers.end(),
                       [use](const Container& c) { return c.use == use; });
  };
  if (is_fuel(commodity) && std::none_of(plan.vehicles.begin(), plan.vehicles.end(),
                                         [&](const Vehicle& v) { return burns(v, commodity); })) {
    log.error(entry.origin, fmt::format("no vehicle uses {}", entry.key),
              "a fuel that one of the vehicles uses");
  }
  if (commodity == Commodity::drinking_water && !holds(WaterUse::drinking)) {
    log.error(entry.origin, "there is no container for drinking water",
              R"(a container with "for: drinking" under "water: containers")");
  }
  if (commodity == Commodity::utility_water && !holds(WaterUse::utility)) {
    log.error(entry.origin, "there is no container for utility water",
              R"(a container with "for: utility" under "water: containers")");
  }
  if (commodity == Commodity::ice && std::none_of(plan.cold.begin(), plan.cold.end(),
                                                  [](const Cabinet& c) { return c.ice_box; })) {
    log.error(entry.origin, "there is no ice box to put ice into",
              R"(a cabinet with "ice" under "cold")");
  }
  if (commodity.kind == Commodity::consumable &&
      plan.consumables[at(commodity.of)].stores.empty()) {
    log.error(entry.origin, fmt::format("there is no store for {}", units::in_quotes(entry.key)),
              R"(a store under "stores" of the consumable)");
  }
}

// Logs what the place cannot give.
void check_supply(Log& log, const Entry& entry, Commodity commodity, const Place& place,
                  const Plan& plan, const std::vector<Order>& orders) {
  const auto supply = std::find_if(place.supplies.begin(), place.supplies.end(),
                                   [&](const Supply& s) { return s.commodity == commodity; });
  if (supply == place.supplies.end()) {
    std::vector<std::string> there;
    for (const Supply& s : place.supplies) {
      for (const auto& word : commodity_words) {
        if (word.value == s.commodity) there.emplace_back(word.text);
      }
      if (s.commodity.kind == Commodity::consumable) {
        there.push_back(plan.consumables[at(s.commodity.of)].name);
      }
    }
    log.error(entry.origin,
              fmt::format("{} does not supply {}", units::in_quotes(place.name), entry.key),
              there.empty() ? "a place that supplies something" : one_of(there),
              commodity.kind == Commodity::consumable
                  ? fmt::format("if it does, write consumables: {{{}: {{}}}} under its supplies",
                                entry.key)
                  : fmt::format("if it does, write {}: {{}} under its supplies", entry.key));
    return;
  }
  if (!supply->most) return;
  double sum = 0;
  for (const Order& order : orders) {
    if (order.commodity == commodity && order.take == Take::amount) sum += order.amount;
  }
  if (sum > *supply->most) {
    log.warning(entry.origin,
                fmt::format("{} supplies {:.4g} at most, and {:.4g} are to be taken",
                            units::in_quotes(place.name), *supply->most, sum),
                {}, "no more than there is will be taken");
  }
}

void read_order(Log& log, const Entry& entry, Commodity commodity, const Position& here,
                const Plan& plan, Resupply& made) {
  check_taker(log, entry, commodity, plan);
  if (entry.value.kind == Node::Kind::map && is_fuel(commodity)) {
    const auto names = names_of(plan.vehicles);
    for (const Entry& part : entry.value.entries) {
      Order order;
      order.commodity = commodity;
      read_take(log, part.value, part.key, plan, order);
      const auto found = std::find(names.begin(), names.end(), part.key);
      if (found == names.end()) {
        log.error(part.origin, fmt::format("there is no vehicle {}", units::in_quotes(part.key)),
                  one_of(names), did_you_mean(part.key, names));
        continue;
      }
      order.vehicle = static_cast<int>(found - names.begin());
      if (!burns(plan.vehicles[at(*order.vehicle)], commodity)) {
        log.error(part.origin,
                  fmt::format("vehicle {} does not use {}", units::in_quotes(part.key), entry.key),
                  "the fuel that the vehicle uses");
      }
      made.orders.push_back(order);
    }
  } else {
    Order order;
    order.commodity = commodity;
    read_take(log, entry.value, entry.key, plan, order);
    made.orders.push_back(order);
  }
  if (here.known) {
    check_supply(log, entry, commodity, plan.places[at(here.place)], plan, made.orders);
  }
}

}  // namespace

Resupply read_resupply(Log& log, const Node& node, const Position& here, const Plan& plan) {
  Resupply made;
  Fields fields(log, node, "a resupply");
  for (const Word<Commodity>& word : commodity_words) {
    if (word.value == Commodity::mains) {
      fields.refuse("places.supplies.mains", "mains is used wherever the place supplies it");
    } else if (word.value == Commodity::tyres) {
      fields.refuse("places.supplies.tyres", "tyres are mended wherever the place supplies it");
    } else {
      fields.get(order_key(word.value));
    }
  }
  for (const Entry& entry : node.entries) {
    for (const Word<Commodity>& word : commodity_words) {
      if (entry.key == word.text && is_ordered(word.value)) {
        read_order(log, entry, word.value, here, plan, made);
      }
    }
  }
  bool names_consumable = false;
  for (const Consumable& consumable : plan.consumables) {
    names_consumable = names_consumable || node.find(consumable.name) != nullptr;
    fields.refuse_name(consumable.name,
                       fmt::format("write consumables: {{{}: fill}}", consumable.name));
  }
  const Node* consumables = fields.get("itinerary.resupply.consumables");
  if (consumables != nullptr) {
    for (const Entry& entry : map_entries(log, *consumables, "consumables")) {
      const auto of =
          read_reference(log, key_node(entry), "consumable", names_of(plan.consumables));
      if (of) read_order(log, entry, {Commodity::consumable, *of}, here, plan, made);
    }
  }
  made.takes_h = fields.number("itinerary.resupply.takes");
  made.cleaned = fields.yes_no("itinerary.resupply.cleaned");
  const bool names_a_commodity =
      (consumables != nullptr && !consumables->entries.empty()) ||
      std::ranges::any_of(commodity_words, [&](const Word<Commodity>& word) {
        return node.find(word.text) != nullptr;
      });
  if (!names_a_commodity && !names_consumable && fields.usable()) {
    log.error(node.origin, "a resupply that takes nothing", "diesel: fill, for instance");
  }
  const bool takes_water = std::ranges::any_of(made.orders, [](const Order& order) {
    return order.commodity == Commodity::drinking_water ||
           order.commodity == Commodity::utility_water;
  });
  if (made.cleaned && names_a_commodity && !takes_water && fields.usable()) {
    log.warning(node.origin, "\"cleaned\" without water to put in changes nothing",
                "drinking_water or utility_water beside it");
  }
  fields.finish();
  return made;
}

}  // namespace drystage::plan
