// That the figures of the way out stand beside their own evening and camp.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "report/card/way_out_table.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

/// Three places, and of water figures that tell their day.
report::CardAnswer with_telling_figures() {
  report::CardAnswer answer = support::card_answer(support::three_places());
  const std::size_t count = answer.ways_out.reserves.size();
  for (std::size_t day = 0; day < answer.needs.trial.record.days(); ++day) {
    const auto number = static_cast<double>(day);
    answers::WaysOut& water = answer.ways_out.table[day * count];
    water.as_planned.least = 100 + number;
    water.at_once = {.least = 200 + number, .bare = 150 + number};
    water.back = answers::WayOut{.least = 300 + number, .bare = 250 + number};
  }
  return answer;
}

const char* camp_of(std::size_t day) { return day <= 3 ? "Red Tables" : "Far Well"; }

TEST(WayOutTable, HasTheFiguresOfTheEveningInItsRow) {
  const report::CardAnswer answer = with_telling_figures();
  const auto words = support::words_on(support::part_pages(report::write_way_out, answer));
  const std::size_t days = answer.needs.trial.record.days();
  ASSERT_EQ(days, 6U);
  for (std::size_t day = 1; day < days; ++day) {
    SCOPED_TRACE(day);
    // 1 March 2027 is a Monday: the evening of day 1 is still that of the first of March.
    const auto row = std::ranges::find_if(words, [day](const std::string& cell) {
      return support::with_plain_blanks(cell).ends_with(fmt::format(" {:02} Mar", day)) &&
             cell.starts_with(fmt::format("{},", day));
    });
    ASSERT_GE(words.end() - row, 6);
    EXPECT_EQ(row[1], camp_of(day));
    EXPECT_THAT(support::with_plain_blanks(row[2]), StartsWith("Drinking water"));
    EXPECT_EQ(row[3], fmt::format("{}", 100 + day));
    EXPECT_EQ(support::with_plain_blanks(row[4]), fmt::format("{} ({})", 200 + day, 150 + day));
    EXPECT_EQ(support::with_plain_blanks(row[5]), fmt::format("{} ({})", 300 + day, 250 + day));
  }
}

TEST(WayOutTable, HasThemUnderTheEveningOnNarrowPaper) {
  const report::CardAnswer answer = with_telling_figures();
  const std::string words = support::with_plain_blanks(
      support::all_words(support::part_pages(report::write_way_out, answer, drawing::strip)));
  const std::size_t days = answer.needs.trial.record.days();
  for (std::size_t day = 1; day < days; ++day) {
    SCOPED_TRACE(day);
    const std::size_t from = words.find(fmt::format("Evening of day {},", day));
    ASSERT_NE(from, std::string::npos);
    const std::string own =
        words.substr(from, words.find(fmt::format("Evening of day {},", day + 1), from) - from);
    EXPECT_THAT(own, HasSubstr(camp_of(day)));
    EXPECT_THAT(own, HasSubstr(fmt::format("on as planned {}; on at once {} ({}); back {} ({}).",
                                           100 + day, 200 + day, 150 + day, 300 + day, 250 + day)));
  }
}

}  // namespace
}  // namespace drystage
