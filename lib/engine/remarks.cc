#include "engine/remarks.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <iterator>
#include <string>

#include "engine/drinking.h"
#include "engine/fuel_checks.h"
#include "engine/opening.h"
#include "plan/commodity.h"
#include "units/index.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

std::string iso(plan::Date date) { return boost::gregorian::to_iso_extended_string(date); }

bool overlap(const plan::DateRange& a, const plan::DateRange& b) {
  return a.from <= b.to && b.from <= a.to;
}

/// Whether dates miss the trip, but would meet it in another year, or are a year or more away.
bool is_of_another_year(const plan::DateRange& dates, const plan::DateRange& trip) {
  constexpr int days_in_year = 365;
  constexpr int years_to_try = 3;
  if ((trip.from - dates.to).days() >= days_in_year) return true;
  if ((dates.from - trip.to).days() >= days_in_year) return true;
  for (int years = -years_to_try; years <= years_to_try; ++years) {
    const boost::gregorian::years by(years);
    if (overlap({dates.from + by, dates.to + by}, trip)) return true;
  }
  return false;
}

/// Dates of a supply of which none meets the trip, and one is of another year.
void remark_on_years(const plan::Plan& plan, const plan::DateRange& trip,
                     std::vector<plan::Diagnostic>& out) {
  for (const plan::Place& place : plan.places) {
    for (const plan::Supply& supply : place.supplies) {
      for (const auto& [key, dates] :
           {std::pair{"open_dates", &supply.open_dates}, std::pair{"shut", &supply.shut_dates}}) {
        if (std::ranges::any_of(*dates, [&](const auto& d) { return overlap(d, trip); })) continue;
        const auto odd = std::ranges::find_if(
            *dates, [&](const auto& d) { return is_of_another_year(d, trip); });
        if (odd == dates->end()) continue;
        out.push_back(
            {.severity = plan::Severity::warning,
             .mark = supply.mark,
             .what = fmt::format("{}: {} is in no year of the trip, at {}", key, iso(odd->from),
                                 units::in_quotes(place.name)),
             .expected = fmt::format("dates about {} to {}", iso(trip.from), iso(trip.to)),
             .hint = "is the year right?"});
      }
    }
  }
}

/// The place of a step that is no drive, and the date.
const plan::Place& place_of(const plan::Plan& plan, const Calendar& calendar,
                            const TimeStep& step) {
  const int place = calendar.place_days[at(step.place_day)].place;
  return plan.places[at(place)];
}
plan::Date date_of(const Calendar& calendar, const TimeStep& step) {
  return calendar.days[at(step.day)].schedule.date;
}

/// Whether something is to be taken in a step with a stop, and can be.
bool is_had(const plan::Plan& plan, const Calendar& calendar, const TimeStep& step,
            plan::Commodity commodity) {
  if (step.stop < 0) return false;
  const auto& resupply = std::get<plan::Resupply>(plan.itinerary[at(step.stop)]);
  const auto& supplies = place_of(plan, calendar, step).supplies;
  const auto supply = std::ranges::find(supplies, commodity, &plan::Supply::commodity);
  return std::ranges::find(resupply.orders, commodity, &plan::Order::commodity) !=
             resupply.orders.end() &&
         supply != supplies.end() && is_open(*supply, date_of(calendar, step));
}

/// Whether a change on the way says that a place has nothing of it any more: that is known.
bool is_said_to_be_gone(const plan::Place& place, plan::Commodity commodity, plan::Date date) {
  constexpr int years = 50;
  return std::ranges::any_of(place.supplies, [&](const plan::Supply& supply) {
    return supply.commodity == commodity &&
           std::ranges::any_of(supply.shut_dates, [&](const plan::DateRange& shut) {
             return shut.from <= date && date + boost::gregorian::years(years) < shut.to;
           });
  });
}

/// Whatever is to be taken on a day on which it is shut, and not on a later one of the same visit.
void remark_on_shut_supplies(const plan::Plan& plan, const Calendar& calendar,
                             std::vector<plan::Diagnostic>& out) {
  const std::vector<TimeStep>& steps = calendar.steps;
  for (auto stop = steps.begin(); stop != steps.end(); ++stop) {
    if (stop->stop < 0) continue;
    const auto left =
        std::find_if(stop, steps.end(), [](const TimeStep& step) { return step.drive >= 0; });
    const auto& resupply = std::get<plan::Resupply>(plan.itinerary[at(stop->stop)]);
    std::vector<std::string> missing;
    for (const plan::Order& order : resupply.orders) {
      const bool had = std::any_of(stop, left, [&](const TimeStep& later) {
        return is_had(plan, calendar, later, order.commodity);
      });
      const bool known = is_said_to_be_gone(place_of(plan, calendar, *stop), order.commodity,
                                            date_of(calendar, *stop));
      if (!had && !known) missing.push_back(plan::words(plan, order.commodity));
    }
    if (missing.empty()) continue;
    const plan::Date date = date_of(calendar, *stop);
    out.push_back({.severity = plan::Severity::warning,
                   .mark = resupply.mark,
                   .what = fmt::format("{} is shut for {} on {} {}, the day of this resupply",
                                       units::in_quotes(place_of(plan, calendar, *stop).name),
                                       units::listed(units::each_once(missing), " and "),
                                       date.day_of_week().as_short_string(), iso(date)),
                   .expected = "a day on which it is open",
                   .hint = "nothing of it will be taken"});
  }
}

/// Weather of named days that the trip never meets; dates of supplies that are in no year
/// of the trip; stops on days on which what they are to take is shut.
std::vector<plan::Diagnostic> calendar_remarks(const plan::Plan& plan, const Calendar& calendar) {
  std::vector<plan::Diagnostic> out;
  const plan::DateRange trip{calendar.days.front().schedule.date,
                             calendar.days.back().schedule.date};
  for (const plan::NamedDays& days : plan.weather) {
    if (overlap({days.from, days.to}, trip)) continue;
    out.push_back({.severity = plan::Severity::warning,
                   .mark = days.mark,
                   .what = "weather of days on which nobody is under way",
                   .expected = fmt::format("days from {} to {}", iso(trip.from), iso(trip.to))});
  }
  remark_on_years(plan, trip, out);
  remark_on_shut_supplies(plan, calendar, out);
  return out;
}

}  // namespace

std::vector<plan::Diagnostic> remarks(const plan::Plan& plan, const Timeline& timeline) {
  std::vector<plan::Diagnostic> out = calendar_remarks(plan, timeline);
  std::ranges::move(fuel_remarks(plan), std::back_inserter(out));
  std::ranges::move(
      drinking_remarks(plan, timeline.days.front().schedule, timeline.conditions.drinking_factors),
      std::back_inserter(out));
  return out;
}

}  // namespace drystage::engine
