#include "drawing/typesetter.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <string>

namespace drystage::drawing {
namespace {

constexpr Font plain{.size_pt = 9};
const std::string sentence = "Each evening dip the tanks, count the cans, and write it down.";

TEST(Typesetter, WordsAreAsWideAsTheLineTheyStandOn) {
  const Typesetter typesetter;
  const double width = typesetter.width(sentence, plain);
  const Size one = typesetter.size(sentence, plain, width);
  EXPECT_DOUBLE_EQ(one.width_pt, width);
  EXPECT_EQ(typesetter.lines(sentence, plain, width), std::vector{sentence});
  EXPECT_GT(typesetter.size(sentence, plain, width - 0.1).height_pt, 1.9 * one.height_pt);
}

TEST(Typesetter, FiguresAreAllOfOneWidthSoThatColumnsOfThemLineUp) {
  const Typesetter typesetter;
  const double digit = typesetter.width("0", plain);
  for (const char* other : {"1", "4", "7", "9"}) {
    EXPECT_DOUBLE_EQ(typesetter.width(other, plain), digit) << other;
  }
  EXPECT_NEAR(typesetter.width("1234567890", plain), 10 * digit, 0.02);
}

TEST(Typesetter, TwiceTheSizeIsTwiceAsLarge) {
  const Typesetter typesetter;
  const double small = typesetter.width(sentence, {.size_pt = 9});
  EXPECT_NEAR(typesetter.width(sentence, {.size_pt = 18}), 2 * small, 0.01 * small);
}

TEST(Typesetter, AWordLongerThanTheLineIsBroken) {
  const Typesetter typesetter;
  const std::string word(60, 'm');
  EXPECT_GT(typesetter.longest_word(word, plain), 100);
  EXPECT_LE(typesetter.size(word, plain, 100).width_pt, 100);
  EXPECT_GT(typesetter.lines(word, plain, 100).size(), 1U);
}

TEST(Typesetter, TheLongestWordIsTheNarrowestColumn) {
  const Typesetter typesetter;
  const double longest = typesetter.longest_word(sentence, plain);
  EXPECT_NEAR(longest, typesetter.width("evening", plain), 0.01);
  EXPECT_LE(typesetter.size(sentence, plain, longest).width_pt, longest + 0.01);
}

TEST(Typesetter, MarkupIsTextLikeAnyOther) {
  const Typesetter typesetter;
  EXPECT_GT(typesetter.width("<b>bold</b> &amp;", plain), typesetter.width("bold &", plain));
}

// "Shalom" in Hebrew letters: the name alone, and at the beginning of a line.
TEST(Typesetter, LinesRunFromLeftToRightWhateverTheyBeginWith) {
  const Typesetter typesetter;
  for (const char* words : {"\u05e9\u05dc\u05d5\u05dd", "\u05e9\u05dc\u05d5\u05dd: 20 L"}) {
    const Text text = typesetter.text(words, plain, {.x = 10, .y = 0}, 100);
    EXPECT_NEAR(ink_box(typesetter, text).x, 10, 0.01) << words;
  }
}

TEST(Typesetter, ANumberIsNotPartedFromItsUnit) {
  const Typesetter typesetter;
  const double width = typesetter.width("a tank of 110", plain);
  EXPECT_EQ(typesetter.lines("a tank of 110 L", plain, width),
            (std::vector<std::string>{"a tank of", "110 L"}));
  EXPECT_EQ(typesetter.lines("a tank of 110 °C", plain, width),
            (std::vector<std::string>{"a tank of", "110 °C"}));
  EXPECT_NEAR(typesetter.longest_word("a 110 L", plain), typesetter.width("110 L", plain), 0.01);
  // Where even that is too long it is broken all the same.
  EXPECT_LE(typesetter.size("110 L", plain, 16).width_pt, 16);
}

TEST(Typesetter, ABoxIsAlignedAsAsked) {
  const Typesetter typesetter;
  const auto box = [&](Align align) {
    return ink_box(typesetter, typesetter.text("78", plain, {.x = 10, .y = 5}, 100, align));
  };
  EXPECT_NEAR(box(Align::left).x, 10, 0.01);
  EXPECT_NEAR(box(Align::right).right(), 110, 0.01);
  EXPECT_NEAR(box(Align::centre).x + box(Align::centre).width / 2, 60, 0.01);
  EXPECT_NEAR(box(Align::left).y, 5, 0.01);
}

TEST(Typesetter, ShortenedWordsFitAndSayThatTheyAreShortened) {
  const Typesetter typesetter;
  EXPECT_EQ(typesetter.shortened("Imrel Bore", plain, 200), "Imrel Bore");
  const std::string less = typesetter.shortened(sentence, plain, 100);
  EXPECT_TRUE(less.ends_with("…"));
  EXPECT_TRUE(sentence.starts_with(less.substr(0, less.size() - std::string("…").size())));
  EXPECT_LE(typesetter.width(less, plain), 100);
  EXPECT_GT(typesetter.width(less, plain), 80);
}

RC_GTEST_PROP(TypesetterProperty, NoLineIsWiderThanAskedAndNoWordIsLost, ()) {
  const Typesetter typesetter;
  const auto words = *rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(
      rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('a', 'z')))));
  const double width = *rc::gen::inRange(20, 300);
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  std::string kept;
  for (const std::string& line : typesetter.lines(all, plain, width)) {
    RC_ASSERT(typesetter.width(line, plain) <= width + 0.01);
    kept += line;
  }
  std::erase(kept, ' ');
  std::erase(all, ' ');
  RC_ASSERT(kept == all);
}

}  // namespace
}  // namespace drystage::drawing
