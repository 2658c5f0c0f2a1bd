#include "engine/calendar_checks.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <string>

#include "engine/weather_day.h"
#include "units/index.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

constexpr std::array<const char*, 12> month_names{"january",   "february", "march",    "april",
                                                  "may",       "june",     "july",     "august",
                                                  "september", "october",  "november", "december"};

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
    const plan::Date date = schedule.days[at(segment.day)].date;
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
                              units::in_quotes(climate.name), names,
                              boost::gregorian::to_iso_extended_string(missing.first)),
          .expected = "normals for " + names,
          .hint = missing.months.size() > 2
                      ? std::string("is the trip meant to last so long? Look for a leg that has to "
                                    "wait for daylight")
                      : fmt::format("add \"{}: {{max: ..., min: ..., humidity: ..., wind: ..., "
                                    "sun: ...}}\" to it",
                                    one)};
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

}  // namespace drystage::engine
