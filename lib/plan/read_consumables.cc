#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "plan/sections.h"
#include "units/expression.h"
#include "units/format.h"
#include "units/index.h"
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

// The cabinet that a store is in.
void read_cabinet_of(Fields& fields, ConsumableStore& made, const Plan& plan) {
  constexpr Key key = "consumables.stores.cabinet";
  const auto cabinet = fields.reference_if(key, names_of(plan.cold));
  if (!cabinet) return;
  made.cabinet = *cabinet;
  const Cabinet& its = plan.cold[at(*cabinet)];
  made.vehicle = its.vehicle;
  if (const Node* in = fields.get("consumables.stores.in")) {
    fields.log().error(in->origin,
                       fmt::format("{} is in cabinet {}, and goes where that goes", fields.what(),
                                   units::in_quotes(its.name)),
                       "one of \"in\" and \"cabinet\"");
  }
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
  const Carrier carrier = read_carrier(fields, "consumables.stores.in", plan);
  made.vehicle = carrier.index;
  read_cabinet_of(fields, made, plan);
  if (made.cabinet >= 0) refuse_spot(fields, "it lies where its cabinet does");
  made.spot = read_spot(fields, carrier.vehicle);
  fields.finish();
  return made;
}

// What a km takes, on each surface. A surface of which nothing is said takes what the next softer
// one does of which something is, or else the softest.
std::array<double, surface_count> read_per_km(Log& log, const Node& node, const Consumable& of) {
  constexpr Key key = "consumables.use.per_100km";
  std::array<double, surface_count> made{};
  if (node.kind != Node::Kind::map) {
    made.fill(read_consumable_amount(log, node, key, key.name(), of).value_or(0) / km_of_rate);
    return made;
  }
  std::array<std::optional<double>, surface_count> said{};
  for (const Entry& entry : node.entries) {
    const auto surface = read_surface_key(log, entry);
    const auto amount = read_consumable_amount(log, entry.value, key, entry.key, of);
    if (surface && amount) said.at(static_cast<std::size_t>(*surface)) = *amount / km_of_rate;
  }
  double last = 0;
  for (const auto& one : said) last = one.value_or(last);
  for (std::size_t s = said.size(); s-- > 0;) made.at(s) = last = said.at(s).value_or(last);
  return made;
}

Doses read_doses(Log& log, const Node& node, const Consumable& of) {
  Doses made;
  Fields fields(log, node, "the doses of " + units::in_quotes(of.name));
  made.amount = amount_of(fields, "consumables.use.doses.amount", of);
  constexpr Key key = "consumables.use.doses.at";
  const Node* times = fields.get(key);
  for (const Node* time : one_or_more(log, times, key.name())) {
    const auto hour = read_clock(log, *time, key.name());
    if (!hour) continue;
    if (std::ranges::find(made.at_h, *hour) != made.at_h.end()) {
      log.error(time->origin, fmt::format("at: {} is there twice", time->text),
                "each time once; twice as much is a larger amount");
    }
    made.at_h.push_back(*hour);
  }
  if (times == nullptr) made.at_h = {clock_hours(default_of(key)).value()};
  if (times != nullptr && times->kind == Node::Kind::list && times->items.empty()) {
    log.error(times->origin, "at: the list is empty", R"(times of day: ["08:00", "20:00"])");
  }
  std::ranges::sort(made.at_h);
  if (const Node* every = fields.get("consumables.use.doses.every")) {
    made.every_days = read_whole_days(log, *every, "consumables.use.doses.every").value_or(1);
  }
  fields.finish();
  return made;
}

DegreeUse read_degree_use(Log& log, const Node& node, const Consumable& of, Key base, Key rate) {
  DegreeUse made;
  Fields fields(log, node, fmt::format("what {} uses", units::in_quotes(of.name)));
  made.base_c = fields.number(base);
  made.per_degree_day = amount_of(fields, rate, of);
  fields.finish();
  return made;
}

ConsumableUse read_use(Log& log, const Node& node, const Consumable& of) {
  ConsumableUse made;
  const std::size_t errors = log.errors();
  Fields fields(log, node, "the use of " + units::in_quotes(of.name));
  made.per_person_day = amount_of(fields, "consumables.use.per_person_day", of);
  made.per_meal = amount_of(fields, "consumables.use.per_meal", of);
  made.per_day = amount_of(fields, "consumables.use.per_day", of);
  if (const Node* per_km = fields.get("consumables.use.per_100km")) {
    made.per_km = read_per_km(log, *per_km, of);
  }
  made.per_engine_h = amount_of(fields, "consumables.use.per_engine_hour", of);
  if (const Node* doses = fields.get("consumables.use.doses")) {
    made.doses = read_doses(log, *doses, of);
  }
  if (const Node* cold = fields.get("consumables.use.in_cold")) {
    made.in_cold = read_degree_use(log, *cold, of, "consumables.use.in_cold.below",
                                   "consumables.use.in_cold.per_degree_day");
  }
  if (const Node* heat = fields.get("consumables.use.in_heat")) {
    made.in_heat = read_degree_use(log, *heat, of, "consumables.use.in_heat.above",
                                   "consumables.use.in_heat.per_degree_day");
  }
  fields.finish();
  if (of.unit.empty()) return made;
  const bool is_used = made.goes_by_the_day() || made.goes_by_the_road();
  if (!is_used && fields.usable() && log.errors() == errors) {
    log.error(
        node.origin, fmt::format("nothing uses {}", units::in_quotes(of.name)),
        "one or more of per_person_day, per_meal, per_day, per_100km, per_engine_hour, doses, "
        "in_cold and in_heat");
  }
  return made;
}

KeepingRange read_keeps(Log& log, const Node& node, const Consumable& of) {
  KeepingRange made;
  Fields fields(log, node, "what keeps " + units::in_quotes(of.name));
  made.from_c = fields.number_if("consumables.keeps.from");
  made.to_c = fields.number("consumables.keeps.to");
  made.out_of_it_h = fields.number("consumables.keeps.out_of_it");
  made.never_above_c = fields.number_if("consumables.keeps.never_above");
  fields.finish();
  const Node* to = fields.get("consumables.keeps.to");
  if (to == nullptr) return made;
  if (made.from_c && *made.from_c >= made.to_c) {
    log.error(
        to->origin,
        fmt::format("to: {} is not above {}", to->text, fields.get("consumables.keeps.from")->text),
        "a range, such as from: 2 °C, to: 8 °C");
  }
  if (made.never_above_c && *made.never_above_c < made.to_c) {
    log.error(fields.get("consumables.keeps.never_above")->origin,
              fmt::format("never_above: {} is lower than {}",
                          fields.get("consumables.keeps.never_above")->text, to->text),
              "no less than what it may always be");
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
  const bool by_day = of.use.goes_by_the_day() || !of.says_use;
  const bool by_road = of.use.goes_by_the_road();
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
  made.fills = fields.yes_no("consumables.fills");
  if (const Node* keeps = fields.get("consumables.keeps")) {
    made.keeps = read_keeps(log, *keeps, made);
    if (made.fills) {
      log.error(keeps->origin,
                fmt::format("{} fills with use, so nothing in it is kept", fields.what()),
                R"(one of "fills" and "keeps")");
    }
  }
  for (const Node& store : fields.items("consumables.stores")) {
    made.stores.push_back(read_store(log, store, made, plan));
  }
  const Node* stores = fields.get("consumables.stores");
  if (stores != nullptr && stores->kind == Node::Kind::list && stores->items.empty()) {
    log.error(stores->origin, fmt::format("nobody has any {}: the list is empty", made.name),
              "what it is in, such as [{name: box, holds: 20, filled: 20}]");
  }
  const Node* use = fields.get("consumables.use");
  made.says_use = use != nullptr;
  if (use != nullptr) made.use = read_use(log, *use, made);
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

void refuse_unused_consumables(Log& log, const Plan& plan) {
  for (std::size_t c = 0; c < plan.consumables.size(); ++c) {
    const Consumable& one = plan.consumables[c];
    const bool is_burnt = std::ranges::find(plan.power.chargers, static_cast<int>(c),
                                            &Charger::burns) != plan.power.chargers.end();
    if (one.says_use || is_burnt) continue;
    log.error({one.mark, {}}, fmt::format("nothing uses {}", units::in_quotes(one.name)),
              "use: {per_day: 2}, for instance, or a generator that burns it");
  }
}

}  // namespace drystage::plan
