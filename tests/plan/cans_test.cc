#include "plan/cans.h"

#include <gtest/gtest.h>

namespace drystage::plan {
namespace {

TEST(Cans, AreCalledSoInAWholeWord) {
  for (const char* name :
       {"can", "can 1", "Can 12", "cans", "jerry", "jerry can", "Jerrycan 3", "jerrycans", "can1",
        "diesel can", "petrol-can", "JERRY", "can, red", "wash can", "vulcan can"}) {
    EXPECT_TRUE(is_called_can(name)) << name;
  }
}

TEST(Cans, AreNotCalledSoInsideAnotherWord) {
  for (const char* name : {"", "main tank", "scanner", "canister", "vulcan", "canvas bag",
                           "American tank", "candle", "jerrybuilt tank", "pecan"}) {
    EXPECT_FALSE(is_called_can(name)) << name;
  }
}

Tank tank(const char* name, double holds_l, double empty_kg) {
  Tank out;
  out.name = name;
  out.holds_l = holds_l;
  out.empty_kg = empty_kg;
  return out;
}

TEST(Cans, OfFuelAreThoseWithAMassOfTheirOwnOrTheName) {
  EXPECT_TRUE(is_can(tank("spare", 20, 4)));
  EXPECT_TRUE(is_can(tank("jerry 1", 20, 0)));
  EXPECT_FALSE(is_can(tank("main tank", 90, 0)));
  // How much it holds says nothing: a little tank on a motorcycle is fitted.
  EXPECT_FALSE(is_can(tank("reserve tank", 10, 0)));
}

Container container(const char* name, double holds_l, double empty_kg) {
  Container out;
  out.name = name;
  out.holds_l = holds_l;
  out.empty_kg = empty_kg;
  return out;
}

TEST(Cans, OfWaterAreThoseThatOnePersonLiftsOrTheName) {
  EXPECT_TRUE(is_can(container("blue one", 20, 1.2)));
  EXPECT_TRUE(is_can(container("blue one", 30, 0)));
  EXPECT_FALSE(is_can(container("blue one", 30.5, 1.2)));
  EXPECT_FALSE(is_can(container("body tank", 110, 9)));
  EXPECT_TRUE(is_can(container("big can", 60, 3)));
}

}  // namespace
}  // namespace drystage::plan
