// Names that are written right to left, in English sentences.
#include "report/card/isolated.h"

#include <gtest/gtest.h>

#include "drawing/typesetter.h"
#include "report/card/card.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

TEST(Isolated, LeavesAloneWhatIsWrittenLeftToRight) {
  for (const char* name : {"can 1", "Ærøskøbing", "水タンク", "Бак", "<b>&amp;\"", "🚙", ""}) {
    EXPECT_EQ(report::isolated(name), name);
  }
}

TEST(Isolated, SetsApartWhatIsWrittenRightToLeft) {
  // Hebrew, Arabic, Syriac, Arabic presentation forms, Adlam; at the end and in the middle too.
  for (const std::string name :
       {"מים", "ماء", "ܡܝܐ", "ﻣﺎﺀ", "𞤲𞤣𞤭𞤴𞤢𞤥", "can ماء 2"}) {
    EXPECT_EQ(report::isolated(name), "\u2068" + name + "\u2069");
  }
}

TEST(Isolated, DoesNotTurnRoundTheSentenceThatItBegins) {
  const drawing::Typesetter typesetter;
  for (const char* name : {"ماء", "מים", "can"}) {
    const std::string words = report::isolated(name) + " (23.9000° N, 39.6000° W)";
    const drawing::Text text = typesetter.text(words, {}, {.x = 10, .y = 0}, 400);
    EXPECT_NEAR(ink_box(typesetter, text).x, 10, 0.01) << "what is read from the left stands there";
  }
}

TEST(Isolated, KeepsNamesWhole) {
  const std::string name(500, 'x');
  EXPECT_EQ(report::isolated(name), name);
}

/// Everything with a name in it that is written from right to left.
support::PlanText in_another_script() {
  support::PlanText plan = support::three_places();
  plan.people = {support::PlanText::person("\u05de\u05d9\u05dd", "4 L/day")};
  plan.containers = {"{name: \u05e4\u05d7, holds: 120 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {
      "{name: \u05e8\u05db\u05d1, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: "
      "\u05de\u05d9\u05db\u05dc, holds: 80 L, filled: 80 L, unusable: 3 L}]}"};
  plan.batteries = {"{name: \u05de\u05e6\u05d1\u05e8, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: \u05d0\u05d5\u05e8, energy: 60 Wh/day}"};
  plan.food = {"{item: \u05d0\u05d5\u05db\u05dc, kept: dry, mass: 10 kg, meals: 90}"};
  return plan;
}

TEST(Isolated, SetsApartEveryNameOnTheCard) {
  report::CardParts all{.packing = true, .charts = true, .dips = true, .home = true};
  const auto pages = report::card(support::card_answer(in_another_script()), drawing::a4,
                                  units::System::metric, all)
                         .pages;
  const std::string words = support::all_words(pages);
  for (const std::string name :
       {"\u05de\u05d9\u05dd", "\u05e4\u05d7", "\u05e8\u05db\u05d1", "\u05de\u05d9\u05db\u05dc",
        "\u05de\u05e6\u05d1\u05e8", "\u05d0\u05d5\u05e8", "\u05d0\u05d5\u05db\u05dc"}) {
    std::size_t times = 0;
    for (std::size_t at = words.find(name); at != std::string::npos;
         at = words.find(name, at + 1)) {
      ++times;
      EXPECT_EQ(words.substr(at - 3, 3), "\u2068") << words.substr(at - 20, 60);
    }
    EXPECT_GE(times, 1U) << name;
  }
}

}  // namespace
}  // namespace drystage
