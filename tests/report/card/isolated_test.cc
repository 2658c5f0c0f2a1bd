// Names that are written right to left, in English sentences.
#include "report/card/isolated.h"

#include <gtest/gtest.h>

#include <array>

#include "drawing/typesetter.h"

namespace drystage {
namespace {

TEST(Isolated, LeavesAloneWhatIsWrittenLeftToRight) {
  for (const char* name : {"can 1", "Ærøskøbing", "水タンク", "Бак", "<b>&amp;\"", "🚙", ""}) {
    EXPECT_EQ(report::name_in_words(name), name);
  }
}

TEST(Isolated, SetsApartWhatIsWrittenRightToLeft) {
  // Hebrew, Arabic, Syriac, Arabic presentation forms, Adlam; at the end and in the middle too.
  for (const std::string name :
       {"מים", "ماء", "ܡܝܐ", "ﻣﺎﺀ", "𞤲𞤣𞤭𞤴𞤢𞤥", "can ماء 2"}) {
    EXPECT_EQ(report::name_in_words(name), "\u2068" + name + "\u2069");
  }
}

TEST(Isolated, DoesNotTurnRoundTheSentenceThatItBegins) {
  const drawing::Typesetter typesetter;
  for (const char* name : {"ماء", "מים", "can"}) {
    const std::string words = report::name_in_words(name) + " (23.9000° N, 39.6000° W)";
    const drawing::Text text = typesetter.text(words, {}, {.x = 10, .y = 0}, 400);
    EXPECT_NEAR(ink_box(typesetter, text).x, 10, 0.01) << "what is read from the left stands there";
  }
}

TEST(Isolated, KeepsNamesWhole) {
  const std::string name(500, 'x');
  EXPECT_EQ(report::name_in_words(name), name);
}

TEST(Isolated, ListsNamesWithCommas) {
  const std::array<std::string, 3> names{"a", "b", "c"};
  EXPECT_EQ(report::list_of_names(names), "a, b, c");
}

}  // namespace
}  // namespace drystage
