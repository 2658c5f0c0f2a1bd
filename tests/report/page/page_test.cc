// The whole page for a telephone. How it looks and what its script says is asked of a browser:
// tests/cli/card_page_test.cc.
#include "report/page/page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/rules.h"
#include "report/card/supply_words.h"
#include "report/page/figures.h"
#include "report/page/html.h"
#include "report/run/words.h"
#include "report/text/page.h"
#include "support/answer.h"
#include "support/card_answer.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using support::desert_crossing;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr auto metric = units::System::metric;

/// The section of one evening.
std::string section(const std::string& page, std::size_t evening) {
  const std::size_t begin = page.find("id=\"day-" + std::to_string(evening) + "\"");
  return page.substr(begin, page.find("</section>", begin) - begin);
}

TEST(CardPage, OfShippedPlansHasEveryFigureAndIsSmall) {
  constexpr std::size_t most_bytes = 300'000;
  for (const CardAnswer& answer : support::shipped_answers()) {
    SCOPED_TRACE(answer.needs.planned.plan.trip.title);
    const std::string page = card_page(answer, metric);
    EXPECT_LT(page.size(), most_bytes);
    EXPECT_EQ(support::times(page, std::string(cautions)), 1);
    for (const page::Shown& shown : page::shown_reserves(answer, metric)) {
      for (std::size_t evening = 0; evening < shown.written.size(); ++evening) {
        const std::string words = section(page, evening);
        EXPECT_THAT(words, HasSubstr("Plan <strong>" + shown.written[evening].plan));
        EXPECT_THAT(words, HasSubstr("Must have <strong>" + shown.written[evening].must));
      }
    }
  }
}

TEST(CardPage, BeginsWithTheVerdict) {
  const std::string page = card_page(desert_crossing(), metric);
  const std::string verdict = verdict_words(desert_crossing().needs.planned, {}, metric);
  EXPECT_LT(page.find(page::html(verdict)), page.find("<main>"));
}

TEST(CardPage, HasWhatIsMetBeforeANight) {
  const CardAnswer& answer = desert_crossing();
  const std::string page = card_page(answer, metric);
  EXPECT_THAT(section(page, 3), HasSubstr("Shell Pan"));
  const auto turns = turn_back_rules(answer.needs, metric);
  ASSERT_FALSE(turns.empty());
  for (const TurnBackRule& rule : turns) {
    EXPECT_THAT(section(page, at(rule.day) + 1), HasSubstr(page::html(rule.headline)));
  }
  const auto supplies = supply_lines(answer.needs.planned, 2, false, metric);
  ASSERT_FALSE(supplies.empty());
  EXPECT_THAT(section(page, 3), HasSubstr(page::html(supplies.front().words)));
  EXPECT_THAT(section(page, 12), HasSubstr("class=\"grave\">Day 12"));
}

TEST(CardPage, ShowsWhatThePlanHasTooLittleOf) {
  const std::string page = card_page(desert_crossing(), metric);
  // Utility water is short from the beginning; on the last evening nothing must be there.
  EXPECT_THAT(section(page, 3), HasSubstr("<details open>"));
  EXPECT_THAT(section(page, 14), HasSubstr("<details>"));
}

TEST(CardPage, HasTheWayOutOfEveryCamp) {
  const std::string page = card_page(desert_crossing(), metric);
  const std::size_t days = desert_crossing().needs.planned.record.days();
  for (std::size_t evening = 0; evening <= days; ++evening) {
    const bool camp = evening > 0 && evening < days;
    EXPECT_EQ(support::times(section(page, evening), "The way out"), camp ? 1 : 0) << evening;
  }
  EXPECT_THAT(section(page, 3), HasSubstr("on to Tessarin"));
  EXPECT_THAT(section(page, 3), HasSubstr("back to "));
}

TEST(CardPage, SaysWhatToDoFirstAndKnowsNoNumberToCall) {
  const std::string page = card_page(desert_crossing(), metric);
  for (const char* words : {"Heat illness", "<h3>Drinking water</h3>", "<h3>Fuel",
                            "Who at home is told", "Emergency number of the region"}) {
    EXPECT_THAT(page, HasSubstr(words));
  }
  EXPECT_THAT(page, Not(HasSubstr("tel:")));
}

TEST(CardPage, SaysFromWhenThePlanMustBeRunAgain) {
  EXPECT_THAT(card_page(desert_crossing(), metric), HasSubstr("Use more than 25 % off the plan"));
}

TEST(CardPage, SetsNamesApartThatAreWrittenRightToLeft) {
  CardAnswer answer = desert_crossing();
  answer.needs.planned.plan.places[1].name = "مورد";
  answer.needs.planned.course.reserves[2].owner = "עגלה";
  const std::string page = card_page(answer, metric);
  EXPECT_THAT(page, HasSubstr("<bdi>مورد</bdi>"));
  const std::string text = page.substr(0, page.find("<script id=\"data\""));
  EXPECT_EQ(support::times(text, "مورد"), support::times(text, "<bdi>مورد</bdi>"));
}

TEST(CardPage, OfAPlanWithoutADriveHasNoWayOut) {
  support::PlanText plan;
  plan.margins = {"drinking_water: 5 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  EXPECT_THAT(card_page(support::card_answer(plan), metric), Not(HasSubstr("The way out</h4>")));
}

TEST(CardPage, NamesEveryEvening) {
  const answers::PlanRun& planned = desert_crossing().needs.planned;
  EXPECT_EQ(page::evening_words(planned, 0), "Before setting out");
  EXPECT_EQ(page::evening_words(planned, 1), "Day 1, Mon 08 Mar, Imrel Bore");
}

TEST(CardPage, IsTheSameEveryTime) {
  EXPECT_EQ(card_page(desert_crossing(), metric), card_page(desert_crossing(), metric));
}

}  // namespace
}  // namespace drystage::report
