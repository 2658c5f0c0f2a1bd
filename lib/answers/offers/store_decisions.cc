// What is decided about water, fuel and consumables: which tank, and how many cans or stores.

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <utility>

#include "answers/offers/decision.h"
#include "answers/offers/vessels.h"
#include "engine/usual_sizes.h"
#include "models/road_load.h"
#include "plan/cans.h"
#include "plan/own.h"
#include "plan/values.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;
using plan::Item;

/// "can 7" after "can 6"; `fallback 1` where there is nothing to go by. Not a name in use.
std::string next_name(const std::string& like, const std::string& fallback,
                      const std::set<std::string>& in_use) {
  std::string stem = like;
  while (!stem.empty() && stem.back() >= '0' && stem.back() <= '9') stem.pop_back();
  const bool numbered = stem.size() < like.size() && !stem.empty();
  if (!numbered) stem = fallback + " ";
  for (int n = 1;; ++n) {
    std::string name = fmt::format("{}{}", stem, n);
    if (!in_use.contains(name)) return name;
  }
}

/// Where in a list each of what was there has gone; -1: it is there no more.
template <class Thing>
std::vector<int> moved(const std::vector<std::string>& before, const std::vector<Thing>& list) {
  std::vector<int> out;
  for (const std::string& name : before) {
    const auto found = std::ranges::find(list, name, &Thing::name);
    out.push_back(found == list.end() ? -1 : static_cast<int>(found - list.begin()));
  }
  return out;
}

// Of water and fuel in L, of a consumable in its unit.
template <class Thing>
double& holds(Thing& thing) {
  if constexpr (requires { thing.holds_l; }) {
    return thing.holds_l;
  } else {
    return thing.holds;
  }
}
template <class Thing>
double& filled(Thing& thing) {
  if constexpr (requires { thing.filled_l; }) {
    return thing.filled_l;
  } else {
    return thing.filled;
  }
}

/// Takes out, refits and adds. `serves` says which of a list are this pool's; a new one is made
/// like one of them, and stands after it. Answers where each of the list has gone.
template <class Thing, class Serves>
std::vector<int> remake(std::vector<Thing>& list, const Remake& change, const Thing& blank,
                        const std::string& fallback, const Serves& serves) {
  std::vector<std::string> before(list.size());
  std::ranges::transform(list, before.begin(), &Thing::name);
  std::set<std::string> in_use(before.begin(), before.end());
  // Where the first new one goes if it is like none: after the last that serves the same.
  std::string last;
  for (const Thing& thing : list) {
    if (serves(thing)) last = thing.name;
  }
  for (const Remake::Refit& refit : change.refits) {
    const auto thing = std::ranges::find(list, refit.name, &Thing::name);
    // Shape and dip marks are of the tank that was measured, and of no other.
    const bool another = holds(*thing) != refit.holds || thing->empty_kg != refit.empty_kg;
    if constexpr (requires { thing->gauge; }) {
      if (another) thing->gauge = {};
    }
    holds(*thing) = refit.holds;
    filled(*thing) = refit.filled;
    thing->empty_kg = refit.empty_kg;
  }
  for (const Remake::Added& added : change.added) {
    const auto like = std::ranges::find(list, added.like, &Thing::name);
    Thing made = like == list.end() ? blank : *like;
    made.name = next_name(added.like, fallback, in_use);
    in_use.insert(made.name);
    holds(made) = added.holds;
    filled(made) = added.filled;
    made.empty_kg = added.empty_kg;
    if constexpr (requires { made.vehicle; }) made.vehicle = added.vehicle;
    if constexpr (requires { made.opened_last; }) made.opened_last = false;
    if constexpr (requires { made.unusable_l; }) made.unusable_l = 0;
    if constexpr (requires { made.gauge; }) made.gauge = {};
    made.mark = {};
    auto at = list.end();
    for (auto each = list.begin(); each != list.end(); ++each) {
      if (each->name == (like == list.end() ? last : added.like)) at = each + 1;
    }
    // Those that were added before it stay before it.
    while (at != list.end() && std::ranges::find(before, at->name) == before.end()) ++at;
    list.insert(at, made);
  }
  std::erase_if(list, [&](const Thing& thing) {
    return std::ranges::find(change.removed, thing.name) != change.removed.end();
  });
  return moved(before, list);
}

std::vector<plan::VesselOffer> tank_sizes(const plan::Plan& plan, Item::Sort sort, int index,
                                          int vehicle, double plan_holds_l) {
  for (const plan::TankOffers& offers : plan.size.tanks) {
    const Item& tank = offers.tank;
    if (tank.sort != sort || tank.index != index) continue;
    if (sort == Item::Sort::tank && tank.of != vehicle) continue;
    std::vector<plan::VesselOffer> sizes = offers.sizes;
    for (plan::VesselOffer& size : sizes) {
      // The plan's own size is the plan's own tank.
      if (size.empty_kg || size.holds == plan_holds_l) continue;
      size.empty_kg =
          hundredths_up(sort == Item::Sort::tank ? engine::usual_fuel_tank_kg(size.holds)
                                                 : engine::usual_water_tank_kg(size.holds));
    }
    return sizes;
  }
  return {};
}

/// The can types that are on offer, each with those of the plan that are of its size.
template <class UsualKg>
void add_types(Pool& pool, const std::vector<plan::VesselOffer>& offers, int vehicle,
               const UsualKg& usual_kg) {
  for (const plan::VesselOffer& offer : offers) {
    pool.types.push_back({.holds = offer.holds,
                          .filled = offer.holds,
                          .empty_kg = offer.empty_kg.value_or(hundredths_up(usual_kg(offer.holds))),
                          .cost = offer.cost.value_or(0),
                          .space_l = offer.space_l.value_or(pool.unit_l * offer.holds),
                          .most = offer.most,
                          .vehicle = offer.vehicle.value_or(vehicle)});
  }
}

/// Whatever names containers, tanks and stores by their index: what own mishaps lose, and what is
/// left on the way.
template <class Change>
void for_each_list(plan::Plan& plan, const Change& change) {
  for (plan::OwnMishap& own : plan.mishaps.own) change(own);
  for (plan::ItineraryItem& item : plan.itinerary) {
    if (auto* drive = std::get_if<plan::Drive>(&item)) change(drive->leaves);
  }
}

/// In which vehicle cans go, where there are several.
void say_where(Pool& pool, const plan::Plan& plan) {
  if (plan.vehicles.size() < 2) return;
  for (CanType& type : pool.types) {
    type.where = " in " + plan.vehicles[static_cast<std::size_t>(type.vehicle)].name;
  }
}

/// Whether what a vehicle carries is an owner's (plan::owners).
bool is_water_of(const plan::Plan& plan, int vehicle, int owner) {
  return plan::owner_of(plan, vehicle, plan::Stock::water) == owner;
}

Pool water_pool(const plan::Plan& plan, plan::WaterUse use, int owner,
                const std::vector<plan::VesselOffer>& offers) {
  const bool drinking = use == plan::WaterUse::drinking;
  Pool pool{.reserve = {drinking ? Family::drinking_water : Family::utility_water, owner},
            .contents = drinking ? "drinking water" : "utility water",
            .can = "container",
            .vehicles = plan.vehicles.size()};
  const plan::Commodity commodity =
      drinking ? plan::Commodity::drinking_water : plan::Commodity::utility_water;
  if (owner >= 0) pool.contents += " for " + plan.vehicles[at(owner)].name;
  pool.needs_one = is_taken_on_the_way(plan, commodity);
  int vehicle = owner < 0 ? plan::common_vehicle(plan, plan::Stock::water) : owner;
  bool first = true;
  for (std::size_t i = 0; i < plan.water.containers.size(); ++i) {
    const plan::Container& container = plan.water.containers[i];
    if (container.use != use || !is_water_of(plan, container.vehicle, owner)) continue;
    if (std::exchange(first, false)) vehicle = container.vehicle;
    const int index = static_cast<int>(i);
    pool.vessels.push_back(
        {.name = container.name,
         .title = container.name,
         .holds = container.holds_l,
         .filled = container.filled_l,
         .empty_kg = container.empty_kg,
         .vehicle = container.vehicle,
         .can = is_can(container),
         .kept = container.opened_last || is_kept(plan, Item::Sort::container, index),
         .sizes = tank_sizes(plan, Item::Sort::container, index, -1, container.holds_l)});
  }
  add_types(pool, offers, vehicle, engine::usual_container_kg);
  add_own_types(pool);
  if (owner < 0) say_where(pool, plan);
  pool.remake = [use, owner](plan::Plan& changed, const Remake& change) {
    const bool for_drinking = use == plan::WaterUse::drinking;
    plan::Container blank;
    blank.use = use;
    const std::vector<int> gone =
        remake(changed.water.containers, change, blank,
               for_drinking ? "drinking container" : "utility container",
               [&](const plan::Container& each) {
                 return each.use == use && is_water_of(changed, each.vehicle, owner);
               });
    for_each_list(changed, [&gone](auto& lists) {
      for (int& index : lists.containers) index = gone[static_cast<std::size_t>(index)];
    });
  };
  return pool;
}

Pool fuel_pool(const plan::Plan& plan, int index, const std::vector<plan::VesselOffer>& offers) {
  const plan::Vehicle& vehicle = plan.vehicles[static_cast<std::size_t>(index)];
  const bool diesel = vehicle.fuel == plan::FuelKind::diesel;
  Pool pool{.reserve = {Family::fuel, index},
            .contents = diesel ? "diesel" : "petrol",
            .can = "can",
            .unit_kg = plan::fuel_kg_l(vehicle.fuel),
            .vehicle = index,
            .vehicles = plan.vehicles.size()};
  if (plan.vehicles.size() > 1) pool.contents += " for " + vehicle.name;
  for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
    const plan::Tank& tank = vehicle.tanks[t];
    const int number = static_cast<int>(t);
    pool.vessels.push_back(
        {.name = tank.name,
         .title = plan.vehicles.size() > 1 ? tank.name + " of " + vehicle.name : tank.name,
         .holds = tank.holds_l,
         .filled = tank.filled_l,
         .unusable = tank.unusable_l,
         .empty_kg = tank.empty_kg,
         .vehicle = index,
         .can = is_can(tank),
         .kept = is_kept(plan, Item::Sort::tank, number, index),
         .sizes = tank_sizes(plan, Item::Sort::tank, number, index, tank.holds_l)});
  }
  add_types(pool, offers, index, engine::usual_fuel_can_kg);
  add_own_types(pool);
  pool.remake = [index](plan::Plan& changed, const Remake& change) {
    std::vector<plan::Tank>& tanks = changed.vehicles[static_cast<std::size_t>(index)].tanks;
    const std::vector<int> gone =
        remake(tanks, change, plan::Tank{}, "fuel can", [](const plan::Tank&) { return true; });
    for_each_list(changed, [&gone, index](auto& lists) {
      for (plan::TankReference& reference : lists.tanks) {
        if (reference.vehicle == index) reference.tank = gone[at(reference.tank)];
      }
    });
  };
  return pool;
}

/// Of what fills: as much in it as leaves the room that is asked for.
Remake in_contents(Remake change) {
  for (Remake::Refit& refit : change.refits) refit.filled = refit.holds - refit.filled;
  for (Remake::Added& added : change.added) added.filled = added.holds - added.filled;
  return change;
}

/// A new store weighs what the plan's own of that size weighs.
Pool consumable_pool(const plan::Plan& plan, int index,
                     const std::vector<plan::VesselOffer>& offers) {
  const plan::Consumable& consumable = plan.consumables[at(index)];
  Pool pool{.reserve = {Family::consumable, index},
            .contents = consumable.name,
            .can = "container",
            .unit = consumable.unit,
            // What it fills with weighs as much whichever stores it is in.
            .unit_kg = consumable.fills ? 0 : consumable.unit_kg,
            .in_tenths = false,
            .unit_l = consumable.kind == units::Kind::volume ? engine::usual_can_space : 0,
            .vehicles = plan.vehicles.size(),
            .needs_one = true};
  for (std::size_t s = 0; s < consumable.stores.size(); ++s) {
    const plan::ConsumableStore& store = consumable.stores[s];
    pool.vessels.push_back({.name = store.name,
                            .title = store.name,
                            .holds = store.holds,
                            .filled = consumable.fills ? store.holds - store.filled : store.filled,
                            .empty_kg = store.empty_kg,
                            .vehicle = store.vehicle,
                            .can = true,
                            .kept = is_kept(plan, Item::Sort::store, static_cast<int>(s), index)});
  }
  const auto own_kg = [&consumable](double size) {
    const auto own = std::ranges::find(consumable.stores, size, &plan::ConsumableStore::holds);
    return own == consumable.stores.end() ? 0 : own->empty_kg;
  };
  add_types(pool, offers, consumable.stores.empty() ? 0 : consumable.stores.front().vehicle,
            own_kg);
  add_own_types(pool);
  static const auto usual_most =
      static_cast<int>(plan::default_number("size.consumables.most").value());
  for (CanType& type : pool.types) {
    if (!type.most) type.most = std::max(usual_most, static_cast<int>(type.existing.size()));
  }
  say_where(pool, plan);
  pool.remake = [index](plan::Plan& changed, const Remake& change) {
    plan::Consumable& of = changed.consumables[at(index)];
    plan::ConsumableStore blank;
    if (!of.stores.empty()) blank.cabinet = of.stores.front().cabinet;
    const std::vector<int> gone =
        remake(of.stores, of.fills ? in_contents(change) : change, blank, of.name,
               [](const plan::ConsumableStore&) { return true; });
    for_each_list(changed, [&gone, index](auto& lists) {
      for (plan::ConsumableStoreReference& reference : lists.stores) {
        if (reference.consumable == index) reference.store = gone[at(reference.store)];
      }
    });
  };
  return pool;
}

/// Everything but a tank that is on offer in other sizes stays as it is.
void keep_cans(Pool& pool) {
  for (Vessel& vessel : pool.vessels) vessel.kept = vessel.sizes.empty();
  pool.types.clear();
}

std::vector<plan::VesselOffer> offered_cans(const plan::Plan& plan, int vehicle) {
  if (!plan.size.lists_offers()) return {{.holds = engine::usual_fuel_can_l}};
  std::vector<plan::VesselOffer> offers;
  for (const plan::FuelCanOffers& each : plan.size.fuel_cans) {
    if (each.vehicle == vehicle) offers.insert(offers.end(), each.cans.begin(), each.cans.end());
  }
  return offers;
}

/// Those that go into no vehicle in particular are for every owner.
std::vector<plan::VesselOffer> offered_containers(const plan::Plan& plan, plan::WaterUse use,
                                                  int owner) {
  if (plan.size.lists_offers()) {
    auto offers = use == plan::WaterUse::drinking ? plan.size.drinking : plan.size.utility;
    std::erase_if(offers, [&](const plan::VesselOffer& offer) {
      return offer.vehicle && !is_water_of(plan, *offer.vehicle, owner);
    });
    return offers;
  }
  std::vector<plan::VesselOffer> offers(engine::usual_water_containers_l.size());
  std::ranges::transform(engine::usual_water_containers_l, offers.begin(),
                         [](double holds_l) { return plan::VesselOffer{.holds = holds_l}; });
  return offers;
}

/// What is on offer of a consumable; where the plan lists nothing at all, more of what it has.
std::vector<plan::VesselOffer> offered_stores(const plan::Plan& plan, int consumable) {
  std::vector<plan::VesselOffer> offers;
  for (const plan::ConsumableOffers& each : plan.size.consumables) {
    if (each.consumable == consumable) offers = each.stores;
  }
  if (plan.size.lists_offers()) return offers;
  for (const plan::ConsumableStore& store : plan.consumables[at(consumable)].stores) {
    const bool there =
        std::ranges::find(offers, store.holds, &plan::VesselOffer::holds) != offers.end();
    if (!there) offers.push_back({.holds = store.holds});
  }
  return offers;
}

bool has_utility_water(const plan::Plan& plan) {
  return !plan.water.utility_uses.empty() ||
         std::ranges::any_of(plan.water.containers, [](const plan::Container& container) {
           return container.use == plan::WaterUse::utility;
         });
}

}  // namespace

std::vector<Decision> store_decisions(const plan::Plan& plan, Least least, bool cans_may_be_lost) {
  std::vector<Decision> out;
  const auto add = [&](Pool pool, bool cans_offered) {
    const bool tanks_offered = std::ranges::any_of(
        pool.vessels, [](const Vessel& vessel) { return !vessel.sizes.empty(); });
    if (!cans_offered && !tanks_offered) return;
    if (!cans_offered) keep_cans(pool);
    out.push_back(decide(std::move(pool), least, cans_may_be_lost));
  };
  for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
    const std::vector<plan::VesselOffer> offers = offered_cans(plan, v);
    add(fuel_pool(plan, v, offers), !offers.empty());
  }
  for (const plan::WaterUse use : {plan::WaterUse::drinking, plan::WaterUse::utility}) {
    if (use == plan::WaterUse::utility && !has_utility_water(plan)) continue;
    for (const int owner : plan::owners(plan, plan::Stock::water)) {
      const std::vector<plan::VesselOffer> offers = offered_containers(plan, use, owner);
      add(water_pool(plan, use, owner, offers), !offers.empty());
    }
  }
  for (int c = 0; c < static_cast<int>(plan.consumables.size()); ++c) {
    const std::vector<plan::VesselOffer> offers = offered_stores(plan, c);
    add(consumable_pool(plan, c, offers), !offers.empty());
  }
  return out;
}

}  // namespace drystage::answers
