// The whole card: the sheet of two sides, and the parts that are asked for.
#include "report/card/card.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>

#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/cases.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"

namespace drystage::card_test {
namespace {

using drawing::Drawing;
using report::card;
using report::CardAnswer;
using support::card_answer;
using support::card_faults;
using support::desert_crossing;
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

/// Every part.
constexpr report::CardParts all_parts{
    .packing = true, .charts = true, .dips = true, .notes = true, .home = true};

// Each is laid out once: that nothing is cut or meets is asked of the parts in no other test, for
// they all stand here.
TEST(Card, OfShippedPlansIsWhole) {
  // Every second one where fewer cases are asked for: with the neighbours all papers and units.
  const int every = support::cases(2) == 2 ? 1 : 2;
  int next = 0;
  for (const CardAnswer& answer : support::shipped_answers()) {
    ++next;
    for (const auto& [name, paper] : papers()) {
      for (const units::System system : {metric, units::System::imperial}) {
        if (next++ % every != 0) continue;
        SCOPED_TRACE(answer.needs.planned.plan.trip.title + " on " + name);
        const Drawing drawing = card(answer, paper, system, all_parts);
        EXPECT_THAT(card_faults(drawing.pages, paper), IsEmpty());
        // What stays at home begins on the front of a sheet: lines for notes fill the page before.
        EXPECT_EQ(page_of(drawing, "To leave at home") % 2, 1U);
      }
    }
  }
}

TEST(Card, OfShippedPlansIsOneSheet) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    const std::string& title = answer.needs.planned.plan.trip.title;
    // Three reserves that life depends on, thirty days, and sixteen reserves.
    const std::size_t pages = title == "Summer at Lake Orrin"                   ? 3
                              : title == "The long loop round the Ampara basin" ? 4
                              : title == "Round the Sarn lakes with the dog"    ? 3
                                                                                : 2;
    for (const drawing::Paper& paper : {drawing::a4, drawing::letter}) {
      // The last one ends a little before or after the third page, as the paper has it.
      const std::size_t is = card(answer, paper, metric).pages.size();
      EXPECT_TRUE(is == pages || (pages == 3 && title.ends_with("dog") && is == 4)) << title << is;
    }
  }
}

/// Sixteen days with another camp every night, and everything that most trips plan for.
support::PlanText sixteen_days() {
  support::PlanText plan = support::three_places();
  plan.containers = {
      "{name: can, holds: 300 L, filled: 300 L, for: drinking}",
      "{name: tank, holds: 200 L, filled: 200 L, for: utility}",
      "{name: sealed spare, holds: 10 L, filled: 10 L, for: drinking, opened: last}"};
  plan.utility_use = {"cooking: 2 L/day", "washing: 1 L/day"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 400 L, "
      "filled: 400 L, unusable: 3 L}]}"};
  plan.batteries = {"{name: house battery, kind: agm, capacity: 300 Ah}"};
  plan.loads = {"{name: lights, energy: 30 Wh/day}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, inside: "
      "4 °C}}"};
  plan.itinerary = {"{at: Base}"};
  for (int night = 1; night <= 15; ++night) {
    const std::string name = "Camp " + std::to_string(night);
    plan.places.push_back(support::PlanText::place(name, "air"));
    plan.itinerary.push_back("drive: {to: " + name + ", distance: 60 km, surfaces: gravel}");
    plan.itinerary.emplace_back("stay: {nights: 1}");
  }
  plan.itinerary.emplace_back("drive: {to: Far Well, distance: 60 km, surfaces: gravel}");
  return plan;
}

TEST(Card, OfSixteenDaysWithACampEveryNightIsOneSheet) {
  const CardAnswer answer = card_answer(sixteen_days());
  ASSERT_EQ(answer.needs.planned.record.days(), 16U);
  for (const drawing::Paper& paper : {drawing::a4, drawing::letter}) {
    const Drawing drawing = card(answer, paper, metric);
    EXPECT_EQ(drawing.pages.size(), 2U);
    EXPECT_THAT(card_faults(drawing.pages, paper), IsEmpty());
  }
}

TEST(Card, HasTheFrontOnItsFirstPageAndTheBackOnItsSecond) {
  const Drawing drawing = card(desert_crossing(), drawing::a4, metric);
  EXPECT_EQ(drawing.title, "Dune mapping, Marrabel to Tessarin");
  ASSERT_EQ(drawing.pages.size(), 2U);
  EXPECT_EQ(page_of(drawing, "Dune mapping, Marrabel to Tessarin"), 1U);
  EXPECT_EQ(page_of(drawing, "If a reading is below must have"), 2U);
}

/// What only one part has, and no side of the sheet.
struct PartWords {
  bool report::CardParts::*part;
  const char* words;
};
constexpr std::array<PartWords, 5> part_words{
    {{&report::CardParts::packing, "Packing list"},
     {&report::CardParts::charts, "The levels, to plot readings in"},
     {&report::CardParts::dips, "To convert"},
     {&report::CardParts::notes, "Notes"},
     {&report::CardParts::home, "To leave at home"}}};

TEST(Card, HasThePartsThatAreAskedForAndNoOther) {
  const auto words_with = [](const report::CardParts& with) {
    // Of units that are not metric the dip tables have one to convert by.
    return support::words_on(card(desert_crossing(), drawing::a4, units::System::us, with).pages);
  };
  const auto plain = words_with({});
  const auto everything = words_with(all_parts);
  for (const auto& [asked, words] : part_words) {
    SCOPED_TRACE(words);
    EXPECT_THAT(plain, ::testing::Not(Contains(words)));
    EXPECT_THAT(everything, Contains(words));
    report::CardParts with;
    with.*asked = true;
    const auto texts = words_with(with);
    for (const auto& [other, other_words] : part_words) {
      if (other == asked) {
        EXPECT_THAT(texts, Contains(other_words));
      } else {
        EXPECT_THAT(texts, ::testing::Not(Contains(other_words)));
      }
    }
  }
}

RC_GTEST_PROP(Card, OfAnyPlanIsWhole, ()) {
  const CardAnswer answer = card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto all = papers();
  const drawing::Paper paper = all[*rc::gen::inRange<std::size_t>(0, all.size())].paper;
  const auto system = *rc::gen::element(metric, units::System::us, units::System::imperial);
  const std::vector<std::string> wrong =
      card_faults(card(answer, paper, system, all_parts).pages, paper);
  RC_ASSERT(wrong == std::vector<std::string>{});
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
  answer.needs.planned.plan.trip.title = std::string(200, 'W');
  answer.source = "trip.yaml, --set trip.start=2027-03-09";
  for (const drawing::Page& page : card(answer, drawing::a4, metric).pages) {
    EXPECT_THAT(support::words_on({page}), Contains(HasSubstr("\u00B7 trip.yaml, --set trip.st")));
  }
}

TEST(Card, SaysTheCautions) {
  std::string words;
  for (const std::string& text :
       support::words_on(card(desert_crossing(), drawing::a4, metric).pages)) {
    words += text + " ";
  }
  EXPECT_THAT(words, HasSubstr("A planning aid only. Local rules, licensed practice and medical "
                               "advice come first."));
}

TEST(Card, IsTheSameEveryTime) {
  const CardAnswer& answer = desert_crossing();
  EXPECT_EQ(support::words_on(card(answer, drawing::a4, metric).pages),
            support::words_on(card(answer, drawing::a4, metric).pages));
}

}  // namespace
}  // namespace drystage::card_test
