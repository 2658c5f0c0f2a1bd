#include "answers/changes.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "plan/commodity.h"

namespace drystage::answers {
namespace {

// Changes to the itinerary weigh nothing; they are ranked among those that do by how much they ask
// of the people: taking more at a stop next to nothing, a night of what they came for a good deal.
constexpr double take_more_size = 1;
constexpr double night_size = 30;

/// Day, from 1, on which a drive of the itinerary arrives; 0 if it never does.
int arrival_day(const Trial& trial, std::size_t item) {
  const engine::Timeline& timeline = *trial.course.timeline;
  int day = 0;
  for (const engine::TimeStep& step : timeline.steps) {
    if (step.drive < 0) continue;
    const auto leg = static_cast<std::size_t>(step.leg);
    if (static_cast<std::size_t>(timeline.legs[leg].item) == item) day = step.day + 1;
  }
  return day;
}

/// At a stop where an amount is taken: take all that fits.
void add_fuller_stops(std::vector<Option>& out, const Trial& trial, int reserve,
                      plan::Commodity commodity) {
  for (const engine::OrderInfo& order : trial.course.orders) {
    if (order.reserve != reserve || !order.open || order.order.take != plan::Take::amount) continue;
    const std::string& place = trial.plan.places[static_cast<std::size_t>(order.place)].name;
    const char* unit = commodity == plan::Commodity::food ? "meals" : "L";
    out.push_back(
        {.change = {.name = {fmt::format("filling up with {} at {} on day {}, not {:.0f} {}",
                                         plan::words(commodity), place, order.day + 1,
                                         order.order.amount, unit)},
                    .size = take_more_size},
         .apply = [item = order.item, commodity](plan::Plan& changed) {
           auto& stop = std::get<plan::Resupply>(changed.itinerary[static_cast<std::size_t>(item)]);
           for (plan::Order& each : stop.orders) {
             if (each.commodity == commodity) each.take = plan::Take::fill;
           }
         }});
  }
}

/// Whether something is taken at a stop that follows an itinerary item directly.
bool taken_next(const plan::Plan& plan, std::size_t item, plan::Commodity commodity) {
  const auto* next = std::get_if<plan::Resupply>(&plan.itinerary[item + 1]);
  return next != nullptr &&
         std::ranges::find(next->orders, commodity, &plan::Order::commodity) != next->orders.end();
}

/// Where a place on the way supplies it and nothing is taken: stop and fill up on arrival.
void add_new_stops(std::vector<Option>& out, const Trial& trial, plan::Commodity commodity,
                   std::optional<int> vehicle) {
  for (std::size_t i = 0; i + 1 < trial.plan.itinerary.size(); ++i) {
    const auto* drive = std::get_if<plan::Drive>(&trial.plan.itinerary[i]);
    if (drive == nullptr || taken_next(trial.plan, i, commodity)) continue;
    const plan::Place& place = trial.plan.places[static_cast<std::size_t>(drive->to)];
    if (std::ranges::find(place.supplies, commodity, &plan::Supply::commodity) ==
        place.supplies.end()) {
      continue;
    }
    out.push_back({.change = {.name = {fmt::format("filling up with {} at {} on day {}",
                                                   plan::words(commodity), place.name,
                                                   arrival_day(trial, i))},
                              .size = take_more_size},
                   .apply =
                       [i, commodity, vehicle](plan::Plan& changed) {
                         plan::Resupply stop;
                         stop.orders.push_back({.commodity = commodity, .vehicle = vehicle});
                         changed.itinerary.insert(
                             changed.itinerary.begin() + static_cast<std::ptrdiff_t>(i) + 1, stop);
                       },
                   .moves_time = true});
  }
}

Option nights(std::size_t item, const std::string& place, int change) {
  const std::string rest = std::string(change < 0 ? "fewer" : "more") + " at " + place;
  return {.change = {.name = {"night " + rest, "nights " + rest}, .size = night_size},
          .apply =
              [item, change](plan::Plan& changed) {
                std::get<plan::Stay>(changed.itinerary[item]).nights += change;
              },
          .moves_time = true};
}

/// One night fewer where there is more than one; one more at the last stay before a stop that was
/// found shut.
void add_nights(std::vector<Option>& out, const Trial& trial) {
  int here = -1;
  std::optional<std::pair<std::size_t, int>> last_stay;
  for (std::size_t i = 0; i < trial.plan.itinerary.size(); ++i) {
    const plan::ItineraryItem& item = trial.plan.itinerary[i];
    if (const auto* at = std::get_if<plan::At>(&item)) here = at->place;
    if (const auto* drive = std::get_if<plan::Drive>(&item)) here = drive->to;
    const auto name = [&](int place) {
      return trial.plan.places[static_cast<std::size_t>(place)].name;
    };
    if (const auto* stay = std::get_if<plan::Stay>(&item)) {
      if (stay->nights > 1) out.push_back(nights(i, name(here), -1));
      last_stay = {i, here};
    }
    const bool shut = std::ranges::any_of(trial.course.orders, [i](const auto& order) {
      return static_cast<std::size_t>(order.item) == i && !order.open;
    });
    if (shut && last_stay) {
      out.push_back(nights(last_stay->first, name(last_stay->second), +1));
      last_stay.reset();
    }
  }
}

}  // namespace

std::vector<Option> options_for(const Trial& trial, int reserve, double lacking) {
  std::vector<Option> out;
  for (engine::Remedy& remedy :
       engine::Engine::remedies(trial.course, trial.plan, reserve, lacking)) {
    out.push_back({.change = {.name = std::move(remedy.name), .size = remedy.size},
                   .apply = std::move(remedy.apply),
                   .adds = remedy.adds});
  }
  const engine::ReserveInfo& info = trial.course.reserves[static_cast<std::size_t>(reserve)];
  if (info.commodity) {
    add_fuller_stops(out, trial, reserve, *info.commodity);
    add_new_stops(out, trial, *info.commodity, info.vehicle);
  }
  add_nights(out, trial);
  std::ranges::stable_sort(out, {}, [](const Option& option) { return option.change.size; });
  return out;
}

}  // namespace drystage::answers
