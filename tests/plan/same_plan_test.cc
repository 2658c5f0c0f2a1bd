// What must be the same in two texts of a plan, one of which was written from the other.
#include "plan/same_plan.h"

#include <gtest/gtest.h>

#include <string>

#include "plan/log.h"
#include "plan/tree.h"

namespace drystage::plan {
namespace {

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
