// Room to write in.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "report/card/pieces.h"
#include "support/overlaps.h"

namespace drystage {
namespace {

using drawing::Block;
using ::testing::IsEmpty;

constexpr double least_height_pt = 8 * drawing::points_per_mm;

/// The lines to write on, from left to right and from above.
std::vector<drawing::Shape> lines_of(const Block& block) {
  std::vector<drawing::Shape> out;
  for (const drawing::Mark& mark : block.marks) {
    if (const auto* shape = std::get_if<drawing::Shape>(&mark)) out.push_back(*shape);
  }
  return out;
}

/// How much room is above a line: up to the words or the line over it.
double room_above(const drawing::Typesetter& typesetter, const Block& block,
                  const drawing::Shape& line) {
  const double y = line.points[0].y;
  double above = 0;
  for (const drawing::Mark& mark : block.marks) {
    drawing::Rect other;
    if (const auto* text = std::get_if<drawing::Text>(&mark)) {
      other = ink_box(typesetter, *text);
    } else {
      const auto& shape = std::get<drawing::Shape>(mark);
      other = {.x = shape.points[0].x,
               .y = shape.points[0].y,
               .width = shape.points[1].x - shape.points[0].x,
               .height = 0};
    }
    const bool over = other.x < line.points[1].x && other.right() > line.points[0].x;
    if (over && other.bottom() < y) above = std::max(above, other.bottom());
  }
  return y - above;
}

TEST(Blanks, AreHighEnoughToWriteIn) {
  const drawing::Typesetter typesetter;
  for (const double width : {525.0, 555.0}) {
    const std::vector<Block> blocks = report::blank_blocks(
        typesetter,
        {"One", "Another that is much longer than can stand on one line of half a sheet", "Notes"},
        width);
    std::size_t lines = 0;
    for (const Block& block : blocks) {
      EXPECT_THAT(support::faults(typesetter, block, width), IsEmpty());
      for (const drawing::Shape& line : lines_of(block)) {
        EXPECT_GE(room_above(typesetter, block, line), least_height_pt);
        EXPECT_GE(line.points[1].x - line.points[0].x, 200);
        ++lines;
      }
    }
    EXPECT_EQ(lines, 3U);
    EXPECT_EQ(blocks.size(), 2U);
  }
}

TEST(Blanks, WithANameLeaveRoomBesideTheirWords) {
  const drawing::Typesetter typesetter;
  for (const double width : {525.0, 555.0}) {
    for (const std::string& name : {std::string("Ada"), std::string(60, 'W')}) {
      const Block block = report::named_blanks(typesetter, name, {"telephone", "medical"}, width);
      EXPECT_THAT(support::faults(typesetter, block, width), IsEmpty());
      const std::vector<drawing::Shape> lines = lines_of(block);
      ASSERT_EQ(lines.size(), 2U);
      for (const drawing::Shape& line : lines) {
        EXPECT_GE(room_above(typesetter, block, line), least_height_pt);
        EXPECT_GE(line.points[1].x - line.points[0].x, 120);
      }
    }
  }
}

}  // namespace
}  // namespace drystage
