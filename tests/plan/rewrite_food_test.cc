// Food, written into the text of a plan.
#include <gtest/gtest.h>

#include "support/rewritten.h"

namespace drystage::plan {
namespace {

using support::Change;
using support::named;
using support::sections_after;
using support::take_out;

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

}  // namespace
}  // namespace drystage::plan
