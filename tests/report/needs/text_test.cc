// The page that `drystage needs` prints: what it says first, and where each reserve must last to.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "cli/workspace.h"
#include "support/answer.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::needs_text;
using report::NeedsAnswer;
using support::need_of;
using support::plain_needs;
using support::PlanText;
using support::three_places;
using support::unwrapped;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr double endless = std::numeric_limits<double>::infinity();

std::string words_of(const NeedsAnswer& answer, units::System system = units::System::metric) {
  return unwrapped(needs_text(answer, {.system = system}));
}

std::string all_words_of(const NeedsAnswer& answer) {
  return unwrapped(needs_text(answer, {.all = true}));
}

TEST(NeedsText, SaysFirstThatEveryNeedIsMet) {
  const std::string text = words_of(plain_needs(three_places()));
  EXPECT_THAT(text, StartsWith("MET: every morning the plan has at least what it must have. A "
                               "test. 1 person, 6 days from Mon 01 Mar 2027."));
  EXPECT_THAT(text, Not(HasSubstr("Too little")));
}

TEST(NeedsText, SaysFirstWhatIsLackingOnTheFirstMorningThatLacks) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 2, "drinking_water").must_have = 50.2;
  need_of(answer, 2, "drinking_water").has = 30.7;
  need_of(answer, 3, "drinking_water").must_have = 90;
  EXPECT_THAT(
      words_of(answer),
      StartsWith("NOT MET. On day 3, Wed 03 Mar 2027, drinking water must be at least 51 L to "
                 "reach Far Well (day 4). The plan has 30 L."));
}

TEST(NeedsText, SaysWhichLimitedSuppliesAreCountedOn) {
  PlanText text;
  text.margins = {"drinking_water: 2 L", "food: 3 meals"};
  text.containers = {"{name: can, holds: 60 L, filled: 30 L, for: drinking}"};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("Well", "air", "drinking_water: {most: 20 L}")};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  text.itinerary = {"{at: Base}", "drive: {to: Well, distance: 50 km, surfaces: gravel}",
                    "resupply: {drinking_water: 10 L}", "stay: {nights: 8}"};
  NeedsAnswer answer;
  answer.planned = support::travel(text);
  answer.needs = answers::morning_needs(answer.planned);
  const answers::Needs& needs = answer.needs;
  EXPECT_EQ(needs.need(0, 0).taking_at, std::vector{1});
  EXPECT_TRUE(needs.need(1, 0).taking_at.empty());
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("drinking water: the end of the trip, taking drinking water at Well"));
  EXPECT_THAT(words_of(answer), HasSubstr("Must counts on drinking water at Well."));
  // Monday 1 March: shut then, it gives nothing.
  text.places[1] = PlanText::place("Well", "air", "drinking_water: {most: 20 L, open: [tue]}");
  answer.planned = support::travel(text);
  EXPECT_TRUE(answers::morning_needs(answer.planned).need(0, 0).taking_at.empty());
}

TEST(NeedsText, NamesWhatLifeDependsOnFirstOnTheSameMorning) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "food").has = 1;
  need_of(answer, 1, "fuel:truck").has = 1;
  need_of(answer, 2, "fuel:truck").has = 1;
  const std::string text = words_of(answer);
  EXPECT_THAT(text, StartsWith("NOT MET. On day 2, Tue 02 Mar 2027, fuel of truck"));
  EXPECT_THAT(text, HasSubstr("Too little too: food (day 2)."));
}

TEST(NeedsText, NamesWhatLifeDependsOnBeforeAnEarlierMorning) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 0, "food").has = 1;
  need_of(answer, 1, "fuel:truck").has = 1;
  const std::string text = words_of(answer);
  EXPECT_THAT(text, StartsWith("NOT MET. On day 2, Tue 02 Mar 2027, fuel of truck"));
  EXPECT_THAT(text, HasSubstr("Too little too: food (day 1)."));
}

TEST(NeedsText, SaysWhenNoAmountIsEnough) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water").must_have = endless;
  need_of(answer, 1, "drinking_water").fits = false;
  const std::string text = words_of(answer);
  EXPECT_THAT(text,
              HasSubstr("no amount of drinking water is enough to reach Far Well (day 4). The plan "
                        "has 20 L."));
  EXPECT_THAT(text, HasSubstr("- no amount is enough."));
  EXPECT_THAT(text, Not(HasSubstr("inf")));
  EXPECT_THAT(text, Not(HasSubstr("?")));
}

TEST(NeedsText, SaysWhenItIsMoreThanCanBeHeld) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water").must_have = 130;
  need_of(answer, 1, "drinking_water").fits = false;
  const std::string text = words_of(answer);
  EXPECT_THAT(text,
              HasSubstr("drinking water must be at least 130 L to reach Far Well (day 4). The plan "
                        "has 20 L, and can hold 120 L."));
  EXPECT_THAT(text, HasSubstr("+ more than can be held."));
  EXPECT_THAT(text, HasSubstr(" +130 20 !-110 "));
}

TEST(NeedsText, ExplainsNoSignThatDoesNotStandInTheTable) {
  const std::string text = words_of(plain_needs(three_places()));
  EXPECT_THAT(text, HasSubstr("! too little."));
  EXPECT_THAT(text, Not(HasSubstr("no amount is enough")));
  EXPECT_THAT(text, Not(HasSubstr("more than can be held")));
}

TEST(NeedsText, PaintsTheFirstLineGreenOrRed) {
  NeedsAnswer answer = plain_needs(three_places());
  EXPECT_THAT(needs_text(answer, {.color = true}), StartsWith("\x1b[1;32mMET"));
  need_of(answer, 1, "food").has = 1;
  EXPECT_THAT(needs_text(answer, {.color = true}), StartsWith("\x1b[1;31mMET FOR WHAT LIFE"));
  EXPECT_THAT(needs_text(answer, {}), Not(HasSubstr("\x1b")));
}

TEST(NeedsText, SaysOnceWhereAllMustLastTo) {
  const NeedsAnswer answer = plain_needs(three_places());
  EXPECT_THAT(all_words_of(answer), HasSubstr("All must last to Far Well (day 4)."));
  EXPECT_THAT(words_of(answer),
              HasSubstr("Drinking water, fuel of truck must last to Far Well (day 4)."));
}

TEST(NeedsText, SaysOfEachReserveWhereItMustLastTo) {
  PlanText plan = three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  NeedsAnswer answer = plain_needs(plan);
  const std::size_t days = answer.planned.record.days();
  const int last = static_cast<int>(days) - 1;
  for (std::size_t day = 0; day < days; ++day) {
    answers::Need& bank = need_of(answer, day, "battery:bank");
    bank = {.must_have = 10, .has = 20, .until_day = static_cast<int>(day), .until_h = 11};
    need_of(answer, day, "food") = {.must_have = 10, .has = 20, .until_day = last, .until_h = 24};
  }
  need_of(answer, days - 1, "drinking_water") = need_of(answer, 0, "food");
  need_of(answer, days - 1, "battery:bank") = need_of(answer, 0, "food");
  const std::string text = all_words_of(answer);
  EXPECT_THAT(text, HasSubstr("Must last to drinking water: Far Well (day 4), then the end of the "
                              "trip. fuel of truck: Far Well (day 4). bank: when it is full again, "
                              "then the end of the trip. food: the end of the trip."));
}

TEST(NeedsText, SaysWhatABankMustLastTo) {
  PlanText plan = three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  NeedsAnswer answer = plain_needs(plan);
  need_of(answer, 0, "battery:bank") = {
      .must_have = 45.34, .has = 40, .until_day = 1, .until_h = 11};
  EXPECT_THAT(words_of(answer), HasSubstr("bank must be at least 45.4 Ah to last until it is full "
                                          "again. The plan has 40.0 Ah."));
  need_of(answer, 0, "battery:bank").until_day = static_cast<int>(answer.planned.record.days()) - 1;
  need_of(answer, 0, "battery:bank").until_h = 24;
  EXPECT_THAT(words_of(answer), HasSubstr("bank must be at least 45.4 Ah to last to the end of the "
                                          "trip. The plan has 40.0 Ah."));
}

TEST(NeedsText, SaysThatWhatIsNotConfirmedDoesNotCount) {
  PlanText plan = three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  EXPECT_THAT(words_of(plain_needs(plan)),
              HasSubstr("Not confirmed: drinking water at Red Tables. Must have does not count on "
                        "it."));
  EXPECT_THAT(words_of(plain_needs(three_places())), Not(HasSubstr("Not confirmed")));
}

TEST(NeedsText, ShowsOtherUnits) {
  NeedsAnswer answer = plain_needs(three_places());
  // 50 L are 13.2086 US gallons of 3.785411784 L, and 40 L are 10.5669 (NIST SP 811).
  need_of(answer, 2, "drinking_water").must_have = 50;
  need_of(answer, 2, "drinking_water").has = 40;
  EXPECT_THAT(
      words_of(answer, units::System::us),
      HasSubstr("at least 13.3 US gal to reach Far Well (day 4). The plan has 10.5 US gal."));
  EXPECT_THAT(words_of(answer, units::System::us), HasSubstr("13.3 10.5 !-2.7"));
  // 10.9985 and 8.7988 imperial gallons of 4.54609 L.
  EXPECT_THAT(words_of(answer, units::System::imperial), HasSubstr("11.0 8.7 !-2.2"));
}

TEST(NeedsText, FitsEightyColumnsAndEndsWithTheCautions) {
  NeedsAnswer answer = plain_needs(three_places());
  answer.warnings = {std::string(60, 'a') + " " + std::string(60, 'b')};
  need_of(answer, 1, "food").has = 1;
  const std::string text = needs_text(answer, {});
  for (const std::string& line : drystage::testing::lines(text)) {
    EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
  }
  EXPECT_THAT(text, HasSubstr("Warning: aaa"));
  EXPECT_THAT(unwrapped(text), EndsWith("medical advice come first. "));
  EXPECT_THAT(all_words_of(answer), EndsWith("when to raise the alarm. "));
}

}  // namespace
}  // namespace drystage
