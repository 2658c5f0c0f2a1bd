// Drawings in a browser, as wide as a telephone and as a desk.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "cli/browser.h"
#include "cli/odd_names.h"
#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"

namespace drystage::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr int telephone_px = 360;
constexpr int desk_px = 1280;

/// What is asked of every document: which drawings run over an edge, and any of their words that
/// run out of the drawing.
const std::string drawing_script = R"js(
  const seen = [...document.querySelectorAll('svg')].filter((e) => e.getClientRects().length > 0);
  const edge = document.documentElement.clientWidth;
  let outside = [];
  for (const svg of seen) {
    const frame = svg.getBoundingClientRect();
    if (frame.left < -0.5 || frame.right > edge + 0.5) outside.push('drawing');
    for (const text of svg.querySelectorAll('text')) {
      const box = text.getBoundingClientRect();
      const in_it = box.left > frame.left - 1 && box.right < frame.right + 1 &&
                    box.top > frame.top - 1 && box.bottom < frame.bottom + 1;
      if (!in_it) outside.push(text.textContent);
    }
  }
  const policy = document.querySelector('meta[http-equiv="Content-Security-Policy"]');
  return {from_names: document.querySelectorAll('b, script, iframe, object, embed, link').length,
          policy: policy === null ? '' : policy.content, seen: seen.length, outside};
)js";

/// Of a picture: its size in dots, and how many of a hundred are dark.
const std::string picture_script = R"js(
  const picture = document.images[0];
  const canvas = document.createElement('canvas');
  canvas.width = picture.naturalWidth;
  canvas.height = Math.min(picture.naturalHeight, 2000);
  const context = canvas.getContext('2d');
  context.drawImage(picture, 0, 0);
  const dots = context.getImageData(0, 0, canvas.width, canvas.height).data;
  let dark = 0;
  let coloured = 0;
  for (let i = 0; i < dots.length; i += 4) {
    if (dots[i] < 128) ++dark;
    if (dots[i] !== dots[i + 1] || dots[i] !== dots[i + 2]) ++coloured;
  }
  return {width: picture.naturalWidth, height: picture.naturalHeight, coloured,
          dark: 400 * dark / dots.length};
)js";

class InABrowser : public ::testing::Test {
 protected:
  /// Draws, and answers where the file is.
  [[nodiscard]] std::string drawn(std::vector<std::string> words, const std::string& option,
                                  const std::string& name) const {
    words.insert(words.end(), {option, workspace_.path(name)});
    const Outcome outcome = drystage(words);
    EXPECT_LE(outcome.status, 1) << outcome.err;
    return workspace_.path(name);
  }

  OddNames names_;
  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_with_odd_names(names_));
};

TEST_F(InABrowser, ChartsFitATelephoneAndADesk) {
  const std::string crossing = scenario_path("desert-crossing");
  const std::vector<std::string> files{drawn({"run", plan_}, "--chart", "names.html"),
                                       drawn({"run", crossing}, "--chart", "run.html"),
                                       drawn({"size", crossing}, "--chart", "size.html"),
                                       drawn({"mishaps", crossing}, "--chart", "mishaps.html")};
  std::vector<View> views;
  for (const std::string& file : files) {
    views.push_back({.path = file, .width_px = telephone_px});
    views.push_back({.path = file, .width_px = desk_px});
  }
  const Visit visit = look(views, drawing_script);
  EXPECT_THAT(visit.messages, IsEmpty());
  EXPECT_THAT(visit.requests, IsEmpty());
  for (std::size_t i = 0; i < views.size(); ++i) {
    SCOPED_TRACE(views[i].path + " " + std::to_string(views[i].width_px));
    const Shown& shown = visit.shown[i];
    EXPECT_EQ(shown.client_width_px, views[i].width_px);
    EXPECT_LE(shown.scroll_width_px, shown.client_width_px);
    EXPECT_GT(shown.found.at("seen"), 0);
    EXPECT_THAT(shown.found.at("outside"), IsEmpty());
    EXPECT_EQ(shown.found.at("from_names"), 0);
    EXPECT_THAT(shown.found.at("policy").get<std::string>(), HasSubstr("default-src 'none'"));
  }
}

TEST_F(InABrowser, AChartPrintsAsThePdfDoes) {
  const std::vector<std::string> words{"run", scenario_path("last-camp")};
  const std::string pdf = drawn(words, "--chart", "run.pdf");
  print(drawn(words, "--chart", "run.html"), workspace_.path("printed.pdf"));
  const std::vector<PdfPage> pages = pdf_pages(workspace_.path("printed.pdf"));
  const std::vector<PdfPage> drawn_pages = pdf_pages(pdf);
  ASSERT_EQ(pages.size(), drawn_pages.size());
  for (std::size_t n = 0; n < pages.size(); ++n) {
    EXPECT_NEAR(pages[n].width_pt, drawn_pages[n].width_pt, 1);
    EXPECT_NEAR(pages[n].height_pt, drawn_pages[n].height_pt, 1);
  }
}

TEST_F(InABrowser, APngIsThePictureThatTheSvgIs) {
  const std::string crossing = scenario_path("desert-crossing");
  const std::vector<std::string> names{"card", "run", "size", "mishaps"};
  std::vector<View> views;
  for (const std::string& name : names) {
    const std::string option = name == "card" ? "--output" : "--chart";
    views.push_back({.path = drawn({name, crossing}, option, name + ".png"), .width_px = desk_px});
  }
  const Visit visit = look(views, picture_script);
  EXPECT_THAT(visit.messages, IsEmpty());
  for (std::size_t i = 0; i < names.size(); ++i) {
    SCOPED_TRACE(names[i]);
    const std::string svg =
        drawn({names[i], crossing}, names[i] == "card" ? "--output" : "--chart", names[i] + ".svg");
    constexpr double dots_per_point = 150.0 / 72;
    const auto dots = [&](const char* side) {
      return std::ceil(std::stod(xpath(svg, std::string("substring-before(concat(/*/@") + side +
                                                ", 'pt'), 'pt')")) *
                       dots_per_point);
    };
    const auto& found = visit.shown[i].found;
    EXPECT_NEAR(found.at("width").get<double>(), dots("width"), 1);
    EXPECT_NEAR(found.at("height").get<double>(), dots("height"), 1);
    EXPECT_EQ(found.at("coloured"), 0);
    // Something is drawn, and most of the paper is left white.
    EXPECT_GT(found.at("dark").get<double>(), 0.5);
    EXPECT_LT(found.at("dark").get<double>(), 30);
  }
}

}  // namespace
}  // namespace drystage::testing
