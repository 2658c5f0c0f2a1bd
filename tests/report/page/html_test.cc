// Text of the plan in HTML: never markup, and nothing beside it is turned round.
#include "report/page/html.h"

#include <gtest/gtest.h>

namespace drystage::report::page {
namespace {

TEST(PageHtml, NothingInATextIsMarkup) {
  EXPECT_EQ(html("<b>Ann</b> & \"Bo\" 'n'"),
            "&lt;b&gt;Ann&lt;/b&gt; &amp; &quot;Bo&quot; &#39;n&#39;");
  EXPECT_EQ(html("a\x07"
                 "b\x7f"),
            "a\uFFFDb\uFFFD");
  EXPECT_EQ(html("砂漠 🚙"), "砂漠 🚙");
}

TEST(PageHtml, WhatIsSetApartIsAnElement) {
  EXPECT_EQ(html("to \u2068מעיין\u2069, 5 km"), "to <bdi>מעיין</bdi>, 5 km");
  EXPECT_EQ(plain_html("to \u2068מעיין\u2069, 5 km"), "to מעיין, 5 km");
}

TEST(PageHtml, ElementsEndWhereMarksDoNot) {
  EXPECT_EQ(html("a\u2068b"), "a<bdi>b</bdi>");
  EXPECT_EQ(html("a\u2069b\u2068c\u2068d\u2069\u2069\u2069"), "ab<bdi>c<bdi>d</bdi></bdi>");
}

TEST(PageHtml, MarksThatTurnTextRoundAreLeftOut) {
  EXPECT_EQ(html("a\u202eb\u202c"), "ab");
  EXPECT_EQ(plain_html("a\u202eb\u2067c"), "abc");
}

TEST(PageHtml, AnElementHasTheNameOfItsTag) {
  EXPECT_EQ(element("p class=\"grave\"", "a < b"), "<p class=\"grave\">a &lt; b</p>\n");
  EXPECT_EQ(element("p", ""), "");
}

}  // namespace
}  // namespace drystage::report::page
