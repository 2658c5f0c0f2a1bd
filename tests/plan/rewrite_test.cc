#include "plan/rewrite.h"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <stdexcept>
#include <string>

#include "plan/same_plan.h"
#include "plan_text.h"
#include "support/plan_text.h"

namespace drystage::plan {
namespace {

using support::PlanText;
using support::read_plan;

const std::string head =
    "drystage: 1\n"
    "trip: {title: A test, start: 2027-03-01, time_zone: \"+00:00\"}\n"
    "people:\n"
    "  - " +
    PlanText::person("Ada", "4 L/day") + "\n";
const std::string tail = "climate:\n  " + PlanText::steady_climate("air", 20) + "\nplaces:\n  " +
                         PlanText::place("Base", "air") +
                         "\nitinerary:\n  - {at: Base}\n  - stay: {nights: 5}\n";

using Change = std::function<void(Plan&)>;

std::string rewritten(const std::string& text, const Change& change) {
  const Plan before = read_plan(text);
  Plan after = before;
  change(after);
  const std::string made = rewrite(text, before, after);
  EXPECT_EQ(difference(read_plan(made), after), "");
  return made;
}

// The sections of a plan after a change; what stands before and after them must stay.
std::string sections_after(const std::string& sections, const Change& change) {
  const std::string made = rewritten(head + sections + tail, change);
  if (!made.starts_with(head) || !made.ends_with(tail)) return made;
  return made.substr(head.size(), made.size() - head.size() - tail.size());
}

Container can(const std::string& name, double holds_l) {
  return {.name = name, .holds_l = holds_l, .filled_l = holds_l, .empty_kg = 1.2};
}

template <class Thing>
void take_out(std::vector<Thing>& things, const std::string& name) {
  std::erase_if(things, [&](const Thing& thing) { return thing.name == name; });
}

template <class Thing>
Thing& named(std::vector<Thing>& things, const std::string& name) {
  return *std::find_if(things.begin(), things.end(),
                       [&](const Thing& thing) { return thing.name == name; });
}

TEST(Rewrite, LeavesAnUnchangedPlanAsItIs) {
  const std::string text = whole_plan();
  EXPECT_EQ(rewritten(text, [](Plan&) {}), text);
}

TEST(Rewrite, TakesCansOutAndPutsNewOnesIn) {
  const std::string cans =
      "water:\n"
      "  containers:     # in order of use\n"
      "    - {name: tank, holds: 90 L, filled: 90 L, for: utility}\n"
      "    # the cans\n"
      "    - {name: can 1, holds: 20 L, filled: 5 US gal,   # not full\n"
      "       empty_mass: 1.2 kg, at: 2.9 m}\n"
      "    - {name: can 2, holds: 20 L, filled: 20 L, for: drinking}   # old\n"
      "    # the last\n"
      "    - {name: spare, holds: 10 L, filled: 10 L, opened: last}\n"
      "  utility_use:\n"
      "    dishes: 1 L/day\n";
  EXPECT_EQ(sections_after(cans,
                           [](Plan& plan) {
                             auto& list = plan.water.containers;
                             list[1].filled_l = 20;
                             take_out(list, "can 2");
                             Container made = can("can 9", 20);
                             made.position_m = 2.9;
                             list.insert(list.begin() + 2, made);
                             list.push_back(can("can: 10", 10));
                           }),
            "water:\n"
            "  containers:     # in order of use\n"
            "    - {name: tank, holds: 90 L, filled: 90 L, for: utility}\n"
            "    # the cans\n"
            "    - {name: can 1, holds: 20 L, filled: 20 L,   # not full\n"
            "       empty_mass: 1.2 kg, at: 2.9 m}\n"
            "    - {name: can 9, holds: 20 L, filled: 20 L, empty_mass: 1.2 kg, at: 2.9 m}\n"
            "    # the last\n"
            "    - {name: spare, holds: 10 L, filled: 10 L, opened: last}\n"
            "    - {name: \"can: 10\", holds: 10 L, filled: 10 L, opened: in order, "
            "empty_mass: 1.2 kg}\n"
            "  utility_use:\n"
            "    dishes: 1 L/day\n");
}

TEST(Rewrite, TakesOutWhatWasMeasuredOfAnotherTank) {
  const std::string cans =
      "water:\n"
      "  containers:\n"
      "    - {name: tank, holds: 90 L, filled: 90 L, for: utility,   # under the bed\n"
      "       shape: {box: {length: 80 cm, width: 40 cm, height: 28 cm}}}   # from the maker\n"
      "    - {name: bin, shape: {lying_cylinder: {diameter: 26 cm, length: 38 cm}}, holds: 20 L,\n"
      "       filled: 20 L}\n"
      "    - name: tub\n"
      "      dip:            # with a wooden stick\n"
      "        5 cm: 9 L     # twice\n"
      "        # and once more\n"
      "        9 cm: 20 L\n"
      "      holds: 20 L     # brim\n"
      "      filled: 20 L\n"
      "    - dip: {5 cm: 9 L}\n"
      "      name: bag\n"
      "      holds: 20 L\n"
      "      filled: 20 L\n"
      "    - {name: can, holds: 20 L, filled: 20 L, dip: {5 cm: 9 L, 9 cm: 20 L}}\n";
  EXPECT_EQ(sections_after(cans,
                           [](Plan& plan) {
                             auto& list = plan.water.containers;
                             for (const char* name : {"tank", "bin", "tub", "bag"}) {
                               named(list, name).gauge = {};
                               named(list, name).holds_l = 100;
                             }
                             named(list, "can").filled_l = 10;
                             named(list, "tub").empty_kg = 2;
                           }),
            "water:\n"
            "  containers:\n"
            "    - {name: tank, holds: 100 L, filled: 90 L, for: utility   # under the bed\n"
            "       }   # from the maker\n"
            "    - {name: bin, holds: 100 L,\n"
            "       filled: 20 L}\n"
            "    - name: tub\n"
            "      holds: 100 L     # brim\n"
            "      filled: 20 L\n"
            "      empty_mass: 2 kg\n"
            "    - name: bag\n"
            "      holds: 100 L\n"
            "      filled: 20 L\n"
            "    - {name: can, holds: 20 L, filled: 10 L, dip: {5 cm: 9 L, 9 cm: 20 L}}\n");
}

TEST(Rewrite, RefusesToWriteAShapeOrMarksAnew) {
  const std::string text =
      head + "water: {containers: [{name: tub, holds: 20 L, filled: 9 L}]}\n" + tail;
  const Plan before = read_plan(text);
  Plan after = before;
  after.water.containers[0].gauge.marks = {{0.1, 10}};
  EXPECT_THROW((void)rewrite(text, before, after), std::logic_error);
}

TEST(Rewrite, WritesBlockItemsInBlockForm) {
  const std::string cans =
      "water:\n"
      "  containers:\n"
      "  - name: can 1\n"
      "    for: drinking       # boiled\n"
      "    holds: '20 L'\n"
      "    filled: 20 L\n"
      "\n"
      "  # the other\n"
      "  - name: can 2\n"
      "    holds: 20 L\n"
      "    filled: 20 L\n";
  EXPECT_EQ(sections_after(cans,
                           [](Plan& plan) {
                             auto& list = plan.water.containers;
                             list[0].holds_l = 22.5;
                             list[0].empty_kg = 1.25;
                             take_out(list, "can 2");
                             list.push_back(can("Čutora", 10));
                           }),
            "water:\n"
            "  containers:\n"
            "  - name: can 1\n"
            "    for: drinking       # boiled\n"
            "    holds: '22.5 L'\n"
            "    filled: 20 L\n"
            "    empty_mass: 1.25 kg\n"
            "  - name: Čutora\n"
            "    for: drinking\n"
            "    holds: 10 L\n"
            "    filled: 10 L\n"
            "    empty_mass: 1.2 kg\n"
            "\n"
            "  # the other\n");
}

TEST(Rewrite, BeginsListsThatWereNotThere) {
  const std::string line =
      "- {name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}\n";
  const Change add = [](Plan& plan) { plan.water.containers.push_back(can("can 1", 20)); };
  EXPECT_EQ(sections_after("", add), "water:\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water:\n", add), "water:\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water: {}\n", add),
            "water: {containers: [" + line.substr(2, line.size() - 3) + "]}\n");
  EXPECT_EQ(sections_after("water:\n  utility_use: {dishes: 0 L/day}   # none\n", add),
            "water:\n  utility_use: {dishes: 0 L/day}   # none\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water:\n  containers: []   # none yet\n", add),
            "water:\n  containers:   # none yet\n    " + line);
}

TEST(Rewrite, PutsFoodAfterTheSectionsItGoesWith) {
  const Change add = [](Plan& plan) {
    plan.food.push_back({.name = "rice",
                         .mass_kg = 3.6,
                         .meals = 12,
                         .water_fraction = 0.1,
                         .potentially_hazardous = false});
  };
  const std::string food = "food:\n  - {item: rice, kept: dry, mass: 3.6 kg, meals: 12}\n";
  EXPECT_EQ(sections_after("cold: []\n\n", add), "cold: []\n\n" + food + "\n");
  EXPECT_EQ(sections_after("cold: []\n# no food\nfood:   # yet\n", add),
            "cold: []\n# no food\nfood:   # yet\n  - {item: rice, kept: dry, mass: 3.6 kg, meals: "
            "12}\n");
  EXPECT_EQ(sections_after("food: [{item: 'oats', meals: 5, kept: dry}]\n", add),
            "food: [{item: 'oats', meals: 5, kept: dry}, {item: rice, meals: 12, kept: dry, mass: "
            "3.6 kg}]\n");
}

TEST(Rewrite, ChangesFoodByMealsAndMass) {
  EXPECT_EQ(sections_after("food:\n"
                           "  - {item: rice, kept: dry, meals: 12 meals}   # rice\n"
                           "  - {item: oats, kept: dry, meals: 7, mass: 2 lb}   # oats\n"
                           "  - item: bread\n"
                           "    kept: dry\n"
                           "    energy: 9 MJ/kg   # as packed\n"
                           "    mass: 4 kg\n",
                           [](Plan& plan) {
                             plan.food[0].meals = 24;
                             plan.food[0].mass_kg = 7.2;
                             take_out(plan.food, "oats");
                             named(plan.food, "bread").mass_kg = 0.1 + 0.2;
                           }),
            "food:\n"
            "  - {item: rice, kept: dry, meals: 24 meals, mass: 7.2 kg}   # rice\n"
            "  - item: bread\n"
            "    kept: dry\n"
            "    energy: 9 MJ/kg   # as packed\n"
            "    mass: 0.30000000000000004 kg\n");
}

const std::string truck =
    "vehicles:\n"
    "  - name: truck\n"
    "    fuel: diesel\n"
    "    tanks: [{name: tank, holds: 80 L, filled: 80 L, unusable: 4 L}]  # one\n"
    "    mass: {empty: 2500 kg}\n";

TEST(Rewrite, ChangesTheTanksOfAVehicle) {
  const std::string before = truck;
  const std::string made = sections_after(before, [](Plan& plan) {
    Tank& tank = plan.vehicles[0].tanks[0];
    tank.holds_l = tank.filled_l = 110;
    tank.empty_kg = 9;
    for (int i = 1; i <= 2; ++i) {
      plan.vehicles[0].tanks.push_back(
          {.name = fmt::format("jerry {}", i), .holds_l = 20, .filled_l = 20, .empty_kg = 4.5});
    }
  });
  EXPECT_EQ(
      made,
      "vehicles:\n"
      "  - name: truck\n"
      "    fuel: diesel\n"
      "    tanks: [{name: tank, holds: 110 L, filled: 110 L, unusable: 4 L, empty_mass: 9 kg},\n"
      "            {name: jerry 1, holds: 20 L, filled: 20 L, unusable: 0 L, empty_mass: 4.5 "
      "kg},\n"
      "            {name: jerry 2, holds: 20 L, filled: 20 L, unusable: 0 L, empty_mass: 4.5 "
      "kg}]  # one\n"
      "    mass: {empty: 2500 kg}\n");
  EXPECT_EQ(sections_after(made,
                           [](Plan& plan) {
                             take_out(plan.vehicles[0].tanks, "jerry 1");
                             take_out(plan.vehicles[0].tanks, "jerry 2");
                             Tank& tank = plan.vehicles[0].tanks[0];
                             tank.holds_l = tank.filled_l = 80;
                           }),
            "vehicles:\n"
            "  - name: truck\n"
            "    fuel: diesel\n"
            "    tanks: [{name: tank, holds: 80 L, filled: 80 L, unusable: 4 L, empty_mass: 9 kg}\n"
            "            ]  # one\n"
            "    mass: {empty: 2500 kg}\n");
}

TEST(Rewrite, ChangesABatteryAndWhatItsKindBringsWithIt) {
  const std::string bank =
      "power:\n"
      "  batteries:\n"
      "    - {name: b, kind: agm, capacity: 100 Ah, filled: 90 Ah}   # at home\n";
  EXPECT_EQ(
      sections_after(bank,
                     [](Plan& plan) {
                       Bank& b = plan.power.banks[0];
                       b.kind = BatteryKind::lfp;
                       b.capacity_ah = 75;
                       b.mass_kg = 12;
                       b.floor = 0.2;
                       b.cut_off = 0.1;
                       b.filled = 1;
                     }),
      "power:\n"
      "  batteries:\n"
      "    - {name: b, kind: lfp, capacity: 75 Ah, filled: 100 %, mass: 12 kg}   # at home\n");
  // The share that is in it stays, and so do the levels, if that is what the changed plan has.
  EXPECT_EQ(sections_after(bank,
                           [](Plan& plan) {
                             plan.power.banks[0].kind = BatteryKind::lfp;
                             plan.power.banks[0].capacity_ah = 200;
                           }),
            "power:\n"
            "  batteries:\n"
            "    - {name: b, kind: lfp, capacity: 200 Ah, filled: 90 %, floor: 50 %, cut_off: 40 "
            "%}   # at home\n");
  EXPECT_EQ(sections_after("power:\n  batteries: [{name: b, kind: agm, capacity: 9 Ah, floor: "
                           "55 %, cut_off: 50 %}]\n",
                           [](Plan& plan) {
                             plan.power.banks[0].floor = 0.35;
                             plan.power.banks[0].cut_off = 1.0 / 3;
                           }),
            "power:\n  batteries: [{name: b, kind: agm, capacity: 9 Ah, floor: 35 %, cut_off: "
            "33.33333333333333 %}]\n");
}

TEST(Rewrite, ChangesAndAddsPanels) {
  const std::string batteries =
      "power:\n"
      "  batteries:\n"
      "    - {name: camp battery, kind: agm, capacity: 100 Ah}\n"
      "    - {name: \"#2\", kind: agm, capacity: 100 Ah}\n";
  const Charger panel{
      .name = "new panel", .kind = ChargerKind::solar, .bank = 1, .power_w = 160, .mass_kg = 11};
  const Change add = [&](Plan& plan) { plan.power.chargers.push_back(panel); };
  EXPECT_EQ(sections_after(batteries, add),
            batteries +
                "  charging:\n    - {name: new panel, solar: 160 W, mass: 11 kg, on: "
                "\"#2\"}\n");
  EXPECT_EQ(sections_after(batteries + "  charging:  # none\n  loads: []\n", add),
            batteries +
                "  charging:  # none\n    - {name: new panel, solar: 160 W, mass: 11 kg, "
                "on: \"#2\"}\n  loads: []\n");
  EXPECT_EQ(sections_after(batteries + "  charging:\n"
                                       "    - {name: dc, mains: 20 A}\n"
                                       "    - {name: roof, solar: 100 W, tilt: 20°, facing: "
                                       "south}   # flat in summer\n"
                                       "  loads: []\n",
                           [&](Plan& plan) {
                             plan.power.chargers[1].power_w = 240;
                             plan.power.chargers[1].mass_kg = 14.5;
                             add(plan);
                           }),
            batteries +
                "  charging:\n"
                "    - {name: dc, mains: 20 A}\n"
                "    - {name: roof, solar: 240 W, tilt: 20°, facing: south, mass: 14.5 "
                "kg}   # flat in summer\n"
                "    - {name: new panel, solar: 160 W, tilt: 0°, mass: 11 kg, on: \"#2\"}\n"
                "  loads: []\n");
}

TEST(Rewrite, ChangesACabinet) {
  const std::string batteries =
      "power: {batteries: [{name: b, kind: agm, capacity: 100 Ah, voltage: 24 V}]}\n";
  EXPECT_EQ(
      sections_after(batteries + "cold:\n"
                                 "  - name: chest\n"
                                 "    volume: 45 L   # inside\n"
                                 "    set_point: 3 °C\n"
                                 "    rated:\n"
                                 "      draw: 0.9 A   # on the plate\n"
                                 "      ambient: 32 °C\n"
                                 "      inside: 4 °C\n"
                                 "    running: 40 W\n"
                                 "  - {name: other, volume: 20 L, set_point: 3 °C, running: 50 W,\n"
                                 "     rated: {draw: 9 W, ambient: 32 °C, inside: 4 °C}}\n"
                                 "  - {name: box, volume: 30 L, ice: 8 kg, heat_leak: 0.6 W/K}\n",
                     [](Plan& plan) {
                       plan.cold[0].volume_l = 50;
                       plan.cold[0].rated_draw_w = 24;
                       plan.cold[0].running_w = 55;
                       plan.cold[0].mass_kg = 18;
                       plan.cold[1].running_w.reset();
                       plan.cold[1].heat_leak_w_k = 0.75;
                       plan.cold[2].volume_l = 40;
                       plan.cold[2].heat_leak_w_k = 0.7;
                     }),
      batteries +
          "cold:\n"
          "  - name: chest\n"
          "    volume: 50 L   # inside\n"
          "    set_point: 3 °C\n"
          "    rated:\n"
          "      draw: 24 W   # on the plate\n"
          "      ambient: 32 °C\n"
          "      inside: 4 °C\n"
          "    running: 55 W\n"
          "    mass: 18 kg\n"
          "  - {name: other, volume: 20 L, set_point: 3 °C,\n"
          "     rated: {draw: 9 W, ambient: 32 °C, inside: 4 °C}, heat_leak: 0.75 W/K}\n"
          "  - {name: box, volume: 40 L, ice: 8 kg, heat_leak: 0.7 W/K}\n");
}

TEST(Rewrite, KeepsLineEndsAndTheByteOrderMark) {
  std::string text = "\xEF\xBB\xBF" + head +
                     "water:\n  containers:\n    - {name: á, holds: 20 L, filled: 20 L}  # ü\n" +
                     tail;
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 2)) {
    text.insert(at, "\r");
  }
  const std::string made = rewritten(text, [](Plan& plan) {
    plan.water.containers[0].filled_l = 19;
    plan.water.containers.push_back(can("b", 5));
  });
  const std::size_t at = text.find("    - {name: á");
  const std::size_t end = text.find("climate:");
  EXPECT_EQ(made, text.substr(0, at) +
                      "    - {name: á, holds: 20 L, filled: 19 L}  # ü\r\n"
                      "    - {name: b, holds: 5 L, filled: 5 L, empty_mass: 1.2 kg}\r\n" +
                      text.substr(end));
}

TEST(Rewrite, ChangesAPlanThatIsOneMapInBraces) {
  const std::string text =
      "{drystage: 1, trip: {title: A test, start: 2027-03-01, time_zone: \"+00:00\"},\n"
      " people: [" +
      PlanText::person("Ada", "4 L/day") +
      "], # one\n"
      " climate: {" +
      PlanText::steady_climate("air", 20) +
      "},\n"
      " places: {" +
      PlanText::place("Base", "air") +
      "},\n"
      " itinerary: [{at: Base}, {stay: {nights: 5}}]}";
  const std::string made = rewritten(text, [](Plan& plan) {
    plan.water.containers.push_back(can("can", 20));
    plan.food.push_back(
        {.name = "rice", .meals = 12, .water_fraction = 0.1, .potentially_hazardous = false});
  });
  EXPECT_TRUE(made.starts_with(text.substr(0, text.size() - 1))) << made;
}

TEST(Rewrite, RefusesAChangeThatItDoesNotWrite) {
  const std::string text = head + truck + tail;
  const Plan before = read_plan(text);
  const auto refused = [&](const Change& change) {
    Plan after = before;
    change(after);
    EXPECT_THROW((void)rewrite(text, before, after), std::logic_error);
  };
  refused([](Plan& plan) { plan.power.banks.emplace_back(); });
  refused([](Plan& plan) { plan.vehicles[0].tanks[0].unusable_l = 7; });
  refused([](Plan& plan) { plan.vehicles[0].tanks.clear(); });
  refused([](Plan& plan) { plan.vehicles[0].tanks[0].filled_l = 81; });
  refused([](Plan& plan) { plan.vehicles.clear(); });
  refused([](Plan& plan) { plan.cold.emplace_back(); });
  Plan after = before;
  after.vehicles[0].tanks[0].filled_l = 7;
  EXPECT_THROW((void)rewrite(head + tail, before, after), std::logic_error);
  EXPECT_THROW((void)rewrite("a: [", before, after), std::logic_error);
}

TEST(SamePlan, SeesWhatDiffersBesidesTheLists) {
  const auto besides = [](const std::string& a, const std::string& b) {
    Log log;
    return same_besides(*parse_tree(a, {}, log), *parse_tree(b, {}, log));
  };
  EXPECT_TRUE(
      besides("food: [a]\npower: {batteries: [b]}\n", "cold: [c]\nwater: {containers: []}\n"));
  EXPECT_TRUE(besides("vehicles: [{name: v, tanks: [a]}]\n", "vehicles: [{name: v, tanks: []}]\n"));
  EXPECT_FALSE(besides("vehicles: [{name: v}]\n", "vehicles: [{name: w}]\n"));
  EXPECT_FALSE(besides("power: {loads: [b]}\n", "power: {loads: []}\n"));
  EXPECT_FALSE(besides("trip: 1\n", "trip: '2'\n"));
}

}  // namespace
}  // namespace drystage::plan
