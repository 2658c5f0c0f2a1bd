#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/opening.h"
#include "plan/commodity.h"
#include "report/card/supply_words.h"
#include "report/text/amounts.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr std::string_view every_day = "open every day";

const plan::Place& place_of(const answers::PlanRun& planned, int place) {
  return planned.plan.places[at(place)];
}

plan::Date date_on(const answers::PlanRun& planned, int day) {
  return planned.course.timeline->days[static_cast<std::size_t>(day)].schedule.date;
}

/// The days of a visit on which a supply is shut.
std::vector<int> shut_days(const answers::PlanRun& planned, const SupplyVisit& visit,
                           const plan::Supply& supply) {
  std::vector<int> out;
  for (int day = visit.first_day; day <= visit.last_day; ++day) {
    if (!engine::is_open(supply, date_on(planned, day))) out.push_back(day);
  }
  return out;
}

bool is_always_shut(const std::vector<int>& shut, const SupplyVisit& visit) {
  return static_cast<int>(shut.size()) == visit.last_day - visit.first_day + 1;
}

/// "day 2", "days 2, 5" of days from 0.
std::string list_of_days(const std::vector<int>& days) {
  std::string text;
  for (const int day : days) units::add_to(text, std::to_string(day + 1));
  return (days.size() == 1 ? "day " : "days ") + text;
}

std::string open_words(const answers::PlanRun& planned, const SupplyVisit& visit,
                       const plan::Supply& supply) {
  std::string text = opening_words(supply, planned.plan.trip.start,
                                   planned.course.timeline->days.back().schedule.date);
  const std::vector<int> shut = shut_days(planned, visit, supply);
  if (is_always_shut(shut, visit)) return text + "; SHUT when you are there";
  if (shut.empty()) return text;
  return text + "; SHUT on " + list_of_days(shut);
}

bool is_brackish(const plan::Supply& supply) {
  const bool water = supply.commodity == plan::Commodity::drinking_water ||
                     supply.commodity == plan::Commodity::utility_water;
  return water && supply.quality == plan::WaterQuality::brackish;
}

/// "at most 60 L", rounded down; empty where there is no limit.
std::string limit_words(const plan::Plan& plan, const plan::Supply& supply, units::System system) {
  if (!supply.most) return {};
  const plan::Measure measure = plan::measure_of(plan, supply.commodity);
  if (measure.kind == units::Kind::mass) {
    return "at most " + mass_words(*supply.most, system, Toward::down);
  }
  if (measure.kind == units::Kind::volume) {
    return "at most " + volume_words(*supply.most, system, Toward::down);
  }
  return fmt::format(
      "at most {} {}",
      units::format_number(rounded(*supply.most, 0, Toward::down), units::decimals(0)),
      measure.unit);
}

std::string what_words(const plan::Plan& plan, const plan::Supply& supply, units::System system) {
  std::string text = plan::words(plan, supply.commodity);
  std::string more;
  if (is_brackish(supply)) more = "BRACKISH, do not drink";
  if (supply.most) units::add_to(more, limit_words(plan, supply, system));
  return more.empty() ? text : text + " (" + more + ")";
}

/// "day 4", "days 4 to 6", of days from 0.
std::string days_words(const SupplyVisit& visit) {
  return visit.first_day == visit.last_day
             ? fmt::format("day {}", visit.first_day + 1)
             : fmt::format("days {} to {}", visit.first_day + 1, visit.last_day + 1);
}

}  // namespace

std::vector<SupplyVisit> supply_visits(const answers::PlanRun& planned) {
  std::vector<SupplyVisit> out;
  const engine::Timeline& timeline = *planned.course.timeline;
  int before = -1;  // where the party was before this step
  const auto visit = [&](int place, int day) {
    const bool there = place >= 0 && !place_of(planned, place).supplies.empty();
    if (there && place == before) out.back().last_day = day;
    if (there && place != before) {
      out.push_back({.place = place, .first_day = day, .last_day = day});
    }
    before = place;
  };
  for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
    const engine::TimeStep& step = timeline.steps[s];
    if (step.drive < 0) {
      visit(timeline.place_days[at(step.place_day)].place, step.day);
      continue;
    }
    const bool begins =
        s == 0 || timeline.steps[s - 1].drive < 0 || timeline.steps[s - 1].leg != step.leg;
    const auto& leg = timeline.legs[at(step.leg)];
    const bool in_bush = s > 0 && timeline.steps[s - 1].drive < 0 && before < 0;
    if (begins && !in_bush) visit(leg.from, step.day);
    before = -1;
  }
  // Where the last leg ends as the trip does.
  if (!timeline.days.empty()) {
    const int last = static_cast<int>(timeline.days.size()) - 1;
    visit(engine::place_at(timeline.days.back().schedule.to), last);
  }
  return out;
}

std::vector<SupplyRow> supply_rows(const answers::PlanRun& planned, const SupplyVisit& visit,
                                   units::System system) {
  std::vector<SupplyRow> out;
  for (const plan::Supply& supply : place_of(planned, visit.place).supplies) {
    const SupplyRow row{.what = what_words(planned.plan, supply, system),
                        .open = open_words(planned, visit, supply),
                        .confirmed = supply.confirmed};
    const auto same = std::ranges::find_if(out, [&row](const SupplyRow& other) {
      return other.open == row.open && other.confirmed == row.confirmed;
    });
    if (same == out.end()) {
      out.push_back(row);
    } else {
      units::add_to(same->what, row.what);
    }
  }
  return out;
}

std::vector<PlaceLine> place_lines(const answers::PlanRun& planned, units::System system) {
  std::vector<PlaceLine> out;
  for (const SupplyVisit& visit : supply_visits(planned)) {
    PlaceLine line{.name = place_and_position(place_of(planned, visit.place)),
                   .days = days_words(visit)};
    for (const SupplyRow& row : supply_rows(planned, visit, system)) {
      std::string words = row.what;
      if (row.open != every_day) words += ": " + row.open;
      units::add_to(row.confirmed ? line.sure : line.unsure, words, "; ");
    }
    const auto same = std::ranges::find_if(out, [&line](const PlaceLine& other) {
      return other.name == line.name && other.sure == line.sure && other.unsure == line.unsure;
    });
    if (same == out.end()) {
      out.push_back(std::move(line));
    } else {
      units::add_to(same->days, line.days);
    }
  }
  return out;
}

std::string other_places(const answers::PlanRun& planned) {
  std::vector<int> told;
  for (const SupplyVisit& visit : supply_visits(planned)) told.push_back(visit.place);
  std::string text;
  const auto tell = [&](int place) {
    if (place < 0 || std::ranges::find(told, place) != told.end()) return;
    told.push_back(place);
    units::add_to(text, place_and_position(place_of(planned, place)), "; ");
  };
  const engine::Timeline& timeline = *planned.course.timeline;
  for (const engine::TimeStep& step : timeline.steps) {
    tell(timeline.place_days[at(step.place_day)].place);
    if (step.drive >= 0) tell(timeline.legs[at(step.leg)].from);
  }
  if (!timeline.days.empty()) tell(engine::place_at(timeline.days.back().schedule.to));
  return text;
}

std::string place_and_position(const plan::Place& place) {
  return place.name + ", " + coordinate_words(place);
}

std::string coordinate_words(const plan::Place& place) {
  const auto part = [](double degrees, const char* above, const char* below) {
    std::string number = units::format_number(std::abs(degrees), units::decimals(4));
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    return number + "° " + (degrees < 0 ? below : above);
  };
  return part(place.latitude_deg, "N", "S") + ", " + part(place.longitude_deg, "E", "W");
}

std::string unbroken(std::string_view words) {
  std::string out;
  for (const char c : words) {
    if (c == ' ') {
      out += "\u00a0";
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace drystage::report
