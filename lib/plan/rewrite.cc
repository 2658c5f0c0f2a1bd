#include "plan/rewrite.h"

#include <fmt/core.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "plan/log.h"
#include "plan/read.h"
#include "plan/same_plan.h"
#include "plan/sections.h"
#include "plan/text_edit.h"
#include "plan/utf8.h"
#include "plan/words.h"
#include "units/format.h"

namespace drystage::plan {
namespace {

using units::Kind;

// In the first kind that the key has, with as few digits after the point as read back to the same
// number.
std::string amount(Key key, double value) {
  const Kind kind = key.ranges().front().kind.value();
  const units::Display shown = units::display(kind, units::System::metric);
  const char* blank = kind == Kind::angle ? "" : " ";
  constexpr int most_places = 15;
  for (int places = 0; places <= most_places; ++places) {
    std::string text = fmt::format("{:.{}f}{}{}", shown.number(value), places, blank, shown.unit);
    const auto read = units::parse(text, kind);
    if (read && *read == value) return text;
  }
  return fmt::format("{}{}{}", shown.number(value), blank, shown.unit);
}

// The changes of one map of the plan, made at once by `finish`.
class MapChange {
 public:
  MapChange(TextEdit& edit, const TextPart& map) : edit_(edit), map_(map) {}

  [[nodiscard]] const TextPart* find(Key key) const { return map_.find(key.name()); }

  void set(Key key, std::string_view value) {
    if (const TextPart* old = find(key)) {
      edit_.set_scalar(*old, std::string(value));
    } else {
      added_.push_back({std::string(key.name()), std::string(value)});
    }
  }

  void set_amount(Key key, double before, double after) {
    if (before != after) set(key, amount(key, after));
  }

  void set_amount(Key key, const std::optional<double>& before,
                  const std::optional<double>& after) {
    if (before == after) return;
    if (after) {
      set(key, amount(key, *after));
    } else {
      removed_.push_back(key.name());
    }
  }

  void remove(Key key) {
    if (find(key) != nullptr) removed_.push_back(key.name());
  }

  void finish() { edit_.change_map(map_, removed_, added_); }

 private:
  TextEdit& edit_;
  const TextPart& map_;
  std::vector<std::string_view> removed_;
  std::vector<NewMember> added_;
};

template <class Vessel>
void change_vessel(MapChange& map, const Vessel& before, const Vessel& after) {
  map.set_amount("vessel.holds", before.holds_l, after.holds_l);
  map.set_amount("vessel.filled", before.filled_l, after.filled_l);
  map.set_amount("vessel.empty_mass", before.empty_kg, after.empty_kg);
  if (before.gauge.is_given() && !after.gauge.is_given()) {
    map.remove("vessel.shape");
    map.remove("vessel.dip");
  }
}

void change_food(MapChange& map, const FoodItem& before, const FoodItem& after) {
  map.set_amount("food.mass", before.mass_kg, after.mass_kg);
  if (before.meals == after.meals) return;
  const TextPart* old = map.find("food.meals");
  const bool has_word = old != nullptr && old->text.ends_with("meals");
  map.set("food.meals", fmt::format("{}{}", after.meals, has_word ? " meals" : ""));
}

void change_bank(MapChange& map, const Bank& before, const Bank& after) {
  if (before.kind != after.kind) {
    map.set("power.batteries.kind", text_of(battery_words, after.kind));
  }
  map.set_amount("power.batteries.capacity", before.capacity_ah, after.capacity_ah);
  map.set_amount("power.batteries.mass", before.mass_kg, after.mass_kg);
  // In Ah it is another share of another capacity.
  const TextPart* filled = map.find("power.batteries.filled");
  const bool is_charge = filled != nullptr && !units::parse(filled->text, Kind::fraction);
  if (before.filled != after.filled || (is_charge && before.capacity_ah != after.capacity_ah)) {
    map.set("power.batteries.filled", amount("power.batteries.filled", after.filled));
  }
  // Where it is not written it goes by the kind: what is still to be said then, the next round
  // does.
  const auto set_level = [&](Key key, double now, double then) {
    if (before.kind == after.kind || map.find(key) != nullptr) {
      map.set_amount(key, now, then);
    }
  };
  set_level("power.batteries.floor", before.floor, after.floor);
  set_level("power.batteries.cut_off", before.cut_off, after.cut_off);
}

void change_charger(MapChange& map, const Charger& before, const Charger& after) {
  if (before.kind != ChargerKind::solar) return;
  map.set_amount("power.charging.solar", before.power_w, after.power_w);
  map.set_amount("power.charging.mass", before.mass_kg, after.mass_kg);
}

void change_cabinet(TextEdit& edit, MapChange& map, const Cabinet& before, const Cabinet& after) {
  map.set_amount("cold.volume", before.volume_l, after.volume_l);
  if (const TextPart* rated = map.find("cold.rated")) {
    MapChange rating(edit, *rated);
    rating.set_amount("cold.rated.draw", before.rated_draw_w, after.rated_draw_w);
    rating.finish();
  }
  map.set_amount("cold.running", before.running_w, after.running_w);
  map.set_amount("cold.heat_leak", before.heat_leak_w_k, after.heat_leak_w_k);
  map.set_amount("cold.mass", before.mass_kg, after.mass_kg);
}

using NewMembers = std::vector<NewMember>;

// What would hold without it is written only where its neighbours have it.
void add_amount(NewMembers& members, Key key, const std::optional<double>& value) {
  if (!value) return;
  members.push_back({std::string(key.name()), amount(key, *value), *value == default_number(key)});
}

template <class E, std::size_t n>
void add_word(NewMembers& members, Key key, const std::array<Word<E>, n>& words, E value) {
  const std::string_view text = text_of(words, value);
  members.push_back({std::string(key.name()), std::string(text), text == key->absent});
}

void add_vehicle(NewMembers& members, Key key, int index, const Plan& plan) {
  if (plan.vehicles.empty()) return;
  const Vehicle& vehicle = plan.vehicles.at(static_cast<std::size_t>(index));
  members.push_back({std::string(key.name()), yaml_text(vehicle.name), index == 0});
}

template <class Vessel>
NewMembers vessel_head(const Vessel& made) {
  NewMembers members{{"name", yaml_text(made.name)}};
  add_amount(members, "vessel.holds", made.holds_l);
  add_amount(members, "vessel.filled", made.filled_l);
  return members;
}

// What a new thing is written with. `alone`: nothing stands in the list yet.
NewMembers members_of(const Container& made, const Plan& plan, bool alone) {
  NewMembers members = vessel_head(made);
  add_word(members, "water.containers.for", use_words, made.use);
  if (alone) members.back().usual = false;
  add_word(members, "water.containers.quality", quality_words, made.quality);
  add_word(members, "water.containers.opened", opened_words, made.opened_last);
  add_amount(members, "vessel.empty_mass", made.empty_kg);
  add_vehicle(members, "water.containers.in", made.vehicle, plan);
  add_amount(members, "vessel.at", made.position_m);
  return members;
}

NewMembers members_of(const Tank& made, const Plan& /*plan*/, bool /*alone*/) {
  NewMembers members = vessel_head(made);
  add_amount(members, "vehicles.tanks.unusable", made.unusable_l);
  add_amount(members, "vessel.empty_mass", made.empty_kg);
  add_amount(members, "vessel.at", made.position_m);
  return members;
}

NewMembers members_of(const FoodItem& made, const Plan& plan, bool /*alone*/) {
  NewMembers members{{"item", yaml_text(made.name)}, {"kept", "dry"}};
  add_amount(members, "food.mass", made.mass_kg);
  if (made.meals > 0) members.push_back({"meals", fmt::format("{}", made.meals)});
  add_amount(members, "food.energy", made.energy_kj_kg);
  if (made.water_fraction != usual_water(Kept::dry)) {
    add_amount(members, "food.water", made.water_fraction);
  }
  if (made.potentially_hazardous) members.push_back({"potentially_hazardous", "yes"});
  add_vehicle(members, "food.carried_by", made.vehicle, plan);
  return members;
}

NewMembers members_of(const Charger& made, const Plan& plan, bool /*alone*/) {
  NewMembers members{{"name", yaml_text(made.name)}};
  add_amount(members, "power.charging.solar", made.power_w);
  add_amount(members, "power.charging.tilt", made.tilt_deg);
  const Charger usual = solar_panel({}, 0, 0);
  if (made.tilt_deg > 0 || made.facing_deg != usual.facing_deg) {
    add_amount(members, "power.charging.facing", made.facing_deg);
    members.back().usual = false;
  }
  add_amount(members, "power.charging.noct", made.noct_c);
  if (made.loss != usual.loss) add_amount(members, "power.charging.losses", made.loss);
  add_amount(members, "power.charging.mass", made.mass_kg);
  const Bank& bank = plan.power.banks.at(static_cast<std::size_t>(made.bank));
  members.push_back({"on", yaml_text(bank.name), made.bank == 0});
  return members;
}

// In the unit of the consumable.
std::string amount(const Consumable& of, double value) {
  return fmt::format("{} {}", value, of.unit);
}

void change_store(MapChange& map, const Consumable& of, const ConsumableStore& before,
                  const ConsumableStore& after) {
  if (before.holds != after.holds) map.set("consumables.stores.holds", amount(of, after.holds));
  if (before.filled != after.filled) {
    map.set("consumables.stores.filled", amount(of, after.filled));
  }
  map.set_amount("consumables.stores.empty_mass", before.empty_kg, after.empty_kg);
}

NewMembers members_of(const ConsumableStore& made, const Consumable& of, const Plan& plan) {
  NewMembers members{{"name", yaml_text(made.name)}};
  members.push_back({"holds", amount(of, made.holds)});
  members.push_back({"filled", amount(of, made.filled)});
  add_amount(members, "consumables.stores.empty_mass", made.empty_kg);
  add_vehicle(members, "consumables.stores.in", made.vehicle, plan);
  return members;
}

// Where a list stands, or is to stand: under keys within a map, of which it comes after the first
// of `beside` that is there.
struct Place {
  const TextPart& map;
  std::vector<std::string> keys;
  std::vector<std::string_view> beside = {};
};

const TextPart* list_at(const Place& place) {
  const TextPart* found = &place.map;
  for (const std::string& key : place.keys) {
    if (found != nullptr) found = found->find(key);
  }
  return found;
}

template <class Thing>
auto called(const std::vector<Thing>& things, const std::string& name) {
  return std::find_if(things.begin(), things.end(),
                      [&](const Thing& thing) { return thing.name == name; });
}

// Writes one list anew: changes what stays, takes out what is gone, puts in what is new.
template <class Thing, class Change, class Members>
void change_list(TextEdit& edit, const Place& place, const std::vector<Thing>& before,
                 const std::vector<Thing>& after, const Change& change, const Members& members) {
  const TextPart* list = list_at(place);
  if ((list == nullptr ? 0 : list->items.size()) != before.size()) {
    throw std::logic_error("the plan is not the one of the text");
  }
  std::vector<bool> removed;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto found = called(after, before[i].name);
    removed.push_back(found == after.end());
    if (found == after.end()) continue;
    MapChange map(edit, list->items[i]);
    change(map, before[i], *found);
    map.finish();
  }
  std::vector<NewItem> added;
  int last = -1;
  for (const Thing& thing : after) {
    const auto found = called(before, thing.name);
    if (found != before.end()) {
      last = static_cast<int>(found - before.begin());
    } else {
      added.push_back({last, members(thing, before.empty())});
    }
  }
  if (!before.empty()) {
    edit.change_list(*list, removed, added);
  } else if (!added.empty()) {
    edit.begin_list(place.map, place.keys, added, place.beside);
  }
}

template <class Thing, class Change>
void change_list(TextEdit& edit, const Place& place, const std::vector<Thing>& before,
                 const std::vector<Thing>& after, const Plan& plan, const Change& change) {
  change_list(edit, place, before, after, change,
              [&](const Thing& thing, bool alone) { return members_of(thing, plan, alone); });
}

void change_consumables(TextEdit& edit, const TextPart& root, const Plan& before,
                        const Plan& after) {
  const TextPart* list = root.find("consumables");
  const std::size_t both = std::min(before.consumables.size(), after.consumables.size());
  for (std::size_t c = 0; c < both; ++c) {
    if (list == nullptr || c >= list->items.size()) break;
    const Consumable& of = after.consumables[c];
    change_list(
        edit, {list->items[c], {"stores"}}, before.consumables[c].stores, of.stores,
        [&](MapChange& map, const ConsumableStore& was, const ConsumableStore& is) {
          change_store(map, of, was, is);
        },
        [&](const ConsumableStore& made, bool) { return members_of(made, of, after); });
  }
}

void change_cold(TextEdit& edit, const TextPart& root, const Plan& before, const Plan& after) {
  const TextPart* list = root.find("cold");
  for (std::size_t c = 0; c < before.cold.size(); ++c) {
    const auto found = called(after.cold, before.cold[c].name);
    if (list == nullptr || c >= list->items.size() || found == after.cold.end()) continue;
    MapChange map(edit, list->items[c]);
    change_cabinet(edit, map, before.cold[c], *found);
    map.finish();
  }
}

void change_banks(TextEdit& edit, const TextPart& root, const Plan& before, const Plan& after) {
  const TextPart* list = list_at({root, {"power", "batteries"}});
  for (std::size_t b = 0; b < before.power.banks.size(); ++b) {
    const auto found = called(after.power.banks, before.power.banks[b].name);
    if (list == nullptr || b >= list->items.size() || found == after.power.banks.end()) continue;
    MapChange map(edit, list->items[b]);
    change_bank(map, before.power.banks[b], *found);
    map.finish();
  }
}

// An offer under `size:` that names no kind is of the battery's. Where that is another now, the
// offer says of which kind it was.
void keep_offered_kinds(TextEdit& edit, const TextPart& root, const Plan& before,
                        const Plan& after) {
  const TextPart* batteries = list_at({root, {"size", "batteries"}});
  if (batteries == nullptr) return;
  for (const Member& member : batteries->members) {
    const auto was = called(before.power.banks, units::tidy_blanks(member.key));
    if (was == before.power.banks.end()) continue;
    const auto is = called(after.power.banks, was->name);
    if (is == after.power.banks.end() || is->kind == was->kind) continue;
    for (const TextPart& offer : member.value.items) {
      const std::string_view kind = text_of(battery_words, was->kind);
      if (offer.form == TextPart::Form::scalar) {
        edit.set_value(offer, fmt::format("{{capacity: {}, kind: {}}}", offer.text, kind));
      } else if (offer.find("kind") == nullptr) {
        edit.change_map(offer, {}, {{"kind", std::string(kind)}});
      }
    }
  }
}

// Whether two plans offer the same batteries, each of a kind that is said or that of its bank.
bool same_battery_offers(const Plan& a, const Plan& b) {
  const auto same_offer = [](const BatteryOffer& x, BatteryKind x_kind, const BatteryOffer& y,
                             BatteryKind y_kind) {
    return x.capacity_ah == y.capacity_ah && x.kind.value_or(x_kind) == y.kind.value_or(y_kind) &&
           x.mass_kg == y.mass_kg && x.cost == y.cost && x.space_l == y.space_l;
  };
  return std::equal(
      a.size.batteries.begin(), a.size.batteries.end(), b.size.batteries.begin(),
      b.size.batteries.end(), [&](const BatteryOffers& x, const BatteryOffers& y) {
        const BatteryKind x_kind = a.power.banks.at(static_cast<std::size_t>(x.bank)).kind;
        const BatteryKind y_kind = b.power.banks.at(static_cast<std::size_t>(y.bank)).kind;
        return x.bank == y.bank &&
               std::equal(x.sizes.begin(), x.sizes.end(), y.sizes.begin(), y.sizes.end(),
                          [&](const BatteryOffer& one, const BatteryOffer& other) {
                            return same_offer(one, x_kind, other, y_kind);
                          });
      });
}

Node tree_of(std::string_view text) {
  Log log;
  auto root = parse_tree(text, {}, log);
  if (!root) throw std::logic_error("the plan's text cannot be read");
  return std::move(*root);
}

// One round of changes. Of two that come to stand at one place, the inner one is asked for first.
std::string changed(std::string_view text, const Plan& before, const Plan& after) {
  const TextPart root = lay_out(text, tree_of(text));
  TextEdit edit(text);
  const TextPart* vehicles = root.find("vehicles");
  for (std::size_t v = 0; v < std::min(before.vehicles.size(), after.vehicles.size()); ++v) {
    if (vehicles == nullptr || v >= vehicles->items.size()) break;
    change_list(edit, {vehicles->items[v], {"tanks"}}, before.vehicles[v].tanks,
                after.vehicles[v].tanks, after, change_vessel<Tank>);
  }
  change_cold(edit, root, before, after);
  change_banks(edit, root, before, after);
  keep_offered_kinds(edit, root, before, after);
  change_list(edit, {root, {"power", "charging"}, {"cold", "vehicles"}}, before.power.chargers,
              after.power.chargers, after, change_charger);
  change_list(edit, {root, {"water", "containers"}, {"activities", "people"}},
              before.water.containers, after.water.containers, after, change_vessel<Container>);
  change_list(edit, {root, {"food"}, {"cold", "vehicles"}}, before.food, after.food, after,
              change_food);
  change_consumables(edit, root, before, after);
  return edit.result();
}

}  // namespace

std::string rewrite(std::string_view source, const Plan& before, const Plan& after) {
  const bool marked = source.starts_with(byte_order_mark);
  if (marked) source.remove_prefix(byte_order_mark.size());
  const Node root = tree_of(source);
  std::string text(source);
  Plan plan = before;
  std::string wrong = difference(plan, after);
  // What a battery's kind brings with it is seen, and mended, when it has been read again.
  constexpr int rounds = 2;
  for (int round = 0; round < rounds && !wrong.empty(); ++round) {
    text = changed(text, plan, after);
    ReadPlan reading = read_text(text);
    if (!reading.plan) {
      const auto& all = reading.diagnostics;
      const auto error = std::find_if(all.begin(), all.end(), [](const Diagnostic& one) {
        return one.severity == Severity::error;
      });
      throw std::logic_error("the changed plan cannot be read: " +
                             (error == all.end() ? std::string("no reason") : error->what));
    }
    plan = std::move(*reading.plan);
    wrong = difference(plan, after);
  }
  if (!wrong.empty()) throw std::logic_error("the changed plan reads otherwise: " + wrong);
  if (!same_besides(root, tree_of(text)) || !same_battery_offers(before, plan)) {
    throw std::logic_error("the changed plan reads otherwise in what was not to change");
  }
  return std::string(marked ? byte_order_mark : "") + text;
}

}  // namespace drystage::plan
