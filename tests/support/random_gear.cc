#include "support/random_gear.h"

#include <fmt/core.h>

#include <array>
#include <numbers>
#include <utility>

namespace drystage::support {
namespace {

using std::string;

/// Inside measures in cm of some plain shape that has room for so much.
string random_shape(Draft& d, int holds_l) {
  constexpr double cm3_per_l = 1000;
  const int across = d.pick(15, 60);
  const int high = d.pick(15, 60);
  const double box_cm = holds_l * cm3_per_l / (across * high);
  const double cylinder_cm = holds_l * cm3_per_l / (std::numbers::pi / 4 * across * across);
  switch (d.pick(0, 2)) {
    case 0:
      return fmt::format("{{box: {{length: {:.2f} cm, width: {} cm, height: {} cm}}}}", box_cm,
                         across, high);
    case 1:
      return fmt::format("{{lying_cylinder: {{diameter: {} cm, length: {:.2f} cm}}}}", across,
                         cylinder_cm);
    default:
      return fmt::format("{{standing_cylinder: {{diameter: {} cm, height: {:.2f} cm}}}}", across,
                         cylinder_cm);
  }
}

/// Dip marks up to all that it holds or less, perhaps one at the stick's foot.
string random_marks(Draft& d, int holds_l) {
  const int marks = d.pick(1, 6);
  const bool at_0 = d.one_in(4);
  const double top_l = d.one_in(2) ? holds_l : 0.75 * holds_l;
  double depth_cm = 0;
  string out = at_0 ? fmt::format("0 cm: {:.3f} L, ", 0.1 * top_l / marks) : "";
  for (int m = 1; m <= marks; ++m) {
    depth_cm += d.pick(1, 80) / 8.0;
    out += fmt::format("{} cm: {:.3f} L{}", depth_cm, top_l * m / marks, m < marks ? ", " : "");
  }
  return "{" + out + "}";
}

/// How a vessel is read with a dipstick, of some.
string random_gauge(Draft& d, int holds_l) {
  if (!d.one_in(3)) return "";
  return d.one_in(2) ? ", shape: " + random_shape(d, holds_l)
                     : ", dip: " + random_marks(d, holds_l);
}

string observed_use(Draft& d) {
  string out;
  if (d.one_in(2)) {
    out = fmt::format("{{surface: sealed, speed: {} km/h, mass: {} kg, uses: {} L/100km}}",
                      d.pick(60, 100), d.pick(2000, 3500), d.pick(10, 18));
  }
  if (d.one_in(3)) {
    out += fmt::format("{}{{surface: soft sand, uses: {} L/100km}}", out.empty() ? "" : ", ",
                       d.pick(15, 40));
  }
  return out.empty() ? out : ", observed: [" + out + "]";
}

/// How a cabinet is used: as the plan says, in part, or as usual.
string lid_of(Draft& d) {
  if (d.one_in(2)) return "";
  const string openings = fmt::format("openings: {}", d.pick(0, 40));
  const string warm = fmt::format("warm: {} L/day", d.pick(0, 6));
  if (d.one_in(3)) return ", lid: {" + openings + "}";
  return d.one_in(2) ? ", lid: {" + warm + "}" : ", lid: {" + openings + ", " + warm + "}";
}

/// Where its axles are, what they have empty, and where things may lie, of some vehicles.
string random_chassis(Draft& d, int empty_kg) {
  if (!d.one_in(3)) return "";
  const int wheelbase_cm = d.pick(220, 420);
  const int front_kg = empty_kg * d.pick(42, 58) / 100;
  return fmt::format(
      ", wheelbase: {:.2f} m, overhang: {{front: 1.5 m, rear: {} m}}, weighed: {{front: {} kg, "
      "rear: {} kg}}{}, bays: {{seat: {{at: {:.2f} m, right: -0.4 m, height: 0.9 m}}, tray: {{at: "
      "{:.2f} m, height: 1 m}}, rack: {{at: {:.2f} m, height: 2 m, roof: yes}}}}",
      wheelbase_cm / 100.0, d.pick(1, 4), front_kg, empty_kg - front_kg,
      d.one_in(2) ? ", track: 1.6 m" : "", wheelbase_cm * 0.45 / 100,
      wheelbase_cm * d.pick(80, 120) / 1e4, wheelbase_cm * 0.6 / 100);
}

}  // namespace

void add_water(Draft& d) {
  const int cans = d.pick(0, 6);
  for (int i = 0; i < cans; ++i) {
    const int holds = d.pick(1, 90);
    const bool utility = d.one_in(2);
    const bool brackish = utility && d.one_in(3);
    (utility ? d.utility_can : d.drinking_can) = true;
    const string gauge = random_gauge(d, holds);
    d.text.containers.push_back(fmt::format(
        "{{name: can {}, holds: {} L, filled: {} L, for: {}, quality: {}, opened: {}{}{}}}", i,
        holds, holds * d.pick(0, 4) / 4.0, utility ? "utility" : "drinking",
        brackish ? "brackish" : "potable", d.one_in(3) ? "last" : "in order", d.in_vehicle("in"),
        gauge));
  }
  if (d.one_in(5)) return;
  d.text.utility_use = {
      fmt::format("cooking: {} L/day", d.pick(0, 30) / 10.0),
      fmt::format("shower: {{volume: {} L, every: {} days}}", d.pick(1, 9), d.pick(1, 5)),
      fmt::format("animals: {{volume: {} L, every: 1 day, for: party}}", d.pick(0, 5))};
}

void add_vehicles(Draft& d) {
  const int vehicles = d.pick(1, 3);
  for (int v = 0; v < vehicles; ++v) {
    const bool diesel = d.one_in(2);
    (diesel ? d.diesel : d.petrol) = true;
    string tanks;
    const int cans = d.pick(1, 4);
    for (int t = 0; t < cans; ++t) {
      const int holds = t == 0 ? d.pick(30, 140) : 20;
      const string gauge = random_gauge(d, holds);
      tanks += fmt::format("{}{{name: v{}t{}, holds: {} L, filled: {} L, unusable: {} L{}}}",
                           t == 0 ? "" : ", ", v, t, holds, holds * d.pick(0, 4) / 4.0,
                           d.pick(0, 4), gauge);
    }
    d.vehicles.push_back(fmt::format("v{}", v));
    const int empty_kg = d.pick(1200, 3500);
    const string chassis = random_chassis(d, empty_kg);
    d.text.vehicles.push_back(fmt::format(
        "{{name: v{}, fuel: {}, mass: {{empty: {} kg}}{}, tanks: [{}], idle: {} L/h{}{}}}", v,
        diesel ? "diesel" : "petrol", empty_kg, chassis, tanks, d.pick(0, 15) / 10.0,
        d.one_in(6) ? fmt::format(", trailer: {{mass: {} kg}}", d.pick(200, 1500)) : "",
        observed_use(d)));
  }
}

void add_batteries(Draft& d) {
  constexpr std::array kinds{"flooded", "agm", "lfp"};
  const int banks = d.pick(0, 2);
  for (int b = 0; b < banks; ++b) {
    const int cut_off = d.pick(0, 60);
    d.banks.push_back(fmt::format("bank {}", b));
    d.text.batteries.push_back(fmt::format(
        "{{name: bank {}, kind: {}, capacity: {} Ah, filled: {} %, floor: {} %, cut_off: {} %, "
        "voltage: {} V}}",
        b, kinds.at(static_cast<std::size_t>(d.pick(0, 2))), d.pick(20, 300), d.pick(0, 100),
        d.pick(cut_off, 90), cut_off, d.one_in(4) ? 24 : 12));
  }
}

void add_charging(Draft& d) {
  if (d.banks.empty()) return;
  if (d.one_in(2)) {
    d.text.charging.push_back(
        fmt::format("{{name: dc, current: {} A, on: {}}}", d.pick(5, 60), d.any(d.banks)));
  }
  if (d.one_in(2)) {
    d.text.charging.push_back(
        fmt::format("{{name: panel, solar: {} W, tilt: {}°, facing: {}°, on: {}}}", d.pick(20, 400),
                    d.pick(0, 60), d.pick(0, 359), d.any(d.banks)));
  }
  if (d.one_in(3)) {
    d.text.charging.push_back(
        fmt::format("{{name: lead, mains: {} A, on: {}}}", d.pick(2, 30), d.any(d.banks)));
  }
  if (d.one_in(3)) {
    d.text.charging.push_back(fmt::format(
        "{{name: generator, generator: {} W, fuel: {}, uses: {} L/h, runs: {} h/day, starts: "
        "\"{:02}:30\", on: {}{}}}",
        d.pick(300, 2000), d.diesel ? "diesel" : "petrol", d.pick(3, 15) / 10.0, d.pick(1, 4),
        d.pick(0, 23), d.any(d.banks),
        d.one_in(3) ? ", while: camp, quiet: {from: \"22:00\", to: \"07:00\"}" : ""));
  }
}

void add_loads(Draft& d) {
  if (d.banks.empty()) return;
  const int loads = d.pick(0, 5);
  for (int l = 0; l < loads; ++l) {
    constexpr std::array when{"always", "driving", "parked", "camp"};
    string what;
    switch (d.pick(0, 3)) {
      case 0:
        what = fmt::format("energy: {} Wh/day", d.pick(5, 400));
        break;
      case 1:
        what = fmt::format("draw: {} W, after_dark: {} h/day", d.pick(5, 60), d.pick(1, 9));
        break;
      case 2:
        what = fmt::format("draw: {} W, hours: {} h/day", d.pick(5, 60), d.pick(1, 9));
        break;
      default:
        what = fmt::format("draw: {} W, while: {}", d.pick(1, 30),
                           when.at(static_cast<std::size_t>(d.pick(0, 3))));
    }
    string shed;
    if (d.one_in(3)) shed = ", never_shed: yes";
    if (shed.empty() && d.one_in(2)) shed = fmt::format(", shed: {}", d.pick(1, 4));
    d.text.loads.push_back(
        fmt::format("{{name: load {}, {}{}, on: {}}}", l, what, shed, d.any(d.banks)));
  }
}

void add_cold(Draft& d) {
  const int cabinets = d.pick(0, 2);
  for (int c = 0; c < cabinets; ++c) {
    const string head = fmt::format("{{name: box {}, volume: {} L", c, d.pick(20, 60));
    if (d.banks.empty() || d.one_in(4)) {
      d.ice_box = true;
      d.text.cold.push_back(head + fmt::format(", ice: {} kg, heat_leak: {} W/K{}{}}}",
                                               d.pick(1, 20), d.pick(3, 12) / 10.0, lid_of(d),
                                               d.in_vehicle("in")));
      continue;
    }
    const int make = d.pick(0, 3);
    string inside;
    if (make == 1) inside = fmt::format(", frozen_below: {{barrier: {} W/K}}", d.pick(1, 9) / 10.0);
    if (make == 2) inside = fmt::format(", freezer: {{set_point: {} °C}}", d.pick(-20, -8));
    d.freezes = d.freezes || make != 0;
    inside += lid_of(d);
    d.text.cold.push_back(
        head + fmt::format(", set_point: {} °C, rated: {{draw: {} W, ambient: 32 °C, inside: 4 "
                           "°C}}{}, stands_in: {{above_ambient: {} °C, while: {}}}, on: {}{}}}",
                           make == 3 ? d.pick(-18, -6) : d.pick(1, 6), d.pick(6, 20), inside,
                           d.pick(0, 8), d.one_in(2) ? "driving" : "always", d.any(d.banks),
                           d.in_vehicle("in")));
  }
}

void add_food(Draft& d) {
  d.text.food.clear();
  const int items = d.pick(0, 5);
  for (int i = 0; i < items; ++i) {
    const int kind = d.pick(0, 2);
    const bool chilled = kind == 1 && !d.text.cold.empty();
    const bool frozen = kind == 2 && d.freezes;
    const char* kept = frozen ? "frozen" : chilled ? "chilled" : "dry";
    string more;
    if (d.one_in(2)) {
      more += fmt::format(", keeps: {{for: {} days, at: {} °C}}", d.pick(1, 20), d.pick(-2, 8));
    }
    if (d.one_in(3)) {
      constexpr std::array kinds{"raw mince", "raw meat", "cooked", "eggs", "vegetables"};
      more += fmt::format(", kind: {}", kinds.at(static_cast<std::size_t>(d.pick(0, 4))));
    }
    if (frozen) more += fmt::format(", from: {} °C", d.pick(-20, -2));
    if (chilled && d.one_in(3)) more += fmt::format(", from: {} °C", d.pick(-2, 30));
    if (!frozen && !chilled) more += d.in_vehicle("carried_by");
    if (d.one_in(5)) more += ", potentially_hazardous: no";
    const string amount = d.one_in(4) ? fmt::format("energy: {} MJ/kg", d.pick(3, 20))
                                      : fmt::format("meals: {}", d.pick(1, 60));
    d.text.food.push_back(fmt::format("{{item: food {}, kept: {}, mass: {} kg, water: {} %, {}{}}}",
                                      i, kept, d.pick(1, 12), d.pick(5, 90), amount, more));
  }
}

void add_consumables(Draft& d) {
  constexpr std::array units{"kg", "L", "doses"};
  constexpr std::array uses{"per_person_day", "per_meal", "per_day", "per_100km",
                            "per_engine_hour"};
  const int consumables = d.one_in(3) ? d.pick(1, 2) : 0;
  for (int c = 0; c < consumables; ++c) {
    const char* unit = units.at(static_cast<std::size_t>(d.pick(0, 2)));
    string stores;
    const int count = d.pick(1, 3);
    const bool fills = d.one_in(5);
    const bool is_cold = !fills && !d.text.cold.empty() && d.one_in(3);
    const string where = is_cold ? fmt::format(", cabinet: box {}",
                                               d.pick(0, static_cast<int>(d.text.cold.size()) - 1))
                                 : d.in_vehicle("in");
    for (int s = 0; s < count; ++s) {
      const int holds = d.pick(1, 20);
      stores += fmt::format("{}{{name: c{}s{}, holds: {} {}, filled: {} {}, empty_mass: {} kg{}}}",
                            s == 0 ? "" : ", ", c, s, holds, unit, holds * d.pick(0, 4) / 4.0, unit,
                            d.pick(0, 9), where);
    }
    const int first = d.pick(0, 4);
    string use = fmt::format("{}: {} {}", uses.at(static_cast<std::size_t>(first)),
                             d.pick(1, 40) / 20.0, unit);
    if (d.one_in(2)) {
      use += fmt::format(", {}: {} {}", uses.at(static_cast<std::size_t>((first + 1) % 5)),
                         d.pick(1, 40) / 20.0, unit);
    }
    if (d.one_in(3)) {
      use +=
          fmt::format(", doses: {{amount: {} {}, at: [\"08:00\", \"{:02}:30\"], every: {} days}}",
                      d.pick(1, 20) / 10.0, unit, d.pick(0, 23), d.pick(1, 4));
    }
    if (d.one_in(4)) {
      use += fmt::format(", in_heat: {{above: {} °C, per_degree_day: {} {}}}", d.pick(0, 40),
                         d.pick(1, 20) / 100.0, unit);
    }
    string more;
    if (fills) more += ", fills: yes";
    if (is_cold) {
      const int to_c = d.pick(7, 30);
      const int out_h = d.pick(0, 40);
      const string never = out_h % 2 == 0
                               ? fmt::format(", never_above: {} °C", std::min(to_c + out_h, 60))
                               : string();
      more += fmt::format(", keeps: {{to: {} °C, out_of_it: {} h{}}}", to_c, out_h, never);
    }
    if (d.one_in(2)) more += fmt::format(", margin: {} %", d.pick(1, 60));
    if (d.one_in(3)) more += ", matters: life";
    if (string(unit) != "kg" && d.one_in(2)) more += ", unit_mass: 0.8 kg";
    d.consumables.emplace_back(fmt::format("{}{}", fills ? "f" : "c", c), unit);
    d.text.consumables.push_back(
        fmt::format("{{name: {}{}, unit: {}, stores: [{}], use: {{{}}}{}}}", fills ? "f" : "c", c,
                    unit, stores, use, more));
  }
}

}  // namespace drystage::support
