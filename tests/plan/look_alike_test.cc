#include "plan/look_alike.h"

#include <gtest/gtest.h>

namespace drystage::plan {
namespace {

TEST(LookAlike, AreNamesThatAReaderCannotTellApart) {
  EXPECT_TRUE(look_alike("can 1", "can\u200B 1"));  // zero width
  EXPECT_TRUE(look_alike("can 1", "can 1\uFEFF"));
  EXPECT_TRUE(look_alike("Oru", "\u041Eru"));  // Cyrillic capital O
  EXPECT_TRUE(look_alike("pace", "\u0440\u0430\u0441\u0435"));
  EXPECT_TRUE(look_alike("Camp", "camp"));
  EXPECT_TRUE(
      look_alike("\u0423\u0444\u0430", "\u0423\u0424\u0410"));  // capitals of another script
  EXPECT_TRUE(look_alike("can 1", "can l"));
  EXPECT_TRUE(look_alike("can 10", "can 1O"));
  EXPECT_TRUE(look_alike("south-east", "south\u2013east"));
  EXPECT_TRUE(look_alike("", "\u200B"));
}

TEST(LookAlike, AreNotNamesThatDifferToTheEye) {
  EXPECT_FALSE(look_alike("can 1", "can 2"));
  EXPECT_FALSE(look_alike("can 1", "can 11"));
  EXPECT_FALSE(look_alike("can", "cane"));
  EXPECT_FALSE(look_alike("Oru", "Oru East"));
  EXPECT_FALSE(look_alike("\u0423\u0444\u0430", "\u0423\u0445\u0430"));
}

}  // namespace
}  // namespace drystage::plan
