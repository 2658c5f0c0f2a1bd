#include "drawing/flow.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <string>

namespace drystage::drawing {
namespace {

/// Ten blocks of 60 points fit, one below the other: 600 and the foot's 16.
constexpr Paper paper{.width_pt = 200, .height_pt = 636, .margin_pt = 10};

Block named(const Typesetter& typesetter, const std::string& name, double height_pt = 60) {
  return {.height_pt = height_pt, .marks = {typesetter.text(name, {}, {}, 100)}};
}

/// The words on a page, without its foot.
std::vector<std::string> names(const Page& page) {
  std::vector<std::string> out;
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text != nullptr && text->box.y < 610) out.push_back(text->words);
  }
  return out;
}

TEST(Flow, ABlockThatDoesNotFitGoesToTheNextPage) {
  const Typesetter typesetter;
  Flow flow(paper);
  for (int i = 0; i < 11; ++i) flow.add(named(typesetter, std::to_string(i)));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(names(pages[0]).size(), 10U);
  EXPECT_EQ(names(pages[1]), std::vector<std::string>{"10"});
}

TEST(Flow, SaysHowMuchRoomIsLeftOnThePage) {
  const Typesetter typesetter;
  Flow flow(paper);
  EXPECT_DOUBLE_EQ(flow.room_pt(), 600);
  flow.add(named(typesetter, "1"));
  EXPECT_DOUBLE_EQ(flow.room_pt(), 540);
  Block heading = named(typesetter, "heading");
  heading.with_next = true;
  flow.add(heading);
  EXPECT_DOUBLE_EQ(flow.room_pt(), 480) << "what waits for the next block needs room too";
}

TEST(Flow, AHeadingIsNeverTheLastOnAPage) {
  const Typesetter typesetter;
  Flow flow(paper);
  for (int i = 0; i < 9; ++i) flow.add(named(typesetter, std::to_string(i)));
  Block heading = named(typesetter, "heading");
  heading.with_next = true;
  flow.add(heading);
  flow.add(named(typesetter, "9"));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(names(pages[1]), (std::vector<std::string>{"heading", "9"}));
}

TEST(Flow, WhatIsRepeatedStandsAtTheTopOfEachPageUntilItIsNot) {
  const Typesetter typesetter;
  Flow flow(paper);
  flow.add(named(typesetter, "title"));
  flow.repeat({named(typesetter, "head")});
  for (int i = 0; i < 10; ++i) flow.add(named(typesetter, std::to_string(i)));
  flow.repeat_nothing();
  for (int i = 0; i < 10; ++i) flow.add(named(typesetter, "after"));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_EQ(pages.size(), 3U);
  EXPECT_EQ(names(pages[0])[1], "head");
  EXPECT_EQ(names(pages[1])[0], "head");
  EXPECT_EQ(names(pages[1])[1], "8");
  EXPECT_EQ(names(pages[2])[0], "after");
  EXPECT_EQ(std::ranges::count(names(pages[1]), "head"), 1);
}

TEST(Flow, ARepeatedHeadingDoesNotStandAloneAtTheFootOfAPage) {
  const Typesetter typesetter;
  Flow flow(paper);
  for (int i = 0; i < 9; ++i) flow.add(named(typesetter, std::to_string(i)));
  flow.repeat({named(typesetter, "head")});
  flow.add(named(typesetter, "row"));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(names(pages[0]).size(), 9U);
  EXPECT_EQ(names(pages[1]), (std::vector<std::string>{"head", "row"}));
}

TEST(Flow, ABlockHigherThanAPageHasOneOfItsOwn) {
  const Typesetter typesetter;
  Flow flow(paper);
  flow.add(named(typesetter, "a"));
  flow.add(named(typesetter, "high", 900));
  flow.add(named(typesetter, "b"));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_EQ(pages.size(), 3U);
  EXPECT_EQ(names(pages[1]), std::vector<std::string>{"high"});
}

TEST(Flow, ANewPageIsBegunOnlyWhereSomethingStandsOnThisOne) {
  const Typesetter typesetter;
  Flow flow(paper);
  flow.new_page();
  flow.add(named(typesetter, "a"));
  flow.new_page();
  flow.new_page();
  flow.add(named(typesetter, "b"));
  flow.new_page();
  EXPECT_EQ(flow.pages(typesetter, "").size(), 2U);
}

TEST(Flow, TheFootCountsThePagesAndIsShortenedToALine) {
  const Typesetter typesetter;
  Flow flow(paper);
  for (int i = 0; i < 21; ++i) flow.add(named(typesetter, std::to_string(i)));
  const std::vector<Page> pages = flow.pages(typesetter, "A title that is longer than the line is");
  ASSERT_EQ(pages.size(), 3U);
  const auto& words = std::get<Text>(*(pages[1].marks.end() - 2));
  const auto& number = std::get<Text>(pages[1].marks.back());
  EXPECT_EQ(number.words, "page 2 of 3");
  EXPECT_TRUE(words.words.ends_with("…"));
  EXPECT_LT(words.box.right(), number.box.x);
  EXPECT_NEAR(number.box.right(), 190, 0.01);
  EXPECT_LE(number.box.bottom(), 626.01);
}

TEST(Flow, ATitleIsNeverPartedFromTheTableBelowIt) {
  const Typesetter typesetter;
  for (const int before : {7, 8, 9}) {
    Flow flow(paper);
    for (int i = 0; i < before; ++i) flow.add(named(typesetter, "x"));
    Block title = named(typesetter, "title", 20);
    title.with_next = true;
    flow.add(title);
    flow.repeat({named(typesetter, "head", 20)});
    flow.add(named(typesetter, "row", 40));
    flow.repeat_nothing();
    for (const Page& page : flow.pages(typesetter, "")) {
      const std::vector<std::string> all = names(page);
      const bool titled = std::ranges::find(all, "title") != all.end();
      EXPECT_EQ(std::ranges::find(all, "row") != all.end(), titled) << before;
      EXPECT_EQ(std::ranges::count(all, "head"), titled ? 1 : 0) << before;
    }
  }
}

TEST(Flow, EndlessPaperIsOnePageAsLongAsWhatStandsOnIt) {
  const Typesetter typesetter;
  constexpr Paper endless{
      .width_pt = 270, .height_pt = std::numeric_limits<double>::infinity(), .margin_pt = 8};
  Flow flow(endless);
  for (int i = 0; i < 100; ++i) flow.add(named(typesetter, "x"));
  const std::vector<Page> pages = flow.pages(typesetter, "foot");
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_DOUBLE_EQ(pages[0].height_pt, 100 * 60 + 2 * endless.margin_pt);
  EXPECT_EQ(pages[0].marks.size(), 100U);
}

TEST(Flow, AParagraphGoesOverToTheNextPageLineByLine) {
  const Typesetter typesetter;
  std::string words;
  for (int i = 0; i < 400; ++i) words += "word" + std::to_string(i) + " ";
  Flow flow(paper);
  flow.add(paragraph(typesetter, words, {}, paper.column_pt(), 20));
  const std::vector<Page> pages = flow.pages(typesetter, "");
  ASSERT_GT(pages.size(), 1U);
  std::string all;
  for (const Page& page : pages) {
    for (const std::string& line : names(page)) all += line + " ";
  }
  EXPECT_EQ(all, words);
}

}  // namespace
}  // namespace drystage::drawing
