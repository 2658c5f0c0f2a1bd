// Mishaps by days, as a picture: the patterns are read from it and compared with the findings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "drawing/page.h"
#include "report/charts/charts.h"
#include "support/answer.h"
#include "support/mishaps.h"
#include "support/overlaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::mishap_chart_test {
namespace {

using answers::Outcome;
using drawing::Mark;
using drawing::Page;
using drawing::Rect;
using drawing::Shape;
using drawing::Text;
using support::calm_mishaps;
using support::dry;
using support::fatal_mishap;
using support::holding;
using support::mishaps_answer;
using support::nibbling;
using support::unwrapped;
using ::testing::Gt;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

std::vector<Page> pages(const MishapsAnswer& answer) {
  return mishap_chart(answer, units::System::metric).pages;
}

std::string words(const MishapsAnswer& answer) {
  std::string out;
  for (const Page& page : pages(answer)) out += support::words_of(page.marks);
  return unwrapped(out);
}

Rect around(const Shape& shape) {
  const auto [left, right] = std::ranges::minmax(shape.points, {}, &drawing::Point::x);
  const auto [top, foot] = std::ranges::minmax(shape.points, {}, &drawing::Point::y);
  return {.x = left.x, .y = top.y, .width = right.x - left.x, .height = foot.y - top.y};
}

bool within(const Rect& inner, const Rect& outer) {
  return inner.x >= outer.x - 0.1 && inner.right() <= outer.right() + 0.1 &&
         inner.y >= outer.y - 0.1 && inner.bottom() <= outer.bottom() + 0.1;
}

/// What a box looks like: what it is filled with and how many strokes lie in it.
struct Pattern {
  int boxes_filled = 0;
  int dots = 0;
  int strokes = 0;

  friend bool operator==(const Pattern&, const Pattern&) = default;
};

/// The boxes of a page with their looks, by the middle of the box.
struct Box {
  Rect rect;
  Pattern pattern;
};

std::vector<Box> boxes(const Page& page) {
  std::vector<Box> out;
  const auto each = [&page](const auto& act) {
    for (const Mark& mark : page.marks) {
      if (const auto* shape = std::get_if<Shape>(&mark)) act(*shape);
    }
  };
  each([&out](const Shape& shape) {
    if (shape.closed && shape.stroke && shape.points.size() == 4) {
      out.push_back({.rect = around(shape), .pattern = {}});
    }
  });
  each([&out](const Shape& shape) {
    const Rect rect = around(shape);
    for (Box& box : out) {
      if (!within(rect, box.rect)) continue;
      if (shape.fill_grey) {
        ++(shape.points.size() == 4 ? box.pattern.boxes_filled : box.pattern.dots);
      }
      if (shape.stroke && !shape.closed) ++box.pattern.strokes;
    }
  });
  return out;
}

/// What stands in a row under a day's number.
const Box* box_of(const std::vector<Box>& all, const Page& page, const std::string& name, int day) {
  const Text* row = nullptr;
  const Text* column = nullptr;
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr) continue;
    if (text->words == name) row = text;
    if (text->words == std::to_string(day) && text->font.bold) column = text;
  }
  if (row == nullptr || column == nullptr) throw std::out_of_range(name);
  const double x = column->box.x + column->box.width / 2;
  for (const Box& box : all) {
    const double y = box.rect.y + box.rect.height / 2;
    if (box.rect.x < x && box.rect.right() > x && y > row->box.y && y < row->box.bottom()) {
      return &box;
    }
  }
  return nullptr;
}

/// One failure on five days: each outcome, and none.
MishapsAnswer every_outcome() {
  MishapsAnswer answer = mishaps_answer(5, {"well dry"});
  answer.sweep.findings = {holding(0, 0), nibbling(answer, 0, 1, "drinking_water", 3),
                           dry(answer, 0, 2, "food", Outcome::runs_out),
                           dry(answer, 0, 3, "drinking_water")};
  answer.sweep.asked = answer.sweep.findings.size();
  return answer;
}

TEST(MishapChart, HasAPatternForEachOutcomeAndNoBoxWhereNothingCanStrike) {
  const std::vector<Page> drawn = pages(every_outcome());
  ASSERT_THAT(drawn, SizeIs(1));
  const std::vector<Box> all = boxes(drawn[0]);
  const auto pattern = [&](int day) {
    const Box* box = box_of(all, drawn[0], "well dry", day);
    if (box == nullptr) throw std::out_of_range("no box");
    return box->pattern;
  };
  EXPECT_EQ(pattern(1), (Pattern{.boxes_filled = 0, .dots = 0, .strokes = 0}));
  EXPECT_EQ(pattern(2).boxes_filled, 0);
  EXPECT_THAT(pattern(2).strokes, Gt(2));
  EXPECT_EQ(pattern(3), (Pattern{.boxes_filled = 1, .dots = 1, .strokes = 0}));
  EXPECT_EQ(pattern(4), (Pattern{.boxes_filled = 1, .dots = 0, .strokes = 2}));
  EXPECT_EQ(box_of(all, drawn[0], "well dry", 5), nullptr);
}

TEST(MishapChart, ShowsTheWorstOfADay) {
  MishapsAnswer answer = every_outcome();
  answer.sweep.findings.push_back(nibbling(answer, 0, 3, "drinking_water", 3));
  answer.sweep.findings.push_back(dry(answer, 0, 0, "drinking_water"));
  answer.sweep.asked += 2;
  const std::vector<Page> drawn = pages(answer);
  const std::vector<Box> all = boxes(drawn[0]);
  for (const int day : {1, 4}) {
    EXPECT_EQ(box_of(all, drawn[0], "well dry", day)->pattern.strokes, 2) << day;
  }
}

TEST(MishapChart, SaysWhatMishapsSays) {
  EXPECT_THAT(words(calm_mishaps()), HasSubstr("SURVIVES any one mishap: none of 2 runs "
                                               "drinking water dry."));
  const std::string fatal = words(fatal_mishap());
  EXPECT_THAT(fatal, HasSubstr("DOES NOT SURVIVE every mishap: 1 of 2 mishaps runs drinking "
                               "water dry."));
  EXPECT_THAT(fatal, HasSubstr("The worst: can 1 lost, on day 5. Drinking water runs out on day 5, "
                               "Fri 05 Mar, 09:00, at Base. Short by 4.0 L, for 9.0 h."));
  EXPECT_THAT(words(calm_mishaps()), Not(HasSubstr("The worst")));
  EXPECT_THAT(fatal, HasSubstr("Hold on every day: well dry."));
  EXPECT_THAT(fatal, HasSubstr("A planning aid, no more."));
}

TEST(MishapChart, HasNoMatrixWhereNothingDoesHarm) {
  const MishapsAnswer answer = calm_mishaps();
  EXPECT_THAT(boxes(pages(answer)[0]), IsEmpty());
  EXPECT_THAT(words(answer), HasSubstr("Hold on every day: can 1 lost, well dry."));
}

TEST(MishapChart, SaysWhatWasNotTried) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.asked += 5;
  answer.sweep.remarks = {"the climate has no April: March is taken"};
  const std::string text = words(answer);
  EXPECT_THAT(text, HasSubstr("PARTIAL: stopped after 28 of 33 runs."));
  EXPECT_THAT(text, HasSubstr("no box: cannot strike then, or NOT TRIED YET"));
  EXPECT_THAT(text, HasSubstr("The climate has no April: March is taken."));
  EXPECT_THAT(words(fatal_mishap()), Not(HasSubstr("NOT TRIED YET")));
}

TEST(MishapChart, CutsNoName) {
  const std::string name = "no water at " + std::string(50, 'w') + " " + std::string(80, 'l') +
                           " جراب الماء 砂漠の井戸 <b>&amp;</b>";
  MishapsAnswer answer = mishaps_answer(14, {name, "other " + name});
  answer.sweep.findings = {dry(answer, 0, 4, "drinking_water"), holding(1, 3)};
  answer.sweep.asked = 2;
  const std::vector<Page> drawn = pages(answer);
  EXPECT_THAT(words(answer), HasSubstr(name));
  for (const Page& page : drawn) EXPECT_THAT(support::faults(typesetter(), page), IsEmpty());
}

MishapsAnswer large(int days, int failures) {
  std::vector<std::string> names;
  for (int f = 0; f < failures; ++f) names.push_back("can " + std::to_string(f + 1) + " lost");
  MishapsAnswer answer = mishaps_answer(days, names);
  for (int f = 0; f < failures; ++f) {
    for (int day = 0; day < days; ++day) {
      answer.sweep.findings.push_back((day + f) % 3 == 0 ? dry(answer, f, day, "drinking_water")
                                                         : holding(f, day));
    }
  }
  answer.sweep.asked = answer.sweep.findings.size();
  return answer;
}

TEST(MishapChart, HasABoxForEveryDayOfALongTripAndEveryFailure) {
  const std::vector<Page> drawn = pages(large(100, 70));
  EXPECT_THAT(drawn.size(), Gt(1U));
  int crossed = 0;
  int plain = 0;
  std::string text;
  for (const Page& page : drawn) {
    EXPECT_LE(page.height_pt, drawing::a4.height_pt + 0.01);
    EXPECT_THAT(support::faults(typesetter(), page), IsEmpty());
    text += support::words_of(page.marks);
    // Each page of the matrix says which days it shows.
    const std::vector<Box> all = boxes(page);
    if (!all.empty()) {
      EXPECT_THAT(support::words_of(page.marks), HasSubstr("strikes on day"));
    }
    for (const Box& box : all) ++(box.pattern.strokes == 2 ? crossed : plain);
  }
  // The four boxes of the key besides: one is crossed.
  EXPECT_EQ(crossed + plain, 100 * 70 + 4);
  int dry_ones = 0;
  for (int f = 0; f < 70; ++f) {
    for (int day = 0; day < 100; ++day) dry_ones += (day + f) % 3 == 0 ? 1 : 0;
  }
  EXPECT_EQ(crossed, dry_ones + 1);
  EXPECT_THAT(text, HasSubstr("page 2 of "));
}

TEST(MishapChart, IsOnePageWhereItIsNoLongerThanASheet) {
  const std::vector<Page> drawn = pages(large(14, 20));
  ASSERT_THAT(drawn, SizeIs(1));
  EXPECT_LT(drawn[0].height_pt, drawing::a4.height_pt);
}

RC_GTEST_PROP(MishapChartProperty, OverlapsNothing, ()) {
  const int days = *rc::gen::inRange(1, 60);
  const int failures = *rc::gen::inRange(1, 30);
  std::vector<std::string> names;
  for (int f = 0; f < failures; ++f) {
    std::string name = "f" + std::to_string(f);
    const int words = *rc::gen::inRange(0, 12);
    for (int w = 0; w < words; ++w) {
      name += " " + std::string(static_cast<std::size_t>(*rc::gen::inRange(1, 40)), 'a');
    }
    names.push_back(name);
  }
  MishapsAnswer answer = mishaps_answer(days, names);
  for (int f = 0; f < failures; ++f) {
    for (int day = 0; day < days; ++day) {
      const int kind = *rc::gen::inRange(0, 5);
      if (kind == 0) answer.sweep.findings.push_back(holding(f, day));
      if (kind == 1) answer.sweep.findings.push_back(nibbling(answer, f, day, "food", 1));
      if (kind == 2) {
        answer.sweep.findings.push_back(dry(answer, f, day, "food", Outcome::runs_out));
      }
      if (kind == 3) answer.sweep.findings.push_back(dry(answer, f, day, "drinking_water"));
    }
  }
  answer.sweep.asked = answer.sweep.findings.size();
  std::size_t drawn = 0;
  for (const Page& page : pages(answer)) {
    for (const std::string& fault : support::faults(typesetter(), page)) RC_FAIL(fault);
    drawn += boxes(page).size();
  }
  const bool any = answer.sweep.worst() != Outcome::holds;
  RC_ASSERT(drawn <= answer.sweep.findings.size() + (any ? 4 : 0));
}

}  // namespace
}  // namespace drystage::report::mishap_chart_test
