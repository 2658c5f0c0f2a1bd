// Water containers and fuel tanks, written into the text of a plan.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include "plan/rewrite.h"
#include "support/plan_text.h"
#include "support/rewritten.h"

namespace drystage::plan::rewrite_vessels_test {
namespace {

using support::can;
using support::named;
using support::one_truck;
using support::plan_around;
using support::read_plan;
using support::sections_after;
using support::take_out;

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
                             made.spot.at_m = 2.9;
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
      plan_around("water: {containers: [{name: tub, holds: 20 L, filled: 9 L}]}\n");
  const Plan before = read_plan(text);
  Plan after = before;
  after.water.containers[0].gauge.marks = {{0.1, 10}};
  EXPECT_THROW((void)rewrite(text, before, after), std::logic_error);
}

TEST(Rewrite, ChangesTheTanksOfAVehicle) {
  const std::string made = sections_after(one_truck(), [](Plan& plan) {
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

}  // namespace
}  // namespace drystage::plan::rewrite_vessels_test
