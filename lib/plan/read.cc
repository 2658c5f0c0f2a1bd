#include "plan/read.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "plan/include.h"
#include "plan/limits.h"
#include "plan/log.h"
#include "plan/merge.h"
#include "plan/sections.h"

namespace drystage::plan {
namespace {

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
  if (const Node* version = top.get("drystage")) read_version(log, *version);
  if (const Node* include = top.get("include")) {
    log.error(include->origin, "\"include\" cannot be set", "include in the plan file");
  }
  needed("trip", read_trip);
  read_activities(log, top.get("activities"), plan);
  read_vehicles(log, optional("vehicles"), plan);
  needed("people", read_people);
  read_water(log, optional("water"), plan);
  read_batteries(log, optional("power"), plan);
  read_cold(log, optional("cold"), plan);
  read_consumables(log, optional("consumables"), plan);
  read_power(log, optional("power"), plan);
  refuse_unused_consumables(log, plan);
  read_food(log, optional("food"), plan);
  needed("climate", read_climate);
  read_weather(log, optional("weather"), plan);
  needed("places", read_places);
  needed("itinerary", read_itinerary);
  read_company(log, optional("people"), optional("vehicles"), plan);
  read_weighed(log, optional("vehicles"), plan);
  read_roads(log, optional("roads"), plan);
  read_margins(log, optional("margins"), plan);
  read_mishaps(log, optional("mishaps"), plan);
  read_uncertainty(log, optional("uncertainty"), plan);
  read_size(log, optional("size"), plan);
  plan.plans_food = speaks_of_food(top, plan);
  read_changes(log, optional("changes"), plan);
  read_readings(log, optional("readings"), plan);
  refuse_too_many(log, plan);
  top.finish();
  return plan;
}

bool is_kit(const Node& root) {
  const Node* trip = root.find("trip");
  const bool is_plan =
      root.find("itinerary") != nullptr || (trip != nullptr && trip->find("start") != nullptr);
  return !is_plan && std::ranges::any_of(
                         root.entries, [](const Entry& entry) { return entry.key != "drystage"; });
}

// A kit with stand-ins for what it need not have, so that all that it has can be read. Their marks
// are in no file.
constexpr int no_file = -1;
Node with_stand_ins(Node kit) {
  Log log;
  Node made = parse_tree(R"(drystage: 1
trip: {title: stand-in, start: 2027-01-01, time_zone: UTC}
people: [{name: stand-in, mass: 70 kg, height: 170 cm, age: 30, sex: female}]
climate: {stand-in: {jan: {max: 20 °C, min: 10 °C, humidity: 50 %, sun: 5 kWh/m2/day}}}
places: {stand-in: {at: {latitude: 0° N, longitude: 0° E, elevation: 0 m}, climate: stand-in}}
itinerary: [{at: stand-in}]
)",
                         {}, log, no_file)
                  .value();
  // An empty section of the kit says nothing, and must not take a stand-in away.
  std::erase_if(kit.entries, [&](const Entry& entry) {
    const Node& value = entry.value;
    return made.find(entry.key) != nullptr && value.text.empty() && value.items.empty() &&
           value.entries.empty();
  });
  if (kit.find("people") != nullptr) {
    std::erase_if(made.entries, [](const Entry& entry) { return entry.key == "people"; });
  }
  return laid_over(made, kit);
}

ReadPlan read_source(std::string source, std::span<const Override> overrides,
                     const std::filesystem::path& file, bool as_kit) {
  ReadPlan reading;
  reading.source = without_byte_order_mark(std::move(source));
  Log log;
  auto root = read_with_included(reading.source, file, log, reading.included);
  if (root) {
    reading.is_kit = is_kit(*root);
    for (const Entry& entry : root->entries) {
      if (entry.key != "drystage") reading.sections.push_back(entry.key);
    }
    if (!reading.included.empty()) reading.merged = *root;
    as_kit = as_kit && reading.is_kit;
    if (as_kit) root = with_stand_ins(std::move(*root));
    for (const Override& set : overrides) apply(set, *root, log);
    Plan plan = read_tree(log, *root);
    if (log.errors() == 0) {
      if (!as_kit) review(log, plan);
      reading.plan = std::move(plan);
    }
  }
  reading.diagnostics = log.take();
  std::erase_if(reading.diagnostics, [](const Diagnostic& d) { return d.mark.file == no_file; });
  return reading;
}

ReadPlan read_path(const std::filesystem::path& path, std::span<const Override> overrides,
                   bool as_kit) {
  FileText file = text_of_file(path);
  if (file.fault.empty()) return read_source(std::move(file.text), overrides, path, as_kit);
  ReadPlan reading;
  reading.io_error = std::move(file.fault);
  return reading;
}

}  // namespace

void read_version(Log& log, const Node& node) {
  if (node.kind == Node::Kind::text && node.text == "1") return;
  log.error(node.origin, "the version of the plan's form is not one that this program reads",
            "drystage: 1");
}

ReadPlan read_text(std::string source, std::span<const Override> overrides,
                   const std::filesystem::path& file) {
  return read_source(std::move(source), overrides, file, false);
}

ReadPlan read_file(const std::filesystem::path& path, std::span<const Override> overrides) {
  return read_path(path, overrides, false);
}

ReadPlan read_kit(const std::filesystem::path& path, std::span<const Override> overrides) {
  return read_path(path, overrides, true);
}

ReadPlan read_kit_text(std::string source, std::span<const Override> overrides,
                       const std::filesystem::path& file) {
  return read_source(std::move(source), overrides, file, true);
}

std::string render(const Diagnostic& diagnostic, const ReadPlan& reading,
                   std::string_view plan_name, bool color) {
  const int file = diagnostic.mark.file;
  if (file <= 0) return render(diagnostic, plan_name, reading.source, color);
  const SourceFile& other = reading.included.at(static_cast<std::size_t>(file) - 1);
  return render(diagnostic, other.name, other.text, color);
}

}  // namespace drystage::plan
