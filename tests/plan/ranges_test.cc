// What is usual and what is possible of each key: slips of the unit do not pass in silence.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <map>

#include "declared.h"
#include "plan/keys.h"
#include "plan/log.h"
#include "plan/tree.h"
#include "plan_text.h"
#include "units/format.h"
#include "units/number.h"
#include "units/parse.h"

namespace drystage::plan::ranges_test {
namespace {

using ::testing::HasSubstr;

const std::string order = "itinerary[4].resupply.";

struct Place {
  std::string path;  ///< as --set wants it
  std::string text;  ///< what stands there
};

/// Where the plan that has every key has this one first.
Place place_in_plan(std::string_view key_path) {
  static const auto places = [] {
    std::map<std::string_view, Place> made{{"itinerary.resupply.food", {order + "food", ""}},
                                           {"itinerary.resupply.ice", {order + "ice", ""}}};
    Log log;
    Walk([&](Key key, const std::string& path, const Node& value) {
      made.try_emplace(key->path, Place{path, value.text});
    }).map(parse_tree(whole_plan(), {}, log).value(), "");
    return made;
  }();
  const auto found = places.find(key_path);
  EXPECT_NE(found, places.end()) << key_path;
  return found == places.end() ? Place{"people[0].mass", ""} : found->second;
}

/// The same; of an amount of a consumable, at the one of the plan that is measured so.
Place place_of(Key key, const Range& range) {
  Place place = place_in_plan(key->path);
  const bool is_own =
      std::ranges::any_of(key.ranges(), [](const Range& other) { return other.unit == own_word; });
  if (!is_own) return place;
  place.text.clear();
  const bool weighed = range.kind == units::Kind::mass;
  const std::size_t name = place.path.find("cooking gas");
  if (place.path.starts_with("consumables[")) {
    place.path.replace(std::strlen("consumables["), 1, weighed ? "0" : "2");
  } else if (name != std::string::npos && !weighed) {
    place.path.replace(name, std::strlen("cooking gas"), "additive");
  }
  return place;
}

/// Every range that is declared, but that of depths, which are keys themselves and cannot be set.
std::vector<std::pair<Key, const Range*>> all_ranges() {
  std::vector<std::pair<Key, const Range*>> made;
  for (const auto& some : declarations) {
    for (const Declaration& one : some) {
      if (one.map() == "dip.depth") continue;
      for (const Range& range : one.value.ranges()) made.emplace_back(Key(one), &range);
    }
  }
  return made;
}

std::string amount(double number, std::string_view unit) {
  return fmt::format("{} {}", units::format_number(number, units::significant(9)), unit);
}

/// What is said of one value, in lines.
std::string said_of(const std::string& path, const std::string& value) {
  const std::vector<Override> set{{path, "\"" + value + "\""}};
  std::string said;
  for (const Diagnostic& d : read_text(whole_plan(), set).diagnostics) {
    if (d.where_text.empty()) continue;
    said += d.what + "; " + d.expected + "; " + d.hint + "\n";
  }
  return said;
}

bool is_doubted(const std::string& said) {
  for (const char* words : {"unusually", "is too low", "is too high", "out of range"}) {
    if (said.find(words) != std::string::npos) return true;
  }
  return false;
}

/// What stands in the plan, if it is of this kind, else what is usual; in the unit of the range.
double usual_number(const Range& range, const Place& place) {
  const auto read = units::parse(place.text, *range.kind);
  if (read && *read != 0) return std::stod(in_its_unit(range, *read));
  return std::stod(example(range));
}

TEST(Range, OfEachKeyIsInOrderAndNarrowerThanAMillion) {
  for (const auto& [key, at] : all_ranges()) {
    const Range& range = *at;
    EXPECT_LE(range.least, range.usual_low) << key->path;
    EXPECT_LT(range.usual_low, range.usual_high) << key->path;
    EXPECT_LE(range.usual_high, range.most) << key->path;
    if (!range.kind) continue;
    // Otherwise an amount may pass in a unit a thousand times too large and too small.
    if (range.usual_low > 0) {
      EXPECT_LT(range.usual_high / range.usual_low, 1e6) << key->path;
    }
  }
}

TEST(Range, QuestionsEachKeyAThousandTimesTooLargeOrTooSmall) {
  std::size_t keys = 0;
  for (const auto& [key, at] : all_ranges()) {
    const Range& range = *at;
    if (!range.kind) continue;
    const Place place = place_of(key, range);
    const double number = usual_number(range, place);
    EXPECT_FALSE(is_doubted(said_of(place.path, amount(number, range.unit))))
        << place.path << ": " << said_of(place.path, amount(number, range.unit));
    EXPECT_TRUE(is_doubted(said_of(place.path, amount(number * 1000, range.unit))) ||
                is_doubted(said_of(place.path, amount(number / 1000, range.unit))))
        << place.path << ": " << amount(number, range.unit);
    ++keys;
  }
  EXPECT_GT(keys, 120U);
}

TEST(Range, IsHintedAtInTheUsualUnitOfTheKey) {
  for (const auto& [key, at] : all_ranges()) {
    const Range& range = *at;
    const bool is_count = std::ranges::any_of(key.ranges(), [](const Range& r) { return !r.kind; });
    if (is_count) continue;
    const Place place = place_of(key, range);
    const std::string number =
        units::format_number(std::stod(example(range)), units::significant(6));
    const std::string said = said_of(place.path, number);
    EXPECT_THAT(said, HasSubstr("has no unit")) << place.path;
    const std::string blank = range.unit == "°" ? "" : " ";
    // "1 day", "2 days".
    const std::string unit =
        number == "1" && range.unit == "days" ? "day" : std::string(range.unit);
    EXPECT_THAT(said, HasSubstr(number + blank + unit)) << place.path;
  }
}

struct Slip {
  const char* path;
  const char* value;
  const char* said;
};

TEST(Slip, IsSaidInWordsWithWhatWasLikelyMeant) {
  for (const auto& [path, value, said] : std::vector<Slip>{
           {"margins.fuel", "150 m",
            "fuel: 150 m is 0.15 km, which is unusually low; usually 0, or 10 to 2000 km; "
            "did you mean 150 km?"},
           {"margins.drinking_water", "10 mL", "is 0.01 L, which is unusually low"},
           {"margins.drinking_water", "10 mL", "did you mean 10 L?"},
           {"margins.drinking_water", "0.15 %", "did you mean 15 %?"},
           {"margins.drinking_water", "3 min", "did you mean 3 days?"},
           {"margins.drinking_water", "23 h", "is 0.958 days, which is unusually low"},
           {"margins.fuel", "9.9 km", "unusually low"},
           {"margins.utility_water", "0.9 %", "unusually low"},
           {"margins.cold", "60 °C", "unusually high"},
           {"climate.basin.february.humidity", "0.17 %", "did you mean 17 %?"},
           {"activities.survey.in_sun", "0.75 %", "did you mean 75 %?"},
           {"activities.survey.moderate", "5 min", "did you mean 5 h?"},
           {"cold[0].rated.draw", "0.95 W", "did you mean 0.95 A?"},
           {"power.charging[1].solar", "160 kW", "did you mean 160 W?"},
           {"vehicles[0].mass.empty", "2.54 kg",
            "is too low; from 10 to 60000 kg; did you mean 2.54 t?"},
           {"itinerary[1].drive.climb", "300 km", "is too high"},
           {"itinerary[1].drive.climb", "300 km", "did you mean 300 m?"},
           {"power.batteries[0].voltage", "12 kV", "did you mean 12 V?"},
           {"people[0].mass", "63 g", "did you mean 63 kg?"},
           {"people[1].observed.drinking", "0.01 L/day", "unusually low"},
           {"people[1].observed.drinking", "1000 L/day", "is too high"},
           {"climate.basin.february.max", "95 °C", "did you mean 95 °F?"}}) {
    EXPECT_THAT(said_of(path, value), HasSubstr(said)) << path;
  }
}

TEST(Slip, IsNotSeenInNothingWhereNothingIsSensible) {
  for (const auto& [path, value] : std::vector<std::pair<const char*, const char*>>{
           {"margins.fuel", "0 km"},
           {"margins.drinking_water", "1 day"},
           {"margins.fuel", "10 km"},
           {"margins.utility_water", "1 %"},
           {"water.containers[1].filled", "0 L"},
           {"activities.survey.in_sun", "0 %"},
           {"places.Kemet Wells.supplies.diesel.most", "0 L"},
           {"power.charging[1].solar", "0 W"}}) {
    EXPECT_EQ(said_of(path, value), "") << path;
  }
}

}  // namespace
}  // namespace drystage::plan::ranges_test
