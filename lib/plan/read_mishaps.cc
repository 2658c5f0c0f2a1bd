#include <fmt/core.h>

#include <algorithm>

#include "plan/items.h"
#include "plan/sections.h"

namespace drystage::plan {
namespace {

constexpr std::string_view what_may_happen =
    "one or more of loses, stops, without, stuck, hotter (with for) and people";

bool same(const TankReference& a, const TankReference& b) {
  return a.vehicle == b.vehicle && a.tank == b.tank;
}
bool same(int a, int b) { return a == b; }
bool same(MishapKind a, MishapKind b) { return a == b; }

// Adds what a name stands for; logs an error if it is there already.
template <class T>
void add_once(Log& log, const Node& node, std::string_view key, T thing, std::vector<T>& things) {
  if (std::ranges::any_of(things, [&](const T& other) { return same(other, thing); })) {
    log.error(node.spot, fmt::format("{}: {} is named twice", key, units::in_quotes(node.text)),
              "each one once");
    return;
  }
  things.push_back(thing);
}

// The settings of one kind of mishap, a map; null if there are none. `form` shows how they are
// written, for whoever writes the value alone.
const Node* settings(Fields& fields, std::string_view key, std::string_view form) {
  const Node* node = fields.get(key);
  if (node == nullptr || node->kind == Node::Kind::map) return node;
  log_wrong_form(fields.log(), *node, key, fmt::format("{}: {}", key, form));
  return nullptr;
}

// The containers and tanks, which can be lost.
std::vector<Item> losables(const Plan& plan) {
  auto items = items_of(plan);
  std::erase_if(items, [](const Item& item) {
    return item.sort != Item::Sort::container && item.sort != Item::Sort::tank;
  });
  return items;
}

void read_loss(Log& log, const Node& node, const std::vector<Item>& losable, OwnMishap& made) {
  const auto item = read_item(log, node, "loses", "container or tank", losable);
  if (!item) return;
  if (item->sort == Item::Sort::container) {
    add_once(log, node, "loses", item->index, made.containers);
  } else {
    add_once(log, node, "loses", TankReference{item->vehicle, item->index}, made.tanks);
  }
}

void read_stops(Log& log, const Node& node, const Plan& plan, OwnMishap& made) {
  const auto index = read_reference(log, node, "cabinet", names_of(plan.cold), "cold");
  if (!index) return;
  if (plan.cold[static_cast<std::size_t>(*index)].ice_box) {
    std::vector<std::string> others;
    for (const Cabinet& cabinet : plan.cold) {
      if (!cabinet.ice_box) others.push_back(cabinet.name);
    }
    log.error(node.spot,
              fmt::format("stops: ice box {} has no compressor that could stop",
                          units::in_quotes(node.text)),
              others.empty() ? "a cabinet with a compressor; the plan has none" : one_of(others));
    return;
  }
  add_once(log, node, "stops", *index, made.cabinets);
}

void read_heat(Fields& fields, OwnMishap& made) {
  const Node* hotter = fields.get("hotter");
  const Node* days = fields.get("for");
  Log& log = fields.log();
  if (hotter != nullptr) {
    made.hotter_k = read_quantity(log, *hotter, "mishaps.own.hotter", "hotter").value_or(0);
    fields.need("for", "5 days");
  }
  if (days != nullptr) {
    made.hot_days = read_whole_days(log, *days, "mishaps.own.for").value_or(0);
    if (hotter == nullptr) {
      log.error(days->spot, fmt::format("{} says \"for\" without \"hotter\"", fields.what()),
                "hotter: 5 °C beside it",
                "how long nothing moves is written with \"stuck: 2 days\"");
    }
  }
}

OwnMishap read_own(Log& log, const Node& node, const std::vector<Item>& losable, const Plan& plan) {
  OwnMishap made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a mishap");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "mishaps", made.name, plan.mishaps.own);
  const std::size_t errors = log.errors();
  for (const Node* lost : one_or_more(log, fields.get("loses"), "loses")) {
    read_loss(log, *lost, losable, made);
  }
  for (const Node* stopped : one_or_more(log, fields.get("stops"), "stops")) {
    read_stops(log, *stopped, plan, made);
  }
  for (const Node* gone : one_or_more(log, fields.get("without"), "without")) {
    const auto index =
        read_reference(log, *gone, "charger", names_of(plan.power.chargers), "power: charging");
    if (index) add_once(log, *gone, "without", *index, made.chargers);
  }
  made.stuck_h = fields.quantity_or("mishaps.own.stuck", 0);
  read_heat(fields, made);
  made.people = fields.whole_number("mishaps.own.people").value_or(0);
  if (const auto day = fields.whole_number("mishaps.own.on_day")) made.day = *day - 1;
  fields.finish();
  const bool happens = !made.containers.empty() || !made.tanks.empty() || !made.cabinets.empty() ||
                       !made.chargers.empty() || made.stuck_h > 0 || made.hotter_k > 0 ||
                       made.people > 0;
  if (!happens && log.errors() == errors && fields.usable()) {
    log.error(node.spot, fmt::format("nothing happens in {}", fields.what()),
              std::string(what_may_happen));
  }
  return made;
}

void read_strengths(Fields& fields, Mishaps& made) {
  Log& log = fields.log();
  if (const Node* node = settings(fields, "stuck", "{for: 3 days}")) {
    Fields stuck(log, *node, "stuck");
    made.stuck_h = stuck.quantity_or("mishaps.stuck.for", made.stuck_h);
    stuck.finish();
  }
  if (const Node* node = settings(fields, "heat_wave", "{hotter: 6 °C, for: 5 days}")) {
    Fields wave(log, *node, "heat_wave");
    made.hotter_k = wave.quantity("mishaps.heat_wave.hotter");
    if (const Node* days = wave.get("for")) {
      made.hot_days = read_whole_days(log, *days, "mishaps.heat_wave.for").value_or(made.hot_days);
    }
    wave.finish();
  }
  if (const Node* node = settings(fields, "soft_going", "{more_fuel: 40 %, slower: 30 %}")) {
    Fields soft(log, *node, "soft_going");
    made.soft_more_fuel = soft.quantity_or("mishaps.more_fuel", made.soft_more_fuel);
    made.soft_slower = soft.quantity_or("mishaps.slower", made.soft_slower);
    soft.finish();
  }
  if (const Node* node = settings(fields, "shut", "{found_after: 50 %}")) {
    Fields shut(log, *node, "shut");
    made.shut_found_after = shut.quantity_or("mishaps.found_after", made.shut_found_after);
    shut.finish();
  }
  if (const Node* node = settings(fields, "battery", "{left: 50 %}")) {
    Fields battery(log, *node, "battery");
    made.battery_left = battery.quantity_or("mishaps.battery.left", made.battery_left);
    battery.finish();
  }
}

}  // namespace

void read_mishaps(Log& log, const Node& node, Plan& plan) {
  Mishaps& made = plan.mishaps;
  Fields fields(log, node, "mishaps");
  read_strengths(fields, made);
  for (const Node* word : one_or_more(log, fields.get("leave_out"), "leave_out")) {
    const auto kind = read_word(log, *word, "leave_out", mishap_words);
    if (kind) add_once(log, *word, "leave_out", *kind, made.left_out);
  }
  if (const Node* own = fields.get("own")) {
    const auto losable = losables(plan);
    for (const Node& item : list_items(log, *own, "own")) {
      made.own.push_back(read_own(log, item, losable, plan));
    }
  }
  fields.finish();
}

}  // namespace drystage::plan
