#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "plan/itinerary_reader.h"
#include "plan/way_back.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

constexpr double height_tolerance_m = 100;

// What is said of the way of a drive, of its way back and of a road.
struct WayFields {
  std::optional<double> distance_km;  // none if it could not be read
  std::vector<SurfacePart> surfaces;
  std::optional<double> climb_m;
  std::optional<double> descent_m;
  RoadKind kind{};
};

// Great-circle distance on a sphere of the Earth's mean radius (haversine formula).
double straight_km(const Place& a, const Place& b) {
  constexpr double mean_radius_km = 6371.0;
  constexpr double rad = std::numbers::pi / 180;
  const double sin_lat = std::sin((b.latitude_deg - a.latitude_deg) * rad / 2);
  const double sin_lon = std::sin((b.longitude_deg - a.longitude_deg) * rad / 2);
  const double h = sin_lat * sin_lat + std::cos(a.latitude_deg * rad) *
                                           std::cos(b.latitude_deg * rad) * sin_lon * sin_lon;
  return 2 * mean_radius_km * std::asin(std::sqrt(std::min(h, 1.0)));
}

std::string km(double distance_km) {
  return units::format(distance_km, units::Kind::distance, units::System::metric,
                       units::significant(4));
}

// The surfaces of a leg: one word for all of it, a map of distances, or a list of parts. Gives
// nothing if a part could not be read.
std::optional<std::vector<SurfacePart>> read_parts(Log& log, const Node& node, double distance_km) {
  const std::size_t errors = log.errors();
  std::vector<SurfacePart> parts;
  if (node.kind == Node::Kind::text) {
    if (const auto surface = read_surface(log, node, "surfaces")) {
      parts.push_back({*surface, distance_km, std::nullopt});
    }
  } else if (node.kind == Node::Kind::list) {
    for (const Node& item : node.items) {
      Fields fields(log, item, "a part of the way");
      SurfacePart& part = parts.emplace_back();
      if (const Node* surface = fields.get("road.surfaces.surface")) {
        part.surface = read_surface(log, *surface, "surface").value_or(part.surface);
      }
      part.distance_km = fields.number("road.surfaces.distance");
      part.speed_km_h = fields.number_if("road.surfaces.speed");
      fields.finish();
    }
  } else {
    for (const Entry& entry : map_entries(log, node, "surfaces")) {
      SurfacePart& part = parts.emplace_back();
      part.surface = read_surface_key(log, entry).value_or(part.surface);
      part.distance_km =
          read_quantity(log, entry.value, "road.surfaces.distance", entry.key).value_or(0);
    }
  }
  if (log.errors() != errors) return std::nullopt;
  return parts;
}

// Checks that the parts add up to the leg, and scales away the rounding that is let pass.
void fit(Log& log, const Node& node, double distance_km, std::vector<SurfacePart>& parts) {
  double sum_km = 0;
  for (const SurfacePart& part : parts) sum_km += part.distance_km;
  const double tolerance_km = std::max(0.5, 0.01 * distance_km);
  if (std::abs(sum_km - distance_km) > tolerance_km || (sum_km <= 0 && distance_km > 0)) {
    log.error(node.origin,
              fmt::format("the surfaces add up to {}, but the distance is {}", km(sum_km),
                          km(distance_km)),
              "surfaces that add up to the distance, within 0.5 km or 1 %");
    return;
  }
  if (sum_km <= 0) return;
  for (SurfacePart& part : parts) part.distance_km *= distance_km / sum_km;
  std::erase_if(parts, [](const SurfacePart& part) { return part.distance_km <= 0; });
}

RoadKind read_kind(Fields& fields) {
  RoadKind made;
  made.steepness = fields.number_if("road.steepness");
  made.headwind_m_s = fields.number("road.headwind");
  made.tyres = fields.word_if("road.tyres", tyre_words).value_or(Tyres::usual);
  return made;
}

WayFields read_fields(Fields& fields, Key length) {
  Log& log = fields.log();
  WayFields made;
  made.distance_km = fields.number_if(length);
  if (const Node* surfaces = fields.get("road.surfaces")) {
    if (auto parts = read_parts(log, *surfaces, made.distance_km.value_or(0))) {
      made.surfaces = std::move(*parts);
      if (made.distance_km) fit(log, *surfaces, *made.distance_km, made.surfaces);
    }
  }
  if (const auto speed = fields.number_if("road.speed")) {
    for (SurfacePart& part : made.surfaces) {
      if (!part.speed_km_h) part.speed_km_h = speed;
    }
  }
  made.climb_m = fields.number_if("road.climb");
  made.descent_m = fields.number_if("road.descent");
  made.kind = read_kind(fields);
  return made;
}

// Puts the road into a Drive or a WayBack.
template <class Way>
void lay(const WayFields& road, Way& way) {
  way.distance_km = road.distance_km.value_or(0);
  way.surfaces = road.surfaces;
  way.climb_m = road.climb_m;
  way.descent_m = road.descent_m;
  way.kind = road.kind;
}

void check_heights(Fields& fields, const WayFields& road, const Place& from, const Place& to) {
  const double rise_m = to.elevation_m - from.elevation_m;
  const auto warn = [&](Key key, const std::string& what) {
    fields.log().warning(
        fields.get(key)->origin, what,
        fmt::format("{} is {:.0f} m {} than {}", units::in_quotes(to.name), std::abs(rise_m),
                    rise_m < 0 ? "lower" : "higher", units::in_quotes(from.name)));
  };
  if (road.climb_m && road.descent_m) {
    const double given_m = *road.climb_m - *road.descent_m;
    if (std::abs(given_m - rise_m) > height_tolerance_m) {
      warn("road.climb", fmt::format("climb and descent leave the road {:.0f} m {} than it began",
                                     std::abs(given_m), given_m < 0 ? "lower" : "higher"));
    }
  } else if (road.climb_m && *road.climb_m < rise_m - height_tolerance_m) {
    warn("road.climb", fmt::format("a climb of {} is too little", fields.get("road.climb")->text));
  } else if (road.descent_m && *road.descent_m < -rise_m - height_tolerance_m) {
    warn("road.descent",
         fmt::format("a descent of {} is too little", fields.get("road.descent")->text));
  }
}

// Warns of hills that are steeper than was said, or than roads are.
void check_steepness(Fields& fields, const WayFields& road) {
  constexpr double steep = 0.15;  // ours: few roads are so steep on the whole of their way
  constexpr double m_per_km = 1000;
  const double hills_m = road.climb_m.value_or(0) + road.descent_m.value_or(0);
  if (!road.distance_km || *road.distance_km <= 0 || hills_m <= 0) return;
  const double least = hills_m / (*road.distance_km * m_per_km);
  if (least <= road.kind.steepness.value_or(steep)) return;
  fields.log().warning(
      fields.get(road.climb_m ? Key("road.climb") : Key("road.descent"))->origin,
      fmt::format("{:.0f} m up and {:.0f} m down do not fit into {} unless the hills are {:.0f} % "
                  "steep on the whole way",
                  road.climb_m.value_or(0), road.descent_m.value_or(0), km(*road.distance_km),
                  100 * least),
      road.kind.steepness
          ? fmt::format("a steepness of at least {:.0f} %, which is used", 100 * least)
          : std::string("hills of up to 15 %"),
      "are the metres and the distance right?");
}

// Warns of what the two ends of the road make unlikely.
void check_ends(Fields& fields, Key length, const WayFields& road, const Place& from,
                const Place& to) {
  constexpr double least_share = 0.9;  // positions are often given to a tenth of a degree
  constexpr double impossible_share = 0.5;
  constexpr double least_km = 10;
  const double straight = straight_km(from, to);
  if (road.distance_km && straight > least_km && *road.distance_km < least_share * straight) {
    const std::string what = fmt::format("{} is shorter than the straight line from {} to {}, {}",
                                         fields.get(length)->text, units::in_quotes(from.name),
                                         units::in_quotes(to.name), km(straight));
    const auto& origin = fields.get(length)->origin;
    if (*road.distance_km < impossible_share * straight) {
      fields.log().error(origin, what, "the distance by road",
                         "is north or south, east or west of one of them wrong?");
    } else {
      fields.log().warning(origin, what, {}, "are the distance and both positions right?");
    }
  }
  check_heights(fields, road, from, to);
}

// All of a way, checked against its ends where both are known. Gives the distance if it could be
// read.
template <class Way>
std::optional<double> read_any_way(Fields& fields, Key length, const Place* from, const Place* to,
                                   Way& made) {
  const WayFields road = read_fields(fields, length);
  check_steepness(fields, road);
  if (from != nullptr && to != nullptr) check_ends(fields, length, road, *from, *to);
  lay(road, made);
  return road.distance_km;
}

// The other road home, from the end of a drive to its beginning; either may not be known.
WayBack read_way_back(Log& log, const Node& node, const Place* from, const Place* to) {
  WayBack made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "the way back");
  if (from != nullptr && from == to) {
    log.error(node.origin,
              fmt::format("a way back for a drive that ends where it began, at {}",
                          units::in_quotes(to->name)),
              R"("back" only for a drive to another place)");
    from = to = nullptr;
  }
  read_any_way(fields, "itinerary.drive.back.distance", from, to, made);
  fields.finish();
  return made;
}

}  // namespace

void read_way(Fields& fields, Key length, const Place* from, const Place* to, Drive& made) {
  read_any_way(fields, length, from, to, made);
}

std::vector<ItineraryItem> read_side_trip(Log& log, const Node& node, const Position& here,
                                          const Plan& plan) {
  Drive there;
  Fields fields(log, node, "a side trip");
  there.to = -1;
  if (const Node* to = fields.get("itinerary.side_trip.to")) {
    there.to = read_place_name(log, *to, plan).value_or(-1);
    if (here.known && there.to == here.place) {
      log.error(to->origin,
                fmt::format("a side trip to {}, where you are already",
                            units::in_quotes(plan.places[at(here.place)].name)),
                "another place; a drive for a round that passes none");
    }
  }
  const bool both = here.known && there.to >= 0 && there.to != here.place;
  read_any_way(fields, "itinerary.side_trip.distance",
               both ? &plan.places[at(here.place)] : nullptr,
               both ? &plan.places[at(there.to)] : nullptr, there);
  there.leaves = read_left(fields, "itinerary.side_trip.leaves", plan);
  Stay stay;
  stay.nights = fields.whole_number_if("itinerary.side_trip.nights").value_or(0);
  stay.activity = fields.reference_if("itinerary.side_trip.activity", names_of(plan.activities));
  fields.finish();
  there.to = std::max(there.to, 0);
  std::vector<ItineraryItem> made;
  made.emplace_back(there);
  if (stay.nights > 0) made.emplace_back(stay);
  made.emplace_back(reversed(there, here.known ? here.place : 0));
  return made;
}

Drive read_drive(Log& log, const Node& node, const Position& here, const Plan& plan) {
  const auto place = [&](bool known, int index) {
    return known ? &plan.places[at(index)] : nullptr;
  };
  Drive made;
  Fields fields(log, node, "a drive");
  made.to = -1;
  if (const Node* to = fields.get("itinerary.drive.to")) {
    made.to = read_place_name(log, *to, plan).value_or(-1);
  }
  const Place* from = place(here.known, here.place);
  const Place* to = place(made.to >= 0, made.to);
  const auto distance_km = read_any_way(fields, "itinerary.drive.distance", from, to, made);
  made.activity = fields.reference_if("itinerary.drive.activity", names_of(plan.activities));
  if (from != nullptr && from == to && distance_km && *distance_km <= 0) {
    log.error(fields.get("itinerary.drive.to")->origin,
              fmt::format("a drive of no distance to {}, where you are already",
                          units::in_quotes(to->name)),
              "another place, or the distance of the round trip");
  }
  made.leaves = read_left(fields, "itinerary.drive.leaves", plan);
  if (const Node* back = fields.get("itinerary.drive.back"))
    made.back = read_way_back(log, *back, to, from);
  fields.finish();
  return made;
}

}  // namespace drystage::plan
