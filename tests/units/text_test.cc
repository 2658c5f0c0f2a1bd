#include "units/text.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>

namespace drystage::units {
namespace {

// The Unicode Standard, table 3-7, well-formed UTF-8 byte sequences.
TEST(Text, TellsWellFormedUtf8) {
  EXPECT_TRUE(
      is_printable_utf8("20 \xC2\xB0"
                        "C \xE2\x82\xAC \xF0\x9F\x9A\x9A"));
  EXPECT_TRUE(is_printable_utf8("\t"));
  for (const std::string bad :
       {"\x80", "\xC0\xAF", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC2", "\xE2\x82", "\n", "\x7F", "\xC2\x85"}) {
    EXPECT_FALSE(is_printable_utf8(bad)) << in_quotes(bad);
  }
  EXPECT_FALSE(is_printable_utf8(std::string("a\0b", 3)));
}

// The Unicode Standard: controls (chapter 23.1), bidirectional formatting (UAX 9), separators
// (6.2), noncharacters (23.7).
TEST(Text, KnowsWhatNoTextMayHold) {
  for (const std::string bad :
       {"\u2028", "\u2029", "\u202a", "\u202e", "\u2066", "\u2069", "\uFDD0", "\uFDEF", "\uFFFE",
        "\uFFFF", "\U0001FFFE", "\U0010FFFF", "\x1b", "\xC2\x9B"}) {
    EXPECT_FALSE(is_printable_utf8("a" + bad)) << in_quotes(bad);
    EXPECT_EQ(shown("a" + bad + "b"), "a?b");
    EXPECT_EQ(in_quotes("a" + bad + "b"), "\"a?b\"");
  }
  for (const std::string good : {"\u2027", "\u202F", "\u2065", "\u206A", "\uFDCF", "\uFDF0",
                                 "\uFFFD", "\U0001FFFD", "\U00020000", "~", "\u00A0"}) {
    EXPECT_TRUE(is_printable_utf8(good)) << good;
    EXPECT_EQ(shown(good), good);
  }
  EXPECT_EQ(shown("a\tb\xFF\xC3"), "a b??");
}

TEST(Text, QuotesSafelyAndBriefly) {
  EXPECT_EQ(in_quotes("5 L"), "\"5 L\"");
  EXPECT_EQ(in_quotes("a\x1B[31m\xFF"), "\"a?[31m?\"");
  EXPECT_EQ(in_quotes(std::string(500, 'x')), '"' + std::string(40, 'x') + "...\"");
  // The cut never splits a letter: 39 bytes, then one of two bytes that no longer fits.
  EXPECT_EQ(in_quotes(std::string(39, 'x') + "\xC2\xB0"), '"' + std::string(39, 'x') + "...\"");
}

TEST(Text, TidiesEveryKindOfBlank) {
  EXPECT_EQ(tidy_blanks("  a \t b\xC2\xA0\xE2\x80\xAF"
                        "c "),
            "a b c");
  EXPECT_EQ(tidy_blanks(" \xE2\x80\x89"), "");
}

TEST(Text, MeasuresEdits) {
  EXPECT_EQ(edit_distance("kitten", "sitting", 5), 3.0);  // the usual textbook pair
  EXPECT_EQ(edit_distance("day", "dya", 1), 1.0);
  EXPECT_EQ(edit_distance("KM", "km", 1), 1.0);
  EXPECT_EQ(edit_distance("same", "same", 0), 0.0);
  EXPECT_EQ(edit_distance("", "ab", 2), 2.0);
  EXPECT_EQ(edit_distance("kitten", "sitting", 2), std::nullopt);
}

}  // namespace
}  // namespace drystage::units
