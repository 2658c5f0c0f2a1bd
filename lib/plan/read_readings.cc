#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "plan/items.h"
#include "plan/itinerary_reader.h"
#include "plan/reading_reader.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// Where the itinerary comes to, place by place.
struct Ways {
  bool known = false;                     ///< false if something of the plan could not be read
  std::vector<bool> seen;                 ///< it is there some time
  std::vector<std::optional<double>> km;  ///< the longest drive that ends there
};

Ways ways_of(const Plan& plan, bool known) {
  Ways made{known, std::vector<bool>(plan.places.size()), {}};
  made.km.resize(plan.places.size());
  if (!known) return made;
  for (const ItineraryItem& item : plan.itinerary) {
    if (const auto* here = std::get_if<At>(&item)) made.seen[at(here->place)] = true;
    if (const auto* drive = std::get_if<Drive>(&item)) {
      made.seen[at(drive->to)] = true;
      auto& longest_km = made.km[at(drive->to)];
      longest_km = std::max(longest_km.value_or(0), drive->distance_km);
    }
  }
  return made;
}

// The names of the places for which this is so.
template <class Is>
std::vector<std::string> places_that(const Plan& plan, const Is& is) {
  std::vector<std::string> names;
  for (std::size_t p = 0; p < plan.places.size(); ++p) {
    if (is(p)) names.push_back(plan.places[p].name);
  }
  return names;
}

// A place of the plan at which `is` something; logs that it is not.
template <class Is>
std::optional<int> place_that(Log& log, const Node& node, const Plan& plan, const Ways& ways,
                              std::string_view is_not, const Is& is) {
  const auto place = read_place_name(log, node, plan);
  if (!place || !ways.known || is(at(*place))) return place;
  const auto names = places_that(plan, is);
  log.error(
      node.origin, fmt::format("{} {}", is_not, units::in_quotes(node.text)),
      names.empty() ? "another place, or none; the itinerary has no such one" : one_of(names));
  return std::nullopt;
}

void read_under_way(Fields& fields, const Plan& plan, const Ways& ways, Reading& made) {
  Log& log = fields.log();
  const Node* towards = fields.need("readings.towards");
  const Node* after = fields.need("readings.after");
  std::optional<int> place;
  if (towards != nullptr) {
    place = place_that(log, *towards, plan, ways, "towards: there is no drive to",
                       [&](std::size_t p) { return ways.km[p].has_value(); });
  }
  const auto after_km = fields.number_if("readings.after");
  if (!place || !after_km || after == nullptr) return;
  const double most_km = ways.km[at(*place)].value_or(*after_km);
  if (*after_km > most_km * (1 + 1e-9)) {
    log.error(after->origin,
              fmt::format("after: {} is more than the whole drive to {}", after->text,
                          units::in_quotes(plan.places[at(*place)].name)),
              fmt::format("at most {}", units::format(most_km, units::Kind::distance)));
  }
  made.at = Whereabouts{.place = *place, .after_km = std::min(*after_km, most_km)};
}

void read_where(Fields& fields, const Plan& plan, const Ways& ways, Reading& made) {
  const Node* here = fields.get("readings.at");
  const Node* towards = fields.get("readings.towards");
  const Node* after = fields.get("readings.after");
  if (towards == nullptr) std::swap(towards, after);
  if (here != nullptr && towards != nullptr) {
    fields.log().error(towards->origin, R"(a reading is given "at" a place and on the way to one)",
                       "at: PLACE, or towards: PLACE with after: 85 km");
  } else if (towards != nullptr) {
    read_under_way(fields, plan, ways, made);
  } else if (here != nullptr) {
    const auto place =
        place_that(fields.log(), *here, plan, ways, "at: the itinerary never comes to",
                   [&](std::size_t p) { return ways.seen[p]; });
    if (place) made.at = Whereabouts{.place = *place};
  }
}

// Whether it is known when the reading was.
bool read_when(Fields& fields, Reading& made) {
  constexpr std::string_view expected = "evening: 6, or day: 6 with hour: \"15:30\"";
  Log& log = fields.log();
  const Node* evening = fields.get("readings.evening");
  const Node* day = fields.get("readings.day");
  const Node* hour = fields.get("readings.hour");
  if (evening != nullptr && (day != nullptr || hour != nullptr)) {
    log.error((day != nullptr ? day : hour)->origin,
              R"(a reading is given in the evening and at an hour)", std::string(expected));
    return false;
  }
  if (evening == nullptr && day == nullptr && hour == nullptr) {
    if (fields.usable()) {
      log.error(fields.origin(), "a reading lacks its day", std::string(expected));
    }
    return false;
  }
  if (evening != nullptr) {
    const auto number = fields.whole_number_if("readings.evening");
    made.day = number.value_or(1) - 1;
    made.in_the_evening = true;
    return number.has_value();
  }
  fields.need("readings.day");
  fields.need("readings.hour");
  const auto number = fields.whole_number_if("readings.day");
  const auto clock_h = hour == nullptr ? std::nullopt : read_clock(log, *hour, "hour");
  made.day = number.value_or(1) - 1;
  made.hour = clock_h.value_or(evening_h);
  return number && clock_h;
}

bool says_something(const Reading& r) {
  return r.at || r.drinking_l || r.utility_l || r.meals || !r.fuel.empty() ||
         !r.containers.empty() || !r.tanks.empty() || !r.consumables.empty() || !r.banks.empty() ||
         !r.cabinets.empty() || !r.tyres.empty();
}

void check_order(Log& log, const Origin& origin, const Reading& before, const Reading& made) {
  const std::string line = log.line_of(before.mark, origin);
  if (before.moment() == made.moment()) {
    log.error(origin, "two readings at one moment", "one reading, with all that was found",
              line.empty() ? line : "the first one is on " + line);
  } else if (made.moment() < before.moment()) {
    log.error(origin, "a reading stands below a later one", "readings in the order of time",
              line.empty() ? line : "the later one is on " + line);
  }
}

}  // namespace

void read_readings(Log& log, const Node& node, Plan& plan) {
  const bool sound = log.errors() == 0;
  const Ways ways = ways_of(plan, sound);
  const std::vector<Item> items = items_of(plan);
  std::optional<Reading> last;
  for (const Node& item : list_items(log, node, "readings")) {
    Reading made;
    made.mark = item.origin.mark;
    const std::size_t errors = log.errors();
    Fields fields(log, item, "a reading");
    const bool when_is_known = read_when(fields, made);
    read_where(fields, plan, ways, made);
    read_found(fields, items, plan, sound, made);
    fields.finish();
    if (log.errors() == errors && !says_something(made)) {
      log.error(item.origin, std::string(nothing_found),
                "one or more of drinking, utility, fuel, containers, tanks, batteries, cabinets, "
                "meals, spare_wheels, repairs and consumables; or where you were");
    }
    if (when_is_known) {
      if (last) check_order(log, item.origin, *last, made);
      if (!last || last->moment() < made.moment()) last = made;
    }
    plan.readings.push_back(std::move(made));
  }
}

}  // namespace drystage::plan
