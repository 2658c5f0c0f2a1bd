#include "report/card/load.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "answers/base/laid_trip.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using engine::Engine;
using engine::Family;

std::string can_note(const plan::Container& can) {
  std::string note = can.use == plan::WaterUse::drinking ? "drinking" : "utility";
  if (can.quality == plan::WaterQuality::brackish) note = "utility, brackish: not to be drunk";
  return can.opened_last ? note + ", opened last" : note;
}

std::string food_note(const plan::Plan& plan, const plan::FoodItem& item) {
  const std::string note = item.kept == plan::Kept::frozen    ? "frozen"
                           : item.kept == plan::Kept::chilled ? "chilled"
                                                              : "dry";
  return item.cabinet < 0 ? note : note + ", in " + plan.cold[at(item.cabinet)].name;
}

/// What a store holds, in the plan's words; empty for families of their own.
std::string store_note(const plan::Plan& plan, const engine::StoreInfo& store) {
  switch (store.family) {
    case Family::drinking_water:
    case Family::utility_water:
      return can_note(plan.water.containers[at(store.index)]);
    case Family::fuel:
      return plan.vehicles[at(store.vehicle)].fuel == plan::FuelKind::diesel ? "diesel" : "petrol";
    case Family::food:
      return store.index < 0 ? "dry" : food_note(plan, plan.food[at(store.index)]);
    case Family::cold:
      return "ice";
    case Family::battery:
      return "battery";
    case Family::consumable:
      return plan.consumables[at(store.of)].name;
    case Family::tyres:
    case Family::other:
      break;
  }
  return {};
}

std::string thing_note(const plan::Plan& plan, const engine::ThingInfo& thing) {
  if (thing.family == Family::cold) return "cabinet";
  if (thing.family != Family::battery) return {};
  const bool solar = plan.power.chargers[at(thing.index)].kind == plan::ChargerKind::solar;
  return solar ? "panel" : "charger";
}

/// Water, fuel, food, what is cold, batteries and what charges them, consumables, then all else.
int place_in_list(const LoadLine& line) {
  const bool water = line.family == Family::drinking_water || line.family == Family::utility_water;
  return water ? 0 : static_cast<int>(line.family);
}

class Loader {
 public:
  explicit Loader(const answers::PlanRun& planned)
      : plan_(planned.plan),
        course_(planned.course),
        record_(engine::blank_record(course_)),
        standing_(Engine::begin(course_, record_)) {
    Engine::go_on(course_, standing_, answers::morning_step(*course_.timeline, 0));
  }

  std::vector<VehicleLoad> loads() {
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      out_.push_back({.vehicle = static_cast<int>(v),
                      .vehicle_kg = plan_.vehicles[v].empty_kg,
                      .gear_kg = plan_.vehicles[v].gear_kg});
    }
    if (out_.empty()) out_.emplace_back();
    add_people();
    for (std::size_t s = 0; s < course_.stores.size(); ++s) add_store(s);
    for (const engine::ThingInfo& thing : course_.things) add_thing(thing);
    for (VehicleLoad& load : out_) {
      std::ranges::stable_sort(load.lines, {}, [](const LoadLine& line) {
        return std::pair(static_cast<unsigned>(line.bay), place_in_list(line));
      });
    }
    weigh_axles();
    return std::move(out_);
  }

 private:
  VehicleLoad& load(int vehicle) {
    const bool there = vehicle >= 0 && at(vehicle) < out_.size();
    return out_[there ? at(vehicle) : 0];
  }

  void add_people() {
    for (const plan::Person& person : plan_.people) {
      VehicleLoad& its = load(person.vehicle);
      its.people.push_back(person.name);
      if (its.vehicle >= 0) its.people_kg += person.mass_kg;
    }
  }

  void weigh_axles() {
    for (const engine::Scale& scale : engine::scales_of(plan_, course_, true)) {
      VehicleLoad& its = out_[at(scale.vehicle)];
      const double kg = standing_.run.scale_kg(scale);
      if (scale.kind == engine::ScaleKind::front) its.front_kg = kg;
      if (scale.kind == engine::ScaleKind::rear) its.rear_kg = kg;
      if (scale.kind == engine::ScaleKind::ball) its.on_ball_kg = kg;
    }
  }

  /// A store that weighs something, as it is when setting out. Food and consumables are packed
  /// though their mass is not known.
  void add_store(std::size_t s) {
    const engine::StoreInfo& store = course_.stores[s];
    const bool weighs = store.kg_per_unit > 0 || store.empty_kg > 0;
    const bool is_packed = store.family == Family::food || store.family == Family::consumable;
    if (!weighs && !is_packed) return;
    // What joins on the way is packed where it comes from.
    const bool here = standing_.run.is_here(static_cast<int>(s));
    const double level = here ? standing_.run.level(static_cast<int>(s)) : store.initial;
    const double amount = store.fills ? store.capacity - level : level;
    const bool bought = store.family == Family::food && store.index < 0;
    if (bought && amount <= 0) return;
    constexpr double noise = 1e-9;
    load(store.vehicle)
        .lines.push_back({.family = store.family,
                          .index = store.index,
                          .bay = store.spot.bay.value_or(-1),
                          .name = line_name(store, bought),
                          .note = store_note(plan_, store),
                          .kind = store.kind,
                          .unit = store.unit,
                          .amount = amount,
                          .full = !bought && amount > 0 && amount >= store.capacity * (1 - noise),
                          .content_kg = amount * store.kg_per_unit,
                          .empty_kg = store.empty_kg});
  }

  [[nodiscard]] std::string line_name(const engine::StoreInfo& store, bool bought) const {
    if (bought) return "food bought at the outset";
    return store.family == Family::cold ? plan_.cold[at(store.index)].name : store.name;
  }

  void add_thing(const engine::ThingInfo& thing) {
    if (thing.kg <= 0) return;
    load(thing.vehicle)
        .lines.push_back({.family = thing.family,
                          .index = thing.index,
                          .bay = thing.spot.bay.value_or(-1),
                          .name = thing.name,
                          .note = thing_note(plan_, thing),
                          .empty_kg = thing.kg});
  }

  const plan::Plan& plan_;
  const engine::Course& course_;
  engine::Record record_;
  Engine::Standing standing_;
  std::vector<VehicleLoad> out_;
};

}  // namespace

double VehicleLoad::lines_kg() const {
  return std::accumulate(lines.begin(), lines.end(), 0.0, [](double sum, const LoadLine& line) {
    return sum + line.content_kg + line.empty_kg;
  });
}

double VehicleLoad::bay_kg(int bay) const {
  return std::accumulate(lines.begin(), lines.end(), 0.0, [bay](double sum, const LoadLine& line) {
    return line.bay == bay ? sum + line.content_kg + line.empty_kg : sum;
  });
}

double VehicleLoad::total_kg() const { return vehicle_kg + gear_kg + people_kg + lines_kg(); }

std::vector<VehicleLoad> loads_at_outset(const answers::PlanRun& planned) {
  return Loader(planned).loads();
}

}  // namespace drystage::report
