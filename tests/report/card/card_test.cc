// The whole card: front, back and the page to leave at home, one after the other.
#include "report/card/card.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/laid_out.h"
#include "support/overlaps.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using drawing::Drawing;
using report::card;
using report::CardAnswer;
using support::card_answer;
using support::desert_crossing;
using support::faults;
using support::papers;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr auto metric = units::System::metric;

TEST(Card, OfShippedPlansIsWhole) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    for (const auto& [name, paper] : papers()) {
      SCOPED_TRACE(answer.needs.trial.plan.trip.title + " on " + name);
      EXPECT_THAT(faults(card(answer, paper, metric).pages, paper.margin_pt), IsEmpty());
    }
  }
}

RC_GTEST_PROP(Card, OfAnyPlanIsWhole, ()) {
  const CardAnswer answer = card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto all = papers();
  const drawing::Paper paper = all[*rc::gen::inRange<std::size_t>(0, all.size())].paper;
  const std::vector<std::string> wrong = faults(card(answer, paper, metric).pages, paper.margin_pt);
  RC_ASSERT(wrong == std::vector<std::string>{});
}

TEST(Card, BeginsBackAndHomePageOnPagesOfTheirOwn) {
  const CardAnswer& answer = desert_crossing();
  const Drawing drawing = card(answer, drawing::a4, metric);
  EXPECT_EQ(drawing.title, "Dune mapping, Marrabel to Tessarin");
  const std::size_t front = support::front_pages(answer, drawing::a4).size();
  ASSERT_GE(drawing.pages.size(), front + 2);
  // The front's pages are those of the front alone, but for the count at their foot.
  const auto alone = support::front_pages(answer, drawing::a4);
  for (std::size_t n = 0; n < front; ++n) {
    const auto words = support::words_on({alone[n]});
    const auto first = support::words_on({drawing.pages[n]});
    ASSERT_EQ(words.size(), first.size());
    EXPECT_TRUE(std::equal(words.begin(), words.end() - 1, first.begin()));
  }
}

TEST(Card, CountsItsPagesAtTheFoot) {
  const Drawing drawing = card(desert_crossing(), drawing::letter, metric);
  const std::string of = " of " + std::to_string(drawing.pages.size());
  for (std::size_t n = 0; n < drawing.pages.size(); ++n) {
    const auto words = support::words_on({drawing.pages[n]});
    EXPECT_THAT(words, Contains("page " + std::to_string(n + 1) + of));
    EXPECT_THAT(words, Contains("Dune mapping, Marrabel to Tessarin"));
    EXPECT_EQ(drawing.pages[n].width_pt, 612);
    EXPECT_EQ(drawing.pages[n].height_pt, 792);
  }
}

TEST(Card, BeginsTheHomePartOnTheFrontOfASheet) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    const Drawing drawing = card(answer, drawing::a4, metric);
    for (std::size_t n = 0; n < drawing.pages.size(); ++n) {
      const auto words = support::words_on({drawing.pages[n]});
      if (words.front() != "To leave at home") continue;
      EXPECT_EQ(n % 2, 0U) << answer.needs.trial.plan.trip.title;
    }
  }
}

TEST(Card, HasLinesForNotesOnlyWhereAPageIsToSpare) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    for (const auto& [name, paper] : papers()) {
      const Drawing drawing = card(answer, paper, metric);
      std::size_t notes = 0;
      std::size_t home = 0;
      for (std::size_t n = 0; n < drawing.pages.size(); ++n) {
        const auto words = support::words_on({drawing.pages[n]});
        if (words.front() == "Notes") notes = n + 1;
        if (words.front() == "To leave at home") home = n + 1;
      }
      if (notes == 0) continue;
      EXPECT_NE(name, "strip");
      EXPECT_EQ(notes + 1, home);
    }
  }
}

TEST(Card, NamesThePlansFileAtTheFootHoweverLongTheTitleIs) {
  CardAnswer answer = desert_crossing();
  answer.needs.trial.plan.trip.title = std::string(200, 'W');
  answer.source = "trip.yaml, --set trip.start=2027-03-09";
  for (const drawing::Page& page : card(answer, drawing::a4, metric).pages) {
    EXPECT_THAT(support::words_on({page}), Contains(HasSubstr("\u00B7 trip.yaml, --set trip.st")));
  }
}

TEST(Card, IsOnePageOnEndlessPaper) {
  const Drawing drawing = card(desert_crossing(), drawing::strip, metric);
  ASSERT_EQ(drawing.pages.size(), 1U);
  EXPECT_EQ(drawing.pages[0].width_pt, 270);
}

TEST(Card, SaysTheCautions) {
  std::string words;
  for (const std::string& text :
       support::words_on(card(desert_crossing(), drawing::a4, metric).pages)) {
    words += text + " ";
  }
  EXPECT_THAT(words, HasSubstr("A planning aid, no more."));
}

TEST(Card, IsTheSameEveryTime) {
  const CardAnswer& answer = desert_crossing();
  EXPECT_EQ(support::words_on(card(answer, drawing::a4, metric).pages),
            support::words_on(card(answer, drawing::a4, metric).pages));
}

}  // namespace
}  // namespace drystage
