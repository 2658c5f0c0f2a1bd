// The trade between mass and safety as a picture, read by its numbers.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <optional>
#include <string>

#include "report/charts/charts.h"
#include "report/charts/picture.h"
#include "support/answer.h"
#include "support/charts.h"
#include "support/overlaps.h"
#include "support/size_answer.h"

namespace drystage::report::trade_off_chart_test {
namespace {

using drawing::Mark;
using drawing::Page;
using drawing::Point;
using drawing::Shape;
using drawing::Text;
using support::missed;
using support::sized_answer;
using support::traded;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

Page page_of(const SizeAnswer& answer, units::System system = units::System::metric) {
  const drawing::Drawing drawing = trade_off_chart(answer, system);
  if (drawing.pages.size() != 1) throw std::runtime_error("not one page");
  return drawing.pages.front();
}

std::string words(const SizeAnswer& answer, units::System system = units::System::metric) {
  return unwrapped(support::words_of(page_of(answer, system).marks));
}

/// A trade-off as a reader reads it.
struct Read {
  drawing::Scale masses;
  std::vector<Point> dots;                           ///< from the top down
  std::vector<std::pair<std::string, double>> rows;  ///< words at the left, and how high they stand
};

Read read(const Page& page) {
  Read out;
  double foot = 0;
  for (const Mark& mark : page.marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr) continue;
    if (shape->fill_grey && shape->points.size() > 4) {
      Point middle;
      for (const Point& point : shape->points) {
        middle.x += point.x / static_cast<double>(shape->points.size());
        middle.y += point.y / static_cast<double>(shape->points.size());
      }
      out.dots.push_back(middle);
    }
    if (shape->closed && shape->stroke) {
      for (const Point& point : shape->points) foot = std::max(foot, point.y);
    }
  }
  std::ranges::sort(out.dots, {}, &Point::y);
  std::vector<std::pair<double, double>> numbers;
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr) continue;
    const drawing::Rect ink = ink_box(typesetter(), *text);
    const bool number = text->words.find_first_not_of("0123456789.") == std::string::npos;
    if (number && ink.y > foot && ink.y < foot + 12) {
      numbers.emplace_back(std::stod(text->words), ink.x + ink.width / 2);
    }
    if (text->words.ends_with(" day") || text->words.ends_with(" days") ||
        text->words == "as planned") {
      out.rows.emplace_back(text->words, ink.y + ink.height / 2);
    }
  }
  if (numbers.size() < 2) throw std::runtime_error("a chart without numbers");
  out.masses = {.from = numbers.front().first,
                .to = numbers.back().first,
                .from_pt = numbers.front().second,
                .to_pt = numbers.back().second};
  return out;
}

std::optional<double> height_of(const Read& chart, const std::string& row) {
  for (const auto& [words, y] : chart.rows) {
    if (words == row) return y;
  }
  return std::nullopt;
}

TEST(TradeOffChart, HasAPointWhereEachSetIs) {
  // One day less weighs 182 kg, as planned 203 kg, a day more 225 kg (as the table has them).
  const Read chart = read(page_of(traded()));
  ASSERT_THAT(chart.dots, SizeIs(3));
  const double masses[] = {225, 203, 182};
  const char* const rows[] = {"+1 day", "as planned", "-1 day"};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(chart.masses.number(chart.dots[i].x), masses[i], 0.1);
    ASSERT_TRUE(height_of(chart, rows[i]));
    EXPECT_NEAR(*height_of(chart, rows[i]), chart.dots[i].y, 0.1);
  }
}

TEST(TradeOffChart, LabelsEachPointWithItsMass) {
  const Page page = page_of(traded());
  const Read chart = read(page);
  for (const char* label : {"225 kg", "203 kg", "182 kg"}) {
    const auto found = std::ranges::find_if(page.marks, [label](const Mark& mark) {
      const auto* text = std::get_if<Text>(&mark);
      return text != nullptr && text->words == label;
    });
    ASSERT_NE(found, page.marks.end()) << label;
    const auto& box = std::get<Text>(*found).box;
    const double near = std::ranges::min(chart.dots, {}, [&box](const Point& dot) {
                          return std::hypot(dot.x - box.x, dot.y - box.y);
                        }).x;
    EXPECT_NEAR(chart.masses.number(near), std::stod(label), 0.1);
  }
}

TEST(TradeOffChart, DrawsThePlansOwnMass) {
  SizeAnswer answer = traded();
  answer.sizing.plan_totals.kg = 210;
  const Page page = page_of(answer);
  const Read chart = read(page);
  const auto lines = support::lines_of(page.marks, must_line());
  // The other one is the key's.
  ASSERT_THAT(lines, SizeIs(2));
  const auto& upright = lines[1];
  EXPECT_NEAR(upright.front().x, upright.back().x, 1e-9);
  EXPECT_NEAR(chart.masses.number(upright.front().x), 210, 0.1);
  EXPECT_THAT(words(answer), HasSubstr("what the plan has: 210 kg"));
}

TEST(TradeOffChart, SaysWhetherWhatThePlanHasIsEnough) {
  SizeAnswer answer = traded();
  answer.planned.verdict.holds = true;
  EXPECT_THAT(words(answer), Not(HasSubstr("not enough")));
  answer.planned.verdict.holds = false;
  EXPECT_THAT(words(answer), HasSubstr(" kg, not enough"));
}

TEST(TradeOffChart, TellsInWordsWhatEachSetTakesAndWhatIsNotOnOffer) {
  const std::string text = words(traded());
  EXPECT_THAT(text, HasSubstr("LOAD "));
  EXPECT_THAT(text, HasSubstr("What one more day of margin weighs"));
  EXPECT_THAT(text, HasSubstr("-1 day: 182 kg, drinking water -20 L"));
  EXPECT_THAT(text, HasSubstr("+1 day: 225 kg, drinking water +20 L"));
  EXPECT_THAT(text, HasSubstr("+2 days: not on offer"));
  EXPECT_THAT(text, HasSubstr("The margins of drinking water, utility water and food are moved."));
  EXPECT_THAT(text, HasSubstr("A planning aid, no more."));
}

TEST(TradeOffChart, DoesNotJoinAcrossWhatWasNotFound) {
  SizeAnswer answer = traded();
  answer.trade_off[1].sizing.found.reset();
  const Page page = page_of(answer);
  const Read chart = read(page);
  ASSERT_THAT(chart.dots, SizeIs(2));
  for (const auto& line : support::lines_of(page.marks, plan_line())) {
    EXPECT_FALSE(support::distance(chart.dots[0], {line}) < 0.1 &&
                 support::distance(chart.dots[1], {line}) < 0.1);
  }
}

TEST(TradeOffChart, SaysThatNothingIsEnough) {
  const std::string text = words(missed());
  EXPECT_THAT(text, HasSubstr("NOT ENOUGH ON OFFER"));
  EXPECT_THAT(text, Not(HasSubstr("What a day more")));
  EXPECT_THAT(words(sized_answer()), Not(HasSubstr("What a day more")));
}

TEST(TradeOffChart, ShowsCostsAndOtherUnits) {
  SizeAnswer answer = traded();
  // 203 kg are 447.5 lb of 0.45359237 kg (NIST SP 811), rounded up.
  EXPECT_THAT(words(answer, units::System::us), HasSubstr("As planned: 448 lb"));
  answer.options.least = answers::Least::cost;
  double cost = 80;
  for (answers::TradeOff& row : answer.trade_off) {
    if (row.sizing.found) row.sizing.found->totals.cost = cost += 20.5;
  }
  answer.sizing.plan_totals.cost = 90;
  const std::string text = words(answer);
  EXPECT_THAT(text, HasSubstr("What one more day of margin costs"));
  EXPECT_THAT(text, HasSubstr("+1 day: 141.50, "));
  EXPECT_THAT(text, HasSubstr("cheapest set"));
}

RC_GTEST_PROP(TradeOffChartProperty, OverlapsNothingAndReadsAsItWasGiven, ()) {
  SizeAnswer answer = traded();
  std::vector<double> masses;
  for (answers::TradeOff& row : answer.trade_off) {
    if (!row.sizing.found) continue;
    row.sizing.found->totals.kg = *rc::gen::inRange(1, 4000);
    masses.insert(masses.begin(), row.sizing.found->totals.kg);
  }
  answer.sizing.plan_totals.kg = *rc::gen::inRange(1, 4000);
  const Page page = page_of(answer);
  for (const std::string& fault : support::faults(typesetter(), page)) RC_FAIL(fault);
  const Read chart = read(page);
  RC_ASSERT(chart.dots.size() == masses.size());
  for (std::size_t i = 0; i < masses.size(); ++i) {
    RC_ASSERT(std::abs(chart.masses.at_pt(masses[i]) - chart.dots[i].x) < 0.1);
  }
}

}  // namespace
}  // namespace drystage::report::trade_off_chart_test
