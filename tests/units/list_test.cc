#include "units/list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace drystage::units {
namespace {

using ::testing::ElementsAre;

TEST(List, IsJoinedWithCommasAndAnotherLastOne) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"a"}, " or "), "a");
  EXPECT_EQ(listed({"a", "b"}, " or "), "a or b");
  EXPECT_EQ(listed({"a", "b", "c"}, " or "), "a, b or c");
  EXPECT_EQ(listed({"a", "b", "c"}, {}, "; "), "a; b; c");
}

TEST(List, GrowsByOneItem) {
  std::string list;
  add_to(list, "a");
  add_to(list, "b", " and ");
  EXPECT_EQ(list, "a and b");
}

TEST(List, KeepsAnItemThatIsAPartOfAnother) {
  EXPECT_THAT(each_once({"diesel at Oru East", "diesel at Oru", "diesel at Oru East"}),
              ElementsAre("diesel at Oru East", "diesel at Oru"));
}

}  // namespace
}  // namespace drystage::units
