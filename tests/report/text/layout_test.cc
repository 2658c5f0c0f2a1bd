// How prose is broken into lines.
#include "report/text/layout.h"

#include <gtest/gtest.h>

namespace drystage::report::layout_test {
namespace {

TEST(Wrap, BreaksAtBlanks) {
  EXPECT_EQ(wrap("one two three", 7), "one two\nthree");
  EXPECT_EQ(wrap("one two three", 7, 2), "one two\n  three");
  EXPECT_EQ(wrap("a longword b", 4), "a\nlongword\nb");
  EXPECT_EQ(wrap("", 4), "");
}

TEST(Wrap, LeavesASignOfPercentWithItsNumber) {
  EXPECT_EQ(wrap("on 12 % of them", 5), "on\n12 %\nof\nthem");
  EXPECT_EQ(wrap("(1 to 12 %), so", 9), "(1 to\n12 %), so");
  EXPECT_EQ(wrap("12 %", 2), "12 %");
  EXPECT_EQ(wrap("about 5 %", 7), "about\n5 %");
}

}  // namespace
}  // namespace drystage::report::layout_test
