#include "plan/key_values.h"

#include <fmt/core.h>

#include <cmath>
#include <utility>

#include "plan/food_kinds.h"
#include "plan/text_edit.h"
#include "plan/values.h"
#include "plan/word_lists.h"
#include "units/format.h"
#include "units/list.h"

namespace drystage::plan {
namespace {

KeyValue text(Key key, std::string_view said, std::string_view within = {}) {
  return {key, std::string(said), within, {}, said == key->absent};
}

KeyValue amount(Key key, std::optional<double> said, std::string_view within = {},
                std::string_view unit = {}) {
  if (!said) return {key};
  return {key, *said, within, unit, *said == default_number(key)};
}

template <class E, std::size_t n>
KeyValue word(Key key, const std::array<Word<E>, n>& words, std::optional<E> said,
              std::string_view within = {}) {
  return said ? text(key, text_of(words, *said), within) : KeyValue{key};
}

// One of some things, by its name; none where there are none.
template <class Thing>
KeyValue named(Key key, const std::vector<Thing>& things, int index) {
  const auto at = static_cast<std::size_t>(index);
  if (at >= things.size()) return {key};
  return {key, things[at].name, {}, {}, index == 0 && key->absent == "the first"};
}

template <class Value>
std::optional<Value> other_than(const Value& usual, const Value& value) {
  return value == usual ? std::nullopt : std::optional(value);
}

template <class Value>
std::optional<Value> only_if(bool is_so, const Value& value) {
  return is_so ? std::optional(value) : std::nullopt;
}

// A map that is compared as a whole.
template <class Map>
KeyValue whole(Key key, const Map& map) {
  return map == Map() ? KeyValue{key} : KeyValue{key, map};
}

std::string clock(double hours) {
  const auto minutes = static_cast<int>(std::lround(hours * 60));
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

KeyValues values_of(const Container& one, const Plan& plan) {
  return {text("vessel.name", one.name),
          amount("vessel.holds", one.holds_l),
          amount("vessel.filled", one.filled_l),
          word<WaterUse>("water.containers.for", use_words, one.use),
          word<WaterQuality>("water.containers.quality", quality_words, one.quality),
          word<bool>("water.containers.opened", opened_words, one.opened_last),
          amount("vessel.empty_mass", one.empty_kg),
          named("water.containers.in", plan.vehicles, one.vehicle),
          whole("vessel.shape", one.gauge.shape),
          whole("vessel.dip", one.gauge.marks)};
}

// The names of some things; nothing where there are none.
template <class Thing>
KeyValue all_named(Key key, const std::vector<Thing>& things, const std::vector<int>& indices) {
  std::vector<std::string> names;
  names.reserve(indices.size());
  for (const int index : indices) names.push_back(things[static_cast<std::size_t>(index)].name);
  return names.empty() ? KeyValue{key} : KeyValue{key, names};
}

KeyValues values_of(const Tank& one, const Plan& plan) {
  return {text("vessel.name", one.name),
          amount("vessel.holds", one.holds_l),
          amount("vessel.filled", one.filled_l),
          all_named("vehicles.tanks.for", plan.vehicles, one.also_for),
          amount("vehicles.tanks.unusable", one.unusable_l),
          amount("vessel.empty_mass", one.empty_kg),
          whole("vessel.shape", one.gauge.shape),
          whole("vessel.dip", one.gauge.marks)};
}

KeyValues values_of(const FoodItem& one, const Plan& plan) {
  const bool is_cold = one.cabinet >= 0;
  const auto from = one.kept == Kept::frozen ? one.starts_at_c : one.bought_at_c;
  const double freezes_c = one.kept == Kept::dry ? 0 : default_number("food.freezes_at").value();
  const auto keeps = one.keeps.value_or(Keeps());
  return {text("food.item", one.name),
          word<Kept>("food.kept", kept_words, one.kept),
          amount("food.mass", one.mass_kg),
          amount("food.meals", other_than(0.0, one.meals)),
          amount("food.energy", one.energy_kj_kg),
          amount("food.water", other_than(usual_water(one.kept), one.water_fraction)),
          word("food.potentially_hazardous", yes_no_words,
               other_than(is_usually_hazardous(one), one.potentially_hazardous)),
          named("food.carried_by", plan.vehicles, is_cold ? -1 : one.vehicle),
          named("food.in", plan.cold, one.cabinet),
          amount("food.from", from),
          amount("food.freezes_at", other_than(freezes_c, one.freezing_c)),
          word("food.kind", food_kind_words, one.kind),
          amount("food.keeps.for", only_if(one.keeps.has_value(), keeps.life_days * 24), "keeps"),
          amount("food.keeps.at", only_if(one.keeps.has_value(), keeps.at_c), "keeps")};
}

KeyValues values_of(const Bank& one, const Plan& plan) {
  return {text("power.batteries.name", one.name),
          word<BatteryKind>("power.batteries.kind", battery_words, one.kind),
          amount("power.batteries.capacity", one.capacity_ah),
          amount("power.batteries.rate", one.rate_h),
          amount("power.batteries.voltage", one.voltage_v),
          amount("power.batteries.mass", one.mass_kg),
          amount("power.batteries.filled", one.filled),
          amount("power.batteries.floor", one.floor),
          amount("power.batteries.cut_off", one.cut_off),
          amount("power.batteries.peukert", one.peukert),
          amount("power.batteries.efficiency", one.efficiency),
          named("power.batteries.in", plan.vehicles, one.vehicle)};
}

KeyValues values_of(const Charger& one, const Plan& plan) {
  const bool is_panel = one.kind == ChargerKind::solar;
  const bool is_generator = one.kind == ChargerKind::generator;
  const bool is_dc_dc = one.kind == ChargerKind::dc_dc;
  const bool is_mains = one.kind == ChargerKind::mains;
  const double usual_loss = default_number("power.charging.losses").value();
  // Said of a panel that is tilted, even if it is the usual way.
  KeyValue facing = amount("power.charging.facing", only_if(is_panel, one.facing_deg));
  if (one.tilt_deg <= 0 && facing.usual) facing.said = {};
  facing.usual = false;
  const While usual_when = is_dc_dc ? While::driving : is_panel ? While::always : While::parked;
  const ClockSpan quiet = one.quiet.value_or(ClockSpan());
  const auto quiet_hour = [&](Key key, double hour) {
    return one.quiet ? text(key, clock(hour), "quiet") : KeyValue{key};
  };
  return {text("power.charging.name", one.name),
          amount("power.charging.solar", only_if(is_panel, one.power_w)),
          amount("power.charging.tilt", only_if(is_panel, one.tilt_deg)),
          facing,
          amount("power.charging.noct", one.noct_c),
          amount("power.charging.losses", only_if(is_panel && one.loss != usual_loss, one.loss)),
          amount("power.charging.mass", only_if(is_panel, one.mass_kg)),
          named("power.charging.on", plan.power.banks, one.bank),
          amount("power.charging.current", only_if(is_dc_dc, one.current_a)),
          word("power.charging.while", while_words, only_if(one.when != usual_when, one.when)),
          one.power_w > 0 ? amount("power.charging.mains", only_if(is_mains, one.power_w), {}, "W")
                          : amount("power.charging.mains", only_if(is_mains, one.current_a)),
          amount("power.charging.generator", only_if(is_generator, one.power_w)),
          word("power.charging.fuel", fuel_words, only_if(is_generator, one.fuel)),
          amount("power.charging.uses", only_if(is_generator, one.uses_l_h)),
          amount("power.charging.runs", only_if(is_generator, one.hours_day)),
          is_generator ? text("power.charging.starts", clock(one.starts_h))
                       : KeyValue{"power.charging.starts"},
          quiet_hour("power.charging.quiet.from", quiet.from_h),
          quiet_hour("power.charging.quiet.to", quiet.to_h),
          named("power.charging.burns", plan.consumables, one.burns),
          named("power.charging.from", plan.vehicles,
                (is_generator && one.burns < 0) || is_dc_dc ? one.vehicle : -1)};
}

KeyValues values_of(const Cabinet& one, const Plan& plan) {
  const bool is_machine = !one.ice_box;
  const bool is_part = one.frozen.has_value();
  const auto frozen = one.frozen.value_or(FrozenPart());
  const char* part = frozen.set_point_c ? "freezer" : "frozen_below";
  const Lid lid = one.lid.value_or(Lid());
  const bool is_hot = one.above_ambient_k != 0;
  return {text("cold.name", one.name),
          amount("cold.volume", one.volume_l),
          amount("cold.set_point", only_if(is_machine, one.set_point_c)),
          amount("cold.starts_at", one.starts_at_c),
          amount("cold.rated.draw", only_if(is_machine, one.rated_draw_w), "rated"),
          amount("cold.rated.ambient", only_if(is_machine, one.rated_ambient_c), "rated"),
          amount("cold.rated.inside", only_if(is_machine, one.rated_inside_c), "rated"),
          amount("cold.running", one.running_w),
          amount("cold.heat_leak", one.heat_leak_w_k),
          amount("cold.mass", one.mass_kg),
          amount("cold.ice", only_if(one.ice_box, one.ice_kg)),
          amount("cold.frozen_below.barrier", only_if(is_part, frozen.barrier_w_k), part),
          amount("cold.frozen_below.walls", only_if(is_part, frozen.wall_share), part),
          amount("cold.freezer.set_point", frozen.set_point_c, "freezer"),
          amount("cold.lid.openings", lid.openings_day, "lid"),
          amount("cold.lid.warm", lid.warm_l_day, "lid"),
          amount("cold.stands_in.above_ambient", other_than(0.0, one.above_ambient_k), "stands_in"),
          word("cold.stands_in.while", while_words, only_if(is_hot, one.above_ambient_while),
               "stands_in"),
          named("cold.on", plan.power.banks, one.ice_box ? -1 : one.bank),
          named("cold.in", plan.vehicles, one.vehicle)};
}

KeyValues values_of(const ConsumableStore& one, const Consumable& of, const Plan& plan) {
  return {text("consumables.stores.name", one.name),
          amount("consumables.stores.holds", one.holds, {}, of.unit),
          amount("consumables.stores.filled", one.filled, {}, of.unit),
          amount("consumables.stores.empty_mass", one.empty_kg),
          named("consumables.stores.in", plan.vehicles, one.cabinet < 0 ? one.vehicle : -1),
          named("consumables.stores.cabinet", plan.cold, one.cabinet)};
}

// What carries a thing of a list.
std::size_t carrier_of(const KeyedList& list, const Tank& /*one*/, const Plan& /*plan*/) {
  return list.item;
}
std::size_t carrier_of(const KeyedList& /*list*/, const Charger& one, const Plan& plan) {
  const auto bank = static_cast<std::size_t>(one.bank);
  if (bank >= plan.power.banks.size()) return 0;
  return static_cast<std::size_t>(plan.power.banks[bank].vehicle);
}
template <class Thing>
std::size_t carrier_of(const KeyedList& /*list*/, const Thing& one, const Plan& /*plan*/) {
  return static_cast<std::size_t>(one.vehicle);
}

void add_spot(KeyValues& values, const Spot& spot, const Plan& plan, std::size_t vehicle) {
  KeyValue bay{"spot.bay"};
  if (spot.bay && vehicle < plan.vehicles.size()) {
    bay = text("spot.bay", plan.vehicles[vehicle].bays[static_cast<std::size_t>(*spot.bay)].name);
  }
  values.push_back(bay);
  values.push_back(amount("spot.at", spot.at_m));
  values.push_back(amount("spot.height", spot.height_m));
  values.push_back(amount("spot.right", spot.right_m));
}

}  // namespace

std::vector<KeyedList> keyed_lists(const Plan& plan) {
  std::vector<KeyedList> made;
  const auto add = [&](KeyedList list, const auto& things, const auto&... of) {
    for (const auto& one : things) {
      list.things.push_back({one.name, values_of(one, of..., plan)});
      add_spot(list.things.back().values, one.spot, plan, carrier_of(list, one, plan));
    }
    made.push_back(std::move(list));
  };
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    add({"tanks", {"tanks"}, "vehicles", v}, plan.vehicles[v].tanks);
  }
  add({"cabinets", {"cold"}}, plan.cold);
  add({"batteries", {"power", "batteries"}}, plan.power.banks);
  add({"chargers", {"power", "charging"}, {}, 0, {"cold", "vehicles"}}, plan.power.chargers);
  add({"containers", {"water", "containers"}, {}, 0, {"activities", "people"}},
      plan.water.containers);
  add({"items of food", {"food"}, {}, 0, {"cold", "vehicles"}}, plan.food);
  for (std::size_t c = 0; c < plan.consumables.size(); ++c) {
    add({"stores", {"stores"}, "consumables", c}, plan.consumables[c].stores, plan.consumables[c]);
  }
  return made;
}

// An amount in the first kind that the key has, with as few digits after the point as read back to
// the same number.
std::string written(const KeyValue& value) {
  if (const auto* text = std::get_if<std::string>(&value.said)) {
    const Sort sort = value.key->value.sort;
    return sort == Sort::word || sort == Sort::yes_no ? *text : yaml_text(*text);
  }
  if (const auto* names = std::get_if<std::vector<std::string>>(&value.said)) {
    std::string list;
    for (const std::string& name : *names) units::add_to(list, yaml_text(name));
    return fmt::format("[{}]", list);
  }
  const double number = std::get<double>(value.said);
  if (!value.unit.empty()) return fmt::format("{} {}", number, value.unit);
  const auto kind = value.key.ranges().front().kind;
  if (!kind) return fmt::format("{}", number);
  const units::Display shown = units::display(*kind, units::System::metric);
  const char* blank = kind == units::Kind::angle ? "" : " ";
  constexpr int most_places = 15;
  for (int places = 0; places <= most_places; ++places) {
    std::string text = fmt::format("{:.{}f}{}{}", shown.number(number), places, blank, shown.unit);
    const auto read = units::parse(text, *kind);
    if (read && *read == number) return text;
  }
  return fmt::format("{}{}{}", shown.number(number), blank, shown.unit);
}

}  // namespace drystage::plan
