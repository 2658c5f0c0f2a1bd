#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "plan/own.h"
#include "plan/reading_reader.h"
#include "plan/sections.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

using units::Kind;

// Lead-acid at rest has 1.9 to 2.2 V in each of its cells, which are said to have 2 V (common
// practice). With some room at both ends: this is to see a slip, not to judge a battery.
constexpr double least_resting = 0.9;
constexpr double most_resting = 1.12;

class FoundReader {
 public:
  FoundReader(Fields& fields, const std::vector<Item>& items, const Plan& plan, bool sound,
              Reading& made)
      : fields_(fields),
        log_(fields.log()),
        items_(items),
        plan_(plan),
        sound_(sound),
        made_(made) {}

  void read_all() {
    read_water("readings.drinking", WaterUse::drinking, made_.drinking_l);
    read_water("readings.utility", WaterUse::utility, made_.utility_l);
    read_fuel();
    read_containers();
    read_tanks();
    read_batteries();
    read_cabinets();
    read_meals();
    read_tyres("readings.spare_wheels", &TyreKit::spare_wheels, &TyresFound::spare_wheels);
    read_tyres("readings.repairs", &TyreKit::repairs, &TyresFound::repairs);
    read_consumables();
  }

 private:
  // What was found, if there is room for it; `room_text` says how much: "it holds 20 L".
  double within(const Node& node, std::string_view name, double found, double room,
                std::string_view room_text) {
    // The same amount in another unit may be more by a last digit.
    if (sound_ && found > room * (1 + 1e-9)) {
      log_.error(node.origin, fmt::format("{}: {} found, but {}", name, node.text, room_text),
                 "no more than there can be");
    }
    return std::min(found, room);
  }

  static std::string litres_of(double volume_l) { return units::format(volume_l, Kind::volume); }

  // Goes through a map of things by their names: `find` gives the number of the one that a name
  // stands for, `read` reads what was found in it.
  template <class Find, class Read>
  void read_map(Key key, const Find& find, const Read& read) {
    const Node* node = fields_.get(key);
    if (node == nullptr) return;
    std::vector<int> before;
    for (const Entry& entry : map_entries(log_, *node, key.name())) {
      const std::optional<int> index = find(key_node(entry));
      if (!index) continue;
      if (std::ranges::find(before, *index) != before.end()) {
        log_.error(entry.origin,
                   fmt::format("{}: {} is named twice", key.name(), units::in_quotes(entry.key)),
                   "each one once");
        continue;
      }
      before.push_back(*index);
      read(*index, entry);
    }
  }

  template <class Things, class Read>
  void read_things(Key key, std::string_view thing, const Things& things, const Read& read) {
    const auto names = names_of(things);
    read_map(
        key, [&](const Node& name) { return read_reference(log_, name, thing, names); }, read);
  }

  // The same of vessels, which may have full names.
  template <class Read>
  void read_vessels(Key key, std::string_view thing, Item::Sort sort, const Read& read) {
    std::vector<Item> vessels = items_;
    std::erase_if(vessels, [sort](const Item& item) { return item.sort != sort; });
    const auto find = [&](const Node& name) -> std::optional<int> {
      const auto item = read_item(log_, name, key.name(), thing, vessels);
      if (!item) return std::nullopt;
      return static_cast<int>(std::ranges::find(vessels, *item) - vessels.begin());
    };
    read_map(key, find, [&](int index, const Entry& entry) { read(vessels[at(index)], entry); });
  }

  // Whether a vessel is gone by then.
  template <class Thing>
  [[nodiscard]] bool is_lost(std::vector<Thing> Change::*list, const Thing& thing) const {
    return std::ranges::any_of(plan_.changes, [&](const Change& change) {
      const auto& lost = change.*list;
      return change.day <= made_.day && std::ranges::find(lost, thing) != lost.end();
    });
  }

  void read_water(Key key, WaterUse use, std::optional<double>& made) {
    made = fields_.number_if(key);
    if (!made) return;
    double room_l = 0;
    for (std::size_t c = 0; c < plan_.water.containers.size(); ++c) {
      const Container& one = plan_.water.containers[c];
      const bool there = !is_lost(&Change::containers, static_cast<int>(c));
      if (there && one.use == use) room_l += one.holds_l;
    }
    made = within(*fields_.get(key), key.name(), *made, room_l,
                  fmt::format("all {} containers together hold {}", key.name(), litres_of(room_l)));
  }

  // What is said of the only vehicle, or of several by their names.
  template <class Read>
  void read_by_vehicle(Key key, const Read& read) {
    const Node* node = fields_.get(key);
    if (node == nullptr) return;
    const auto names = names_of(plan_.vehicles);
    const std::string_view name = key.name();
    if (node->kind == Node::Kind::map) {
      read_things(key, "vehicle", plan_.vehicles,
                  [&](int vehicle, const Entry& entry) { read(vehicle, entry.value, entry.key); });
    } else if (names.size() == 1) {
      read(0, *node, name);
    } else if (names.empty()) {
      log_.error(node->origin, fmt::format("{}: there is no vehicle", name),
                 "a vehicle under \"vehicles\"");
    } else {
      log_.error(node->origin, fmt::format("{}: it is not said of which vehicle", name),
                 fmt::format("{}: {{{}: {}}}", name, names.front(),
                             node->text.empty() ? example_of(key) : node->text));
    }
  }

  void read_fuel() {
    read_by_vehicle("readings.fuel", [this](int vehicle, const Node& node, std::string_view name) {
      read_fuel_of(vehicle, node, name);
    });
  }

  // Spare wheels, or repairs.
  void read_tyres(Key key, int TyreKit::*has, std::optional<int> TyresFound::*found) {
    read_by_vehicle(key, [&](int vehicle, const Node& node, std::string_view name) {
      const auto count = read_whole_number(log_, node, key, name);
      if (!count) return;
      const Vehicle& of = plan_.vehicles[at(vehicle)];
      if (sound_ && !of.tyres) {
        log_.error(node.origin,
                   fmt::format("{}: {} has no \"tyres\"", name, units::in_quotes(of.name)),
                   fmt::format("no \"{}\", or tyres: {{spare_wheels: {}}} under the vehicle",
                               key.name(), *count));
        return;
      }
      const int most = of.tyres ? *of.tyres.*has : *count;
      const double there =
          within(node, name, *count, most,
                 fmt::format("{} set out with {}", units::in_quotes(of.name), most));
      auto its = std::ranges::lower_bound(made_.tyres, vehicle, {}, &TyresFound::vehicle);
      if (its == made_.tyres.end() || its->vehicle != vehicle) {
        its = made_.tyres.insert(its, {.vehicle = vehicle});
      }
      *its.*found = static_cast<int>(there);
    });
  }

  void read_fuel_of(int vehicle, const Node& node, std::string_view name) {
    const auto found_l = read_quantity(log_, node, "readings.fuel", name);
    if (!found_l) return;
    const Vehicle& of = plan_.vehicles[at(vehicle)];
    double room_l = 0;
    for (std::size_t t = 0; t < of.tanks.size(); ++t) {
      const TankReference tank{vehicle, static_cast<int>(t)};
      if (!is_lost(&Change::tanks, tank)) room_l += of.tanks[t].holds_l - of.tanks[t].unusable_l;
    }
    const double usable_l = within(node, name, *found_l, room_l,
                                   fmt::format("{} has room for {} that can be used",
                                               units::in_quotes(of.name), litres_of(room_l)));
    made_.fuel.push_back({.vehicle = vehicle, .usable_l = usable_l});
  }

  std::optional<Found> read_vessel(Key key, const Entry& entry, double holds_l,
                                   const Gauge& gauge) {
    const auto read = read_quantity_of(log_, entry.value, key, entry.key);
    if (!read) return std::nullopt;
    if (read->kind == Kind::length) return Found{.depth_m = depth(key, entry, read->value, gauge)};
    return Found{.amount = within(entry.value, entry.key, read->value, holds_l,
                                  "it holds " + litres_of(holds_l))};
  }

  double depth(Key key, const Entry& entry, double depth_m, const Gauge& gauge) {
    if (!sound_) return depth_m;
    if (!gauge.is_given()) {
      log_.error(entry.value.origin,
                 fmt::format("{} has neither a shape nor dip marks to read {} by",
                             units::in_quotes(entry.key), entry.value.text),
                 "an amount, such as 12 L",
                 "or give it a shape, or dip marks, where it is defined");
      return depth_m;
    }
    const bool by_marks = !gauge.marks.empty();
    const double top_m = by_marks ? gauge.marks.back().depth_m : height_m(gauge.shape);
    if (depth_m > top_m * (1 + 1e-9)) {
      log_.error(entry.value.origin,
                 fmt::format("{}: {} is above its {}", entry.key, entry.value.text,
                             by_marks ? "last dip mark" : "top"),
                 fmt::format("at most {}", in_its_unit(key.ranges().back(), top_m)),
                 by_marks ? "if more is in it, add a mark for that where it is defined" : "");
    }
    return std::min(depth_m, top_m);
  }

  // An amount that another key of the reading counts already.
  void refuse_twice(const Entry& entry, std::string_view other) {
    log_.error(entry.origin,
               fmt::format("what is in {} is said twice: \"{}\" counts it too",
                           units::in_quotes(entry.key), other),
               fmt::format("one of them: \"{}\", or each by itself", other));
  }

  void read_containers() {
    constexpr Key key = "readings.containers";
    read_vessels(key, "container", Item::Sort::container,
                 [&](const Item& item, const Entry& entry) {
                   const Container& of = plan_.water.containers[at(item.index)];
                   const bool drinking = of.use == WaterUse::drinking;
                   const bool common = owner_of(plan_, of.vehicle, Stock::water) < 0;
                   if (common && (drinking ? made_.drinking_l : made_.utility_l)) {
                     refuse_twice(entry, drinking ? "drinking" : "utility");
                   }
                   const auto found = read_vessel(key, entry, of.holds_l, of.gauge);
                   if (found)
                     made_.containers.push_back({.container = item.index, .found = *found});
                 });
  }

  void read_tanks() {
    constexpr Key key = "readings.tanks";
    read_vessels(key, "tank", Item::Sort::tank, [&](const Item& item, const Entry& entry) {
      const bool counted =
          std::ranges::find(made_.fuel, item.of, &FuelFound::vehicle) != made_.fuel.end();
      if (counted) refuse_twice(entry, "fuel");
      const Tank& of = plan_.vehicles[at(item.of)].tanks[at(item.index)];
      const auto found = read_vessel(key, entry, of.holds_l, of.gauge);
      if (!found) return;
      made_.tanks.push_back({.tank = {item.of, item.index}, .found = *found});
      if (!found->depth_m && found->amount > 0 && found->amount < of.unusable_l) {
        log_.warning(entry.value.origin,
                     fmt::format("{}: {} is less than the {} that no pump gets out of it",
                                 entry.key, entry.value.text, litres_of(of.unusable_l)),
                     "all that is in it, as a dipstick shows it");
      }
    });
  }

  void read_batteries() {
    constexpr Key key = "readings.batteries";
    read_things(key, "battery", plan_.power.banks, [&](int bank, const Entry& entry) {
      const auto read = read_quantity_of(log_, entry.value, key, entry.key);
      if (!read) return;
      const Bank& of = plan_.power.banks[at(bank)];
      BankFound& found = made_.banks.emplace_back(BankFound{.bank = bank});
      if (read->kind == Kind::voltage) {
        check_resting(entry, read->value, of);
        found.resting_v = read->value;
      } else if (read->kind == Kind::charge) {
        found.charge_ah = within(entry.value, entry.key, read->value, of.capacity_ah,
                                 "it holds " + units::format(of.capacity_ah, Kind::charge));
      } else {
        found.share = read->value;
      }
    });
  }

  void check_resting(const Entry& entry, double resting_v, const Bank& of) {
    if (!sound_) return;
    if (of.kind == BatteryKind::lfp) {
      log_.error(entry.value.origin,
                 fmt::format("{}: volts say too little of what is in a lithium battery", entry.key),
                 "what its monitor shows, such as 80 % or 62 Ah");
    } else if (resting_v < least_resting * of.voltage_v ||
               resting_v > most_resting * of.voltage_v) {
      log_.error(
          entry.value.origin,
          fmt::format("{}: a battery of {} at rest does not have {}", entry.key,
                      units::format(of.voltage_v, Kind::voltage), entry.value.text),
          fmt::format("from {} to {}", units::format(least_resting * of.voltage_v, Kind::voltage),
                      units::format(most_resting * of.voltage_v, Kind::voltage)),
          "read it after some hours without charging and loads");
    }
  }

  void read_cabinets() {
    constexpr Key key = "readings.cabinets";
    read_things(key, "cabinet", plan_.cold, [&](int cabinet, const Entry& entry) {
      const auto inside_c = read_quantity(log_, entry.value, key, entry.key);
      if (inside_c) made_.cabinets.push_back({.cabinet = cabinet, .chilled_c = *inside_c});
    });
  }

  void read_meals() {
    constexpr Key key = "readings.meals";
    made_.meals = fields_.number_if(key);
    if (!made_.meals || plan_.plans_food || !sound_) return;
    log_.error(fields_.get(key)->origin, "meals: there is no food in this plan",
               "no \"meals\", or items under \"food\"");
  }

  void read_consumables() {
    constexpr Key key = "readings.consumables";
    read_things(key, "consumable", plan_.consumables, [&](int consumable, const Entry& entry) {
      const Consumable& of = plan_.consumables[at(consumable)];
      const auto found = read_consumable_amount(log_, entry.value, key, entry.key, of);
      if (!found) return;
      double room = 0;
      for (std::size_t s = 0; s < of.stores.size(); ++s) {
        const ConsumableStoreReference store{consumable, static_cast<int>(s)};
        if (!is_lost(&Change::stores, store)) room += of.stores[s].holds;
      }
      const double amount =
          within(entry.value, entry.key, *found, room,
                 fmt::format("all its stores together hold {} {}",
                             units::format_number(room, units::significant(6)), of.unit));
      made_.consumables.push_back({.consumable = consumable, .amount = amount});
    });
  }

  Fields& fields_;
  Log& log_;
  const std::vector<Item>& items_;
  const Plan& plan_;
  bool sound_;
  Reading& made_;
};

}  // namespace

void read_found(Fields& fields, const std::vector<Item>& items, const Plan& plan, bool sound,
                Reading& made) {
  FoundReader(fields, items, plan, sound, made).read_all();
}

}  // namespace drystage::plan
