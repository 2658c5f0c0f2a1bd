#include "plan/schema.h"

#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

#include "plan/keys.h"
#include "plan/schema_patterns.h"
#include "plan/values.h"
#include "units/list.h"

namespace drystage::plan {
namespace {

using Json = nlohmann::ordered_json;

Json nothing_or_map() { return {"object", "null"}; }

// Words, of which some may be written in other ways too.
Json words(std::span<const std::string_view> all) {
  Json listed{{"enum", all}};
  std::string others;
  if (all.data() == weekdays.data()) {
    Json shorter{{"enum", Json::array()}};
    for (const std::string_view day : all) {
      shorter["enum"].push_back(day.substr(0, 3));
      others += (others.empty() ? "" : "|") + loose_word_pattern(day, 3);
    }
    listed = std::move(shorter);
  } else if (all.data() == keys::texts_of<surface_words>.data()) {
    for (std::string word : std::vector<std::string>(all.begin(), all.end())) {
      if (word.find(' ') == std::string::npos) continue;
      std::ranges::replace(word, ' ', '_');
      others += fmt::format("{}^{}$", others.empty() ? "" : "|", word);
    }
  }
  if (others.empty()) return listed;
  return {{"anyOf", {listed, {{"type", "string"}, {"pattern", others}}}}};
}

Json text(std::string_view pattern, std::string_view expected) {
  return {{"type", "string"}, {"pattern", pattern}, {"patternErrorMessage", expected}};
}

// What YAML takes for a number or a yes is a name as good as any.
Json any_text() { return {{"type", {"string", "number", "boolean"}}, {"pattern", text_pattern()}}; }

class Schema {
 public:
  Json whole() {
    Json made{{"$schema", "http://json-schema.org/draft-07/schema#"},
              {"title", "A plan of drystage"},
              {"description", "What goes along on a trip, and what becomes of it."},
              {"type", "object"}};
    const Json starts{{"required", {"trip"}},
                      {"properties", {{"trip", {{"required", {"start"}}}}}}};
    made["if"] = {{"anyOf", {{{"required", {"itinerary"}}}, starts}},
                  {"not", {{"required", {"include"}}}}};
    made["then"] = map("");
    is_part_ = true;
    made["else"] = map("");
    made["definitions"] = std::move(definitions_);
    return made;
  }

 private:
  /// One text for amounts of the same kinds, kept once.
  Json amount(std::span<const Range> ranges) {
    Json made = Json::array();
    std::vector<Range> quantities;
    for (const Range& range : ranges) {
      if (range.kind) {
        quantities.push_back(range);
      } else {
        made.push_back({{"type", {"number", "string"}},
                        {"minimum", range.least},
                        {"maximum", range.most},
                        {"pattern", count_pattern(range)}});
      }
    }
    if (!quantities.empty()) {
      std::vector<std::string> kinds;
      std::vector<std::string> examples;
      bool below_zero = false;
      for (const Range& range : quantities) {
        kinds.emplace_back(units::name(*range.kind));
        examples.push_back(example(range));
        below_zero = below_zero || range.least < 0;
      }
      const std::string expected =
          fmt::format("{} with its unit, such as {}", units::listed(kinds, " or "),
                      units::listed(examples, " or "));
      std::string name = units::listed(kinds, " or ") + (below_zero ? " below zero too" : "");
      std::ranges::replace(name, ' ', '_');
      std::erase(name, ',');
      if (!definitions_.contains(name)) {
        definitions_[name] = text(amount_pattern(quantities), expected);
      }
      made.push_back({{"$ref", "#/definitions/" + std::exchange(name, {})}});
    }
    if (made.size() > 1) return {{"anyOf", made}};
    // Beside a $ref nothing else counts, so it gets a place of its own.
    return made[0].contains("$ref") ? Json{{"allOf", made}} : made[0];
  }

  Json amount_or_words(const Value& value) {
    return {{"anyOf", {words(value.words), amount(value.ranges())}}};
  }

  Json coordinate(Key key, std::string_view others) {
    const std::string expected = "an angle, such as " + example_of(key);
    return {{"anyOf", {text(coordinate_pattern(others), expected), amount(key.ranges())}}};
  }

  static Json map_by_surface(const Json& value) {
    Json made{{"type", nothing_or_map()}, {"properties", Json::object()}};
    for (const std::string_view word : keys::texts_of<surface_words>) {
      made["properties"][std::string(word)] = value;
      std::string other(word);
      std::ranges::replace(other, ' ', '_');
      if (other != word) made["patternProperties"][fmt::format("^{}$", other)] = value;
    }
    made["additionalProperties"] = false;
    return made;
  }

  Json months(std::string_view path) {
    const std::string name = fmt::format("{}{}", path, is_part_ ? "_of_a_part" : "");
    if (!definitions_.contains(name)) definitions_[name] = map(path);
    const Json month{{"$ref", "#/definitions/" + name}};
    Json made{{"type", nothing_or_map()}};
    for (const std::string_view word : month_names) {
      made["properties"][std::string(word)] = month;
      made["patternProperties"][loose_word_pattern(word, 3)] = month;
    }
    made["additionalProperties"] = false;
    return made;
  }

  // One value, without what it means.
  Json one(Key key) {
    const Value& value = key->value;
    switch (value.sort) {
      case Sort::map:
        return map_or_short(key);
      case Sort::amount:
        return amount(value.ranges());
      case Sort::word:
        return words(value.words);
      case Sort::name:
      case Sort::reference:
      case Sort::text:
        return any_text();
      case Sort::yes_no:
        return {{"enum", {"yes", "no", "true", "false", true, false}}};
      case Sort::date: {
        Json date = text(date_pattern, "a date as year-month-day, such as 2027-02-08");
        return value.of.empty() ? date : Json{{"anyOf", {date, map(value.of)}}};
      }
      case Sort::clock:
        return text(clock_pattern, "a time of day, such as 08:00");
      case Sort::utc_offset:
        return text(utc_offset_pattern, "an offset from universal time, such as +01:00");
      case Sort::latitude:
        return coordinate(key, "EWew");
      case Sort::longitude:
        return coordinate(key, "NSns");
      case Sort::version:
        return {{"enum", {1, "1"}}};
      case Sort::facing:
      case Sort::take:
        return amount_or_words(value);
      case Sort::surfaces: {
        const Json parts{{"type", "array"}, {"items", map(key->path)}};
        const Json by_surface = map_by_surface(amount(Key("road.surfaces.distance").ranges()));
        return {{"anyOf", {words(keys::texts_of<surface_words>), by_surface, parts}}};
      }
      case Sort::dip:
        return {{"type", "object"},
                {"minProperties", 1},
                {"patternProperties",
                 {{amount_pattern(Key("dip.depth.*").ranges()), amount(Key("dip.*").ranges())}}},
                {"additionalProperties", false}};
      case Sort::months:
        return months(key->path);
    }
    return {};
  }

  Json map_or_short(Key key) {
    const Value& value = key->value;
    Json made = map(value.of.empty() ? key->path : value.of);
    if (value.alone.empty()) return made;
    for (const auto& some : declarations) {
      for (const Declaration& other : some) {
        if (other.path == value.alone) return {{"anyOf", {amount(other.value.ranges()), made}}};
      }
    }
    return made;
  }

  Json value(Key key) {
    Json each = one(key);
    const Json list_type =
        key->required() || !key->value.alone.empty() ? Json("array") : Json({"array", "null"});
    Json list{{"type", list_type}, {"items", each}};
    if (list_type == "array" && !is_part_) list["minItems"] = 1;
    Json by_name{{"type", nothing_or_map()}, {"additionalProperties", each}};
    switch (key->value.many) {
      case Many::list:
        return list;
      case Many::one_or_list:
        return {{"anyOf", {each, {{"type", "array"}, {"items", each}}}}};
      case Many::list_by_name:
        by_name["additionalProperties"] = list;
        return by_name;
      case Many::by_name:
        return by_name;
      case Many::one_or_by_name:
        by_name["type"] = "object";
        return {{"anyOf", {each, by_name}}};
      case Many::by_surface:
        return map_by_surface(each);
      case Many::one_or_by_surface: {
        Json by_surface = map_by_surface(each);
        by_surface["type"] = "object";
        by_surface["minProperties"] = 1;
        return {{"anyOf", {each, by_surface}}};
      }
      default:
        return each;
    }
  }

  static std::string description(Key key) {
    std::string made(key->meaning);
    std::vector<std::string> usual;
    for (const Range& range : key.ranges()) usual.push_back(usual_words(range));
    if (!usual.empty()) made += fmt::format("; usually {}", units::listed(usual, " or "));
    if (!key->required()) made += fmt::format("; left out: {}", key->absent);
    return made;
  }

  /// A map of the keys that stand under a path, and no others.
  Json map(std::string_view path) {
    Json made{{"type", "object"}};
    Json required = Json::array();
    for (const Key key : keys_of(path)) {
      Json property{{"description", description(key)}};
      property.update(is_part_ ? Json{{"anyOf", {{{"type", "null"}}, value(key)}}} : value(key));
      if (key->value.many == Many::also_named) {
        made["patternProperties"][fmt::format("^{}:", key.name())] = property;
      }
      if (key->required() && !is_conditional(path, key.name())) required.push_back(key.name());
      made["properties"][std::string(key.name())] = std::move(property);
    }
    made["additionalProperties"] = false;
    if (is_part_) return made;
    // What stands under a kind of mishap must be a map.
    const bool may_be_empty = required.empty() && !path.empty() && !path.starts_with("mishaps.");
    if (may_be_empty) made["type"] = nothing_or_map();
    if (!required.empty()) made["required"] = required;
    add_rules(path, made);
    for (const Included& other : included) {
      if (other.map == path) add_rules(other.other, made);
    }
    return made;
  }

  static void add_rules(std::string_view path, Json& made) {
    const auto has = [](std::string_view key) { return Json{{"required", {key}}}; };
    for (const Rule& rule : rules) {
      if (rule.map != path) continue;
      const auto names = words_of(rule.keys);
      const std::string first(names.front());
      Json any = Json::array();
      for (const std::string_view name : names) any.push_back(has(name));
      for (std::size_t i = 1; i < names.size(); ++i) {
        if (rule.together == Together::not_both) {
          made["allOf"].push_back({{"not", {{"required", {first, names[i]}}}}});
        } else if (rule.together == Together::needs) {
          made["dependencies"][first].push_back(names[i]);
        } else if (rule.together == Together::only_with) {
          made["dependencies"][std::string(names[i])].push_back(first);
        }
      }
      if (rule.together == Together::exactly_one) made["allOf"].push_back({{"oneOf", any}});
      if (rule.together == Together::at_least_one) made["allOf"].push_back({{"anyOf", any}});
      const bool some =
          rule.together == Together::exactly_one || rule.together == Together::at_least_one;
      if (some) made["type"] = "object";
    }
  }

  Json definitions_ = Json::object();
  /// A kit, or a trip that includes one: each of them may lack what the other has, and an empty
  /// value takes away what the kit has.
  bool is_part_ = false;
};

}  // namespace

std::string editor_schema() { return Schema().whole().dump(1) + "\n"; }

}  // namespace drystage::plan
