#include "drawing/table.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace drystage::drawing {
namespace {

std::vector<Text> texts(const Block& block) {
  std::vector<Text> out;
  for (const Mark& mark : block.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) out.push_back(*text);
  }
  return out;
}

TEST(Table, CellsOfAColumnStandBelowItsHead) {
  const Typesetter typesetter;
  Table table(typesetter, 300, {{.heading = "container"}, {.heading = "L", .align = Align::right}});
  table.add({"can 1", "20"});
  table.add({"body tank", "110"});
  const auto head = texts(table.heading().front());
  for (const Block& row : table.rows()) {
    const auto cells = texts(row);
    ASSERT_EQ(cells.size(), 2U);
    for (std::size_t c = 0; c < 2; ++c) {
      EXPECT_DOUBLE_EQ(cells[c].box.x, head[c].box.x);
      EXPECT_DOUBLE_EQ(cells[c].box.width, head[c].box.width);
    }
    EXPECT_EQ(cells[1].align, Align::right);
  }
}

TEST(Table, AGroupStandsOnceAboveItsColumns) {
  const Typesetter typesetter;
  const Font large{.size_pt = 11};
  Table table(typesetter, 300,
              {{.heading = "camp"},
               {.heading = "on", .group = "water", .font = large},
               {.heading = "back", .group = "water", .font = large},
               {.heading = "on", .group = "fuel", .font = large}});
  table.add({"Imrel Bore", "50", "26", "138"});
  const std::vector<Block> heading = table.heading();
  ASSERT_EQ(heading.size(), 2U);
  const auto groups = texts(heading[0]);
  const auto heads = texts(heading[1]);
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].words, "water");
  EXPECT_DOUBLE_EQ(groups[0].box.x, heads[1].box.x);
  EXPECT_DOUBLE_EQ(groups[0].box.right(), heads[2].box.right());
  EXPECT_EQ(groups[1].words, "fuel");
  EXPECT_DOUBLE_EQ(groups[1].box.x, heads[3].box.x);
  // Columns may have type of their own, their heads have that of the table.
  const auto cells = texts(table.rows().front());
  EXPECT_EQ(cells[0].font, Font{});
  EXPECT_EQ(cells[1].font, large);
  EXPECT_EQ(heads[1].font.size_pt, Font{}.size_pt);
}

TEST(Table, WhereThereIsRoomNothingIsBroken) {
  const Typesetter typesetter;
  Table table(typesetter, 300, {{.heading = "what"}, {.heading = "where"}});
  table.add({"rice and flatbread", "in the rear left box"});
  for (const Text& text : texts(table.rows().front())) {
    EXPECT_EQ(typesetter.lines(text.words, text.font, text.box.width).size(), 1U);
  }
}

TEST(Table, GoesOverTheWholeWidth) {
  const Typesetter typesetter;
  Table table(typesetter, 300, {{.heading = "what"}, {.heading = "L", .align = Align::right}});
  table.add({"rice", "5"});
  for (const Block& row : table.rows()) {
    EXPECT_NEAR(texts(row).back().box.right(), 300, 4) << "but for the edge of the cell";
  }
}

TEST(Table, InANarrowColumnWordsAreBrokenAndNothingLeavesTheTable) {
  const Typesetter typesetter;
  for (const double width : {300.0, 120.0, 60.0}) {
    Table table(typesetter, width, {{.heading = "day"}, {.heading = "what"}, {.heading = "L"}});
    table.add(
        {"1", "a sentence that does not fit on one line of any of these tables, by far", "5"});
    table.add({"2", "averyveryveryverylongwordwithoutanyplacetobreakit", "20"});
    double right = 0;
    for (const Block& row : table.rows()) {
      double before = 0;
      for (const Text& text : texts(row)) {
        const Rect box = ink_box(typesetter, text);
        EXPECT_GE(box.x, before);
        EXPECT_LE(box.bottom(), row.height_pt);
        before = box.right();
      }
      right = std::max(right, before);
    }
    EXPECT_LE(right, width);
  }
}

}  // namespace
}  // namespace drystage::drawing
