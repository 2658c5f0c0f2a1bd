#include <fmt/core.h>

#include <algorithm>

#include "plan/items.h"
#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr Limits stuck_limits{0, 720, true, "more than 0, up to 30 days"};
constexpr Limits hotter_limits{0, 20, true, "more than 0 °C, up to 20 °C"};
constexpr Limits slower_limits{0, 0.9, false, "from 0 % to 90 %"};
constexpr Limits more_fuel_limits{0, 3, false, "from 0 % to 300 %"};
constexpr Limits left_limits{0, 1, true, "more than 0 %, up to 100 %"};
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

std::optional<int> read_hot_days(Log& log, const Node& node) {
  static constexpr Limits limits{24, 60 * 24, false, "whole days from 1 to 60"};
  return read_whole_days(log, node, "for", limits);
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
    made.hotter_k =
        read_quantity(log, *hotter, "hotter", Kind::temperature_difference, hotter_limits)
            .value_or(0);
    fields.need("for", "5 days");
  }
  if (days != nullptr) {
    made.hot_days = read_hot_days(log, *days).value_or(0);
    if (hotter == nullptr) {
      log.error(days->spot, fmt::format("{} says \"for\" without \"hotter\"", fields.what()),
                "hotter: 5 °C beside it",
                "how long nothing moves is written with \"stuck: 2 days\"");
    }
  }
}

OwnMishap read_own(Log& log, const Node& node, const std::vector<Item>& losable, const Plan& plan) {
  static constexpr Limits people_limits{1, 20, false, "from 1 to 20"};
  static constexpr Limits day_limits{1, 3660, false, "1 for the first day of the trip, up to 3660"};
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
  if (const Node* stuck = fields.get("stuck")) {
    made.stuck_h = read_time(log, *stuck, "stuck", stuck_limits).value_or(0);
  }
  read_heat(fields, made);
  if (const Node* people = fields.get("people")) {
    made.people = read_whole_number(log, *people, "people", people_limits).value_or(0);
  }
  if (const Node* day = fields.get("on_day")) {
    if (const auto read = read_whole_number(log, *day, "on_day", day_limits)) made.day = *read - 1;
  }
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
    if (const Node* time = stuck.get("for")) {
      made.stuck_h = read_time(log, *time, "for", stuck_limits).value_or(made.stuck_h);
    }
    stuck.finish();
  }
  if (const Node* node = settings(fields, "heat_wave", "{hotter: 6 °C, for: 5 days}")) {
    Fields wave(log, *node, "heat_wave");
    made.hotter_k = wave.quantity("hotter", Kind::temperature_difference, hotter_limits);
    if (const Node* days = wave.get("for")) {
      made.hot_days = read_hot_days(log, *days).value_or(made.hot_days);
    }
    wave.finish();
  }
  if (const Node* node = settings(fields, "soft_going", "{more_fuel: 40 %, slower: 30 %}")) {
    Fields soft(log, *node, "soft_going");
    made.soft_more_fuel =
        soft.quantity_or("more_fuel", Kind::fraction, made.soft_more_fuel, more_fuel_limits);
    made.soft_slower = soft.quantity_or("slower", Kind::fraction, made.soft_slower, slower_limits);
    soft.finish();
  }
  if (const Node* node = settings(fields, "shut", "{found_after: 50 %}")) {
    Fields shut(log, *node, "shut");
    made.shut_found_after =
        shut.quantity_or("found_after", Kind::fraction, made.shut_found_after, a_share);
    shut.finish();
  }
  if (const Node* node = settings(fields, "battery", "{left: 50 %}")) {
    Fields battery(log, *node, "battery");
    made.battery_left = battery.quantity_or("left", Kind::fraction, made.battery_left, left_limits);
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
