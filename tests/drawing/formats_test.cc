#include "drawing/formats.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <set>
#include <string>

#include "drawing/flow.h"

namespace drystage::drawing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

const std::string awkward = "<b>Dune</b> & \"mapping\" 'now' \u5c71\u7530 \u05e9\u05dc\u05d5\u05dd";
const std::string awkward_escaped =
    "&lt;b&gt;Dune&lt;/b&gt; &amp; &quot;mapping&quot; &#39;now&#39; \u5c71\u7530 "
    "\u05e9\u05dc\u05d5\u05dd";

Drawing two_pages() {
  const Typesetter typesetter;
  Flow flow(a4);
  for (int page = 0; page < 2; ++page) {
    flow.add(paragraph(typesetter, awkward, {.size_pt = 12, .bold = true}, a4.column_pt()));
    flow.add({.height_pt = 40,
              .marks = {outline({.x = 0, .y = 0, .width = 100, .height = 20}),
                        filled({.x = 110, .y = 0, .width = 50, .height = 20}, 0.8),
                        line({.x = 170, .y = 0}, {.x = 300, .y = 20}, {.dash_pt = {3, 2}})}});
    flow.new_page();
  }
  return {.title = awkward, .pages = flow.pages(typesetter, "foot")};
}

/// A big-endian number in a PNG file (ISO/IEC 15948: width and height stand at bytes 16 and 20).
int big_endian(const std::string& bytes, std::size_t at) {
  int number = 0;
  for (std::size_t i = at; i < at + 4; ++i) {
    number = 256 * number + static_cast<unsigned char>(bytes.at(i));
  }
  return number;
}

std::size_t count(const std::string& text, const std::string& piece) {
  std::size_t n = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) {
    ++n;
  }
  return n;
}

TEST(Formats, TheSameDrawingComesToTheSameBytes) {
  const Drawing drawing = two_pages();
  EXPECT_EQ(as_pdf(drawing), as_pdf(drawing));
  EXPECT_EQ(as_svg(drawing), as_svg(drawing));
  EXPECT_EQ(as_png(drawing), as_png(drawing));
  EXPECT_EQ(as_html(drawing), as_html(drawing));
}

TEST(Formats, APdfHasNoDate) {
  const std::string pdf = as_pdf(two_pages());
  EXPECT_THAT(pdf, StartsWith("%PDF-"));
  EXPECT_THAT(pdf, Not(HasSubstr("CreationDate")));
}

TEST(Formats, APngHas150DotsToTheInch) {
  const std::string png = as_png(two_pages());
  EXPECT_EQ(png.substr(1, 3), "PNG");
  EXPECT_EQ(big_endian(png, 16), static_cast<int>(std::ceil(210 / 25.4 * 150)));
  EXPECT_EQ(big_endian(png, 20), static_cast<int>(std::ceil((2 * 297 / 25.4 + 12.0 / 72) * 150)));
}

TEST(Formats, APngIsRefusedWhereItCannotBeSoHigh) {
  Drawing drawing = two_pages();
  while (drawing.pages.size() < 20) drawing.pages.push_back(drawing.pages.front());
  try {
    as_png(drawing);
    FAIL() << "20 pages of 1754 dots are more than a picture can have";
  } catch (const TooLarge& error) {
    EXPECT_THAT(error.what(), HasSubstr("20 pages are too many for one .png"));
    EXPECT_THAT(error.what(), HasSubstr(".pdf"));
  }
}

TEST(Formats, WordsInAnSvgCanBeReadAsTheyWereWritten) {
  const std::string svg = as_svg(two_pages());
  EXPECT_EQ(count(svg, ">" + awkward_escaped + "</text>"), 2U);
  EXPECT_THAT(svg, HasSubstr("<title>" + awkward_escaped + "</title>"));
  EXPECT_THAT(svg, Not(HasSubstr("<b>")));
}

TEST(Formats, EveryIdInAnHtmlFileIsGivenOnceAndEveryReferenceIsToOne) {
  const Drawing drawing = two_pages();
  const std::string html = as_html(drawing);
  std::set<std::string> ids;
  const std::regex given(" id=\"([^\"]*)\"");
  const std::regex used("(?:href=\"#|url\\(#)([^\")]*)[\")]");
  const std::sregex_iterator none;
  for (std::sregex_iterator at(html.begin(), html.end(), given); at != none; ++at) {
    EXPECT_TRUE(ids.insert((*at)[1]).second) << (*at)[1];
  }
  std::size_t references = 0;
  for (std::sregex_iterator at(html.begin(), html.end(), used); at != none; ++at, ++references) {
    EXPECT_TRUE(ids.contains((*at)[1])) << (*at)[1];
  }
  EXPECT_GT(references, 100U);
}

TEST(Formats, AnHtmlFileRunsNothingAndLoadsNothing) {
  const Drawing drawing = two_pages();
  const std::string html = as_html(drawing);
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("src=\"")));
  EXPECT_THAT(html, HasSubstr("<title>" + awkward_escaped + "</title>"));
  EXPECT_EQ(count(html, "<svg"), 2U);
}

TEST(Formats, WhatXmlCannotHoldIsReplaced) {
  Drawing drawing{.title = "bell \x07", .pages = {{.width_pt = 100, .height_pt = 100}}};
  EXPECT_THAT(as_svg(drawing), HasSubstr("<title>bell \uFFFD</title>"));
}

}  // namespace
}  // namespace drystage::drawing
