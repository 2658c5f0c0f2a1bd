#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "units/kind.h"

namespace drystage::plan {

/// How much a key of the plan may say, in its own unit. What is not possible is refused, what is
/// not usual is questioned. A key that may be given in several kinds has a row for each.
struct Range {
  std::string_view path;            ///< "people.mass"; the last part is the key, * any name
  std::optional<units::Kind> kind;  ///< none: a bare number
  std::string_view unit;            ///< the usual one; of a bare number a word that may follow it
  double usual_low;
  double usual_high;
  double least;
  double most;
  bool zero_is_usual = false;  ///< although it is less than `usual_low`
};

/// A key of the plan that has a range: any other does not compile.
class Key {
 public:
  consteval Key(const char* path);  // NOLINT(google-explicit-constructor): written as a text

  [[nodiscard]] std::span<const Range> ranges() const { return {first_, count_}; }

  /// The last part of the path.
  [[nodiscard]] std::string_view name() const {
    return first_->path.substr(first_->path.rfind('.') + 1);
  }

 private:
  const Range* first_ = nullptr;
  std::size_t count_ = 0;
};

/// How a value in canonical units fits a range: `low` and `high` are possible but not usual.
enum class Fit { usual, low, high, too_low, too_high };
Fit fit_of(const Range& range, double value);

/// "0, or 10 to 2000 km" and "from 0 to 20000 km", in the unit of the range.
std::string usual_words(const Range& range);
std::string possible_words(const Range& range);

/// A value in canonical units as it would be written: "0.15 km".
std::string in_its_unit(const Range& range, double value);

/// An amount as an example, one that is usual: "3 days".
std::string example(const Range& range);

/// A number without a unit with each unit that would make it usual, else possible, else with each:
/// "3 days, 3 L or 3 %".
std::string with_units(std::span<const Range> ranges, double number);

/// The amount that would be usual and has the same digits: "150 km" for "150 m". Empty if none is.
/// `number` is the one that was written, and `range` the one it was read by.
std::string likely_meant(std::span<const Range> ranges, const Range& range, double number);

namespace detail {

using units::Kind;

// Where no source stands, the usual is common practice, from a motorcycle to a truck of 7.5 t, and
// the possible is wide enough for what nobody has thought of. From the usual least to the usual
// most is less than a factor of a million, so that a unit a thousand times too large or too small
// does not pass both ways.
inline constexpr bool or_zero = true;
inline constexpr auto table = std::to_array<Range>({
    // Speeds: above 130 km/h is above every limit for such a vehicle.
    {"driving.most_per_day", Kind::time_h, "h", 0.5, 16, 0.0001, 24},
    {"driving.most_per_day", Kind::time_per_day, "h/day", 0.5, 16, 0.0001, 24},
    {"driving.speeds.*", Kind::speed, "km/h", 3, 130, 0.1, 300},

    // A margin under a day, 10 km or 1 % is none.
    {"margins.drinking_water", Kind::time_h, "days", 1, 60, 0, 3660, or_zero},
    {"margins.drinking_water", Kind::volume, "L", 1, 1000, 0, 100'000, or_zero},
    {"margins.drinking_water", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"margins.utility_water", Kind::time_h, "days", 1, 60, 0, 3660, or_zero},
    {"margins.utility_water", Kind::volume, "L", 1, 1000, 0, 100'000, or_zero},
    {"margins.utility_water", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"margins.fuel", Kind::distance, "km", 10, 2000, 0, 20'000, or_zero},
    {"margins.fuel", Kind::volume, "L", 1, 1000, 0, 100'000, or_zero},
    {"margins.fuel", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"margins.food", Kind::time_h, "days", 1, 60, 0, 3660, or_zero},
    {"margins.food", Kind::meals, "meals", 1, 600, 0, 100'000, or_zero},
    {"margins.food", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"margins.battery", Kind::time_h, "days", 1, 60, 0, 3660, or_zero},
    {"margins.battery", Kind::charge, "Ah", 1, 1000, 0, 100'000, or_zero},
    {"margins.battery", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"margins.cold", Kind::temperature, "°C", -25, 12, -60, 60},

    {"people.mass", Kind::mass, "kg", 5, 150, 1, 400},
    {"people.height", Kind::length, "cm", 50, 210, 30, 260},
    {"people.age", {}, "years", 0, 100, 0, 120},
    // From a child in the cool to hard work in the desert (TB MED 507 bands).
    {"observed.drinking", Kind::volume_per_day, "L/day", 0.5, 20, 0, 100, or_zero},
    {"observed.meals", {}, "meals", 1, 6, 0, 20, or_zero},
    {"observed.meals", Kind::meals_per_day, "meals/day", 1, 6, 0, 20, or_zero},
    {"observed.max", Kind::temperature, "°C", -45, 55, -90, 65},
    {"observed.min", Kind::temperature, "°C", -45, 55, -90, 65},
    {"observed.elevation", Kind::elevation, "m", -450, 6000, -500, 9000},
    {"activities.*", Kind::time_h, "h", 0.15, 24, 0, 24, or_zero},
    {"activities.in_sun", Kind::fraction, "%", 1, 100, 0, 100, or_zero},

    {"containers.holds", Kind::volume, "L", 0.5, 600, 0.05, 100'000},
    {"containers.filled", Kind::volume, "L", 0.1, 600, 0, 100'000, or_zero},
    {"containers.empty_mass", Kind::mass, "kg", 0.02, 100, 0, 5000, or_zero},
    {"containers.at", Kind::length, "m", -5, 12, -20, 20},
    {"utility_use.*", Kind::volume_per_day, "L/day", 0.05, 50, 0, 1000, or_zero},
    {"utility_use.volume", Kind::volume, "L", 0.05, 100, 0, 1000, or_zero},
    {"utility_use.every", Kind::time_h, "days", 0.25, 30, 0.01, 3660},

    {"vehicles.mass.empty", Kind::mass, "kg", 80, 12'000, 10, 60'000},
    {"vehicles.mass.gear", Kind::mass, "kg", 1, 4000, 0, 60'000, or_zero},
    {"vehicles.mass.limit", Kind::mass, "kg", 150, 20'000, 20, 100'000},
    {"vehicles.tanks.holds", Kind::volume, "L", 0.5, 600, 0.05, 100'000},
    {"vehicles.tanks.filled", Kind::volume, "L", 0.1, 600, 0, 100'000, or_zero},
    {"vehicles.tanks.unusable", Kind::volume, "L", 0.05, 50, 0, 10'000, or_zero},
    {"vehicles.tanks.empty_mass", Kind::mass, "kg", 0.02, 100, 0, 5000, or_zero},
    {"vehicles.tanks.at", Kind::length, "m", -5, 12, -20, 20},
    {"vehicles.drag_area", Kind::area, "m2", 0.3, 12, 0.05, 50},
    {"vehicles.engine_efficiency", Kind::fraction, "%", 12, 50, 1, 60},
    {"vehicles.idle", Kind::fuel_rate, "L/h", 0.05, 6, 0, 50, or_zero},
    {"vehicles.trailer.mass", Kind::mass, "kg", 15, 4000, 1, 60'000},
    {"vehicles.trailer.drag_area", Kind::area, "m2", 0.05, 10, 0, 50, or_zero},
    {"vehicles.observed.uses", Kind::fuel_use, "L/100km", 2.5, 60, 0.1, 500},
    {"vehicles.observed.speed", Kind::speed, "km/h", 3, 130, 0.1, 300},
    {"vehicles.observed.mass", Kind::mass, "kg", 80, 20'000, 10, 100'000},
    {"shape.*", Kind::length, "cm", 3, 400, 0.1, 1000},
    {"dip.depth", Kind::length, "cm", 0.5, 250, 0, 1000, or_zero},
    {"dip.*", Kind::volume, "L", 0.05, 600, 0, 100'000, or_zero},

    {"cold.volume", Kind::volume, "L", 3, 600, 0.5, 10'000},
    {"cold.mass", Kind::mass, "kg", 0.5, 200, 0, 5000, or_zero},
    {"cold.set_point", Kind::temperature, "°C", -25, 12, -40, 20},
    {"cold.starts_at", Kind::temperature, "°C", -30, 45, -60, 60},
    {"cold.rated.draw", Kind::power, "W", 2, 500, 0.1, 10'000},
    {"cold.rated.draw", Kind::current, "A", 0.1, 40, 0.01, 1000},
    {"cold.rated.ambient", Kind::temperature, "°C", 10, 50, -60, 60},
    {"cold.rated.inside", Kind::temperature, "°C", -25, 15, -60, 60},
    {"cold.running", Kind::power, "W", 5, 1000, 0.1, 10'000},
    {"cold.running", Kind::current, "A", 0.3, 80, 0.01, 1000},
    {"cold.heat_leak", Kind::conductance, "W/K", 0.05, 10, 0.001, 1000},
    {"cold.barrier", Kind::conductance, "W/K", 0.02, 10, 0, 1000, or_zero},
    {"cold.walls", Kind::fraction, "%", 1, 100, 0, 100, or_zero},
    {"cold.freezer.set_point", Kind::temperature, "°C", -30, -5, -40, -1},
    {"cold.above_ambient", Kind::temperature_difference, "°C", -20, 30, -50, 60},
    {"cold.openings", {}, "a day", 1, 200, 0, 1000, or_zero},
    {"cold.warm", Kind::volume_per_day, "L/day", 0.05, 30, 0, 1000, or_zero},
    {"cold.ice", Kind::mass, "kg", 0.3, 150, 0, 5000, or_zero},

    {"food.mass", Kind::mass, "kg", 0.02, 300, 0, 100'000, or_zero},
    {"food.meals", {}, "meals", 0.5, 10'000, 0.001, 1'000'000},
    // From the leanest leaves to pure fat, 37 MJ/kg.
    {"food.energy", Kind::energy_per_mass, "MJ/kg", 0.3, 38, 0.01, 100},
    {"food.water", Kind::fraction, "%", 1, 100, 0, 100, or_zero},
    {"food.from", Kind::temperature, "°C", -30, 40, -60, 60},
    {"food.freezes_at", Kind::temperature, "°C", -8, 0, -20, 0},
    {"food.keeps.for", Kind::time_h, "days", 0.25, 1500, 0.01, 36'600},
    {"food.keeps.at", Kind::temperature, "°C", -25, 35, -60, 60},

    {"batteries.capacity", Kind::charge, "Ah", 2, 1500, 0.1, 100'000},
    {"batteries.rate", Kind::time_h, "h", 0.5, 120, 0.01, 1000},
    {"batteries.voltage", Kind::voltage, "V", 6, 60, 1, 1000},
    {"batteries.filled", Kind::fraction, "%", 1, 100, 0, 100, or_zero},
    {"batteries.filled", Kind::charge, "Ah", 0.5, 1500, 0, 100'000, or_zero},
    {"batteries.floor", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"batteries.cut_off", Kind::fraction, "%", 1, 95, 0, 100, or_zero},
    {"batteries.peukert", {}, "", 1, 1.5, 1, 2},
    {"batteries.efficiency", Kind::fraction, "%", 50, 100, 1, 100},
    {"batteries.mass", Kind::mass, "kg", 0.3, 600, 0, 10'000, or_zero},
    {"charging.current", Kind::current, "A", 1, 200, 0, 10'000, or_zero},
    {"charging.solar", Kind::power, "W", 3, 3000, 0, 100'000, or_zero},
    {"charging.tilt", Kind::angle, "°", 1, 90, 0, 90, or_zero},
    {"charging.facing", Kind::angle, "°", -360, 360, -360, 360},
    {"charging.noct", Kind::temperature, "°C", 35, 75, 20, 80},
    {"charging.losses", Kind::fraction, "%", 1, 60, 0, 95, or_zero},
    {"charging.mass", Kind::mass, "kg", 0.2, 200, 0, 10'000, or_zero},
    {"charging.mains", Kind::current, "A", 1, 200, 0, 10'000, or_zero},
    {"charging.mains", Kind::power, "W", 10, 5000, 0, 100'000, or_zero},
    {"charging.generator", Kind::power, "W", 50, 10'000, 1, 100'000},
    {"charging.uses", Kind::fuel_rate, "L/h", 0.05, 6, 0.01, 50},
    {"charging.runs", Kind::time_per_day, "h/day", 0.1, 24, 0, 24, or_zero},
    {"charging.runs", Kind::time_h, "h", 0.1, 24, 0, 24, or_zero},
    {"loads.draw", Kind::power, "W", 0.2, 2000, 0, 100'000, or_zero},
    {"loads.draw", Kind::current, "A", 0.02, 150, 0, 10'000, or_zero},
    {"loads.hours", Kind::time_per_day, "h/day", 0.05, 24, 0, 24, or_zero},
    {"loads.hours", Kind::time_h, "h", 0.05, 24, 0, 24, or_zero},
    {"loads.after_dark", Kind::time_per_day, "h/day", 0.05, 24, 0, 24, or_zero},
    {"loads.after_dark", Kind::time_h, "h", 0.05, 24, 0, 24, or_zero},
    {"loads.energy", Kind::energy_per_day, "Wh/day", 1, 10'000, 0, 1'000'000, or_zero},
    {"loads.shed", {}, "", 1, 1000, 1, 1000},

    // 55 °C is above every station's monthly mean maximum, -45 °C below those that vehicles reach,
    // 9 kWh/m2/day a clear summer day at the best sites.
    {"climate.max", Kind::temperature, "°C", -45, 55, -90, 65},
    {"climate.min", Kind::temperature, "°C", -45, 55, -90, 65},
    {"climate.humidity", Kind::fraction, "%", 1, 100, 0, 100},
    {"climate.dew_point", Kind::temperature, "°C", -50, 32, -90, 65},
    {"climate.wind", Kind::wind, "m/s", 0.2, 25, 0, 60, or_zero},
    {"climate.sun", Kind::daily_radiation, "kWh/m2/day", 0.2, 9, 0, 15, or_zero},
    {"climate.spread", Kind::temperature_difference, "°C", 0.3, 10, 0, 15, or_zero},

    {"mishaps.stuck.for", Kind::time_h, "days", 0.04, 30, 0.01, 30},
    {"mishaps.heat_wave.hotter", Kind::temperature_difference, "°C", 0.5, 15, 0.01, 20},
    {"mishaps.heat_wave.for", Kind::time_h, "days", 1, 60, 1, 60},
    {"mishaps.more_fuel", Kind::fraction, "%", 1, 200, 0, 300, or_zero},
    {"mishaps.slower", Kind::fraction, "%", 1, 90, 0, 90, or_zero},
    {"mishaps.found_after", Kind::fraction, "%", 1, 100, 0, 100, or_zero},
    {"mishaps.battery.left", Kind::fraction, "%", 5, 100, 0.1, 100},
    {"mishaps.own.stuck", Kind::time_h, "days", 0.04, 30, 0.01, 30},
    {"mishaps.own.hotter", Kind::temperature_difference, "°C", 0.5, 15, 0.01, 20},
    {"mishaps.own.for", Kind::time_h, "days", 1, 60, 1, 60},
    {"mishaps.own.people", {}, "", 1, 8, 1, 20},
    {"mishaps.own.on_day", {}, "", 1, 3660, 1, 3660},

    {"size.holds", Kind::volume, "L", 0.5, 600, 0.05, 100'000},
    {"size.capacity", Kind::charge, "Ah", 2, 1500, 0.1, 100'000},
    {"size.solar", Kind::power, "W", 3, 3000, 0, 100'000, or_zero},
    {"size.volume", Kind::volume, "L", 3, 600, 0.5, 10'000},
    {"size.rated", Kind::power, "W", 2, 500, 0.1, 10'000},
    {"size.rated", Kind::current, "A", 0.1, 40, 0.01, 1000},
    {"size.empty_mass", Kind::mass, "kg", 0.02, 100, 0, 5000, or_zero},
    {"size.mass", Kind::mass, "kg", 0.01, 600, 0, 10'000, or_zero},
    {"size.space", Kind::volume, "L", 0.1, 2000, 0, 1'000'000, or_zero},
    {"size.cost", {}, "", 0, 1'000'000, 0, 1'000'000},
    {"size.most", {}, "", 1, 1000, 1, 1000},
    {"size.per_day", {}, "meals", 0.5, 100, 0.001, 1'000'000},
    {"size.food.most", Kind::time_h, "days", 1, 400, 1, 3660},
    {"size.limits.mass", Kind::mass, "kg", 150, 20'000, 20, 100'000},
    {"size.limits.space", Kind::volume, "L", 1, 20'000, 0, 1'000'000, or_zero},
    {"size.limits.budget", {}, "", 0, 1'000'000, 0, 1'000'000},

    {"places.latitude", Kind::angle, "°", -90, 90, -90, 90},
    {"places.longitude", Kind::angle, "°", -180, 180, -180, 180},
    {"places.elevation", Kind::elevation, "m", -450, 6000, -450, 9000},
    {"supplies.most", Kind::volume, "L", 1, 100'000, 0, 1'000'000, or_zero},
    {"supplies.food.most", {}, "meals", 1, 10'000, 0, 1'000'000, or_zero},
    {"supplies.ice.most", Kind::mass, "kg", 0.5, 1000, 0, 1'000'000, or_zero},

    {"drive.distance", Kind::distance, "km", 0.5, 3000, 0, 20'000, or_zero},
    {"drive.back.distance", Kind::distance, "km", 0.5, 3000, 0.001, 20'000},
    {"drive.surfaces.*", Kind::distance, "km", 0.2, 3000, 0, 20'000, or_zero},
    {"drive.speed", Kind::speed, "km/h", 3, 130, 0.1, 300},
    {"drive.climb", Kind::elevation, "m", 1, 25'000, 0, 100'000, or_zero},
    {"drive.descent", Kind::elevation, "m", 1, 25'000, 0, 100'000, or_zero},
    {"drive.steepness", Kind::fraction, "%", 1, 35, 0.1, 50},
    {"drive.headwind", Kind::wind, "m/s", 0.3, 25, 0, 40, or_zero},
    {"stay.nights", {}, "nights", 1, 400, 1, 3660},
    {"resupply.takes", Kind::time_h, "h", 0.05, 24, 0, 24, or_zero},
    {"resupply.*", Kind::volume, "L", 0.5, 2000, 0.01, 100'000},
    {"resupply.food", {}, "meals", 0.5, 1000, 0.001, 1'000'000},
    {"resupply.ice", Kind::mass, "kg", 0.3, 200, 0.01, 10'000},
});

}  // namespace detail

/// All of them, those of one key together.
inline std::span<const Range> all_ranges() { return detail::table; }

consteval Key::Key(const char* path) {
  for (const Range& range : detail::table) {
    if (range.path != path) continue;
    if (count_++ == 0) first_ = &range;
  }
  if (count_ == 0) throw "this key has no range";  // NOLINT(hicpp-exception-baseclass): no run time
}

}  // namespace drystage::plan
