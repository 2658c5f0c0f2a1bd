#include "drawing/page.h"

#include <gtest/gtest.h>

namespace drystage::drawing {
namespace {

TEST(Page, AMarkElsewhereIsTheSameMark) {
  const Text text{.words = "water", .box = {.x = 1, .y = 2, .width = 30, .height = 12}};
  const auto there = std::get<Text>(moved(text, 10, 20));
  EXPECT_EQ(there.words, "water");
  EXPECT_EQ(there.box.x, 11);
  EXPECT_EQ(there.box.y, 22);
  EXPECT_EQ(there.box.width, 30);
  EXPECT_EQ(there.box.height, 12);
}

TEST(Page, AnOutlineGoesRoundItsBoxAndIsClosed) {
  const auto shape =
      std::get<Shape>(moved(outline({.x = 1, .y = 2, .width = 3, .height = 4}), 10, 20));
  ASSERT_EQ(shape.points.size(), 4U);
  EXPECT_TRUE(shape.closed);
  EXPECT_EQ(shape.points[0].x, 11);
  EXPECT_EQ(shape.points[0].y, 22);
  EXPECT_EQ(shape.points[2].x, 14);
  EXPECT_EQ(shape.points[2].y, 26);
}

// ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch: 595.28 x 841.89 and 612 x 792.
TEST(Page, PaperHasTheSizesOfTheStandards) {
  EXPECT_NEAR(a4.width_pt, 595.28, 0.005);
  EXPECT_NEAR(a4.height_pt, 841.89, 0.005);
  EXPECT_EQ(letter.width_pt, 612);
  EXPECT_EQ(letter.height_pt, 792);
}

}  // namespace
}  // namespace drystage::drawing
