#include <fmt/core.h>

#include <cmath>
#include <utility>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr std::array<std::string_view, 7> weekdays{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
constexpr std::array<std::string_view, 7> long_weekdays{
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

// An angle with its unit, negative or with a letter for south and west ("27.1°", "27.1 °N").
std::optional<double> read_coordinate(Log& log, const Node& node, std::string_view name,
                                      char positive_letter, char negative_letter, double most) {
  if (node.kind != Node::Kind::text) {
    log_wrong_form(log, node, name,
                   fmt::format("an angle, such as 27.1° or 27.1° {}", positive_letter));
    return std::nullopt;
  }
  Node angle = node;
  double sign = 1;
  const char last = node.text.empty() ? ' ' : node.text.back();
  const bool has_letter = last == positive_letter || last == negative_letter;
  if (has_letter) {
    angle.text.pop_back();
    if (last == negative_letter) sign = -1;
  }
  const auto degrees = read_quantity(log, angle, name, Kind::angle);
  if (!degrees) return std::nullopt;
  if (has_letter && *degrees < 0) {
    log.error(node.spot, fmt::format("{}: {} has both a sign and a letter", name, node.text),
              "one of the two");
    return std::nullopt;
  }
  if (std::abs(*degrees) > most) {
    log.error(node.spot, fmt::format("{}: {} is out of range", name, node.text),
              fmt::format("from -{0}° to {0}°", most));
    return std::nullopt;
  }
  return sign * *degrees;
}

void read_position(Log& log, const Node& node, Place& made) {
  static constexpr Limits elevation{-450, 9000, false, "from -450 m to 9000 m"};
  Fields fields(log, node, "the position of " + units::in_quotes(made.name));
  if (const Node* latitude = fields.need("latitude", "27.1°")) {
    made.latitude_deg = read_coordinate(log, *latitude, "latitude", 'N', 'S', 90).value_or(0);
  }
  if (const Node* longitude = fields.need("longitude", "5.2°")) {
    made.longitude_deg = read_coordinate(log, *longitude, "longitude", 'E', 'W', 180).value_or(0);
  }
  made.elevation_m = fields.need_quantity("elevation", Kind::elevation, elevation).value_or(0);
  fields.finish();
}

std::bitset<7> read_weekdays(Log& log, const Node& node) {
  std::bitset<7> made;
  for (const Node& item : list_items(log, node, "open")) {
    const std::string text = units::lower_ascii(item.text);
    bool found = false;
    for (std::size_t i = 0; i < weekdays.size(); ++i) {
      if (text != weekdays[i] && text != long_weekdays[i]) continue;
      made.set(i);
      found = true;
    }
    if (!found) {
      log.error(item.spot, fmt::format("open: {} is not a weekday", units::in_quotes(item.text)),
                one_of(weekdays), did_you_mean(text, long_weekdays));
    }
  }
  if (node.kind == Node::Kind::list && node.items.empty()) {
    log.error(node.spot, "open on no weekday at all", "at least one weekday",
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
    const Node* from = fields.need("from", "2027-02-10");
    const Node* to = fields.need("to", "2027-02-12");
    fields.finish();
    if (from == nullptr || to == nullptr) continue;
    const auto first = read_date(log, *from, "from");
    const auto last = read_date(log, *to, "to");
    if (!first || !last) continue;
    if (*last < *first) log.error(to->spot, R"("to" is before "from")", "a later date");
    made.push_back({*first, *last});
  }
  return made;
}

bool is_water(Commodity commodity) {
  return commodity == Commodity::drinking_water || commodity == Commodity::utility_water;
}

std::optional<double> read_most(Log& log, const Node& node, Commodity commodity) {
  if (commodity == Commodity::food) return read_meals(log, node, "most", not_negative);
  const Kind kind = commodity == Commodity::ice ? Kind::mass : Kind::volume;
  return read_quantity(log, node, "most", kind, not_negative);
}

Supply read_supply(Log& log, const Entry& entry, Commodity commodity) {
  Supply made;
  made.commodity = commodity;
  made.mark = entry.spot.mark;
  Fields fields(log, entry.value, "supply " + units::in_quotes(entry.key));
  if (is_water(commodity)) {
    made.quality = fields.word_or("quality", WaterQuality::potable, quality_words);
    if (commodity == Commodity::drinking_water && made.quality == WaterQuality::brackish) {
      log.error(fields.get("quality")->spot, "brackish water is not for drinking",
                "utility_water: {quality: brackish}");
    }
  }
  if (commodity != Commodity::mains) {
    if (const Node* most = fields.get("most")) made.most = read_most(log, *most, commodity);
  }
  if (const Node* open = fields.get("open")) made.open_weekdays = read_weekdays(log, *open);
  if (const Node* dates = fields.get("open_dates")) {
    made.open_dates = read_dates(log, *dates, "open_dates");
  }
  if (const Node* shut = fields.get("shut")) made.shut_dates = read_dates(log, *shut, "shut");
  made.confirmed = fields.yes_no_or("confirmed", true);
  fields.finish();
  return made;
}

void read_supplies(Log& log, const Node& node, Place& made) {
  const auto known = texts(commodity_words);
  for (const Entry& entry : map_entries(log, node, "supplies")) {
    bool found = false;
    for (const Word<Commodity>& word : commodity_words) {
      if (entry.key != word.text) continue;
      made.supplies.push_back(read_supply(log, entry, word.value));
      found = true;
    }
    if (!found) {
      log.error(entry.spot, fmt::format("there is no supply {}", units::in_quotes(entry.key)),
                one_of(known), did_you_mean(entry.key, known));
    }
  }
}

Place read_place(Log& log, const Entry& entry, const Plan& plan) {
  Place made;
  made.mark = entry.spot.mark;
  made.name = key_name(log, entry, "place");
  refuse_same_name(log, entry.spot, "places", made.name, plan.places);
  Fields fields(log, entry.value, "place " + units::in_quotes(entry.key));
  if (const Node* at = fields.need("at", "{latitude: 27.1°, longitude: 5.2°, elevation: 980 m}")) {
    read_position(log, *at, made);
  }
  if (fields.need("climate", "the name of a climate") != nullptr) {
    made.climate = fields.reference_or("climate", 0, "climate", names_of(plan.climates), "climate");
  }
  if (const Node* supplies = fields.get("supplies")) read_supplies(log, *supplies, made);
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
