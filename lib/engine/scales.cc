#include "engine/scales.h"

#include <algorithm>
#include <numeric>

#include "engine/course.h"
#include "engine/empty_axles.h"
#include "models/axle_load.h"
#include "plan/cans.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

using plan::Spot;
using plan::Vehicle;

/// Whether somebody can lift a store and put it elsewhere.
bool is_movable(const plan::Plan& plan, const StoreInfo& store) {
  switch (store.family) {
    case Family::drinking_water:
    case Family::utility_water:
      return plan::is_can(plan.water.containers[at(store.index)]);
    case Family::fuel:
      return plan::is_can(plan.vehicles[at(store.of)].tanks[at(store.index)]);
    case Family::food:
      return store.index >= 0 && plan.food[at(store.index)].cabinet < 0;
    case Family::consumable:
      return plan.consumables[at(store.of)].stores[at(store.index)].cabinet < 0;
    default:
      return false;
  }
}

bool is_needed(const Vehicle& vehicle, const std::string& gear) {
  const auto found = std::ranges::find(vehicle.gear, gear, &plan::Gear::name);
  return found != vehicle.gear.end() && found->needed;
}

bool is_axle(ScaleKind kind) {
  return kind == ScaleKind::front || kind == ScaleKind::rear || kind == ScaleKind::front_left ||
         kind == ScaleKind::front_right || kind == ScaleKind::rear_left ||
         kind == ScaleKind::rear_right;
}

bool is_rear(ScaleKind kind) {
  return kind == ScaleKind::rear || kind == ScaleKind::rear_left || kind == ScaleKind::rear_right;
}

bool is_right(ScaleKind kind) {
  return kind == ScaleKind::front_right || kind == ScaleKind::rear_right;
}

/// What of an axle one of its wheels takes, of a load so far right of the middle.
double wheel_share(const plan::Chassis& chassis, ScaleKind kind, double load_right_m) {
  if (kind == ScaleKind::front || kind == ScaleKind::rear) return 1;
  if (chassis.wheels == 2) return 1;
  const double right = chassis.track_m ? models::right_share(load_right_m, *chassis.track_m) : 0.5;
  const double side = is_right(kind) ? right : 1 - right;
  return is_rear(kind) && chassis.wheels == 6 ? side / 2 : side;
}

/// What a wheel may take: by its own limit and by its load index, the lesser.
double wheel_limit_kg(const plan::LoadLimits& limits) {
  double out = limits.wheel_kg.value_or(without_limit);
  if (limits.load_index) {
    out = std::min(out, models::load_index_kg(*limits.load_index).value_or(without_limit));
  }
  return out;
}

class ScaleMaker {
 public:
  ScaleMaker(const plan::Plan& plan, const CourseBase& course, int vehicle, bool all)
      : course_(course),
        vehicle_(plan.vehicles[at(vehicle)]),
        index_(vehicle),
        all_(all),
        carried_(carried_in(plan, course, vehicle)),
        empty_(empty_axles(vehicle_)) {}

  [[nodiscard]] Scale total() const {
    return made({.kind = ScaleKind::total, .limit_kg = vehicle_.limit_kg.value_or(without_limit)});
  }

  /// All but the total.
  [[nodiscard]] std::vector<Scale> parts() const {
    std::vector<Scale> out;
    const plan::LoadLimits& limits = vehicle_.limits;
    const auto add = [&](ScaleKind kind, std::optional<double> limit_kg, int bay = -1) {
      if (!all_ && !limit_kg) return;
      out.push_back(made({.kind = kind, .bay = bay, .limit_kg = limit_kg.value_or(without_limit)}));
    };
    if (empty_) {
      add(ScaleKind::front, limits.front_kg);
      add(ScaleKind::rear, limits.rear_kg);
      add_wheels(add);
    }
    const bool has_roof = std::ranges::any_of(vehicle_.bays, &plan::Bay::on_roof);
    if (has_roof) add(ScaleKind::roof, limits.roof_kg);
    for (std::size_t b = 0; b < vehicle_.bays.size(); ++b) {
      add(ScaleKind::bay, vehicle_.bays[b].limit_kg, static_cast<int>(b));
    }
    if (vehicle_.trailer) {
      add(ScaleKind::ball, limits.ball_kg);
      add(ScaleKind::trailer, vehicle_.trailer->limit_kg);
      add(ScaleKind::combination, limits.combination_kg);
    }
    return out;
  }

 private:
  template <class Add>
  void add_wheels(const Add& add) const {
    const double limit_kg = wheel_limit_kg(vehicle_.limits);
    if (limit_kg == without_limit) return;
    add(ScaleKind::front_left, limit_kg);
    const bool sides = vehicle_.chassis.wheels > 2 && vehicle_.chassis.track_m;
    if (sides) add(ScaleKind::front_right, limit_kg);
    add(ScaleKind::rear_left, limit_kg);
    if (sides) add(ScaleKind::rear_right, limit_kg);
  }

  /// What a scale takes of the vehicle itself.
  [[nodiscard]] double empty_kg(ScaleKind kind) const {
    if (is_axle(kind)) {
      return (is_rear(kind) ? empty_->rear_kg : empty_->front_kg) *
             wheel_share(vehicle_.chassis, kind, 0);
    }
    return kind == ScaleKind::total || kind == ScaleKind::combination ? vehicle_.empty_kg : 0;
  }

  /// What it takes of the trailer, where that is behind.
  [[nodiscard]] double trailer_kg(ScaleKind kind) const {
    const plan::Trailer& trailer = *vehicle_.trailer;
    if (kind == ScaleKind::trailer || kind == ScaleKind::combination) return trailer.loaded_kg();
    if (kind == ScaleKind::total || kind == ScaleKind::ball) return trailer.on_ball_kg();
    if (!is_axle(kind)) return 0;
    const Spot ball{.at_m = *vehicle_.chassis.wheelbase_m + trailer.coupling_m.value_or(0)};
    return trailer.on_ball_kg() * share_of(vehicle_, {.kind = kind, .vehicle = index_}, ball);
  }

  [[nodiscard]] Scale made(Scale scale) const {
    scale.vehicle = index_;
    const std::vector<Company>& companies = course_.timeline->companies;
    const double lump = share_of(vehicle_, scale, {}) * vehicle_.gear_kg;
    for (std::size_t c = 0; c < companies.size(); ++c) {
      const bool towing = vehicle_.trailer && companies[c].trailers[at(index_)] == 0;
      double kg = empty_kg(scale.kind) + lump + (towing ? trailer_kg(scale.kind) : 0);
      for (const Carried& one : carried_) {
        if (one.here[c] != 0) kg += one.own_kg * share_of(vehicle_, scale, one.spot);
      }
      scale.fixed_kg.push_back(kg);
    }
    for (const Carried& one : carried_) {
      const double kg = one.kg_per_level * share_of(vehicle_, scale, one.spot);
      if (kg != 0) scale.parts.push_back({.store = one.index, .kg_per_level = kg});
    }
    return scale;
  }

  const CourseBase& course_;
  const Vehicle& vehicle_;
  int index_;
  bool all_;
  std::vector<Carried> carried_;
  std::optional<EmptyAxles> empty_;
};

}  // namespace

std::vector<Carried> carried_in(const plan::Plan& plan, const CourseBase& course, int vehicle) {
  std::vector<Carried> out;
  const std::vector<Company>& companies = course.timeline->companies;
  const std::vector<char> always(companies.size(), 1);
  for (std::size_t p = 0; p < plan.people.size(); ++p) {
    const plan::Person& person = plan.people[p];
    Carried one{.name = person.name,
                .sort = Carried::Sort::person,
                .index = static_cast<int>(p),
                .own_kg = person.mass_kg};
    if (person.vehicle == vehicle) one.spot.bay = person.seat;
    for (const Company& company : companies) {
      const int ride = ride_of(plan, company, p);
      one.here.push_back(ride >= 0 && carrier(plan, course.damage, ride) == vehicle ? 1 : 0);
    }
    if (std::ranges::count(one.here, 1) > 0) out.push_back(std::move(one));
  }
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    const StoreInfo& store = course.stores[s];
    if (store.vehicle != vehicle || (store.kg_per_unit <= 0 && store.empty_kg <= 0)) continue;
    Carried one{.name = store.name,
                .sort = Carried::Sort::store,
                .index = static_cast<int>(s),
                .spot = store.spot,
                .own_kg = own_kg(store),
                .kg_per_level = kg_per_level(store),
                .is_fuel = store.family == Family::fuel,
                .movable = is_movable(plan, store)};
    for (const Company& company : companies) {
      one.here.push_back(is_left(plan, company, store) ? 0 : 1);
    }
    out.push_back(std::move(one));
  }
  for (std::size_t t = 0; t < course.things.size(); ++t) {
    const ThingInfo& thing = course.things[t];
    if (thing.vehicle != vehicle || thing.kg <= 0) continue;
    const bool gear = thing.family == Family::other;
    out.push_back({.name = thing.name,
                   .sort = gear ? Carried::Sort::gear : Carried::Sort::thing,
                   .index = static_cast<int>(t),
                   .spot = thing.spot,
                   .own_kg = thing.kg,
                   .here = always,
                   .leavable = gear && !is_needed(plan.vehicles[at(vehicle)], thing.name),
                   .movable = gear});
  }
  return out;
}

bool is_seat(const plan::Plan& plan, int vehicle, int bay) {
  return std::ranges::any_of(plan.people, [&](const plan::Person& person) {
    return person.vehicle == vehicle && person.seat == bay;
  });
}

double share_of(const Vehicle& vehicle, const Scale& scale, const Spot& spot) {
  switch (scale.kind) {
    case ScaleKind::total:
    case ScaleKind::combination:
      return 1;
    case ScaleKind::roof:
      return spot.bay && vehicle.bays[at(*spot.bay)].on_roof ? 1 : 0;
    case ScaleKind::bay:
      return spot.bay == scale.bay ? 1 : 0;
    case ScaleKind::ball:
    case ScaleKind::trailer:
      return 0;
    default:
      break;
  }
  const models::AxleShares shares =
      models::axle_shares(at_m(vehicle, spot), *vehicle.chassis.wheelbase_m);
  return (is_rear(scale.kind) ? shares.rear : shares.front) *
         wheel_share(vehicle.chassis, scale.kind, right_m(vehicle, spot));
}

std::vector<Scale> scales_of(const plan::Plan& plan, const CourseBase& course, bool all) {
  std::vector<Scale> out;
  std::vector<Scale> parts;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const ScaleMaker maker(plan, course, static_cast<int>(v), all);
    out.push_back(maker.total());
    std::ranges::move(maker.parts(), std::back_inserter(parts));
  }
  std::ranges::move(parts, std::back_inserter(out));
  return out;
}

std::string scale_name(const plan::Plan& plan, const Scale& scale) {
  const plan::Chassis& chassis = plan.vehicles[at(scale.vehicle)].chassis;
  const bool alike = chassis.wheels == 2 || !chassis.track_m;
  switch (scale.kind) {
    case ScaleKind::total:
      return {};
    case ScaleKind::front:
      return "front axle";
    case ScaleKind::rear:
      return "rear axle";
    case ScaleKind::front_left:
      return alike ? "front wheel" : "left front wheel";
    case ScaleKind::front_right:
      return "right front wheel";
    case ScaleKind::rear_left:
      return alike ? "rear wheel" : "left rear wheel";
    case ScaleKind::rear_right:
      return "right rear wheel";
    case ScaleKind::roof:
      return "roof";
    case ScaleKind::bay:
      return "bay " + plan.vehicles[at(scale.vehicle)].bays[at(scale.bay)].name;
    case ScaleKind::ball:
      return "tow ball";
    case ScaleKind::trailer:
      return "trailer";
    case ScaleKind::combination:
      return "vehicle with trailer";
  }
  return {};
}

}  // namespace drystage::engine
