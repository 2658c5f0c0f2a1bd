#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "plan/sections.h"
#include "units/expression.h"
#include "units/number.h"
#include "units/parse.h"
#include "units/registry.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr double km_of_rate = 100;

constexpr std::string_view what_a_unit_is = "kg, L, or a word of your own, such as doses";

std::optional<Kind> kind_of(std::string_view unit) {
  for (const Kind kind : {Kind::mass, Kind::volume}) {
    if (units::parse(fmt::format("1 {}", unit), kind)) return kind;
  }
  return std::nullopt;
}

// A unit of mass or volume, or a word; not what would be taken for something else.
void read_unit(Log& log, const Node& node, Consumable& made) {
  const auto text = read_text(log, node, "unit");
  if (!text) return;
  made.kind = kind_of(*text);
  if (made.kind) {
    made.unit = units::canonical_unit(*made.kind);
    return;
  }
  const auto expression = units::read_expression(*text, "1");
  const auto other = expression ? units::kind_of(*expression) : std::nullopt;
  if (units::is_digit(text->front())) {
    log.error(node.origin, fmt::format("unit: {} is a number", *text), std::string(what_a_unit_is));
  } else if (kind_of(units::lower_ascii(*text))) {
    log.error(node.origin, fmt::format("unit: {} is not a unit", units::in_quotes(*text)),
              std::string(what_a_unit_is),
              fmt::format("did you mean {}?", units::lower_ascii(*text)));
  } else if (other) {
    log.error(node.origin,
              fmt::format("unit: {} is one of {}", units::in_quotes(*text), units::name(*other)),
              std::string(what_a_unit_is));
  } else {
    made.unit = *text;
  }
}

// What another reserve is called would be told from it by nobody.
void refuse_other_reserve(Log& log, const Origin& origin, const std::string& name) {
  static constexpr std::array<std::string_view, 9> taken{"water", "drinking water", "utility water",
                                                         "fuel",  "food",           "battery",
                                                         "cold",  "diesel",         "petrol"};
  std::string plain = units::lower_ascii(name);
  std::ranges::replace(plain, '_', ' ');
  if (std::ranges::find(taken, plain) == taken.end()) return;
  log.error(origin,
            fmt::format("a consumable is called {}, as another reserve is", units::in_quotes(name)),
            "another name", "water, fuel, food and batteries have sections of their own");
}

double amount_of(Fields& fields, Key key, const Consumable& of) {
  const Node* node = fields.get(key);
  if (node == nullptr) return 0;
  return read_consumable_amount(fields.log(), *node, key, key.name(), of).value_or(0);
}

ConsumableStore read_store(Log& log, const Node& node, const Consumable& of, const Plan& plan) {
  ConsumableStore made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a store");
  made.name = fields.name("consumables.stores.name");
  refuse_same_name(log, node.origin, "stores", made.name, of.stores);
  made.holds = amount_of(fields, "consumables.stores.holds", of);
  made.filled = amount_of(fields, "consumables.stores.filled", of);
  if (made.filled > made.holds * (1 + 1e-9) && made.holds > 0) {
    log.error(fields.get("consumables.stores.filled")->origin,
              fmt::format("{} is filled with {} but holds {}", fields.what(),
                          fields.get("consumables.stores.filled")->text,
                          fields.get("consumables.stores.holds")->text),
              "no more than it holds");
  }
  made.filled = std::min(made.filled, made.holds);
  made.empty_kg = fields.number("consumables.stores.empty_mass");
  made.vehicle = vehicle_of(fields, "consumables.stores.in", plan);
  fields.finish();
  return made;
}

bool is_used_by_the_day(const ConsumableUse& use) {
  return use.per_person_day + use.per_meal + use.per_day > 0;
}

bool is_used_by_the_road(const ConsumableUse& use) { return use.per_km + use.per_engine_h > 0; }

ConsumableUse read_use(Log& log, const Node& node, const Consumable& of) {
  ConsumableUse made;
  const std::size_t errors = log.errors();
  Fields fields(log, node, "the use of " + units::in_quotes(of.name));
  made.per_person_day = amount_of(fields, "consumables.use.per_person_day", of);
  made.per_meal = amount_of(fields, "consumables.use.per_meal", of);
  made.per_day = amount_of(fields, "consumables.use.per_day", of);
  made.per_km = amount_of(fields, "consumables.use.per_100km", of) / km_of_rate;
  made.per_engine_h = amount_of(fields, "consumables.use.per_engine_hour", of);
  fields.finish();
  if (of.unit.empty()) return made;
  const bool is_used = is_used_by_the_day(made) || is_used_by_the_road(made);
  if (!is_used && fields.usable() && log.errors() == errors) {
    log.error(node.origin, fmt::format("nothing uses {}", units::in_quotes(of.name)),
              "one or more of per_person_day, per_meal, per_day, per_100km and per_engine_hour");
  }
  return made;
}

// Whether a text is a bare number, or one of what is counted.
bool is_count(std::string_view text, std::string_view unit) {
  const std::string tidy = units::tidy_blanks(text);
  const auto number = units::read_number(tidy);
  if (!number) return false;
  const std::string after = units::tidy_blanks(std::string_view(tidy).substr(number->length));
  return after.empty() || after == unit;
}

// A margin in days or km says nothing of what is not used by the day or by the road.
Margin read_own_margin(Log& log, const Node& node, const Consumable& of) {
  constexpr Key key = "consumables.margin";
  Margin made{.mark = node.origin.mark};
  if (!of.kind && is_count(node.text, of.unit)) {
    made.value = read_in(log, node, key, key.name(), std::nullopt, of.unit).value_or(0);
    return made;
  }
  const auto read = read_quantity_of(log, node, key, key.name());
  if (!read) return made;
  made.value = read->value;
  const bool by_day = is_used_by_the_day(of.use);
  const bool by_road = is_used_by_the_road(of.use);
  if (read->kind == Kind::time_h) {
    made.kind = MarginKind::days;
    made.value /= 24;
    if (!by_day && by_road) {
      log.error(node.origin,
                fmt::format("margin: {} is used up by driving alone", units::in_quotes(of.name)),
                "a distance or a share, such as 300 km or 20 %");
    }
  } else if (read->kind == Kind::distance) {
    made.kind = MarginKind::distance_km;
    if (!by_road && by_day) {
      log.error(node.origin,
                fmt::format("margin: {} is not used up by driving", units::in_quotes(of.name)),
                "a time or a share, such as 2 days or 20 %");
    }
  } else if (read->kind == Kind::fraction) {
    made.kind = MarginKind::share;
  } else if (of.kind != read->kind) {
    log.error(node.origin,
              fmt::format("margin: {} is measured in {}", units::in_quotes(of.name), of.unit),
              fmt::format("an amount in {}, a time, a distance or a share", of.unit));
  }
  return made;
}

Consumable read_consumable(Log& log, const Node& node, const Plan& plan) {
  Consumable made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a consumable");
  made.name = fields.name("consumables.name");
  refuse_same_name(log, node.origin, "consumables", made.name, plan.consumables);
  refuse_other_reserve(log, node.origin, made.name);
  if (const Node* unit = fields.get("consumables.unit")) read_unit(log, *unit, made);
  const auto unit_kg = fields.number_if("consumables.unit_mass");
  made.unit_kg = unit_kg.value_or(made.kind == Kind::mass ? 1 : 0);
  if (unit_kg && made.kind == Kind::mass) {
    log.error(fields.get("consumables.unit_mass")->origin,
              fmt::format("{} is measured by its mass", fields.what()), "no unit_mass");
  }
  made.life_supporting = fields.word("consumables.matters", matters_words);
  for (const Node& store : fields.items("consumables.stores")) {
    made.stores.push_back(read_store(log, store, made, plan));
  }
  if (const Node* use = fields.get("consumables.use")) made.use = read_use(log, *use, made);
  if (const Node* margin = fields.get("consumables.margin")) {
    made.margin = read_own_margin(log, *margin, made);
  }
  fields.finish();
  return made;
}

}  // namespace

std::optional<double> read_consumable_amount(Log& log, const Node& node, Key key,
                                             std::string_view name, const Consumable& of) {
  if (of.unit.empty()) return std::nullopt;  // an error that has been told
  return read_in(log, node, key, name, of.kind, of.unit);
}

void read_consumables(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "consumables")) {
    plan.consumables.push_back(read_consumable(log, item, plan));
  }
}

}  // namespace drystage::plan
