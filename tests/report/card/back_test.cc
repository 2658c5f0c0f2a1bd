// The back of the card and the page to leave at home: nothing is cut, nothing meets.
#include "report/card/back.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "report/card/home.h"
#include "support/card_answer.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::PlanText;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

std::vector<Page> pages_of(const CardAnswer& answer, const drawing::Paper& paper,
                           units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  report::write_back(flow, typesetter, answer, system);
  flow.new_page();
  report::write_home(flow, typesetter, answer, system);
  return flow.pages(typesetter, answer.needs.trial.plan.trip.title);
}

std::vector<std::string> faults(const std::vector<Page>& pages, double margin_pt) {
  const drawing::Typesetter typesetter;
  std::vector<std::string> out;
  for (const Page& page : pages) {
    for (std::string& fault : support::faults(typesetter, page, margin_pt)) {
      out.push_back(std::move(fault));
    }
  }
  return out;
}

void expect_faultless(const CardAnswer& answer) {
  for (const auto& [name, paper] : support::papers()) {
    for (const units::System system : {metric, units::System::imperial}) {
      EXPECT_THAT(faults(pages_of(answer, paper, system), paper.margin_pt), IsEmpty()) << name;
    }
  }
}

std::string all_words(const std::vector<Page>& pages) {
  std::string out;
  for (const std::string& words : support::words_on(pages)) out += words + " ";
  return out;
}

TEST(CardBack, OfShippedPlansHasNothingThatIsCutOrMeets) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    expect_faultless(support::card_answer(plan));
  }
}

RC_GTEST_PROP(CardBack, OfAnyPlanHasNothingThatIsCutOrMeets, ()) {
  const CardAnswer answer = support::card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto papers = support::papers();
  const drawing::Paper paper = papers[*rc::gen::inRange<std::size_t>(0, papers.size())].paper;
  const auto system = *rc::gen::element(metric, units::System::us, units::System::imperial);
  RC_ASSERT(faults(pages_of(answer, paper, system), paper.margin_pt) == std::vector<std::string>{});
}

TEST(CardBack, HasItsPartsInOrder) {
  const CardAnswer answer =
      support::card_answer(support::shipped_plan("Dune mapping, Marrabel to Tessarin"));
  for (const auto& [name, paper] : support::papers()) {
    const std::string words = all_words(pages_of(answer, paper, units::System::us));
    std::size_t at = 0;
    for (const char* part :
         {"If a reading is below must have", "The way out, evening by evening",
          "The levels, to plot readings in", "Packing list", "US gal in L", "To leave at home"}) {
      const std::size_t next = words.find(part, at);
      ASSERT_NE(next, std::string::npos) << part << " on " << name;
      at = next;
    }
  }
}

TEST(CardBack, HasTheTablesOfTanksThatCanBeDipped) {
  PlanText plan = support::three_places();
  const auto words = [&](units::System system) {
    return all_words(pages_of(support::card_answer(plan), drawing::a4, system));
  };
  EXPECT_THAT(words(metric), Not(HasSubstr("Reading the tanks")));
  plan.containers = {
      "{name: body tank, holds: 120 L, filled: 60 L, for: drinking, shape: {box: {length: 100 cm, "
      "width: 40 cm, height: 30 cm}}}"};
  // 4 L for each cm.
  EXPECT_THAT(words(metric), AllOf(HasSubstr("Reading the tanks"),
                                   HasSubstr("Body tank of truck, drinking water: holds 120 L"),
                                   HasSubstr(" 10 40.0 ")));
  // 10 in are 25.4 cm: 101.6 L, 26.84 US gal.
  EXPECT_THAT(words(units::System::us), HasSubstr(" 10 101.6 26.8 "));
}

TEST(CardBack, HasWhomToCallAndWhereEveryPlaceIs) {
  const std::string words =
      all_words(pages_of(support::card_answer(support::three_places()), drawing::a4, metric));
  EXPECT_THAT(words, AllOf(HasSubstr("Emergency number of the region"), HasSubstr("Person at home"),
                           HasSubstr("Base, 0° N, 0° E"),
                           HasSubstr("for their position: Red Tables, 0° N, 0° E."),
                           HasSubstr("the line at the end of its day")));
}

TEST(CardBack, PartsNoTitleOfThePackingListFromIt) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    SCOPED_TRACE(plan.trip.title);
    for (const Page& page : pages_of(support::card_answer(plan), drawing::a4, metric)) {
      const std::string words = all_words({page});
      if (words.find("Packing list ") == std::string::npos) continue;
      EXPECT_THAT(words, HasSubstr("How much"));
    }
  }
}

/// Many of everything, with long names.
PlanText crowd() {
  PlanText plan = support::three_places();
  plan.people.clear();
  plan.vehicles.clear();
  plan.containers.clear();
  for (int v = 1; v <= 7; ++v) {
    plan.vehicles.push_back("{name: an exceedingly long lorry " + std::to_string(v) +
                            ", fuel: " + (v % 2 == 0 ? "petrol" : "diesel") +
                            ", mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 180 L, filled: "
                            "180 L, unusable: 2 L}]}");
  }
  for (int p = 1; p <= 12; ++p) {
    plan.people.push_back(
        "{name: Traveller number " + std::to_string(p) +
        ", mass: 70 kg, height: 172 cm, age: 40, sex: male, rides_in: an exceedingly long lorry 1, "
        "observed: {drinking: 4 L/day, meals: 3}}");
  }
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
  const CardAnswer answer = support::card_answer(crowd());
  expect_faultless(answer);
  const std::string words = all_words(pages_of(answer, drawing::a4, metric));
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
    expect_faultless(support::card_answer(plan));
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
    const CardAnswer answer = support::card_answer(plan);
    expect_faultless(answer);
    std::string words = all_words(pages_of(answer, drawing::a4, metric));
    EXPECT_THAT(words, HasSubstr(name));
  }
}

}  // namespace
}  // namespace drystage
