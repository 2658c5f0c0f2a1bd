#include <fmt/core.h>

#include <algorithm>

#include "plan/items.h"
#include "plan/sections.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

constexpr std::string_view what_may_happen =
    "one or more of loses, stops, without, stuck, hotter (with for) and people";

bool same(const TankReference& a, const TankReference& b) {
  return a.vehicle == b.vehicle && a.tank == b.tank;
}
bool same(const ConsumableStoreReference& a, const ConsumableStoreReference& b) { return a == b; }
bool same(int a, int b) { return a == b; }
bool same(MishapKind a, MishapKind b) { return a == b; }

// Adds what a name stands for; logs an error if it is there already.
template <class T>
void add_once(Log& log, const Node& node, std::string_view key, T thing, std::vector<T>& things) {
  if (std::ranges::any_of(things, [&](const T& other) { return same(other, thing); })) {
    log.error(node.origin, fmt::format("{}: {} is named twice", key, units::in_quotes(node.text)),
              "each one once");
    return;
  }
  things.push_back(thing);
}

// The settings of one kind of mishap, a map; empty where there are none.
const Node& settings(Fields& fields, Key key) {
  static const Node none;
  const Node* node = fields.get(key);
  if (node == nullptr) return none;
  if (node->kind == Node::Kind::map) return *node;
  log_wrong_form(fields.log(), *node, key.name(),
                 fmt::format("{}: {}", key.name(), example_of(key)));
  return none;
}

// The containers and tanks, which can be lost.
std::vector<Item> losables(const Plan& plan) {
  auto items = items_of(plan);
  std::erase_if(items, [](const Item& item) {
    return item.sort != Item::Sort::container && item.sort != Item::Sort::tank &&
           item.sort != Item::Sort::store;
  });
  return items;
}

void read_loss(Log& log, const Node& node, const std::vector<Item>& losable, OwnMishap& made) {
  const auto item = read_item(log, node, "loses", Key("mishaps.own.loses")->value.of, losable);
  if (!item) return;
  if (item->sort == Item::Sort::container) {
    add_once(log, node, "loses", item->index, made.containers);
  } else if (item->sort == Item::Sort::store) {
    add_once(log, node, "loses", ConsumableStoreReference{item->of, item->index}, made.stores);
  } else {
    add_once(log, node, "loses", TankReference{item->of, item->index}, made.tanks);
  }
}

void read_stops(Log& log, const Node& node, const Plan& plan, OwnMishap& made) {
  const auto index = read_reference(log, node, "cabinet", names_of(plan.cold));
  if (!index) return;
  if (plan.cold[at(*index)].ice_box) {
    std::vector<std::string> others;
    for (const Cabinet& cabinet : plan.cold) {
      if (!cabinet.ice_box) others.push_back(cabinet.name);
    }
    log.error(node.origin,
              fmt::format("stops: ice box {} has no compressor that could stop",
                          units::in_quotes(node.text)),
              others.empty() ? "a cabinet with a compressor; the plan has none" : one_of(others));
    return;
  }
  add_once(log, node, "stops", *index, made.cabinets);
}

void read_heat(Fields& fields, OwnMishap& made) {
  const Node* hotter = fields.get("mishaps.own.hotter");
  const Node* days = fields.get("mishaps.own.for");
  Log& log = fields.log();
  if (hotter != nullptr) {
    made.hotter_k = read_quantity(log, *hotter, "mishaps.own.hotter", "hotter").value_or(0);
    fields.need("mishaps.own.for");
  }
  if (days != nullptr) {
    made.hot_days = read_whole_days(log, *days, "mishaps.own.for").value_or(0);
    if (hotter == nullptr) {
      log.error(days->origin, fmt::format("{} says \"for\" without \"hotter\"", fields.what()),
                "hotter: 5 °C beside it",
                "how long nothing moves is written with \"stuck: 2 days\"");
    }
  }
}

OwnMishap read_own(Log& log, const Node& node, const std::vector<Item>& losable, const Plan& plan) {
  OwnMishap made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a mishap");
  made.name = fields.name("mishaps.own.name");
  refuse_same_name(log, node.origin, "mishaps", made.name, plan.mishaps.own);
  const std::size_t errors = log.errors();
  for (const Node* lost : one_or_more(log, fields.get("mishaps.own.loses"), "loses")) {
    read_loss(log, *lost, losable, made);
  }
  for (const Node* stopped : one_or_more(log, fields.get("mishaps.own.stops"), "stops")) {
    read_stops(log, *stopped, plan, made);
  }
  for (const Node* gone : one_or_more(log, fields.get("mishaps.own.without"), "without")) {
    const auto index = read_reference(log, *gone, "charger", names_of(plan.power.chargers));
    if (index) add_once(log, *gone, "without", *index, made.chargers);
  }
  made.stuck_h = fields.number("mishaps.own.stuck");
  read_heat(fields, made);
  made.people = fields.whole_number_if("mishaps.own.people").value_or(0);
  if (const auto day = fields.whole_number_if("mishaps.own.on_day")) made.day = *day - 1;
  fields.finish();
  const bool happens = !made.containers.empty() || !made.tanks.empty() || !made.stores.empty() ||
                       !made.cabinets.empty() || !made.chargers.empty() || made.stuck_h > 0 ||
                       made.hotter_k > 0 || made.people > 0;
  if (!happens && log.errors() == errors && fields.usable()) {
    log.error(node.origin, fmt::format("nothing happens in {}", fields.what()),
              std::string(what_may_happen));
  }
  return made;
}

void read_strengths(Fields& fields, Mishaps& made) {
  Log& log = fields.log();
  Fields stuck(log, settings(fields, "mishaps.stuck"), "stuck");
  made.stuck_h = stuck.number("mishaps.stuck.for");
  stuck.finish();
  constexpr Key days_key = "mishaps.heat_wave.for";
  Fields wave(log, settings(fields, "mishaps.heat_wave"), "heat_wave");
  made.hotter_k = wave.number_if("mishaps.heat_wave.hotter");
  const Node* days = wave.get(days_key);
  const auto hot_days = days == nullptr ? std::nullopt : read_whole_days(log, *days, days_key);
  made.hot_days = hot_days.value_or(static_cast<int>(default_number(days_key).value() / 24));
  wave.finish();
  Fields soft(log, settings(fields, "mishaps.soft_going"), "soft_going");
  made.soft_more_fuel = soft.number("mishaps.soft_going.more_fuel");
  made.soft_slower = soft.number("mishaps.soft_going.slower");
  soft.finish();
  Fields shut(log, settings(fields, "mishaps.shut"), "shut");
  made.shut_found_after = shut.number("mishaps.shut.found_after");
  shut.finish();
  Fields battery(log, settings(fields, "mishaps.battery"), "battery");
  made.battery_left = battery.number("mishaps.battery.left");
  battery.finish();
}

}  // namespace

void read_mishaps(Log& log, const Node& node, Plan& plan) {
  Mishaps& made = plan.mishaps;
  Fields fields(log, node, "mishaps");
  read_strengths(fields, made);
  for (const Node* word : one_or_more(log, fields.get("mishaps.leave_out"), "leave_out")) {
    const auto kind = read_word(log, *word, "leave_out", mishap_words);
    if (kind) add_once(log, *word, "leave_out", *kind, made.left_out);
  }
  const auto losable = losables(plan);
  for (const Node& item : fields.items("mishaps.own")) {
    made.own.push_back(read_own(log, item, losable, plan));
  }
  fields.finish();
}

}  // namespace drystage::plan
