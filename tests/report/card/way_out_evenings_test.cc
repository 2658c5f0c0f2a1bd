// That the figures of the way out stand beside their own nights and camp.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// Three places, and of water figures that tell their day.
report::CardAnswer with_telling_figures() {
  report::CardAnswer answer = support::card_answer(support::three_places());
  const std::size_t count = answer.ways_out.reserves.size();
  for (std::size_t day = 0; day < answer.needs.planned.record.days(); ++day) {
    const auto number = static_cast<double>(day);
    answers::WaysOut& water = answer.ways_out.table[day * count];
    water.as_planned.least = 100 + number;
    water.at_once = {.least = 200 + number, .bare = 150 + number};
    water.back = answers::WayOut{.least = 300 + number, .bare = 250 + number};
  }
  return answer;
}

/// The texts of the row of some nights, from its camp on.
std::vector<std::string> row_of(const std::vector<std::string>& words, const std::string& nights) {
  const auto row = std::ranges::find(words, nights);
  if (words.end() - row < 5) return {};
  std::vector<std::string> out(row + 1, row + 4);
  for (std::string& text : out) text = support::with_plain_blanks(text);
  return out;
}

TEST(WayOutTable, HasTheFiguresOfACampInItsRow) {
  const report::CardAnswer answer = with_telling_figures();
  const auto words = support::words_on(support::part_pages(report::write_way_out, answer));
  ASSERT_EQ(answer.needs.planned.record.days(), 6U);
  // The highest of its nights.
  EXPECT_THAT(row_of(words, "1\u20133"), ElementsAre("Red Tables", "203 (153)", "303 (253)"));
  EXPECT_THAT(row_of(words, "4\u20135"), ElementsAre("Far Well", "205 (155)", "305 (255)"));
}

TEST(WayOutTable, HasThemUnderTheCampWhereThereAreManyReserves) {
  report::CardAnswer answer = with_telling_figures();
  // Each reserve twice: more than have room side by side.
  auto& [reserves, table] = answer.ways_out;
  const auto days = static_cast<std::ptrdiff_t>(answer.needs.planned.record.days());
  const auto count = static_cast<std::ptrdiff_t>(reserves.size());
  std::vector<answers::WaysOut> twice;
  for (std::ptrdiff_t day = 0; day < days; ++day) {
    for (int times = 0; times < 2; ++times) {
      twice.insert(twice.end(), table.begin() + day * count, table.begin() + (day + 1) * count);
    }
  }
  table = twice;
  const std::vector<int> once = reserves;
  reserves.insert(reserves.end(), once.begin(), once.end());
  const std::string words = support::with_plain_blanks(
      support::all_words(support::part_pages(report::write_way_out, answer)));
  const std::size_t from = words.find("Nights 1\u20133, Red Tables");
  ASSERT_NE(from, std::string::npos);
  const std::string own = words.substr(from, words.find("Nights 4\u20135, Far Well", from) - from);
  EXPECT_THAT(own, HasSubstr("L: on at once 203 (153); back 303 (253)."));
}

TEST(WayOutTable, PartsNightsOfACampWhereTheFiguresAreNotMuchTheSame) {
  report::CardAnswer answer = with_telling_figures();
  const std::size_t count = answer.ways_out.reserves.size();
  answers::WaysOut& third = answer.ways_out.table[3 * count];
  const auto nights = [&](const char* which) {
    const auto words = support::words_on(support::part_pages(report::write_way_out, answer));
    return std::ranges::find(words, which) != words.end();
  };
  EXPECT_TRUE(nights("1\u20133"));
  // The can holds 120 L: six of them are a twentieth.
  third.at_once.least = 206.9;
  EXPECT_TRUE(nights("1\u20133"));
  third.at_once.least = 207.1;
  EXPECT_TRUE(nights("1\u20132"));
  EXPECT_TRUE(nights("3"));
  third.at_once.least = 203;
  third.back = std::nullopt;
  EXPECT_TRUE(nights("3"));
  third.back = answers::WayOut{.least = 303, .bare = 253, .place = 2};
  EXPECT_TRUE(nights("3"));
}

}  // namespace
}  // namespace drystage
