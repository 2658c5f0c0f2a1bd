#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string_view>

#include "plan/ranges.h"
#include "plan/words.h"
#include "units/kind.h"

namespace drystage::plan {

/// What the value of a key is.
enum class Sort {
  map,         ///< of the keys that are declared under its path, or under `of`
  amount,      ///< in one of the ranges: a quantity with its unit, or a count
  word,        ///< one of the words
  name,        ///< of the thing itself, and no other thing of its sort has it
  reference,   ///< the name of something that is defined elsewhere: `of`
  text,        ///< on one line
  yes_no,      ///
  date,        ///< 2027-02-08; with `of` also a map
  clock,       ///< "08:00"
  utc_offset,  ///< "+01:00"
  latitude,    ///< 27.1° N
  longitude,   ///< 5.2° E
  version,     ///< of the plan's form
  facing,      ///< a word, or an amount in the range
  take,        ///< a word, or an amount in one of the ranges
  surfaces,    ///< a surface, a map of distances by surface, or a list of parts
  dip,         ///< a map of volumes by depth
  months,      ///< a map of months, each a map
};

/// How many there may be.
enum class Many {
  one,
  list,               ///
  one_or_list,        ///< for one thing the brackets may be left out
  by_name,            ///< a map whose keys are names
  list_by_name,       ///< a map whose keys are names, each with a list
  one_or_by_name,     ///< one for all, or a map whose keys are names
  by_surface,         ///< a map whose keys are surfaces
  one_or_by_surface,  ///< one for all, or a map whose keys are surfaces
  also_named,         ///< for one thing alone, the key has a colon and its name behind
};

struct Value {
  Sort sort = Sort::map;
  std::array<Range, 6> ranges_or_none{};
  std::size_t range_count = 0;
  std::span<const std::string_view> words{};
  std::string_view of{};     ///< of a map: whose keys; of a reference: to a what
  std::string_view alone{};  ///< path of the key whose value may stand for a whole map
  Many many = Many::one;

  [[nodiscard]] constexpr std::span<const Range> ranges() const {
    return {ranges_or_none.data(), range_count};
  }
};

/// A key of the plan. A path whose last part is * is of a value that has no key of its own.
struct Declaration {
  std::string_view path;  ///< "people.mass": the map that it belongs to, and the key
  Value value;
  /// What holds where it is left out: as it could be written, or in words. "70 %, dry 10 %" is 70
  /// %, but 10 % where another key says `dry`.
  std::string_view absent;
  std::string_view meaning;    ///< without the unit
  std::string_view example{};  ///< where the value's own example will not do

  [[nodiscard]] constexpr bool required() const { return absent == "required"; }
  /// The last part of the path, and all before its dot.
  [[nodiscard]] constexpr std::string_view name() const { return path.substr(path.rfind('.') + 1); }
  [[nodiscard]] constexpr std::string_view map() const {
    return path.substr(0, path.size() - name().size() - (path.size() > name().size() ? 1 : 0));
  }
};

namespace keys {

using units::Kind;

inline constexpr std::string_view required = "required";
inline constexpr bool or_zero = true;

/// The texts of a table of words.
template <const auto& words>
inline constexpr auto texts_of = texts(words);

constexpr Value amount(const Range& a) { return {Sort::amount, {a}, 1}; }
constexpr Value amount(const Range& a, const Range& b) { return {Sort::amount, {a, b}, 2}; }
constexpr Value amount(const Range& a, const Range& b, const Range& c) {
  return {Sort::amount, {a, b, c}, 3};
}
constexpr Value amount(const Range& a, const Range& b, const Range& c, const Range& d,
                       const Range& e, const Range& f) {
  return {Sort::amount, {a, b, c, d, e, f}, 6};
}
constexpr Value a(Sort sort, std::string_view of = {}) { return {.sort = sort, .of = of}; }
constexpr Value word(std::span<const std::string_view> words) {
  return {.sort = Sort::word, .words = words};
}
constexpr Value words_or(Sort sort, std::span<const std::string_view> words, const Range& range) {
  return {sort, {range}, 1, words};
}
constexpr Value name_of(std::string_view thing) { return a(Sort::reference, thing); }
constexpr Value map_of(std::string_view path = {}) { return a(Sort::map, path); }
/// A map, or the value of one of its keys alone.
constexpr Value short_map_of(std::string_view path, std::string_view alone) {
  return {.sort = Sort::map, .of = path, .alone = alone};
}
constexpr Value many(Many how, Value value) {
  value.many = how;
  return value;
}
constexpr Value list_of(const Value& value) { return many(Many::list, value); }
constexpr Value by_name(const Value& value) { return many(Many::by_name, value); }

// Amounts that several keys share. Where no source stands, the usual is common practice, from a
// motorcycle to a truck of 7.5 t, and the possible is wide enough for what nobody has thought of.
// From the usual least to the usual most is less than a factor of a million, so that a unit a
// thousand times too large or too small does not pass both ways.
inline constexpr Range hours{Kind::time_h, "h", 0.05, 24, 0, 24, or_zero};
inline constexpr Range hours_a_day{Kind::time_per_day, "h/day", 0.05, 24, 0, 24, or_zero};
inline constexpr Range share{Kind::fraction, "%", 1, 100, 0, 100, or_zero};
inline constexpr Range margin_share{Kind::fraction, "%", 1, 95, 0, 100, or_zero};
inline constexpr Range margin_days{Kind::time_h, "days", 1, 60, 0, 3660, or_zero};
inline constexpr Range margin_volume{Kind::volume, "L", 1, 1000, 0, 100'000, or_zero};
// 55 °C is above every station's monthly mean maximum, -45 °C below those that vehicles reach.
inline constexpr Range air{Kind::temperature, "°C", -45, 55, -90, 65};
inline constexpr Range speed{Kind::speed, "km/h", 3, 130, 0.1, 300};
inline constexpr Range holds{Kind::volume, "L", 0.5, 600, 0.05, 100'000};
inline constexpr Range can_mass{Kind::mass, "kg", 0.02, 100, 0, 5000, or_zero};
inline constexpr Range inside{Kind::length, "cm", 3, 400, 0.1, 1000};

}  // namespace keys
}  // namespace drystage::plan
