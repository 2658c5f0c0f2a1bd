#include "plan/read.h"

#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>
#include <utility>
#include <variant>

#include "plan/log.h"
#include "plan/sections.h"
#include "plan/utf8.h"

namespace drystage::plan {
namespace {

void read_version(Log& log, Fields& top) {
  const Node* version = top.get("drystage");
  if (version == nullptr) return;
  if (version->kind != Node::Kind::text || version->text != "1") {
    log.error(version->spot, "the version of the plan's form is not one that this program reads",
              "drystage: 1");
  }
}

/// A plan that has no food, buys none, wants no margin of it and may not take any, leaves it to the
/// people.
bool speaks_of_food(Fields& top, const Plan& plan) {
  const auto buys = [](const ItineraryItem& item) {
    const auto* stop = std::get_if<Resupply>(&item);
    return stop != nullptr && std::ranges::any_of(stop->orders, [](const Order& order) {
             return order.commodity == Commodity::food;
           });
  };
  return top.get("food") != nullptr || plan.margins.contains("food") || !plan.size.food.empty() ||
         std::ranges::any_of(plan.itinerary, buys);
}

Plan read_tree(Log& log, const Node& root) {
  static const Node nothing;
  Plan plan;
  if (root.kind == Node::Kind::empty) {
    log.error({{1, 1}, {}}, "the plan is empty", "drystage: 1, and then the sections of a plan");
    return plan;
  }
  Fields top(log, root, "a plan");
  if (!top.usable()) return plan;
  const auto optional = [&](Key key) -> const Node& {
    const Node* found = top.get(key);
    return found == nullptr ? nothing : *found;
  };
  const auto needed = [&](Key key, auto read) {
    if (const Node* found = top.get(key)) read(log, *found, plan);
  };
  read_version(log, top);
  needed("trip", read_trip);
  read_activities(log, top.get("activities"), plan);
  read_vehicles(log, optional("vehicles"), plan);
  needed("people", read_people);
  read_water(log, optional("water"), plan);
  read_batteries(log, optional("power"), plan);
  read_cold(log, optional("cold"), plan);
  read_power(log, optional("power"), plan);
  read_food(log, optional("food"), plan);
  read_consumables(log, optional("consumables"), plan);
  needed("climate", read_climate);
  read_weather(log, optional("weather"), plan);
  needed("places", read_places);
  needed("itinerary", read_itinerary);
  read_margins(log, optional("margins"), plan);
  read_mishaps(log, optional("mishaps"), plan);
  read_size(log, optional("size"), plan);
  plan.plans_food = speaks_of_food(top, plan);
  top.finish();
  return plan;
}

}  // namespace

Reading read_text(std::string source, std::span<const Override> overrides) {
  Reading reading;
  if (source.starts_with(byte_order_mark)) source.erase(0, byte_order_mark.size());
  Log log;
  auto root = parse_tree(source, {}, log);
  if (root) {
    for (const Override& set : overrides) apply(set, *root, log);
    Plan plan = read_tree(log, *root);
    if (log.errors() == 0) {
      review(log, plan);
      reading.plan = std::move(plan);
    }
  }
  reading.diagnostics = log.take();
  reading.source = std::move(source);
  return reading;
}

Reading read_file(const std::filesystem::path& path, std::span<const Override> overrides) {
  const auto failed = [](std::string why) {
    Reading reading;
    reading.io_error = std::move(why);
    return reading;
  };
  std::error_code fault;
  if (std::filesystem::is_directory(path, fault)) return failed("it is a folder");
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  if (!file) return failed(errno != 0 ? std::strerror(errno) : "it cannot be opened");
  // One byte more than is allowed, so that parse_tree sees that there is too much.
  std::string source(most_source_bytes + 1, '\0');
  file.read(source.data(), static_cast<std::streamsize>(source.size()));
  if (file.bad()) return failed("reading it failed");
  source.resize(static_cast<std::size_t>(file.gcount()));
  return read_text(std::move(source), overrides);
}

}  // namespace drystage::plan
