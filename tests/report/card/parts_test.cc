// The back of the card and all parts: nothing is cut, nothing meets.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/convoy.h"
#include "support/needs_answer.h"

namespace drystage::card_parts_test {
namespace {

using report::CardAnswer;
using support::all_words;
using support::card_answer;
using support::expect_faultless;
using support::part_pages;
using support::PlanText;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

/// The back, what is packed and dipped and, on a page of its own, what is left at home.
void write_both(const report::Sheet& sheet) {
  report::write_back(sheet);
  report::write_packing_list(sheet);
  report::write_dip_tables(sheet);
  sheet.flow.new_page();
  report::write_home(sheet);
}

std::string words_of(const CardAnswer& answer, const drawing::Paper& paper = drawing::a4,
                     units::System system = metric) {
  return all_words(part_pages(write_both, answer, paper, system));
}

TEST(CardBack, HasItsPartsInOrder) {
  for (const auto& [name, paper] : support::papers()) {
    const std::string words = words_of(support::desert_crossing(), paper, units::System::us);
    std::size_t at = 0;
    for (const char* part : {"If a reading is below must have", "The way out", "What to do first",
                             "Heat illness", "Emergency number", "What is sure where",
                             "Packing list", "US gal in L", "To leave at home"}) {
      const std::size_t next = words.find(part, at);
      ASSERT_NE(next, std::string::npos) << part << " on " << name;
      at = next;
    }
  }
}

TEST(CardBack, HasALineOfEveryTankThatCanBeDippedAndItsTableOnRequest) {
  PlanText plan = support::three_places();
  const auto words = [&](units::System system) {
    return support::with_plain_blanks(words_of(card_answer(plan), drawing::a4, system));
  };
  EXPECT_THAT(words(metric), Not(HasSubstr("Reading the tanks")));
  plan.containers = {
      "{name: body tank, holds: 120 L, filled: 60 L, for: drinking, shape: {box: {length: 100 cm, "
      "width: 40 cm, height: 30 cm}}}"};
  // 4 L for each cm.
  EXPECT_THAT(words(metric), AllOf(HasSubstr("What the dipstick says"),
                                   HasSubstr("Body tank of truck, drinking water: 2 cm 8 L, 6 cm "
                                             "24 L, "),
                                   HasSubstr("30 cm 120 L."), HasSubstr("Reading the tanks"),
                                   HasSubstr("Body tank of truck, drinking water: holds 120 L"),
                                   HasSubstr(" 10 40.0 ")));
  // 10 in are 25.4 cm: 101.6 L, 26.84 US gal.
  EXPECT_THAT(words(units::System::us), HasSubstr(" 10 101.6 26.8 "));
}

TEST(CardBack, HasWhomToCallAndWhereEveryPlaceIs) {
  const std::string words = words_of(card_answer(support::three_places()));
  EXPECT_THAT(words,
              AllOf(HasSubstr("Emergency number"), HasSubstr("Who is told"),
                    HasSubstr("OVERDUE: raise the alarm"), HasSubstr("Day 1, Base, 0° N, 0° E: "),
                    HasSubstr("for their position: Red Tables, 0° N, 0° E.")));
}

TEST(CardBack, HasRoomToWriteWhomToCall) {
  constexpr double mm = drawing::points_per_mm;
  for (const auto& [name, paper] : support::papers()) {
    SCOPED_TRACE(name);
    std::size_t boxes = 0;
    for (const drawing::Page& page :
         part_pages(report::write_back, card_answer(support::three_places()), paper)) {
      for (const drawing::Mark& mark : page.marks) {
        const auto* box = std::get_if<drawing::Shape>(&mark);
        if (box == nullptr || !box->closed) continue;
        EXPECT_GE(box->points[2].y - box->points[0].y, 8 * mm);
        EXPECT_GE(box->points[2].x - box->points[0].x, 60 * mm);
        ++boxes;
      }
    }
    EXPECT_EQ(boxes, 3U);
  }
}

TEST(CardBack, SaysOncePerPlaceWhatIsSureThereAndWhatNobodyHasConfirmed) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air",
                                   "drinking_water: {confirmed: no}, diesel: {open: [mon, tue]}");
  EXPECT_THAT(
      words_of(card_answer(plan)),
      HasSubstr("Days 1 to 4, Red Tables, 0° N, 0° E: diesel: open Mon, Tue; SHUT on days 3, "
                "4. NOT CONFIRMED: drinking water."));
}

TEST(CardBack, PartsNoTitleOfThePackingListFromIt) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    SCOPED_TRACE(answer.needs.planned.plan.trip.title);
    for (const drawing::Page& page : part_pages(write_both, answer)) {
      const std::string words = all_words({page});
      if (words.find("Packing list ") == std::string::npos) continue;
      EXPECT_THAT(words, HasSubstr("How much"));
    }
  }
}

/// Many of everything, with long names.
PlanText crowd() {
  PlanText plan = support::three_places();
  plan.vehicles = support::lorries("an exceedingly long lorry", 7, {"diesel", "petrol"});
  plan.people = support::travellers(12, "an exceedingly long lorry 1");
  plan.containers.clear();
  for (int c = 1; c <= 60; ++c) {
    plan.containers.push_back("{name: container of polyethylene number " + std::to_string(c) +
                              ", holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg, in: "
                              "an exceedingly long lorry 1}");
  }
  plan.batteries = {"{name: bank, kind: agm, capacity: 300 Ah}"};
  for (int l = 1; l <= 80; ++l) {
    plan.loads.push_back("{name: a lamp of many that hang in the tents " + std::to_string(l) +
                         ", energy: 1 Wh/day, shed: " + std::to_string(l) + "}");
  }
  return plan;
}

TEST(CardBack, HasRoomForManyOfEverything) {
  const CardAnswer answer = card_answer(crowd());
  expect_faultless(write_both, answer);
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("hang in the tents 80"));
  EXPECT_THAT(words, HasSubstr("number 60"));
  EXPECT_THAT(words, HasSubstr("Traveller number 12"));
}

TEST(CardBack, HasRoomForOneDayAndForForty) {
  for (const int nights : {0, 38}) {
    PlanText plan = support::three_places();
    if (nights == 0) {
      plan.itinerary = {"{at: Base}",
                        "drive: {to: Red Tables, distance: 200 km, surfaces: gravel}"};
    } else {
      plan.itinerary[2] = "stay: {nights: " + std::to_string(nights) + "}";
    }
    SCOPED_TRACE(nights);
    expect_faultless(write_both, card_answer(plan));
  }
}

/// A name, quoted for YAML.
std::string quoted(const std::string& name) {
  std::string out = "'";
  for (const char c : name) out += c == '\'' ? std::string("''") : std::string(1, c);
  return out + "'";
}

TEST(CardBack, ShowsNamesAsTheyAreWritten) {
  for (const std::string name :
       {"<b>bold & \"quoted\"</b>", "خزان الماء", "מיכל מים", "飲料水のタンク", "🚙🏜️ van",
        "Donaudampfschiffahrtsgesellschaftskapitänskajüte"}) {
    SCOPED_TRACE(name);
    PlanText plan = support::three_places();
    plan.people = {PlanText::person(quoted(name), "4 L/day")};
    plan.containers = {"{name: " + quoted(name) +
                       ", holds: 120 L, filled: 60 L, for: drinking, "
                       "opened: last}"};
    plan.vehicles = {"{name: " + quoted(name) +
                     ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: " + quoted(name) +
                     ", holds: 80 L, filled: 80 L, unusable: 3 L}]}"};
    plan.food = {"{item: " + quoted(name) + ", kept: dry, meals: 500}"};
    const CardAnswer answer = card_answer(plan);
    expect_faultless(write_both, answer);
    std::string words = words_of(answer);
    EXPECT_THAT(words, HasSubstr(name));
  }
}

}  // namespace
}  // namespace drystage::card_parts_test
