// The rows of the front: what is marked in them, and what stands between the nights.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/evening_figures.h"
#include "support/card_answer.h"
#include "support/card_pages.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::all_words;
using support::desert_crossing;
using support::front_pages;
using support::words_on;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(CardFront, HasFourteenDaysOnOnePage) {
  const CardAnswer& answer =
      support::shipped_answer("Dune mapping, Marrabel to Tessarin, with three more cans");
  ASSERT_EQ(answer.needs.trial.record.days(), 14U);
  const std::vector<Page> pages = front_pages(answer);
  EXPECT_EQ(pages.size(), 1U);
  EXPECT_THAT(words_on(pages), Contains("page 1 of 1"));
}

// Without the cans a third reserve has boxes, and it is told when what runs out. With all that, 15
// rows with boxes of 8 mm and the rules are higher than a page; the rows stay as low as without.
TEST(CardFront, HasThreeReservesBesideTheDayAndTwelveDaysOnItsFirstPage) {
  const CardAnswer& answer = desert_crossing();
  ASSERT_EQ(answer.needs.trial.record.days(), 14U);
  ASSERT_EQ(report::reserves_with_boxes(answer.needs).size(), 3U);
  const std::vector<Page> pages = front_pages(answer);
  EXPECT_EQ(pages.size(), 2U);
  EXPECT_THAT(words_on({pages.front()}), Contains("Fri 19 Mar"));
}

TEST(CardFront, MarksWhatLacksByASignAndAFrame) {
  const CardAnswer& answer = desert_crossing();
  std::size_t lacking = 0;
  for (const std::size_t i : report::reserves_with_boxes(answer.needs)) {
    for (std::size_t day = 0; day < 14; ++day)
      if (answer.needs.needs.need(day, i).lacks()) ++lacking;
  }
  // Drinking water on every morning; and utility water, which is drunk in its stead, on those after
  // the bore, the mornings of days 4 to 14.
  ASSERT_EQ(lacking, 14U + 11U);
  const std::vector<Page> pages = front_pages(answer);
  std::size_t signs = 0;
  std::size_t frames = 0;
  for (const Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      if (const auto* text = std::get_if<drawing::Text>(&mark)) {
        if (text->words.starts_with("! ") && text->font.bold) ++signs;
      } else {
        const auto& shape = std::get<drawing::Shape>(mark);
        if (shape.closed && shape.stroke && shape.stroke->width_pt == 1.4) ++frames;
      }
    }
  }
  EXPECT_EQ(signs, lacking);
  EXPECT_EQ(frames, lacking);
}

/// Where a text stands that begins so; below 0 where none does.
double height_of(const std::vector<Page>& pages, const std::string& beginning) {
  double above = 0;
  for (const Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      const auto* text = std::get_if<drawing::Text>(&mark);
      if (text != nullptr && text->words.starts_with(beginning)) return above + text->box.y;
    }
    above += page.height_pt;
  }
  return -1;
}

TEST(CardFront, SetsTheTurnBackRuleAboveTheNightOfItsDay) {
  const std::vector<Page> pages = front_pages(desert_crossing());
  const double rule = height_of(pages, "LAST PLACE TO TURN BACK: day 9, Tue 16 Mar, 10:47, at");
  ASSERT_GT(rule, 0);
  // Whoever reads the row of the evening before sees it ahead.
  EXPECT_GT(rule, height_of(pages, "Mon 15 Mar"));
  EXPECT_LT(rule, height_of(pages, "Tue 16 Mar"));
  // Heavy lines across the whole column, above and below the words.
  int lines = 0;
  for (const drawing::Mark& mark : pages.front().marks) {
    const auto* shape = std::get_if<drawing::Shape>(&mark);
    if (shape == nullptr || shape->closed || shape->stroke->width_pt < 2) continue;
    EXPECT_NEAR(shape->points[1].x - shape->points[0].x, drawing::a4.column_pt(), 0.01);
    ++lines;
  }
  EXPECT_EQ(lines, 2);
}

TEST(CardFront, SetsSuppliesAboveTheNightOfTheirDay) {
  const std::vector<Page> pages = front_pages(desert_crossing());
  const double supply =
      height_of(pages, "Day 3, 08:00, before leaving: utility water at Imrel Bore (BRACKISH");
  ASSERT_GT(supply, 0);
  EXPECT_GT(supply, height_of(pages, "Tue 09 Mar"));
  EXPECT_LT(supply, height_of(pages, "Wed 10 Mar"));
}

TEST(CardFront, HasBoxesForWhateverThePlanFails) {
  const CardAnswer& camp = support::shipped_answer("Seabird count at Pelican Sound");
  EXPECT_THAT(all_words(front_pages(camp)), HasSubstr("Camp bank, Ah"));
}

}  // namespace
}  // namespace drystage
