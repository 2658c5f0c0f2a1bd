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

namespace drystage::card_test {
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

/// The number of the page that begins with those words, from 1; 0 where none does.
std::size_t page_of(const Drawing& drawing, const std::string& words) {
  const auto begins = [&](const drawing::Page& page) {
    return support::words_on({page}).front() == words;
  };
  const auto found = std::ranges::find_if(drawing.pages, begins);
  return found == drawing.pages.end() ? 0
                                      : static_cast<std::size_t>(found - drawing.pages.begin()) + 1;
}

// Each is laid out once: that nothing is cut or meets is asked of the parts in no other test, for
// they all stand here.
TEST(Card, OfShippedPlansIsWhole) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    for (const auto& [name, paper] : papers()) {
      for (const units::System system : {metric, units::System::imperial}) {
        SCOPED_TRACE(answer.needs.trial.plan.trip.title + " on " + name);
        const Drawing drawing = card(answer, paper, system);
        EXPECT_THAT(faults(drawing.pages, paper.margin_pt), IsEmpty());
        if (name == "strip") continue;
        // What stays at home begins on the front of a sheet: where that leaves a page to spare
        // there are lines for notes.
        const std::size_t home = page_of(drawing, "To leave at home");
        const std::size_t notes = page_of(drawing, "Notes");
        EXPECT_EQ(home % 2, 1U);
        if (notes != 0) EXPECT_EQ(notes + 1, home);
      }
    }
  }
}

RC_GTEST_PROP(Card, OfAnyPlanIsWhole, ()) {
  const CardAnswer answer = card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto all = papers();
  const drawing::Paper paper = all[*rc::gen::inRange<std::size_t>(0, all.size())].paper;
  const auto system = *rc::gen::element(metric, units::System::us, units::System::imperial);
  const std::vector<std::string> wrong = faults(card(answer, paper, system).pages, paper.margin_pt);
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
}  // namespace drystage::card_test
