#include "answers/offers/changes.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "plan/commodity.h"
#include "plan/limits.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

// Changes to the itinerary weigh nothing; they are ranked among those that do by how much they ask
// of the people: taking more at a stop next to nothing, a night of what they came for a good deal.
constexpr double take_more_size = 1;
constexpr double night_size = 30;

template <class Item>
std::size_t count(const plan::Plan& plan, std::size_t until) {
  const auto end = plan.itinerary.begin() + static_cast<std::ptrdiff_t>(until);
  return static_cast<std::size_t>(std::count_if(
      plan.itinerary.begin(), end,
      [](const plan::ItineraryItem& item) { return std::holds_alternative<Item>(item); }));
}

/// The item that is drive or stay number `n`, from 0.
template <class Item>
std::size_t item_of(const plan::Plan& plan, std::size_t n) {
  const auto is_it = [&n](const plan::ItineraryItem& item) {
    return std::holds_alternative<Item>(item) && n-- == 0;
  };
  return static_cast<std::size_t>(std::ranges::find_if(plan.itinerary, is_it) -
                                  plan.itinerary.begin());
}

/// A stop of the plan, found again when others have been put in after the drive before it.
struct StopAt {
  std::size_t drives = 0;       ///< so many lie before it
  std::size_t until_drive = 0;  ///< and so many items between it and the next drive, or the end
};

std::size_t drive_after(const plan::Plan& plan, std::size_t item) {
  while (item < plan.itinerary.size() && !std::holds_alternative<plan::Drive>(plan.itinerary[item]))
    ++item;
  return item;
}

StopAt stop_at(const plan::Plan& plan, std::size_t item) {
  return {.drives = count<plan::Drive>(plan, item), .until_drive = drive_after(plan, item) - item};
}

std::size_t item_of(const plan::Plan& plan, const StopAt& stop) {
  std::size_t next = stop.drives == 0 ? 0 : item_of<plan::Drive>(plan, stop.drives - 1) + 1;
  return drive_after(plan, next) - stop.until_drive;
}

/// Day, from 1, on which a drive of the itinerary arrives; 0 if it never does.
int arrival_day(const PlanRun& planned, std::size_t item) {
  const engine::Timeline& timeline = *planned.course.timeline;
  int day = 0;
  for (const engine::TimeStep& step : timeline.steps) {
    if (step.drive < 0) continue;
    const auto leg = static_cast<std::size_t>(step.leg);
    if (static_cast<std::size_t>(timeline.legs[leg].item) == item) day = step.day + 1;
  }
  return day;
}

/// Day, from 1, of a stop; 0 if it is never made.
int stop_day(const PlanRun& planned, std::size_t item) {
  for (const engine::TimeStep& step : planned.course.timeline->steps) {
    if (step.stop == static_cast<int>(item)) return step.day + 1;
  }
  return 0;
}

std::vector<int> vehicles_that_burn(const plan::Plan& plan, plan::Commodity commodity) {
  std::vector<int> out;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const bool diesel = plan.vehicles[v].fuel == plan::FuelKind::diesel;
    const plan::Commodity burns = diesel ? plan::Commodity::diesel : plan::Commodity::petrol;
    if (burns == commodity) out.push_back(static_cast<int>(v));
  }
  return out;
}

/// "filling up with diesel"; where several vehicles burn it, which of them.
std::string filling(const plan::Plan& plan, plan::Commodity commodity, std::optional<int> vehicle) {
  if (plan::is_emptied(plan, commodity)) {
    return "emptying all of " + plan.consumables[at(commodity.of)].name;
  }
  const std::string what = plan::words(plan, commodity);
  if (vehicles_that_burn(plan, commodity).size() < 2) return "filling up with " + what;
  if (!vehicle) return "filling every vehicle up with " + what;
  return fmt::format("filling {} up with {}", plan.vehicles[at(*vehicle)].name, what);
}

Option named(Option option, const PlanRun& planned) {
  option.change.name = option.name_in(planned);
  return option;
}

/// Whether a moment is before the last reading.
bool is_past(const engine::Course& course, int day, double hour) {
  if (course.readings.empty()) return false;
  const engine::TimeStep& now = course.timeline->steps[course.judged_from()];
  return std::pair(day, hour) < std::pair(now.day, now.from_h);
}

/// Whether a drive was over at the last reading.
bool arrived(const PlanRun& planned, std::size_t drive) {
  if (planned.course.readings.empty()) return false;
  const engine::Timeline& timeline = *planned.course.timeline;
  const auto first = timeline.steps.begin();
  const auto now = first + static_cast<std::ptrdiff_t>(planned.course.judged_from());
  return std::none_of(now, timeline.steps.end(), [&](const engine::TimeStep& step) {
    return step.drive >= 0 && timeline.legs[at(step.leg)].item == static_cast<int>(drive);
  });
}

/// Whether a stay had ended at the last reading: something was driven after it.
bool is_over(const PlanRun& planned, std::size_t stay) {
  const engine::Timeline& timeline = *planned.course.timeline;
  for (std::size_t s = 0; s < planned.course.judged_from(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    if (step.drive >= 0 && at(timeline.legs[at(step.leg)].item) > stay) return true;
  }
  return false;
}

/// At a stop where an amount is taken: take all that fits.
void add_fuller_stops(std::vector<Option>& out, const PlanRun& planned, int reserve,
                      plan::Commodity commodity) {
  for (const engine::OrderInfo& order : planned.course.orders) {
    if (order.reserve != reserve || !order.open || order.order.take != plan::Take::amount) continue;
    if (is_past(planned.course, order.day, order.hour)) continue;
    const std::string& place = planned.plan.places[at(order.place)].name;
    const std::string unit = plan::measure_of(planned.plan, commodity).unit;
    const double amount = order.order.amount;
    const std::string asked =
        units::format_number(amount, amount < 10 ? units::significant(2) : units::decimals(0));
    const StopAt stop = stop_at(planned.plan, static_cast<std::size_t>(order.item));
    const std::optional<int> vehicle = order.shared ? std::nullopt : order.order.vehicle;
    const auto apply = [=](plan::Plan& changed) {
      auto& resupply = std::get<plan::Resupply>(changed.itinerary[item_of(changed, stop)]);
      for (plan::Order& each : resupply.orders) {
        if (each.commodity == commodity && each.vehicle == vehicle) each.take = plan::Take::fill;
      }
    };
    const auto name = [=](const PlanRun& made) {
      return engine::ChangeName{fmt::format("{} at {} on day {}, not {} {}",
                                            filling(made.plan, commodity, vehicle), place,
                                            stop_day(made, item_of(made.plan, stop)), asked, unit)};
    };
    out.push_back(
        named({.change = {.name = {}, .size = take_more_size}, .apply = apply, .name_in = name},
              planned));
  }
}

/// Whether something is taken, for a vehicle or for all, at a stop that follows an itinerary item
/// directly.
bool taken_next(const plan::Plan& plan, std::size_t item, plan::Commodity commodity,
                std::optional<int> vehicle) {
  for (std::size_t i = item + 1; i < plan.itinerary.size(); ++i) {
    const auto* next = std::get_if<plan::Resupply>(&plan.itinerary[i]);
    if (next == nullptr) return false;
    const bool taken = std::ranges::any_of(next->orders, [&](const plan::Order& order) {
      const bool for_it = !order.vehicle || !vehicle || *order.vehicle == *vehicle;
      return order.commodity == commodity && for_it;
    });
    if (taken) return true;
  }
  return false;
}

/// Whether a drive arrives after the day on which a reserve first breaks its margin: a stop there
/// does not undo that, unless those before it would then take something else.
bool too_late(const PlanRun& planned, std::size_t drive, int reserve) {
  const auto& broken = planned.verdict.reserves[at(reserve)].first_breach_day;
  const bool by_need = std::ranges::any_of(planned.course.orders, [](const auto& order) {
    return order.order.take == plan::Take::needed;
  });
  return broken && !by_need && arrival_day(planned, drive) > *broken + 1;
}

Option new_stop(const PlanRun& planned, std::size_t item, plan::Commodity commodity,
                std::optional<int> vehicle) {
  const std::size_t drive = count<plan::Drive>(planned.plan, item);
  const int to = std::get<plan::Drive>(planned.plan.itinerary[item]).to;
  const std::string& place = planned.plan.places[at(to)].name;
  const auto vehicles = vehicles_that_burn(planned.plan, commodity).size();
  const auto apply = [=](plan::Plan& changed) {
    plan::Resupply stop;
    stop.orders.push_back({.commodity = commodity, .vehicle = vehicle});
    const std::size_t after = item_of<plan::Drive>(changed, drive) + 1;
    changed.itinerary.insert(changed.itinerary.begin() + static_cast<std::ptrdiff_t>(after), stop);
  };
  const auto name = [=](const PlanRun& made) {
    return engine::ChangeName{
        fmt::format("{} at {} on day {}", filling(made.plan, commodity, vehicle), place,
                    arrival_day(made, item_of<plan::Drive>(made.plan, drive)))};
  };
  const double stops = vehicle ? 1.0 : static_cast<double>(std::max<std::size_t>(1, vehicles));
  return named({.change = {.name = {}, .size = stops * take_more_size},
                .apply = apply,
                .moves_time = true,
                .name_in = name},
               planned);
}

/// Where a place on the way supplies it and nothing is taken: stop and fill up on arrival, before
/// the reserve fails; fuel for the one vehicle, or for every one that burns it.
void add_new_stops(std::vector<Option>& out, const PlanRun& planned, int reserve) {
  const engine::ReserveInfo& info = planned.course.reserves[at(reserve)];
  const plan::Commodity commodity = *info.commodity;
  // Of water and food all take at a stop, whoever keeps their own.
  const std::optional<int> vehicle =
      info.id.family == engine::Family::fuel ? info.vehicle : std::nullopt;
  const bool several = vehicles_that_burn(planned.plan, commodity).size() > 1;
  for (std::size_t i = 0; i + 1 < planned.plan.itinerary.size(); ++i) {
    const auto* drive = std::get_if<plan::Drive>(&planned.plan.itinerary[i]);
    if (drive == nullptr || taken_next(planned.plan, i, commodity, vehicle)) continue;
    if (too_late(planned, i, reserve) || arrived(planned, i)) continue;
    const plan::Place& place = planned.plan.places[at(drive->to)];
    if (std::ranges::find(place.supplies, commodity, &plan::Supply::commodity) ==
        place.supplies.end()) {
      continue;
    }
    out.push_back(new_stop(planned, i, commodity, vehicle));
    if (!several || taken_next(planned.plan, i, commodity, std::nullopt)) continue;
    out.push_back(new_stop(planned, i, commodity, std::nullopt));
  }
}

/// So many nights fewer or more (`change` is -1 or 1) at a stay of the itinerary; `most`: no more
/// steps can be taken.
Option nights(std::size_t stay, const std::string& place, int change, int steps, int most) {
  const std::string rest = std::string(change < 0 ? "fewer" : "more") + " at " + place;
  return {
      .change = {.name = {"night " + rest, "nights " + rest, steps}, .size = steps * night_size},
      .apply =
          [=](plan::Plan& changed) {
            auto& item = changed.itinerary[item_of<plan::Stay>(changed, stay)];
            std::get<plan::Stay>(item).nights += steps * change;
          },
      .moves_time = true,
      .moves_days = true,
      .kind = fmt::format("nights {} of stay {}", change, stay),
      .steps = steps,
      .of_steps =
          [=](int other) { return nights(stay, place, change, std::min(other, most), most); }};
}

/// One night fewer where there is more than one; one more at the last stay before a stop that was
/// found shut.
void add_nights(std::vector<Option>& out, const PlanRun& planned) {
  int here = -1;
  std::optional<std::pair<std::size_t, int>> last_stay;
  for (std::size_t i = 0; i < planned.plan.itinerary.size(); ++i) {
    const plan::ItineraryItem& item = planned.plan.itinerary[i];
    if (const auto* at = std::get_if<plan::At>(&item)) here = at->place;
    if (const auto* drive = std::get_if<plan::Drive>(&item)) here = drive->to;
    const auto name = [&](int place) { return planned.plan.places[at(place)].name; };
    if (const auto* stay = std::get_if<plan::Stay>(&item)) {
      const std::size_t number = count<plan::Stay>(planned.plan, i);
      const bool over = is_over(planned, i);
      if (stay->nights > 1 && !over) {
        out.push_back(nights(number, name(here), -1, 1, stay->nights - 1));
      }
      last_stay.reset();
      if (!over) last_stay = {number, here};
    }
    const bool shut = std::ranges::any_of(planned.course.orders, [i](const auto& order) {
      return static_cast<std::size_t>(order.item) == i && !order.open;
    });
    if (shut && last_stay) {
      out.push_back(nights(last_stay->first, name(last_stay->second), +1, 1, engine::most_pieces));
      last_stay.reset();
    }
  }
}

Option option_of(engine::Remedy remedy) {
  Option out{.change = {.name = std::move(remedy.name), .size = remedy.size},
             .apply = std::move(remedy.apply),
             .adds = remedy.adds,
             .kind = std::move(remedy.kind),
             .steps = remedy.steps};
  if (out.steps > 0) {
    out.of_steps = [of = std::move(remedy.of_steps)](int steps) { return option_of(of(steps)); };
  }
  return out;
}

}  // namespace

std::vector<Option> options_for(const PlanRun& planned, int reserve, double lacking) {
  std::vector<Option> out;
  // Who is under way can load nothing more before setting out.
  if (planned.course.readings.empty()) {
    for (engine::Remedy& remedy :
         engine::Engine::remedies(planned.course, planned.plan, reserve, lacking)) {
      out.push_back(option_of(std::move(remedy)));
    }
  }
  const engine::ReserveInfo& info = planned.course.reserves[at(reserve)];
  if (info.commodity) {
    add_fuller_stops(out, planned, reserve, *info.commodity);
    add_new_stops(out, planned, reserve);
  }
  add_nights(out, planned);
  // What makes a plan that cannot be read is no advice. Only a plan that has many things already is
  // near to that.
  if (2 * plan::things_to_carry(planned.plan) > plan::most_to_carry) {
    std::erase_if(out, [&](const Option& option) {
      plan::Plan changed = planned.plan;
      option.apply(changed);
      return plan::things_to_carry(changed) > plan::most_to_carry;
    });
  }
  std::ranges::stable_sort(out, {}, [](const Option& option) { return option.change.size; });
  return out;
}

}  // namespace drystage::answers
