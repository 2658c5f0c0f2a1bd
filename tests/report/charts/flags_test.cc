// Words on poles: all are there, none meet, and poles stand where they should.
#include "report/charts/flags.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <string>
#include <variant>

#include "support/overlaps.h"

namespace drystage::report::flags_test {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double from_pt = 100;
constexpr double to_pt = 500;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

std::vector<const drawing::Text*> texts(const drawing::Block& block) {
  std::vector<const drawing::Text*> out;
  for (const drawing::Mark& mark : block.marks) {
    if (const auto* text = std::get_if<drawing::Text>(&mark)) out.push_back(text);
  }
  return out;
}

/// Poles, from top to foot.
std::vector<std::vector<drawing::Point>> poles(const drawing::Block& block) {
  std::vector<std::vector<drawing::Point>> out;
  for (const drawing::Mark& mark : block.marks) {
    const auto* shape = std::get_if<drawing::Shape>(&mark);
    if (shape != nullptr && !shape->closed) out.push_back(shape->points);
  }
  return out;
}

bool any_on_a_pole(const drawing::Block& block) {
  for (const drawing::Text* text : texts(block)) {
    const drawing::Rect ink = ink_box(typesetter(), *text);
    for (const auto& pole : poles(block)) {
      if (pole[0].x > ink.x && pole[0].x < ink.right() && pole[0].y < ink.bottom() - 0.01) {
        return true;
      }
    }
  }
  return false;
}

TEST(Flags, AreNothingOfNone) {
  const drawing::Block block = flags(typesetter(), {}, from_pt, to_pt);
  EXPECT_EQ(block.height_pt, 0);
  EXPECT_THAT(block.marks, IsEmpty());
}

TEST(Flags, StandBesideTheirPolesThatReachDown) {
  const drawing::Block block =
      flags(typesetter(), {{.at_pt = 200, .fall_pt = 30, .words = "runs out"}}, from_pt, to_pt);
  ASSERT_THAT(poles(block), SizeIs(1));
  EXPECT_EQ(poles(block)[0].front().x, 200);
  EXPECT_EQ(poles(block)[0].back().x, 200);
  EXPECT_DOUBLE_EQ(poles(block)[0].back().y, block.height_pt + 30);
  const drawing::Rect ink = ink_box(typesetter(), *texts(block).at(0));
  EXPECT_GT(ink.x, 200);
  EXPECT_LT(ink.x, 205);
}

TEST(Flags, TurnToTheLeftAtTheRightEdge) {
  const drawing::Block block =
      flags(typesetter(), {{.at_pt = 490, .words = "below margin from day 9"}}, from_pt, to_pt);
  EXPECT_LT(ink_box(typesetter(), *texts(block).at(0)).right(), 490);
}

TEST(Flags, ShareALineWhereThereIsRoom) {
  const double one_line =
      flags(typesetter(), {{.at_pt = 110, .words = "one"}}, from_pt, to_pt).height_pt;
  EXPECT_DOUBLE_EQ(
      flags(typesetter(), {{.at_pt = 110, .words = "one"}, {.at_pt = 300, .words = "two"}}, from_pt,
            to_pt)
          .height_pt,
      one_line);
  EXPECT_GT(flags(typesetter(),
                  {{.at_pt = 110, .words = "one of many"}, {.at_pt = 115, .words = "two of many"}},
                  from_pt, to_pt)
                .height_pt,
            one_line * 1.5);
}

TEST(Flags, KeepOffPolesAtEitherEdge) {
  for (const double first : {105.0, 250.0, 440.0}) {
    const drawing::Block block = flags(typesetter(),
                                       {{.at_pt = first, .words = "below margin from day 9"},
                                        {.at_pt = first + 20, .words = "utility water drunk"},
                                        {.at_pt = first + 40, .words = "runs out day 12, 21:15"}},
                                       from_pt, to_pt);
    EXPECT_FALSE(any_on_a_pole(block)) << first;
  }
}

RC_GTEST_PROP(FlagsProperty, AreAllThereAndMeetNowhere, ()) {
  const std::string words =
      "taken on, and more than fits on a line of words: 120 L of it at once, "
      "80 L of another thing, and whatever else can be had";
  const auto places = *rc::gen::container<std::vector<int>>(rc::gen::inRange(100, 501));
  std::vector<Flag> all;
  for (const int place : places) {
    const auto length = static_cast<std::size_t>(*rc::gen::inRange(1, 120));
    all.push_back({.at_pt = static_cast<double>(place), .words = words.substr(0, length)});
  }
  const drawing::Block block = flags(typesetter(), all, from_pt, to_pt);
  RC_ASSERT(texts(block).size() == all.size());
  RC_ASSERT(poles(block).size() == all.size());
  RC_ASSERT(support::overlaps(typesetter(), block.marks).empty());
  for (const drawing::Text* text : texts(block)) {
    const drawing::Rect ink = ink_box(typesetter(), *text);
    RC_ASSERT(ink.x >= from_pt - 0.5);
    // The blank at which a line was broken hangs over its end.
    RC_ASSERT(ink.right() <= to_pt + 3);
    RC_ASSERT(ink.y >= -0.01);
    RC_ASSERT(ink.bottom() <= block.height_pt + 0.01);
  }
}

}  // namespace
}  // namespace drystage::report::flags_test
