// The rows of the front: what is marked in them, and what stands between the nights.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

#include "report/card/evening_figures.h"
#include "support/card_answer.h"
#include "support/card_pages.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::desert_crossing;
using support::front_pages;
using support::words_on;
using ::testing::Contains;

TEST(CardFront, MarksWhatLacksByASignAndAFrame) {
  const CardAnswer& answer = desert_crossing();
  std::size_t lacking = 0;
  for (const std::size_t i : report::life_supporting(answer.needs)) {
    for (std::size_t day = 0; day < 14; ++day)
      if (answer.needs.needs.need(day, i).lacks()) ++lacking;
  }
  // Drinking water on every morning.
  ASSERT_EQ(lacking, 14U);
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
  // Utility water, which is drunk in its stead, has a sign alone: on days 12, 13 and 14.
  EXPECT_EQ(signs, lacking + 3);
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
    if (shape == nullptr || shape->closed || shape->stroke->width_pt < 1.5) continue;
    EXPECT_NEAR(shape->points[1].x - shape->points[0].x, drawing::a4.column_pt(), 0.01);
    ++lines;
  }
  EXPECT_EQ(lines, 2);
}

TEST(CardFront, SetsSuppliesAboveTheNightOfTheirDay) {
  const std::vector<Page> pages = front_pages(desert_crossing());
  const double supply =
      height_of(pages, "Day 3, 08:00, before leaving Imrel Bore: utility water (BRACKISH");
  ASSERT_GT(supply, 0);
  EXPECT_GT(supply, height_of(pages, "Tue 09 Mar"));
  EXPECT_LT(supply, height_of(pages, "Wed 10 Mar"));
}

TEST(CardFront, HasAFigureOfWhateverElseIsPlanned) {
  const CardAnswer& camp = support::shipped_answer("Seabird count at Pelican Sound");
  const std::vector<std::string> words = words_on(front_pages(camp));
  EXPECT_THAT(words, Contains("Camp bank, Ah"));
  // It falls below its margin.
  EXPECT_THAT(words, Contains(::testing::MatchesRegex("! [0-9.]+")));
}

/// As high as the lowest and the highest box.
std::pair<double, double> box_heights(const std::vector<Page>& pages) {
  std::pair<double, double> out{1000, 0};
  for (const Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      const auto* shape = std::get_if<drawing::Shape>(&mark);
      if (shape == nullptr || !shape->closed || shape->stroke->width_pt != 1) continue;
      const double height = shape->points[2].y - shape->points[0].y;
      out = {std::min(out.first, height), std::max(out.second, height)};
    }
  }
  return out;
}

TEST(CardFront, HasHigherBoxesWhereAllHasRoomOnThePage) {
  constexpr double mm = drawing::points_per_mm;
  const auto [low, high] = box_heights(front_pages(
      support::shipped_answer("Dune mapping, Marrabel to Tessarin, with three more cans")));
  EXPECT_GE(low, 8 * mm - 1e-6);
  EXPECT_LT(high, 9 * mm);
  const auto [least, most] =
      box_heights(front_pages(support::shipped_answer("The long loop round the Ampara basin")));
  EXPECT_GE(least, 6.5 * mm - 1e-6);
  EXPECT_LT(least, 8 * mm);
  EXPECT_GE(most, least);
}

}  // namespace
}  // namespace drystage
