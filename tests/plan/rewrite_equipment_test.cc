// Batteries, panels and cabinets, written into the text of a plan.
#include <gtest/gtest.h>

#include <string>

#include "support/rewritten.h"

namespace drystage::plan {
namespace {

using support::Change;
using support::sections_after;

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
  Charger panel = solar_panel("new panel", 1, 160);
  panel.mass_kg = 11;
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

}  // namespace
}  // namespace drystage::plan
