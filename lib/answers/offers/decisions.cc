#include <algorithm>
#include <cmath>
#include <iterator>
#include <tuple>

#include "answers/offers/decision.h"

namespace drystage::answers {
namespace {

/// Whether lists of containers, tanks and stores name a thing: what a mishap of the plan's own
/// loses, or what is left on the way.
template <class Lists>
bool names(const Lists& lists, plan::Item::Sort sort, int index, int of) {
  const auto has = [](const auto& list, const auto& thing) {
    return std::ranges::find(list, thing) != list.end();
  };
  if (sort == plan::Item::Sort::container) return has(lists.containers, index);
  if (sort == plan::Item::Sort::store) {
    return has(lists.stores, plan::ConsumableStoreReference{.consumable = of, .store = index});
  }
  return sort == plan::Item::Sort::tank &&
         has(lists.tanks, plan::TankReference{.vehicle = of, .tank = index});
}

bool is_left_on_the_way(const plan::Plan& plan, plan::Item::Sort sort, int index, int of) {
  return std::ranges::any_of(plan.itinerary, [&](const plan::ItineraryItem& item) {
    const auto* drive = std::get_if<plan::Drive>(&item);
    return drive != nullptr && names(drive->leaves, sort, index, of);
  });
}

/// Whether a ticket of the vehicle that a thing is in names it.
bool thing_was_weighed(const plan::Plan& plan, plan::Item::Sort sort, int index, int of) {
  using Sort = plan::Item::Sort;
  const auto named = [&](int vehicle, const std::string& name) {
    return vehicle >= 0 && at(vehicle) < plan.vehicles.size() &&
           was_weighed(plan.vehicles[at(vehicle)], name);
  };
  const auto is_named = [&](const auto& things) {
    return at(index) < things.size() && named(things[at(index)].vehicle, things[at(index)].name);
  };
  if (sort == Sort::container) return is_named(plan.water.containers);
  if (sort == Sort::battery) return is_named(plan.power.banks);
  if (sort == Sort::cabinet) return is_named(plan.cold);
  if (sort == Sort::food) return is_named(plan.food);
  if (sort == Sort::store) return is_named(plan.consumables[at(of)].stores);
  if (sort == Sort::tank) {
    const std::vector<plan::Tank>& tanks = plan.vehicles[at(of)].tanks;
    return at(index) < tanks.size() && named(of, tanks[at(index)].name);
  }
  if (sort != Sort::panel || at(index) >= plan.power.chargers.size()) return false;
  const plan::Charger& panel = plan.power.chargers[at(index)];
  return named(plan.power.banks[at(panel.bank)].vehicle, panel.name);
}

}  // namespace

bool was_weighed(const plan::Vehicle& vehicle, const std::string& name) {
  return std::ranges::any_of(vehicle.tickets, [&](const plan::Ticket& ticket) {
    return std::ranges::find(ticket.with, name, &plan::Ticket::With::name) != ticket.with.end();
  });
}

bool is_kept(const plan::Plan& plan, plan::Item::Sort sort, int index, int of) {
  const auto is_it = [&](const plan::Item& item) {
    return item.sort == sort && item.index == index &&
           ((sort != plan::Item::Sort::tank && sort != plan::Item::Sort::store) || item.of == of);
  };
  return std::ranges::any_of(plan.size.keep, is_it) ||
         std::ranges::any_of(
             plan.mishaps.own,
             [&](const plan::OwnMishap& mishap) { return names(mishap, sort, index, of); }) ||
         is_left_on_the_way(plan, sort, index, of) || thing_was_weighed(plan, sort, index, of);
}

bool is_taken_on_the_way(const plan::Plan& plan, plan::Commodity commodity) {
  return std::ranges::any_of(plan.itinerary, [&](const plan::ItineraryItem& item) {
    const auto* stop = std::get_if<plan::Resupply>(&item);
    return stop != nullptr && std::ranges::find(stop->orders, commodity, &plan::Order::commodity) !=
                                  stop->orders.end();
  });
}

double hundredths_up(double value) {
  constexpr double noise = 1e-6;
  return std::max(0.0, std::ceil(value * 100 - noise) / 100);
}

void sort_choices(std::vector<Choice>& choices, Least least) {
  std::ranges::stable_sort(choices, {}, [least](const Choice& choice) {
    const Objective value = objective(choice.totals, least);
    return std::tuple(value.first, value.second, choice.totals.space_l);
  });
}

Objective objective(const Totals& totals, Least least) {
  constexpr double per_unit = 1e6;
  const auto whole = [](double value) {
    return static_cast<std::int64_t>(std::llround(value * per_unit));
  };
  return least == Least::mass ? Objective{whole(totals.kg), whole(totals.cost)}
                              : Objective{whole(totals.cost), whole(totals.kg)};
}

std::vector<Decision> decisions_of(const plan::Plan& plan, Least least, bool cans_may_be_lost) {
  std::vector<Decision> out = store_decisions(plan, least, cans_may_be_lost);
  std::ranges::move(spare_wheel_decisions(plan, least), std::back_inserter(out));
  std::ranges::move(food_decisions(plan, least), std::back_inserter(out));
  std::ranges::move(equipment_decisions(plan, least), std::back_inserter(out));
  return out;
}

}  // namespace drystage::answers
