#include "report/card/load.h"

#include <numeric>
#include <tuple>
#include <utility>

#include "answers/base/voyage.h"
#include "report/card/isolated.h"

namespace drystage::report {
namespace {

using engine::Engine;
using Sort = LoadLine::Sort;
namespace reserves = engine::reserves;

class Loader {
 public:
  explicit Loader(const answers::Trial& trial)
      : plan_(trial.plan),
        course_(trial.course),
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
    add_water();
    add_fuel();
    add_food();
    add_cold();
    add_power();
    return std::move(out_);
  }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }

  VehicleLoad& load(int vehicle) {
    const bool there = vehicle >= 0 && at(vehicle) < out_.size();
    return out_[there ? at(vehicle) : 0];
  }

  /// A line of what a store of the course holds.
  void add(int vehicle, int store, LoadLine line) {
    const engine::StoreInfo& info = course_.stores[at(store)];
    constexpr double noise = 1e-9;
    line.unit = info.unit;
    line.amount = standing_.run.level(store);
    line.full = line.amount > 0 && line.amount >= info.capacity * (1 - noise);
    line.content_kg = line.amount * info.kg_per_unit;
    load(vehicle).lines.push_back(std::move(line));
  }

  void add_people() {
    for (const plan::Person& person : plan_.people) {
      VehicleLoad& its = load(person.vehicle);
      its.people.push_back(person.name);
      if (its.vehicle >= 0) its.people_kg += person.mass_kg;
    }
  }

  void add_water() {
    const auto& cans = std::get<reserves::Water::Compiled>(course_.families).cans;
    std::size_t next = 0;
    for (const bool last : {false, true}) {
      for (std::size_t i = 0; i < plan_.water.containers.size(); ++i) {
        const plan::Container& can = plan_.water.containers[i];
        if (can.opened_last != last) continue;
        std::string note = can.use == plan::WaterUse::drinking ? "drinking" : "utility";
        if (can.quality == plan::WaterQuality::brackish)
          note = "utility, brackish: not to be drunk";
        if (can.opened_last) note += ", opened last";
        add(can.vehicle, cans[next++].store,
            {.sort = Sort::water,
             .index = static_cast<int>(i),
             .name = can.name,
             .note = note,
             .empty_kg = can.empty_kg});
      }
    }
  }

  void add_fuel() {
    const auto& fuel = std::get<reserves::Fuel::Compiled>(course_.families);
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const plan::Vehicle& vehicle = plan_.vehicles[v];
      for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
        add(static_cast<int>(v), fuel.vehicles[v].tanks[t].store,
            {.sort = Sort::fuel,
             .index = static_cast<int>(t),
             .name = vehicle.tanks[t].name,
             .note = vehicle.fuel == plan::FuelKind::diesel ? "diesel" : "petrol",
             .empty_kg = vehicle.tanks[t].empty_kg});
      }
    }
  }

  void add_food() {
    const auto& food = std::get<reserves::Food::Compiled>(course_.families);
    for (std::size_t i = 0; i < plan_.food.size(); ++i) {
      const plan::FoodItem& item = plan_.food[i];
      std::string note = item.kept == plan::Kept::frozen    ? "frozen"
                         : item.kept == plan::Kept::chilled ? "chilled"
                                                            : "dry";
      if (item.cabinet >= 0) note += ", in " + name_in_words(plan_.cold[at(item.cabinet)].name);
      add(item.vehicle, food.items[i].store,
          {.sort = Sort::food, .index = static_cast<int>(i), .name = item.name, .note = note});
    }
    if (food.bought < 0) return;
    const int store = food.items[at(food.bought)].store;
    if (standing_.run.level(store) <= 0) return;
    add(course_.stores[at(store)].vehicle, store,
        {.sort = Sort::food, .index = -1, .name = "food bought at the outset", .note = "dry"});
    load(course_.stores[at(store)].vehicle).lines.back().full = false;
  }

  void add_cold() {
    const auto& cabinets = std::get<reserves::Power::Compiled>(course_.families).cabinets;
    for (std::size_t c = 0; c < plan_.cold.size(); ++c) {
      const plan::Cabinet& cabinet = plan_.cold[c];
      LoadLine line{.sort = Sort::cold,
                    .index = static_cast<int>(c),
                    .name = cabinet.name,
                    .note = cabinet.ice_box ? "ice" : "cabinet",
                    .empty_kg = cabinet.mass_kg};
      if (cabinets[c].ice >= 0) {
        add(cabinet.vehicle, cabinets[c].ice, line);
      } else if (cabinet.mass_kg > 0) {
        load(cabinet.vehicle).lines.push_back(line);
      }
    }
  }

  void add_power() {
    for (std::size_t b = 0; b < plan_.power.banks.size(); ++b) {
      const plan::Bank& bank = plan_.power.banks[b];
      if (bank.mass_kg <= 0) continue;
      load(bank.vehicle)
          .lines.push_back({.sort = Sort::power,
                            .index = static_cast<int>(b),
                            .name = bank.name,
                            .note = "battery",
                            .unit = "Ah",
                            .amount = bank.filled * bank.capacity_ah,
                            .full = bank.filled >= 1,
                            .empty_kg = bank.mass_kg});
    }
    for (std::size_t c = 0; c < plan_.power.chargers.size(); ++c) {
      const plan::Charger& charger = plan_.power.chargers[c];
      if (charger.mass_kg <= 0 || plan_.power.banks.empty()) continue;
      load(plan_.power.banks[at(charger.bank)].vehicle)
          .lines.push_back({.sort = Sort::power,
                            .index = static_cast<int>(c),
                            .name = charger.name,
                            .note = charger.kind == plan::ChargerKind::solar ? "panel" : "charger",
                            .empty_kg = charger.mass_kg});
    }
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

double VehicleLoad::total_kg() const { return vehicle_kg + gear_kg + people_kg + lines_kg(); }

std::vector<VehicleLoad> loads_at_outset(const answers::Trial& trial) {
  return Loader(trial).loads();
}

}  // namespace drystage::report
