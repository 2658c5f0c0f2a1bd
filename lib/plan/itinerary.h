#pragma once

#include <array>
#include <bitset>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "plan/mark.h"
#include "plan/things.h"
#include "plan/vehicle.h"
#include "plan/water.h"
#include "plan/weather.h"

namespace drystage::plan {

/// What can be bought, found or plugged into.
struct Commodity {
  enum Kind {
    drinking_water,
    utility_water,
    diesel,
    petrol,
    food,
    ice,
    mains,
    tyres,  ///< a workshop that mends and sells them
    consumable
  };
  Kind kind = diesel;
  int of = -1;  ///< which of Plan::consumables, where it is one of them

  constexpr Commodity() = default;
  constexpr Commodity(Kind sort, int which = -1)  // NOLINT(google-explicit-constructor)
      : kind(sort), of(which) {}
  bool operator==(const Commodity&) const = default;
};
/// Those that every plan knows: all but its own consumables.
inline constexpr int commodity_count = 8;

struct DateRange {
  Date from;
  Date to;  ///< inclusive
};

/// One thing a place supplies.
struct Supply {
  Commodity commodity = Commodity::diesel;
  WaterQuality quality = WaterQuality::potable;
  std::optional<double> most;          ///< per visit, in the commodity's unit (L, meals, kg ...)
  std::bitset<7> open_weekdays{0x7f};  ///< bit 0 is Monday
  std::vector<DateRange> open_dates;   ///< empty: all the year
  std::vector<DateRange> shut_dates;
  bool confirmed = true;
  Mark mark{};
};

struct Place {
  std::string name;
  double latitude_deg = 0;
  double longitude_deg = 0;
  double elevation_m = 0;
  int climate = 0;  ///< index into Plan::climates
  std::vector<Supply> supplies;
  Mark mark{};
};

/// How hard the tyres are: let down on sand and nowhere else, at road pressure everywhere, or let
/// down everywhere.
enum class Tyres { usual, road_pressure, lowered };

/// What a road has besides its surfaces.
struct RoadKind {
  std::optional<double> steepness{};  ///< of its hills; none: the usual
  double headwind_m_s = 0;
  Tyres tyres = Tyres::usual;
};

struct SurfacePart {
  Surface surface = Surface::sealed;
  double distance_km = 0;
  std::optional<double> speed_km_h;  ///< own speed on this part
  double fuel_factor = 1;            ///< more than usual, where answers make the going soft
};

struct At {
  int place = 0;
  Mark mark{};
};

/// The way back from where a drive ends to where it began, where that is another road.
struct WayBack {
  double distance_km = 0;
  std::vector<SurfacePart> surfaces;  ///< in the order they are met on the way back
  std::optional<double> climb_m;
  std::optional<double> descent_m;
  RoadKind kind{};
  Mark mark{};
};

struct Drive {
  int to = 0;
  double distance_km = 0;
  std::vector<SurfacePart> surfaces;  ///< in the order they are met; sums to distance_km
  std::optional<double> climb_m;
  std::optional<double> descent_m;
  RoadKind kind{};
  std::optional<int> activity;  ///< index into Plan::activities
  std::optional<WayBack> back;  ///< none: the way that was come
  bool off_itinerary = false;   ///< over one of Plan::roads, where answers lead back
  Things leaves{};              ///< where it begins, until the party is there again
  Mark mark{};
};

/// A road that the itinerary does not take. Who turns back may.
struct Road {
  int from = 0;
  Drive drive;           ///< from there to its other end
  bool one_way = false;  ///< never driven from its other end
  Mark mark{};
};

struct Stay {
  int nights = 1;
  std::optional<int> activity;
  Mark mark{};
};

enum class Take { fill, amount, needed };

struct Order {
  Commodity commodity = Commodity::diesel;
  Take take = Take::fill;
  double amount = 0;           ///< for Take::amount: L, meals, kg ...
  std::optional<int> vehicle;  ///< fuel for this one only
  Mark mark{};
};

struct Resupply {
  std::vector<Order> orders;
  double takes_h = 0;    ///< how long the stop lasts
  bool cleaned = false;  ///< empty water containers are washed first
  Mark mark{};
};

using ItineraryItem = std::variant<At, Drive, Stay, Resupply>;

struct Driving {
  double most_per_day_h = 0;
  bool daylight_only = true;
  double depart_h = 0;                                          ///< local clock
  std::array<std::optional<double>, surface_count> speed_km_h;  ///< own speeds by surface
};

struct Trip {
  std::string title;
  Date start;
  double utc_offset_h = 0;
  Driving driving;
  Spell weather{};  ///< what the table of `run` shows
  Mark mark{};
};

}  // namespace drystage::plan
