#include <fmt/core.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "plan/sections.h"
#include "units/coordinate.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::plan {
namespace {

constexpr std::array<std::string_view, 7> short_weekdays{"mon", "tue", "wed", "thu",
                                                         "fri", "sat", "sun"};

// A position that has an error gives rise to no other: nothing compares with it.
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

double read_axis(Fields& fields, Key key, const units::Axis& axis) {
  const Node* node = fields.get(key);
  if (node == nullptr) return not_known;
  return read_coordinate(fields.log(), *node, key, axis).value_or(not_known);
}

void read_position(Log& log, const Node& node, Place& made) {
  Fields fields(log, node, "the position of " + units::in_quotes(made.name));
  made.latitude_deg = read_axis(fields, "places.at.latitude", units::latitude);
  made.longitude_deg = read_axis(fields, "places.at.longitude", units::longitude);
  made.elevation_m = fields.number("places.at.elevation");
  fields.finish();
}

// The place of a weekday in the week; 7 if it is none.
std::size_t weekday(std::string_view text) {
  const std::string small = units::lower_ascii(text);
  const auto* const found = std::ranges::find_if(
      weekdays, [&](std::string_view day) { return small == day || small == day.substr(0, 3); });
  return static_cast<std::size_t>(found - weekdays.begin());
}

// How a text is written as a list of weekdays: "mon-fri" or "mon" alone. Empty if it is something
// else.
std::string as_list_of_weekdays(std::string_view text) {
  const std::size_t dash = std::min(text.find('-'), text.size());
  const std::size_t first = weekday(text.substr(0, dash));
  const std::size_t last = dash == text.size() ? first : weekday(text.substr(dash + 1));
  if (first == short_weekdays.size() || last == short_weekdays.size()) return {};
  std::string list;
  for (std::size_t day = first;; day = (day + 1) % short_weekdays.size()) {
    units::add_to(list, short_weekdays.at(day));
    if (day == last) return fmt::format("write [{}]", list);
  }
}

std::bitset<7> read_weekdays(Log& log, const Node& node) {
  std::bitset<7> made;
  if (node.kind == Node::Kind::text) {
    log.error(node.origin,
              fmt::format("open: {} is not a list of weekdays", units::in_quotes(node.text)),
              "a list of short_weekdays, such as [mon, tue]", as_list_of_weekdays(node.text));
    return made;
  }
  for (const Node& item : list_items(log, node, "open")) {
    const std::size_t day = weekday(item.text);
    if (day < made.size()) {
      made.set(day);
      continue;
    }
    const std::string list = as_list_of_weekdays(item.text);
    log.error(item.origin, fmt::format("open: {} is not a weekday", units::in_quotes(item.text)),
              one_of(short_weekdays), list.empty() ? did_you_mean(item.text, weekdays) : list);
  }
  if (node.kind == Node::Kind::list && node.items.empty()) {
    log.error(node.origin, "open on no weekday at all", "at least one weekday",
              "leave out a supply that there is not");
  }
  return made;
}

std::vector<DateRange> read_dates(Log& log, const Node& node, std::string_view name) {
  std::vector<DateRange> made;
  for (const Node& item : list_items(log, node, name)) {
    if (item.kind == Node::Kind::text) {
      if (const auto date = read_date(log, item, name)) made.push_back({*date, *date});
      continue;
    }
    Fields fields(log, item, std::string(name));
    const Node* from = fields.get("dates.from");
    const Node* to = fields.get("dates.to");
    fields.finish();
    if (from == nullptr || to == nullptr) continue;
    const auto first = read_date(log, *from, "from");
    const auto last = read_date(log, *to, "to");
    if (!first || !last) continue;
    if (*last < *first) log.error(to->origin, R"("to" is before "from")", "a later date");
    made.push_back({*first, *last});
  }
  return made;
}

bool is_water(Commodity commodity) {
  return commodity == Commodity::drinking_water || commodity == Commodity::utility_water;
}

Key most_of(Commodity commodity) {
  return commodity == Commodity::food  ? Key("supply.food.most")
         : commodity == Commodity::ice ? Key("supply.ice.most")
                                       : Key("supply.fuel.most");
}

std::optional<double> read_most(Fields& fields, Commodity commodity, const Plan& plan) {
  if (commodity == Commodity::mains || commodity == Commodity::tyres) return std::nullopt;
  if (commodity.kind != Commodity::consumable) return fields.number_if(most_of(commodity));
  constexpr Key key = "supply.consumable.most";
  const Node* most = fields.get(key);
  if (most == nullptr) return std::nullopt;
  const Consumable& of = plan.consumables[at(commodity.of)];
  return read_consumable_amount(fields.log(), *most, key, key.name(), of);
}

Supply read_supply(Log& log, const Entry& entry, Commodity commodity, const Plan& plan) {
  Supply made;
  made.commodity = commodity;
  made.mark = entry.origin.mark;
  Fields fields(log, entry.value, "supply " + units::in_quotes(entry.key));
  if (is_water(commodity)) {
    made.quality = fields.word("supply.water.quality", quality_words);
    if (commodity == Commodity::drinking_water && made.quality == WaterQuality::brackish) {
      log.error(fields.get("supply.water.quality")->origin, "brackish water is not for drinking",
                "utility_water: {quality: brackish}");
    }
  }
  made.most = read_most(fields, commodity, plan);
  if (const Node* open = fields.get("supply.open")) made.open_weekdays = read_weekdays(log, *open);
  if (const Node* dates = fields.get("supply.open_dates")) {
    made.open_dates = read_dates(log, *dates, "open_dates");
  }
  if (const Node* shut = fields.get("supply.shut"))
    made.shut_dates = read_dates(log, *shut, "shut");
  made.confirmed = fields.yes_no("supply.confirmed");
  fields.finish();
  return made;
}

void read_supplied_consumables(Log& log, const Node& node, const Plan& plan, Place& made) {
  for (const Entry& entry : map_entries(log, node, "consumables")) {
    const auto of = read_reference(log, key_node(entry), "consumable", names_of(plan.consumables));
    if (!of) continue;
    made.supplies.push_back(read_supply(log, entry, {Commodity::consumable, *of}, plan));
  }
}

std::string hint_for(const std::string& key, const std::vector<std::string>& known,
                     const Plan& plan) {
  const auto names = names_of(plan.consumables);
  if (std::ranges::find(names, key) == names.end()) return did_you_mean(key, known);
  return fmt::format("write consumables: {{{}: {{}}}}", key);
}

void read_supplies(Log& log, const Node& node, const Plan& plan, Place& made) {
  constexpr Key consumables = "places.supplies.consumables";
  const auto words = texts(commodity_words);
  std::vector<std::string> known(words.begin(), words.end());
  known.emplace_back(consumables.name());
  for (const Entry& entry : map_entries(log, node, "supplies")) {
    bool found = entry.key == consumables.name();
    if (found) read_supplied_consumables(log, entry.value, plan, made);
    for (const Word<Commodity>& word : commodity_words) {
      if (entry.key != word.text) continue;
      made.supplies.push_back(read_supply(log, entry, word.value, plan));
      found = true;
    }
    if (!found) {
      log.error(entry.origin, fmt::format("there is no supply {}", units::in_quotes(entry.key)),
                one_of(known), hint_for(entry.key, known, plan));
    }
  }
}

Place read_place(Log& log, const Entry& entry, const Plan& plan) {
  Place made;
  made.mark = entry.origin.mark;
  made.name = key_name(log, entry, "place");
  refuse_same_name(log, entry.origin, "places", made.name, plan.places);
  Fields fields(log, entry.value, "place " + units::in_quotes(entry.key));
  if (const Node* at = fields.get("places.at")) {
    read_position(log, *at, made);
  }
  made.climate = fields.reference("places.climate", names_of(plan.climates));
  if (const Node* supplies = fields.get("places.supplies"))
    read_supplies(log, *supplies, plan, made);
  fields.finish();
  return made;
}

}  // namespace

void read_places(Log& log, const Node& node, Plan& plan) {
  for (const Entry& entry : map_entries(log, node, "places")) {
    plan.places.push_back(read_place(log, entry, plan));
  }
}

}  // namespace drystage::plan
