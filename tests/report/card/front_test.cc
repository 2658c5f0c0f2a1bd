// The front of the card: every figure is on it, nothing is cut, and there is room to write.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "report/card/evening_figures.h"
#include "report/needs/words.h"
#include "report/text/words.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/convoy.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::all_words;
using support::card_answer;
using support::card_faults;
using support::front_pages;
using support::papers;
using support::PlanText;
using support::words_on;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Boxes that are large enough to write in, and that nothing is written in.
std::size_t empty_boxes(const std::vector<Page>& pages) {
  constexpr double mm = 72 / 25.4;
  constexpr double rounding = 1e-6;
  const drawing::Typesetter typesetter;
  std::size_t count = 0;
  for (const Page& page : pages) {
    std::vector<drawing::Rect> inks;
    for (const drawing::Mark& mark : page.marks) {
      const auto* text = std::get_if<drawing::Text>(&mark);
      if (text != nullptr) inks.push_back(ink_box(typesetter, *text));
    }
    for (const drawing::Mark& mark : page.marks) {
      const auto* box = std::get_if<drawing::Shape>(&mark);
      if (box == nullptr || !box->closed || !box->stroke) continue;
      const drawing::Point& a = box->points[0];
      const drawing::Point& c = box->points[2];
      if (c.x - a.x < 14 * mm - rounding || c.y - a.y < 6.5 * mm - rounding) continue;
      const bool written_in = std::ranges::any_of(inks, [&](const drawing::Rect& ink) {
        return ink.x < c.x && ink.right() > a.x && ink.y < c.y && ink.bottom() > a.y;
      });
      if (!written_in) ++count;
    }
  }
  return count;
}

/// Every day with its number and date, and after it, before the next one, plan and must have of
/// every reserve that has boxes, in order.
void expect_every_figure(const CardAnswer& answer, const std::vector<std::string>& words,
                         units::System system) {
  const auto& needs = answer.needs;
  const std::size_t days = needs.planned.record.days();
  std::size_t at = 0;
  const auto find = [&](const auto& is, const std::string& what) {
    const auto first = words.begin() + static_cast<std::ptrdiff_t>(at);
    const auto found = std::find_if(first, words.end(), is);
    ASSERT_NE(found, words.end()) << "after text " << at << " there is no " << what;
    at = static_cast<std::size_t>(found - words.begin()) + 1;
  };
  find([](const std::string& text) { return text == "Before setting out"; }, "first row");
  for (std::size_t evening = 0; evening <= days; ++evening) {
    if (evening > 0) {
      const std::string number = std::to_string(evening);
      const std::string date =
          report::short_date(needs.planned.course.timeline->days[evening - 1].schedule.date);
      std::size_t row = at;
      find([&](const std::string& text) { return text == date || text == number + "  " + date; },
           date);
      if (words[at - 1] == date) {
        while (words[row] != number && row < at) ++row;
        EXPECT_EQ(row, at - 2) << "the day's number stands beside its date";
      }
    }
    for (const std::size_t i : report::life_supporting(needs)) {
      const auto& info =
          needs.planned.course.reserves[static_cast<std::size_t>(needs.needs.reserves[i])];
      const std::string what = info.name + " on evening " + std::to_string(evening);
      if (evening == days) {
        find([](const std::string& text) { return text == "-" || text == "must have -"; }, what);
        continue;
      }
      const report::EveningFigures shown = report::evening_figures(needs, i, evening, system);
      const std::string& must = shown.must_have;
      const std::string sign = shown.lacks ? "! " : "";
      const auto is_plan = [&](const std::string& text) {
        return text == sign + shown.plan || text == sign + "plan " + shown.plan;
      };
      find(is_plan, "plan of " + what);
      ASSERT_LT(at, words.size());
      EXPECT_TRUE(words[at] == must || words[at] == "must have " + must)
          << words[at] << " of " << what << " is not " << must;
      ++at;
    }
    for (const std::size_t r : report::small_reserves(needs.planned)) {
      const report::SmallFigure small = report::small_figure(needs, r, evening, system);
      if (small.plan.empty()) continue;
      const std::string figure = (small.low ? "! " : "") + small.plan;
      const std::size_t before = at;
      find(
          [&](const std::string& text) {
            return text == figure || text.find(" " + figure + " ") != std::string::npos;
          },
          needs.planned.course.reserves[r].name + " on evening " + std::to_string(evening));
      // In a line there are several.
      if (words[at - 1] != figure) at = before;
    }
  }
}

TEST(CardFront, OfShippedPlansHasEveryFigureAndNothingIsCutOrMeets) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    const std::size_t boxes =
        report::life_supporting(answer.needs).size() * report::evenings(answer.needs);
    for (const auto& [name, paper] : papers()) {
      for (const units::System system : {units::System::metric, units::System::us}) {
        SCOPED_TRACE(answer.needs.planned.plan.trip.title + " on " + name);
        const std::vector<Page> pages = front_pages(answer, paper, system);
        EXPECT_THAT(card_faults(pages, paper), IsEmpty());
        EXPECT_EQ(empty_boxes(pages), boxes);
        expect_every_figure(answer, words_on(pages), system);
      }
    }
  }
}

RC_GTEST_PROP(CardFront, OfAnyPlanHasEveryFigureAndNothingIsCutOrMeets, ()) {
  const CardAnswer answer = card_answer(support::random_plan(support::rapidcheck_pick()));
  const std::size_t boxes =
      report::life_supporting(answer.needs).size() * report::evenings(answer.needs);
  for (const auto& [name, paper] : papers()) {
    const std::vector<Page> pages = front_pages(answer, paper);
    const std::vector<std::string> wrong = card_faults(pages, paper);
    RC_ASSERT(wrong == std::vector<std::string>{});
    RC_ASSERT(empty_boxes(pages) == boxes);
    expect_every_figure(answer, words_on(pages), units::System::metric);
  }
  RC_ASSERT(!::testing::Test::HasFailure());
}

/// The number of a figure, without the signs before it.
double number_of(const std::string& figure) {
  return std::stod(figure.substr(figure.find_first_of("0123456789")));
}

TEST(CardFront, NeverLooksBetterThanTheNeedsInJson) {
  for (const CardAnswer& card : support::shipped_answers()) {
    const report::NeedsAnswer& answer = card.needs;
    const auto json = nlohmann::json::parse(report::needs_json(answer));
    for (const std::size_t i : report::life_supporting(answer)) {
      const std::string name = json["reserves"][i]["name"];
      for (std::size_t day = 0; day < json["days"].size(); ++day) {
        const auto& need = json["days"][day]["reserves"][name];
        const report::EveningFigures shown =
            report::evening_figures(answer, i, day, units::System::metric);
        if (need.is_null()) {
          EXPECT_EQ(shown.plan, "-");
          continue;
        }
        EXPECT_EQ(shown.lacks, !need["met"].get<bool>());
        // What differs by less than a tenth is shown as the same.
        EXPECT_LE(number_of(shown.plan), need["has"].get<double>() + 0.1);
        EXPECT_GT(number_of(shown.plan), need["has"].get<double>() - 1);
        if (need["must_have"].is_null()) continue;
        EXPECT_GE(number_of(shown.must_have), need["must_have"].get<double>() - 1e-6);
        EXPECT_LT(number_of(shown.must_have), need["must_have"].get<double>() + 1);
        // Enough never looks like too little.
        if (!shown.lacks) EXPECT_GE(number_of(shown.plan), number_of(shown.must_have));
      }
    }
  }
}

/// Seven vehicles, twelve people, supplies on the way.
PlanText convoy(int nights) {
  PlanText plan = support::three_places();
  plan.vehicles = support::lorries("long lorry", 7);
  plan.people = support::travellers(12, "long lorry 1");
  plan.itinerary[2] = "stay: {nights: " + std::to_string(nights) + "}";
  return plan;
}

TEST(CardFront, HasRoomForEightReservesAndTwelvePeople) {
  const CardAnswer answer = card_answer(convoy(3));
  ASSERT_EQ(report::life_supporting(answer.needs).size(), 8U);
  for (const auto& [name, paper] : papers()) {
    SCOPED_TRACE(name);
    const std::vector<Page> pages = front_pages(answer, paper);
    EXPECT_THAT(card_faults(pages, paper), IsEmpty());
    EXPECT_EQ(empty_boxes(pages), 8U * report::evenings(answer.needs));
    expect_every_figure(answer, words_on(pages), units::System::metric);
    const std::string words = all_words(pages);
    for (int p = 1; p <= 12; ++p) {
      EXPECT_THAT(words, HasSubstr("Traveller number " + std::to_string(p)));
    }
    for (int v = 1; v <= 7; ++v) {
      EXPECT_THAT(words, HasSubstr("Fuel of long lorry " + std::to_string(v) + ", L"));
    }
  }
}

/// Whether a page has a text.
bool has(const Page& page, const std::string& words) {
  return std::ranges::any_of(page.marks, [&](const drawing::Mark& mark) {
    const auto* text = std::get_if<drawing::Text>(&mark);
    return text != nullptr && text->words == words;
  });
}

TEST(CardFront, RepeatsItsHeadOverFortyDays) {
  PlanText plan = support::three_places();
  plan.itinerary[2] = "stay: {nights: 38}";
  const CardAnswer answer = card_answer(plan);
  ASSERT_GE(answer.needs.planned.record.days(), 40U);
  for (const auto& [name, paper] : papers()) {
    SCOPED_TRACE(name);
    const std::vector<Page> pages = front_pages(answer, paper);
    EXPECT_THAT(card_faults(pages, paper), IsEmpty());
    EXPECT_EQ(empty_boxes(pages), 2 * report::evenings(answer.needs));
    expect_every_figure(answer, words_on(pages), units::System::metric);
    ASSERT_GE(pages.size(), 2U);
    for (const Page& page : pages) {
      EXPECT_TRUE(has(page, "Drinking water, L"));
      EXPECT_TRUE(has(page, "must have"));
      EXPECT_TRUE(has(page, "tonight"));
    }
  }
}

TEST(CardFront, OfOneDayHasTwoRows) {
  PlanText plan = support::three_places();
  plan.itinerary = {"{at: Base}", "drive: {to: Red Tables, distance: 200 km, surfaces: gravel}"};
  const CardAnswer answer = card_answer(plan);
  ASSERT_EQ(answer.needs.planned.record.days(), 1U);
  for (const auto& [name, paper] : papers()) {
    const std::vector<Page> pages = front_pages(answer, paper);
    EXPECT_THAT(card_faults(pages, paper), IsEmpty());
    EXPECT_EQ(empty_boxes(pages), 4U);
    EXPECT_THAT(all_words(pages), HasSubstr("Mon 01 Mar 2027, 1 day"));
  }
}

TEST(CardFront, ShowsNamesAsTheyAreWritten) {
  const std::string markup = "<b>Bir & \"Aslam\"</b>";
  const std::string emoji = "Camp 🐪 & 水";
  const std::string chinese =
      "红色的桌子红色的桌子红色的桌子红色的桌子红色的桌子红色的桌子红色的桌子";
  const std::string hebrew = "באר שבעים";
  const std::string longest(100, 'W');
  const auto quoted = [](const std::string& name) { return "'" + name + "'"; };
  PlanText plan = support::three_places();
  plan.people = {PlanText::person(quoted(hebrew), "4 L/day"),
                 PlanText::person(quoted(emoji), "4 L/day"), PlanText::person(longest, "4 L/day")};
  plan.vehicles = {"{name: " + quoted(longest) +
                   ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
                   "filled: 80 L}]}"};
  const std::string supplies = "drinking_water: {}, diesel: {confirmed: no}";
  plan.places = {PlanText::place(quoted(markup), "air", supplies),
                 PlanText::place(quoted(chinese), "air"),
                 PlanText::place(quoted(hebrew), "air", supplies)};
  plan.itinerary = {"{at: " + quoted(markup) + "}",
                    "drive: {to: " + quoted(chinese) + ", distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 3}",
                    "drive: {to: " + quoted(hebrew) + ", distance: 115 km, surfaces: gravel}",
                    "resupply: {diesel: fill}",
                    "stay: {nights: 1}"};
  const CardAnswer answer = card_answer(plan);
  for (const auto& [name, paper] : papers()) {
    SCOPED_TRACE(name);
    const std::vector<Page> pages = front_pages(answer, paper);
    EXPECT_THAT(card_faults(pages, paper), IsEmpty());
    const std::string words = all_words(pages);
    for (const std::string& written : {markup, emoji, chinese, hebrew, longest}) {
      EXPECT_THAT(words, HasSubstr(written));
    }
    // In a sentence a name that is written right to left is set apart (Unicode, UAX 9).
    EXPECT_THAT(words, HasSubstr("at \u2068" + hebrew + "\u2069: diesel fill up"));
  }
}

}  // namespace
}  // namespace drystage
