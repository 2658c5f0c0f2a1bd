// What is usual and what is possible of each key: slips of the unit do not pass in silence.
#include "plan/ranges.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>

#include "plan/log.h"
#include "plan/tree.h"
#include "plan_text.h"
#include "units/format.h"
#include "units/number.h"
#include "units/parse.h"

namespace drystage::plan {
namespace {

using testing::HasSubstr;

std::vector<std::string> parts_of(std::string_view path) {
  std::vector<std::string> parts(1);
  for (const char c : path) {
    if (c == '.') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

/// Whether a range's path is of a key whose own path has the same parts in order, and maybe more.
bool leads_to(const std::vector<std::string>& range, const std::vector<std::string>& key) {
  if (range.back() != "*" && range.back() != key.back()) return false;
  if (range.back() == "*" && (key.size() < 2 || key[key.size() - 2] != range[range.size() - 2])) {
    return false;
  }
  std::size_t at = 0;
  for (std::size_t i = 0; i + 1 < key.size() && at + 1 < range.size(); ++i) {
    if (key[i] == range[at]) ++at;
  }
  return at + 1 == range.size();
}

struct Place {
  std::string path;  ///< as --set wants it
  std::string text;  ///< what stands there
};

/// The first key in the plan that a range is for.
std::optional<Place> first_place(const Node& node, const std::string& path,
                                 const std::vector<std::string>& key,
                                 const std::vector<std::string>& range) {
  const bool has_number = node.text.find_first_of("0123456789") != std::string::npos;
  if (has_number && !key.empty() && leads_to(range, key)) return Place{path, node.text};
  for (const Entry& entry : node.entries) {
    auto parts = key;
    parts.push_back(entry.key);
    const std::string dot = path.empty() ? "" : ".";
    if (auto found = first_place(entry.value, path + dot + entry.key, parts, range)) return found;
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    if (auto found = first_place(node.items[i], fmt::format("{}[{}]", path, i), key, range)) {
      return found;
    }
  }
  return std::nullopt;
}

const Node& whole_tree() {
  static const Node tree = [] {
    Log log;
    return parse_tree(whole_plan(), {}, log).value();
  }();
  return tree;
}

/// Where the plan that has every key has this one.
Place place_of(const Range& range) {
  static const std::map<std::string_view, const char*> elsewhere{
      {"activities.*", "activities.survey.moderate"},
      {"containers.at", "water.containers[0].at"},
      {"vehicles.tanks.at", "vehicles[0].tanks[0].at"},
      {"shape.*", "water.containers[0].shape.box.length"},
      {"charging.facing", "power.charging[1].facing"},
      {"size.limits.mass", "size.limits.mass.truck"},
      {"supplies.most", "places.Kemet Wells.supplies.diesel.most"},
      {"resupply.*", "itinerary[4].resupply.utility_water"},
      {"resupply.food", "itinerary[4].resupply.food"},
      {"resupply.ice", "itinerary[4].resupply.ice"},
  };
  const auto found = elsewhere.find(range.path);
  if (found != elsewhere.end()) return {found->second, ""};
  const auto place = first_place(whole_tree(), "", {}, parts_of(range.path));
  EXPECT_TRUE(place.has_value()) << range.path;
  return place.value_or(Place{"people[0].mass", ""});
}

/// A depth is the key of a dip mark, and cannot be set.
bool is_key_itself(const Range& range) { return range.path == "dip.depth"; }

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
  for (const Range& range : all_ranges()) {
    EXPECT_LE(range.least, range.usual_low) << range.path;
    EXPECT_LT(range.usual_low, range.usual_high) << range.path;
    EXPECT_LE(range.usual_high, range.most) << range.path;
    if (!range.kind) continue;
    // Otherwise an amount may pass in a unit a thousand times too large and too small.
    if (range.usual_low > 0) {
      EXPECT_LT(range.usual_high / range.usual_low, 1e6) << range.path;
    }
  }
}

TEST(Range, QuestionsEachKeyAThousandTimesTooLargeOrTooSmall) {
  std::size_t keys = 0;
  for (const Range& range : all_ranges()) {
    if (!range.kind || is_key_itself(range)) continue;
    const Place place = place_of(range);
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
  for (const Range& range : all_ranges()) {
    const bool is_count = range.path == "observed.meals";
    if (!range.kind || is_count || is_key_itself(range)) continue;
    const Place place = place_of(range);
    const std::string number =
        units::format_number(std::stod(example(range)), units::significant(6));
    const std::string said = said_of(place.path, number);
    EXPECT_THAT(said, HasSubstr("has no unit")) << place.path;
    const std::string blank = range.unit == "°" ? "" : " ";
    EXPECT_THAT(said, HasSubstr(number + blank + std::string(range.unit))) << place.path;
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

std::string name_of(const Range& range) { return fmt::format("`{}`", range.path); }

TEST(Range, StandsInTheFormatPage) {
  std::ifstream file(DRYSTAGE_TEST_DATA "/../docs/format.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  std::string table = "| key | usually | at all |\n|---|---|---|\n";
  for (const Range& range : all_ranges()) {
    table += fmt::format("| {} | {} | {} |\n", name_of(range), usual_words(range),
                         possible_words(range));
  }
  EXPECT_NE(page.find("\n" + table + "\n"), std::string::npos)
      << "the table of docs/format.md should be:\n"
      << table;
}

}  // namespace
}  // namespace drystage::plan
