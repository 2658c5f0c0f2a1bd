// The page that is left at home.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <regex>

#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::CardAnswer;
using support::all_words;
using support::card_answer;
using support::desert_crossing;
using support::part_pages;
using support::PlanText;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<std::string> texts_of(const CardAnswer& answer) {
  return support::words_on(part_pages(report::write_home, answer));
}

/// All words, a line for each text.
std::string words_of(const CardAnswer& answer) {
  return all_words(part_pages(report::write_home, answer), '\n');
}

/// All words in one line.
std::string line_of(const CardAnswer& answer) {
  return all_words(part_pages(report::write_home, answer));
}

TEST(CardHome, HasFourteenDaysOnOnePage) {
  EXPECT_EQ(part_pages(report::write_home, desert_crossing()).size(), 1U);
}

TEST(CardHome, TellsHowLongWhatLifeDependsOnBesidesLasts) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}"};
  plan.consumables = {
      "{name: tablets, unit: doses, matters: life, stores: [{name: box, holds: 40, filled: 39}], "
      "use: {per_day: 1, per_meal: 0.5, per_person_day: 0.5}, margin: 2 days}",
      "{name: tea, unit: bags, stores: [{name: tin, holds: 40, filled: 39}], use: {per_day: 1}}"};
  // One person of three meals a day: 3 doses a day.
  const std::string words = line_of(card_answer(plan));
  EXPECT_THAT(words, HasSubstr("Tablets: 39 doses when setting out, enough for 13 days."));
  EXPECT_THAT(words, Not(HasSubstr("Tea:")));
}

TEST(CardHome, HasBlanksForWhatOnlyThePartyKnows) {
  const std::string words = words_of(desert_crossing());
  for (const char* blank :
       {"To leave at home", "Expected back", "OVERDUE, raise the alarm", "Whom to call",
        "Emergency number of the region", "How to reach them", "telephone", "medical", "plate",
        "make, colour", "2 people, 1 vehicle", "Ilse", "Tomas", "truck"}) {
    EXPECT_THAT(words, HasSubstr(blank));
  }
}

/// Whether a text has what could be dialled: a plus before a digit, five digits without a point, or
/// a known emergency number that is no distance. What stands alone in its cell is one too, or a
/// day.
bool can_be_dialled(const std::string& text) {
  static const std::regex number(
      "\\+ ?[0-9]|[0-9]{5}|(^|[^0-9.])(000|1[01][0-9]|911|999)($|[^0-9. ]| (?!km))");
  static const std::regex cell("[0-9]+");
  return !std::regex_match(text, cell) && std::regex_search(text, number);
}

TEST(CardHome, PrintsNoNumberToCall) {
  EXPECT_TRUE(can_be_dialled("call 112 now"));
  EXPECT_TRUE(can_be_dialled("+44 20"));
  for (const std::string& text : texts_of(desert_crossing())) {
    EXPECT_FALSE(can_be_dialled(text)) << text;
  }
}

/// How often each day of a trip stands in the route.
std::vector<int> days_of_route(const CardAnswer& answer) {
  std::vector<int> seen(answer.needs.planned.record.days(), 0);
  const std::regex days("([0-9]+)(-([0-9]+))?");
  const std::regex date("(Mon|Tue|Wed|Thu|Fri|Sat|Sun) [0-9]{2} [A-Z][a-z]{2}( to .*)?");
  const auto words = texts_of(answer);
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    std::smatch match;
    if (!std::regex_match(words[i], match, days)) continue;
    if (!std::regex_match(words[i + 1], date)) continue;
    const int first = std::stoi(match[1]);
    const int last = match[3].matched ? std::stoi(match[3]) : first;
    for (int day = first; day <= last; ++day) ++seen.at(static_cast<std::size_t>(day - 1));
  }
  return seen;
}

TEST(CardHome, HasEveryDayOfTheRouteOnce) {
  EXPECT_THAT(days_of_route(desert_crossing()), ::testing::Each(1));
  PlanText plan = support::three_places();
  plan.itinerary[2] = "stay: {nights: 38}";
  EXPECT_THAT(days_of_route(card_answer(plan)), ::testing::Each(1));
}

TEST(CardHome, SaysHowLongWaterAndFoodLastRoundedDown) {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can, holds: 120 L, filled: 41 L, for: drinking}"};
  plan.food = {"{item: stores, kept: dry, mass: 10 kg, meals: 29}"};
  const CardAnswer answer = card_answer(plan);
  const auto words = texts_of(answer);
  const auto at = std::ranges::find(words, "setting out");
  ASSERT_NE(at, words.end());
  // 41 L at 4 L a day, 29 meals at 3 a day.
  EXPECT_EQ(at[2], "10");
  EXPECT_EQ(at[3], "9.6");
  // At midnight of the first day 37 L and 26 meals are left.
  const auto first = std::ranges::find(words, "1");
  ASSERT_NE(first, words.end());
  EXPECT_EQ(first[4], "9.2");
  EXPECT_EQ(first[5], "8.6");
}

TEST(CardHome, TellsTheLevelOfTheNightAfterWhatIsTakenOn) {
  // 41 L at 4 L a day, but 120 L from the first evening on, at Red Tables.
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can, holds: 120 L, filled: 41 L, for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const CardAnswer answer = card_answer(plan);
  const auto words = texts_of(answer);
  const auto first = std::ranges::find(words, "1");
  ASSERT_NE(first, words.end());
  const int water = support::reserve_index(answer.needs.planned.course, "drinking_water");
  const double night_l =
      answer.needs.planned.record.reserve(0, static_cast<std::size_t>(water)).end;
  EXPECT_GT(night_l, 110);
  EXPECT_EQ(first[4], report::lasting_words(night_l / 4));
}

TEST(CardHome, TellsTheVerdictAgesAndWhoRidesWhere) {
  PlanText plan = support::three_places();
  plan.vehicles.emplace_back(
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 90 L, filled: "
      "90 L}]}");
  plan.people.emplace_back(
      "{name: Ben, mass: 80 kg, height: 180 cm, age: 71, sex: male, rides_in: car}");
  const CardAnswer answer = card_answer(plan);
  const std::string words = line_of(answer);
  EXPECT_THAT(words, HasSubstr("Ben, 71, in car"));
  EXPECT_THAT(words, HasSubstr(answer.needs.planned.verdict.holds ? "HOLDS: " : "DOES NOT HOLD: "));
}

TEST(CardHome, TellsWhatMustNotBeWithoutElectricity) {
  PlanText plan = support::three_places();
  EXPECT_THAT(words_of(card_answer(plan)), Not(HasSubstr("electricity")));
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: breathing aid, draw: 9 W, never_shed: yes}",
                "{name: lights, energy: 60 Wh/day}"};
  EXPECT_THAT(words_of(card_answer(plan)),
              HasSubstr("tell the rescuers: breathing aid (on bank)."));
}

TEST(CardHome, CutsNoNames) {
  PlanText plan = support::three_places();
  const std::string name(99, 'x');
  plan.people = {PlanText::person(name, "4 L/day")};
  const std::string words = words_of(card_answer(plan));
  EXPECT_THAT(words, HasSubstr(name + ", "));
}

TEST(CardHome, HasEveryPlaceOfTheTripWithItsPositionOnce) {
  const CardAnswer& answer = desert_crossing();
  const std::string words = words_of(answer);
  for (const plan::Place& place : answer.needs.planned.plan.places) {
    const std::string both = place.name + " (" + report::coordinate_words(place) + ")";
    EXPECT_NE(words.find(both), std::string::npos) << both;
    EXPECT_EQ(words.find(both), words.rfind(both)) << both;
  }
}

TEST(CardHome, SaysWhereACampInTheBushIs) {
  // 310 km in two days: a camp on the way.
  EXPECT_THAT(words_of(desert_crossing()),
              HasSubstr("camp 293 km after Hollow Arch, 17 km before Tessarin"));
}

TEST(CardHome, SaysWhenTheLastDriveEndsToTheLaterMinute) {
  PlanText plan = support::three_places();
  const std::string words = words_of(card_answer(plan));
  EXPECT_THAT(words, HasSubstr("By the plan the last drive ends at Far Well on Thu 04 Mar 2027"));
}

TEST(CardHome, TellsTurningBackSuppliesAndCautions) {
  const std::string words = words_of(desert_crossing());
  EXPECT_THAT(words, HasSubstr("LAST PLACE TO TURN BACK: day 9, Tue 16 Mar, 10:47"));
  EXPECT_THAT(words, HasSubstr("Day 3, Wed 10 Mar, Imrel Bore: utility water."));
  EXPECT_THAT(words, HasSubstr("A planning aid, no more."));
}

TEST(CardHome, SetsNamesApartThatAreWrittenRightToLeft) {
  PlanText plan = support::three_places();
  plan.driving = "{most_per_day: 1 h, daylight_only: no}";
  plan.places[0] = PlanText::place("مخيم", "air", "drinking_water: {}, diesel: {}");
  plan.itinerary[0] = "{at: مخيم}";
  const std::string words = words_of(card_answer(plan));
  EXPECT_THAT(words, HasSubstr("\u2068مخيم\u2069 (0° N"));
  EXPECT_THAT(words, HasSubstr("km after \u2068مخيم\u2069, "));
}

TEST(CardHome, TellsWhatIsNotSureOfASupply) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air",
                                   "drinking_water: {confirmed: no}, diesel: {open: [sun]}");
  plan.itinerary.insert(plan.itinerary.begin() + 2,
                        "resupply: {drinking_water: fill, diesel: fill}");
  const std::string words = line_of(card_answer(plan));
  EXPECT_THAT(words, HasSubstr("Red Tables: drinking water; drinking water NOT CONFIRMED."));
}

TEST(CardHome, CountsNothingAsAStockUpThatIsShutThatDay) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "diesel: {open: [sun]}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {diesel: fill}");
  EXPECT_THAT(words_of(card_answer(plan)), HasSubstr("Nowhere by the plan."));
}

TEST(CardHome, PositionsHaveFourDigitsAtMostAndTheirHemisphere) {
  plan::Place place;
  place.latitude_deg = -23.9;
  place.longitude_deg = 132.00004;
  EXPECT_EQ(report::coordinate_words(place), "23.9° S, 132° E");
  place.latitude_deg = 0.5;
  place.longitude_deg = -0.12345;
  EXPECT_EQ(report::coordinate_words(place), "0.5° N, 0.1235° W");
}

TEST(CardHome, DaysAreRoundedDown) {
  EXPECT_EQ(report::lasting_words(9.99), "9.9");
  EXPECT_EQ(report::lasting_words(10.99), "10");
  EXPECT_EQ(report::lasting_words(0), "0.0");
  EXPECT_EQ(report::lasting_words(std::numeric_limits<double>::infinity()), "-");
}

}  // namespace
}  // namespace drystage
