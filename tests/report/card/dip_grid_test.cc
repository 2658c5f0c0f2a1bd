// What a dipstick shows, as a table on paper.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/dip_tables.h"
#include "support/card_pages.h"
#include "support/overlaps.h"

namespace drystage {
namespace {

using answers::DipRow;
using answers::DipTable;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using units::System;

/// A tank of 60 cm by 50 cm, 30 cm high: 3 L for each cm.
DipTable box(double unusable_l = 5) {
  DipTable table{.name = "main tank",
                 .vehicle = "truck",
                 .contents = "diesel",
                 .holds_l = 90,
                 .unusable_l = unusable_l,
                 .ends_full = true};
  for (int cm = 1; cm <= 30; ++cm) {
    table.rows.push_back({.depth_cm = static_cast<double>(cm),
                          .volume_l = 3.0 * cm,
                          .usable_l = std::max(0.0, 3.0 * cm - unusable_l)});
  }
  return table;
}

TEST(DipGrid, HasDepthVolumeAndWhatOfItCanBeUsed) {
  EXPECT_THAT(report::dip_heads(box(), System::metric), ElementsAre("cm", "L", "usable L"));
  EXPECT_THAT(report::dip_figures(box(), box().rows[9], System::metric),
              ElementsAre("10", "30.0", "25.0"));
  EXPECT_THAT(report::dip_figures(box(), box().rows[0], System::metric),
              ElementsAre("1", "3.0", "0.0"));
  EXPECT_THAT(report::dip_heads(box(0), System::metric), ElementsAre("cm", "L"));
}

TEST(DipGrid, RoundsDepthsUpAndVolumesDown) {
  const DipRow row{.depth_cm = 12.34, .volume_l = 45.678};
  EXPECT_THAT(report::dip_figures(box(0), row, System::metric), ElementsAre("12.4", "45.6"));
  // 12.34 cm are 4.858 in; 45.678 L are 12.067 US gal and 10.048 imp gal.
  EXPECT_THAT(report::dip_heads(box(0), System::us), ElementsAre("in", "L", "US gal"));
  EXPECT_THAT(report::dip_figures(box(0), row, System::us), ElementsAre("4.86", "45.6", "12.0"));
  EXPECT_THAT(report::dip_figures(box(0), row, System::imperial),
              ElementsAre("4.86", "45.6", "10.0"));
}

TEST(DipGrid, HasSomeDepthsInALineWithTheHighestRoundedDownToWholeLitres) {
  DipTable table = box();
  table.unusable_depth_cm = 5.0 / 3;
  EXPECT_EQ(
      support::with_plain_blanks(report::dip_line(table, System::metric)),
      "Main tank of truck, diesel, usable litres (5 L already taken off): 3 cm 4 L, 6 cm 13 L, 9 "
      "cm 22 L, 12 cm 31 L, 15 cm 40 L, 18 cm 49 L, 21 cm 58 L, 24 cm 67 L, 27 cm 76 L, 30 cm 85 "
      "L; nothing usable at 1.7 cm.");
  table.rows = {{.depth_cm = 12.34, .volume_l = 45.678, .usable_l = 40.678}};
  EXPECT_EQ(support::with_plain_blanks(report::dip_line(table, System::us)),
            "Main tank of truck, diesel, usable gallons (1.4 US gal already taken off): 4.86 in 10 "
            "US gal; nothing usable at 0.66 in.");
}

TEST(DipGrid, IsMadeForTheStickThatIsThere) {
  EXPECT_EQ(report::stick_marks(System::metric), answers::StickMarks::centimetres);
  EXPECT_EQ(report::stick_marks(System::us), answers::StickMarks::inches);
  EXPECT_EQ(report::stick_marks(System::imperial), answers::StickMarks::inches);
}

TEST(DipGrid, SaysWhatTheVesselIs) {
  EXPECT_EQ(report::dip_title(box(), System::metric),
            "Main tank of truck, diesel: holds 90 L, by its shape");
  DipTable can = box();
  can.measured = true;
  can.vehicle.clear();
  EXPECT_EQ(report::dip_title(can, System::us),
            "Main tank, diesel: holds 23.7 US gal, by your own marks (bold)");
}

TEST(DipGrid, SaysWhatCannotBeReadOffIt) {
  EXPECT_EQ(report::dip_notes(box(0), System::metric), "");
  DipTable table = box();
  table.unusable_depth_cm = 1.667;
  EXPECT_EQ(report::dip_notes(table, System::metric),
            "5 L in it cannot be used: at 1.7 cm or less nothing usable is left.");
  table = box(0);
  table.below_stick_l = 2.01;
  EXPECT_EQ(report::dip_notes(table, System::metric),
            "A dry stick says only that there is no more than 2.1 L.");
  table.below_stick_l = 0;
  table.ends_full = false;
  EXPECT_EQ(report::dip_notes(table, System::metric),
            "Above 30 cm count no more than stands there.");
}

TEST(DipGrid, SetsOwnMarksInBold) {
  const drawing::Typesetter typesetter;
  DipTable table = box(0);
  table.rows[4].own_mark = true;
  const drawing::Block block = report::dip_block(typesetter, table, 525, System::metric);
  std::vector<std::string> bold;
  for (const drawing::Mark& mark : block.marks) {
    const auto* text = std::get_if<drawing::Text>(&mark);
    if (text != nullptr && text->font.bold) bold.push_back(text->words);
  }
  EXPECT_THAT(bold, ::testing::IsSupersetOf({"5", "15.0"}));
  EXPECT_THAT(bold, ::testing::Not(::testing::Contains("18.0")));
}

TEST(DipGrid, IsReadDownAndThenToTheRightWithinAnyWidth) {
  const drawing::Typesetter typesetter;
  for (const double width : {100.0, 254.0, 525.0}) {
    const drawing::Block block = report::dip_block(typesetter, box(), width, System::metric);
    EXPECT_THAT(support::faults(typesetter, block, width), IsEmpty());
    // Every row once, in order, each below or to the right of the one before.
    double last_x = 0;
    double last_y = 0;
    int next = 1;
    for (const drawing::Mark& mark : block.marks) {
      const auto* text = std::get_if<drawing::Text>(&mark);
      if (text == nullptr || text->words != std::to_string(next)) continue;
      EXPECT_TRUE(text->box.x > last_x || text->box.y > last_y) << next;
      last_x = text->box.x;
      last_y = text->box.y;
      ++next;
    }
    EXPECT_EQ(next, 31);
  }
  for (const System system : {System::us, System::imperial}) {
    const drawing::Block block = report::dip_block(typesetter, box(), 254, system);
    EXPECT_THAT(support::faults(typesetter, block, 254), IsEmpty());
  }
}

TEST(DipGrid, IsNoHigherThanItMustBe) {
  const drawing::Typesetter typesetter;
  const double narrow = report::dip_block(typesetter, box(), 100, System::metric).height_pt;
  const double wide = report::dip_block(typesetter, box(), 525, System::metric).height_pt;
  EXPECT_LT(wide, narrow / 2);
}

TEST(DipGrid, OfOneRowIsOneRow) {
  const drawing::Typesetter typesetter;
  DipTable table = box(0);
  table.rows.resize(1);
  const drawing::Block block = report::dip_block(typesetter, table, 254, System::metric);
  EXPECT_THAT(support::words_of(block.marks), HasSubstr("1\n3.0\n"));
}

}  // namespace
}  // namespace drystage
