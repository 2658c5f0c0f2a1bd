#include "cli/json_difference.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace drystage::testing {
namespace {

using Json = nlohmann::json;

bool same(const Json& a, const Json& b) {
  if (!a.is_number_float() || !b.is_number_float()) return a == b;
  constexpr double a_billionth = 1e-9;
  const auto x = a.get<double>();
  const auto y = b.get<double>();
  return std::abs(x - y) <= a_billionth * std::max({1.0, std::abs(x), std::abs(y)});
}

}  // namespace

std::string json_difference(const std::string& expected, const std::string& got) {
  const Json before = Json::parse(expected).flatten();
  const Json after = Json::parse(got).flatten();
  std::string out;
  for (const auto& [path, value] : before.items()) {
    const auto found = after.find(path);
    if (found != after.end() && same(value, *found)) continue;
    out += "- " + path + ": " + value.dump() + "\n";
    if (found != after.end()) out += "+ " + path + ": " + found->dump() + "\n";
  }
  for (const auto& [path, value] : after.items()) {
    if (!before.contains(path)) out += "+ " + path + ": " + value.dump() + "\n";
  }
  return out;
}

std::string without_days_of_reserves(const std::string& run_json) {
  Json json = Json::parse(run_json);
  for (Json& day : json.at("days")) day.erase("reserves");
  return json.dump();
}

}  // namespace drystage::testing
