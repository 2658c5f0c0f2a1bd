#include "support/random_plan.h"

#include <fmt/core.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <utility>

#include "support/random_gear.h"

namespace drystage::support {
namespace {

using std::string;

void add_people(Draft& d) {
  d.text.people.clear();
  const int people = d.pick(1, 5);
  for (int i = 0; i < people; ++i) {
    string observed;
    if (d.one_in(3)) observed = fmt::format(", observed: {{drinking: {} L/day}}", d.pick(1, 9));
    if (d.one_in(4)) observed = fmt::format(", observed: {{meals: {}}}", d.pick(1, 4));
    const int age = d.pick(1, 75);
    d.text.people.push_back(fmt::format(
        "{{name: p{}, mass: {} kg, height: {} cm, age: {}, sex: {}, acclimatised: {}{}{}}}", i,
        age < 14 ? 10 + 3 * age : d.pick(45, 110), age < 14 ? 75 + 6 * age : d.pick(150, 200), age,
        d.one_in(2) ? "male" : "female", d.one_in(4) ? "no" : "yes", d.in_vehicle("rides_in"),
        observed));
  }
  d.text.activities = {
      fmt::format("camp: {{low: {} h, moderate: {} h}}", d.pick(0, 8), d.pick(0, 4)),
      fmt::format("work: {{moderate: {} h, high: {} h, very_high: {} h, in_sun: {} %}}",
                  d.pick(0, 8), d.pick(0, 3), d.pick(0, 1), d.pick(0, 100))};
}

void add_climate(Draft& d) {
  d.text.climate.clear();
  for (int c = 0; c < 2; ++c) {
    const int max_c = d.pick(-10, 48);
    d.text.climate.push_back(PlanText::climate_of(
        fmt::format("c{}", c), max_c, std::max(-20, max_c - d.pick(0, 20)),
        fmt::format("{} %", d.pick(5, 95)), fmt::format("{} kWh/m2/day", d.pick(0, 80) / 10.0)));
  }
  if (d.one_in(2)) {
    d.text.weather.push_back(
        fmt::format("{{from: 2027-03-{0:02}, to: 2027-03-{1:02}, max: {2} °C, "
                    "min: {3} °C, sun: 3 kWh/m2/day}}",
                    d.pick(1, 5), d.pick(6, 20), d.pick(20, 48), d.pick(-5, 19)));
  }
}

string supply(Draft& d, const string& what) {
  if (what == "mains") return "mains: {}";
  string inside;
  const auto add = [&inside](const string& more) { inside += (inside.empty() ? "" : ", ") + more; };
  if (what == "utility_water" && d.one_in(2)) add("quality: brackish");
  if (d.one_in(3)) {
    add(fmt::format("most: {}", d.pick(1, 60)) + (what == "food"  ? " meals"
                                                  : what == "ice" ? " kg"
                                                                  : " L"));
  }
  if (d.one_in(3)) add("open: [mon, wed, fri, sun]");
  if (d.one_in(4)) add(fmt::format("shut: [2027-03-{:02}]", d.pick(1, 20)));
  if (d.one_in(4)) add("confirmed: no");
  return what + ": {" + inside + "}";
}

void add_places(Draft& d) {
  constexpr std::array<int, 4> latitudes{0, 27, -33, 55};
  const int latitude = latitudes.at(static_cast<std::size_t>(d.pick(0, 3)));
  std::vector<string> sorts{"food", "mains"};
  if (d.drinking_can) sorts.emplace_back("drinking_water");
  if (d.utility_can) sorts.emplace_back("utility_water");
  if (d.diesel) sorts.emplace_back("diesel");
  if (d.petrol) sorts.emplace_back("petrol");
  if (d.ice_box) sorts.emplace_back("ice");
  d.text.places.clear();
  for (int p = 0; p < 4; ++p) {
    std::vector<string> here;
    string supplies;
    for (const string& sort : sorts) {
      if (!d.one_in(2)) continue;
      supplies += (here.empty() ? "" : ", ") + supply(d, sort);
      here.push_back(sort);
    }
    std::vector<std::pair<string, string>> sold;
    string own;
    for (const auto& each : d.consumables) {
      if (!d.one_in(2)) continue;
      const string most = d.one_in(2) ? fmt::format("most: {} {}", d.pick(1, 20), each.second) : "";
      own += fmt::format("{}{}: {{{}}}", own.empty() ? "" : ", ", each.first, most);
      sold.push_back(each);
    }
    if (!own.empty()) {
      supplies += fmt::format("{}consumables: {{{}}}", supplies.empty() ? "" : ", ", own);
    }
    d.consumables_at.push_back(sold);
    d.text.places.push_back(fmt::format(
        "P{}: {{at: {{latitude: {}°, longitude: {}°, elevation: {} m}}, climate: c{}, supplies: "
        "{{{}}}}}",
        p, latitude + p * 0.01, p * 0.01, d.pick(0, 4200), p % 2, supplies));
    std::erase(here, "mains");
    d.supplies.push_back(here);
  }
}

string resupply(Draft& d, int place) {
  string out = "resupply: {";
  for (const string& what : d.supplies[static_cast<std::size_t>(place)]) {
    const char* unit = what == "food" ? "meals" : what == "ice" ? "kg" : "L";
    string take = d.one_in(2) ? "fill" : fmt::format("{} {}", d.pick(1, 90), unit);
    if (what != "ice" && d.one_in(3)) take = "to next";
    out += fmt::format("{}: {}, ", what, take);
  }
  string own;
  for (const auto& [name, unit] : d.consumables_at[static_cast<std::size_t>(place)]) {
    const char* all = name.starts_with('f') ? "empty" : "fill";  // of one that fills with use
    string take = d.one_in(2) ? all : fmt::format("{} {}", d.pick(1, 20), unit);
    if (d.one_in(3)) take = "to next";
    own += fmt::format("{}{}: {}", own.empty() ? "" : ", ", name, take);
  }
  if (!own.empty()) out += "consumables: {" + own + "}, ";
  return out + fmt::format("takes: {} h, cleaned: {}}}", d.pick(0, 3), d.one_in(2) ? "yes" : "no");
}

string drive(Draft& d, int to) {
  constexpr std::array surfaces{"sealed",       "worn sealed", "packed gravel", "gravel",
                                "loose gravel", "track",       "sand",          "soft sand"};
  const int first = d.pick(1, d.one_in(3) ? 700 : 200);
  const int second = d.pick(1, d.one_in(3) ? 400 : 100);
  const auto a = static_cast<std::size_t>(d.pick(0, 7));
  const std::size_t b = (a + 1 + static_cast<std::size_t>(d.pick(0, 6))) % surfaces.size();
  string more;
  if (d.one_in(3))
    more += fmt::format(", climb: {} m, descent: {} m", d.pick(0, 1500), d.pick(0, 1500));
  if (d.one_in(4)) more += ", activity: work";
  if (d.one_in(6)) more += fmt::format(", headwind: {} m/s", d.pick(1, 12));
  if (d.one_in(6)) more += fmt::format(", steepness: {} %", d.pick(1, 12));
  if (d.one_in(6)) more += d.one_in(2) ? ", tyres: lowered" : ", tyres: road_pressure";
  return fmt::format("drive: {{to: P{}, distance: {} km, surfaces: {{{}: {} km, {}: {} km}}{}}}",
                     to, first + second, surfaces.at(a), first, surfaces.at(b), second, more);
}

bool sells_something(const Draft& d, int place) {
  const auto at = static_cast<std::size_t>(place);
  return !d.supplies[at].empty() || !d.consumables_at[at].empty();
}

void add_itinerary(Draft& d) {
  d.text.driving = fmt::format("{{most_per_day: {} h, daylight_only: {}, depart: \"{:02}:15\"}}",
                               d.pick(3, 12), d.one_in(2) ? "yes" : "no", d.pick(5, 10));
  int here = d.pick(0, 3);
  d.text.itinerary = {fmt::format("{{at: P{}}}", here)};
  const int items = d.pick(1, 7);
  for (int i = 0; i < items; ++i) {
    const int what = d.pick(0, 2);
    if (what == 0) {
      here = (here + d.pick(1, 3)) % 4;
      d.text.itinerary.push_back(drive(d, here));
    } else if (what == 1 && sells_something(d, here)) {
      d.text.itinerary.push_back(resupply(d, here));
    } else {
      d.text.itinerary.push_back(fmt::format("stay: {{nights: {}{}}}", d.pick(1, 5),
                                             d.one_in(2) ? ", activity: work" : ""));
    }
  }
}

void add_margins(Draft& d) {
  if (d.one_in(2)) d.text.margins.emplace_back("drinking_water: 2 days");
  if (d.one_in(2)) d.text.margins.emplace_back("utility_water: 10 L");
  if (d.one_in(2)) d.text.margins.emplace_back("fuel: 120 km");
  if (d.one_in(2)) d.text.margins.emplace_back("food: 1 day");
  if (d.one_in(2)) d.text.margins.emplace_back("battery: 1 day");
  if (d.one_in(3)) d.text.margins.emplace_back("cold: 6 °C");
}

/// One of several vehicles may keep what it carries for those who ride in it.
void add_own(Draft& d) {
  if (d.vehicles.size() < 2 || !d.one_in(3)) return;
  string& vehicle =
      d.text.vehicles[static_cast<std::size_t>(d.pick(0, static_cast<int>(d.vehicles.size()) - 1))];
  constexpr std::array stocks{"water", "food", "[water, food]"};
  const string own = stocks.at(static_cast<std::size_t>(d.pick(0, 2)));
  vehicle.insert(vehicle.rfind('}'), ", own: " + own);
}

}  // namespace

Pick rapidcheck_pick() {
  // At full size from the first case on: a plan of nothing but smallest values tests little.
  return [](int low, int high) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, high + 1));
  };
}

std::vector<string> random_roads(const Pick& pick) {
  constexpr std::array surfaces{"sealed", "gravel", "track", "sand"};
  std::vector<string> out;
  const int roads = pick(1, 3);
  for (int i = 0; i < roads; ++i) {
    const int from = pick(0, 3);
    const int to = (from + pick(1, 3)) % 4;
    const string surface = surfaces.at(static_cast<std::size_t>(pick(0, 3)));
    out.push_back(fmt::format("{{from: P{}, to: P{}, distance: {} km, surfaces: {}}}", from, to,
                              pick(5, 300), surface));
  }
  return out;
}

PlanText random_plan(const Pick& pick) {
  Draft draft{.pick = pick};
  add_vehicles(draft);
  add_people(draft);
  add_water(draft);
  add_batteries(draft);
  add_charging(draft);
  add_loads(draft);
  add_cold(draft);
  add_food(draft);
  add_consumables(draft);
  add_climate(draft);
  add_places(draft);
  add_itinerary(draft);
  add_margins(draft);
  add_own(draft);
  return draft.text;
}

}  // namespace drystage::support
