#include "engine/calendar_checks.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <string>

#include "engine/opening.h"
#include "engine/weather_day.h"
#include "plan/commodity.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

constexpr std::array<const char*, 12> month_names{"january",   "february", "march",    "april",
                                                  "may",       "june",     "july",     "august",
                                                  "september", "october",  "november", "december"};

std::string iso(plan::Date date) { return boost::gregorian::to_iso_extended_string(date); }

/// Months that a climate lacks, and the first date on which one of them is wanted.
struct Missing {
  std::vector<int> months;
  plan::Date first;
};

Missing missing_months(const plan::Plan& plan, int climate, const Schedule& schedule,
                       int from_day) {
  Missing out;
  for (const Segment& segment : schedule.segments) {
    if (segment.day < from_day) continue;
    const plan::Date date = schedule.days[static_cast<std::size_t>(segment.day)].date;
    const int month = date.month().as_number() - 1;
    const bool there =
        climate_at(plan, segment.begin) == climate || climate_at(plan, segment.end) == climate;
    if (!there || figures_on(plan, climate, date)) continue;
    if (std::ranges::find(out.months, month) != out.months.end()) continue;
    if (out.months.empty()) out.first = date;
    out.months.push_back(month);
  }
  return out;
}

plan::Diagnostic lacks(const plan::Climate& climate, const Missing& missing) {
  std::string names;
  for (const int month : missing.months) {
    units::add_to(names, month_names.at(static_cast<std::size_t>(month)));
  }
  const char* one = month_names.at(static_cast<std::size_t>(missing.months.front()));
  return {.mark = climate.mark,
          .what = fmt::format("climate {} has no {}, but the trip is there from {}",
                              units::in_quotes(climate.name), names, iso(missing.first)),
          .expected = "normals for " + names,
          .hint = missing.months.size() > 2
                      ? std::string("is the trip meant to last so long? Look for a leg that has to "
                                    "wait for daylight")
                      : fmt::format("add \"{}: {{max: ..., min: ..., humidity: ..., wind: ..., "
                                    "sun: ...}}\" to it",
                                    one)};
}

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
  const int place = calendar.place_days[static_cast<std::size_t>(step.place_day)].place;
  return plan.places[static_cast<std::size_t>(place)];
}
plan::Date date_of(const Calendar& calendar, const TimeStep& step) {
  return calendar.days[static_cast<std::size_t>(step.day)].schedule.date;
}

/// Whether something is to be taken in a step with a stop, and can be.
bool is_had(const plan::Plan& plan, const Calendar& calendar, const TimeStep& step,
            plan::Commodity commodity) {
  if (step.stop < 0) return false;
  const auto& resupply =
      std::get<plan::Resupply>(plan.itinerary[static_cast<std::size_t>(step.stop)]);
  const auto& supplies = place_of(plan, calendar, step).supplies;
  const auto supply = std::ranges::find(supplies, commodity, &plan::Supply::commodity);
  return std::ranges::find(resupply.orders, commodity, &plan::Order::commodity) !=
             resupply.orders.end() &&
         supply != supplies.end() && is_open(*supply, date_of(calendar, step));
}

/// Whatever is to be taken on a day on which it is shut, and not on a later one of the same visit.
void remark_on_shut_supplies(const plan::Plan& plan, const Calendar& calendar,
                             std::vector<plan::Diagnostic>& out) {
  const std::vector<TimeStep>& steps = calendar.steps;
  for (auto stop = steps.begin(); stop != steps.end(); ++stop) {
    if (stop->stop < 0) continue;
    const auto left =
        std::find_if(stop, steps.end(), [](const TimeStep& step) { return step.drive >= 0; });
    const auto& resupply =
        std::get<plan::Resupply>(plan.itinerary[static_cast<std::size_t>(stop->stop)]);
    std::vector<std::string> missing;
    for (const plan::Order& order : resupply.orders) {
      const bool had = std::any_of(stop, left, [&](const TimeStep& later) {
        return is_had(plan, calendar, later, order.commodity);
      });
      if (!had) missing.emplace_back(plan::words(order.commodity));
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

}  // namespace

std::vector<plan::Diagnostic> calendar_problems(const plan::Plan& plan, const Schedule& schedule,
                                                int from_day) {
  std::vector<plan::Diagnostic> out;
  if (static_cast<int>(schedule.days.size()) >= most_days) {
    out.push_back({.mark = plan.trip.mark,
                   .what = fmt::format("this trip lasts over {} days", most_days),
                   .expected = "an itinerary that arrives",
                   .hint = "look for a leg that no day has light or hours for"});
    return out;
  }
  for (std::size_t c = 0; c < plan.climates.size(); ++c) {
    const Missing missing = missing_months(plan, static_cast<int>(c), schedule, from_day);
    if (!missing.months.empty()) out.push_back(lacks(plan.climates[c], missing));
  }
  return out;
}

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

}  // namespace drystage::engine
