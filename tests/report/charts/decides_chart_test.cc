// Which reserve is nearest to its margin: read from the picture, and worked out from the record in
// another way.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <variant>

#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/words.h"
#include "support/charts.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::decides_chart_test {
namespace {

using answers::PlanRun;
using drawing::Block;
using drawing::Mark;
using drawing::Point;
using drawing::Rect;
using drawing::Shape;
using drawing::Text;
using support::PlanText;
using support::travel;
using ::testing::IsEmpty;
using ::testing::SizeIs;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

std::vector<Block> chart_of(const PlanRun& planned) {
  return decides_chart(typesetter(), planned, trip_line(*planned.course.timeline));
}

Rect around(const Shape& shape) {
  const auto [left, right] = std::ranges::minmax(shape.points, {}, &Point::x);
  const auto [top, foot] = std::ranges::minmax(shape.points, {}, &Point::y);
  return {.x = left.x, .y = top.y, .width = right.x - left.x, .height = foot.y - top.y};
}

/// A box of the chart as it looks.
struct Look {
  Rect rect;
  std::string sign;
  bool filled = false;
  bool framed = false;
  int strokes = 0;
};

/// All boxes of a chart, row by row.
std::vector<std::vector<Look>> looks(const Block& block) {
  std::map<double, std::vector<Look>> rows;
  const auto shapes = [&block](const auto& act) {
    for (const Mark& mark : block.marks) {
      if (const auto* shape = std::get_if<Shape>(&mark)) act(*shape);
    }
  };
  shapes([&rows](const Shape& shape) {
    const bool box = shape.closed && shape.stroke && shape.stroke->width_pt == 0.5;
    if (box) rows[around(shape).y].push_back({.rect = around(shape)});
  });
  const auto each_with = [&rows](double x, double y, const auto& act) {
    for (auto& [top, row] : rows) {
      for (Look& look : row) {
        if (x > look.rect.x && x < look.rect.right() && y > look.rect.y && y < look.rect.bottom()) {
          act(look);
        }
      }
    }
  };
  shapes([&each_with](const Shape& shape) {
    const Rect rect = around(shape);
    each_with(rect.x + rect.width / 2, rect.y + rect.height / 2, [&shape](Look& look) {
      if (shape.fill_grey) look.filled = true;
      if (shape.closed && shape.stroke && shape.stroke->width_pt == decides_line().width_pt) {
        look.framed = true;
      }
      if (!shape.closed) ++look.strokes;
    });
  });
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr) continue;
    const Rect ink = ink_box(typesetter(), *text);
    each_with(ink.x + ink.width / 2, ink.y + ink.height / 2,
              [text](Look& look) { look.sign = text->words; });
  }
  std::vector<std::vector<Look>> out;
  for (auto& [top, row] : rows) {
    std::ranges::sort(row, {}, [](const Look& look) { return look.rect.x; });
    out.push_back(std::move(row));
  }
  return out;
}

/// The share of the room, from what the record says is left and what the margin is.
double share_of(const PlanRun& planned, std::size_t reserve, std::size_t day) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  const engine::ReserveDay& row = planned.record.reserve(day, reserve);
  if (info.id.family == engine::Family::cold) {
    const plan::Cabinet& cabinet = planned.plan.cold[static_cast<std::size_t>(info.id.of)];
    const double coldest = cabinet.ice_box ? 0 : cabinet.set_point_c;
    return (row.margin - row.left) / (row.margin - coldest);
  }
  return (row.left - row.margin) / (info.capacity - row.margin);
}

/// Which of the looks a share has: 0 blank, 1 wide lines, 2 close lines, 3 dark.
int degree_of(const Look& look) {
  if (look.filled) return 3;
  if (look.strokes == 0) return 0;
  constexpr double between_pt = 3.4;  // lines are 5 pt or 2.4 pt apart
  return look.strokes > (look.rect.width + look.rect.height) / between_pt ? 2 : 1;
}

int degree_of(double share) { return share >= 0.5 ? 0 : share >= 0.25 ? 1 : share >= 0.1 ? 2 : 3; }

bool on_an_edge(double share) {
  return std::ranges::any_of(std::vector<double>{0.1, 0.25, 0.5},
                             [share](double edge) { return std::abs(share - edge) < 1e-9; });
}

/// Days on 4 L each out of one can of 60 L.
PlanText staying(int nights, const std::string& filled) {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + filled + ", for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
  return plan;
}

TEST(DecidesChart, GrowsDarkerDayByDay) {
  // Of 50 L above the margin there are 26, 22, 18, 14, 10, 6, 2 at the end of each day, and then
  // less than none.
  const std::vector<Block> blocks = chart_of(travel(staying(8, "40 L")));
  ASSERT_THAT(blocks, SizeIs(2));
  const std::vector<std::vector<Look>> rows = looks(blocks[0]);
  ASSERT_THAT(rows, SizeIs(2));
  ASSERT_THAT(rows[0], SizeIs(8));
  const int expected[] = {0, 1, 1, 1, 2, 2, 3};
  for (std::size_t day = 0; day < 7; ++day) {
    EXPECT_EQ(degree_of(rows[0][day]), expected[day]) << day;
    EXPECT_EQ(rows[0][day].sign, "") << day;
    EXPECT_TRUE(rows[0][day].framed);
  }
  EXPECT_EQ(rows[0][7].sign, "!");
}

TEST(DecidesChart, HasASignWhereSomethingRunsOut) {
  const std::vector<std::vector<Look>> rows = looks(chart_of(travel(staying(4, "14 L"))).at(0));
  EXPECT_EQ(rows.at(0).at(0).sign, "");
  EXPECT_EQ(rows[0].at(1).sign, "!");
  EXPECT_EQ(rows[0].at(3).sign, "!!");
  EXPECT_TRUE(rows[0][3].framed);
}

TEST(DecidesChart, SaysWhichDecidesInWords) {
  EXPECT_EQ(decides_words(travel(staying(4, "14 L"))), "drinking water on days 1 to 4.");
}

TEST(DecidesChart, HasAKey) {
  const std::string words = support::words_of(chart_of(travel(staying(4, "14 L"))).back().marks);
  for (const char* what :
       {"runs out", "beyond its margin", "tenth", "quarter", "half", "nearest"}) {
    EXPECT_THAT(words, ::testing::HasSubstr(what));
  }
}

void check_boxes(const PlanRun& planned) {
  const std::vector<Block> blocks = chart_of(planned);
  if (blocks.size() != 2) return;  // cut into pieces
  const std::vector<std::vector<Look>> rows = looks(blocks[0]);
  RC_ASSERT(rows.size() == planned.course.reserves.size());
  std::vector<std::size_t> order;
  for (const bool life : {true, false}) {
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (planned.course.reserves[r].life_supporting == life) order.push_back(r);
    }
  }
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    int framed = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const Look& look = rows[i].at(day);
      const engine::ReserveDay& row = planned.record.reserve(day, order[i]);
      const double share = row.judged ? share_of(planned, order[i], day) : 1;
      if (row.short_of > 0 || row.breach_h >= 0) {
        RC_ASSERT(look.sign == (row.short_of > 0 ? "!!" : "!"));
      } else {
        RC_ASSERT(look.sign.empty());
        if (std::isfinite(share) && !on_an_edge(share)) {
          RC_ASSERT(degree_of(look) == degree_of(share));
        }
      }
      if (!look.framed) continue;
      ++framed;
      // No other has worse: signs first, then the share.
      for (std::size_t other = 0; other < order.size(); ++other) {
        const std::string& sign = rows[other].at(day).sign;
        RC_ASSERT(sign.size() <= look.sign.size());
        if (!look.sign.empty() || !std::isfinite(share)) continue;
        if (!planned.record.reserve(day, order[other]).judged) continue;
        const double its = share_of(planned, order[other], day);
        if (std::isfinite(its)) RC_ASSERT(std::min(its, 1.0) >= std::min(share, 1.0) - 1e-9);
      }
    }
    RC_ASSERT(framed == 1);
  }
}

RC_GTEST_PROP(DecidesChartProperty, SaysWhatTheRecordSays, ()) {
  check_boxes(travel(support::random_plan(support::rapidcheck_pick())));
}

RC_GTEST_PROP(DecidesChartProperty, SaysWhatTheRecordSaysOfShippedPlans, ()) {
  static const std::vector<plan::Plan> plans = support::all_scenarios();
  check_boxes(travel(*rc::gen::elementOf(plans)));
}

TEST(DecidesChart, MeetsNowhere) {
  for (const Block& block : chart_of(travel(support::three_places()))) {
    EXPECT_THAT(support::faults(typesetter(), block, 520), IsEmpty());
  }
}

}  // namespace
}  // namespace drystage::report::decides_chart_test
