// The packing list as it is printed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/card/load.h"
#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"

namespace drystage {
namespace {

using drawing::Page;
using report::CardAnswer;
using support::card_answer;
using support::PlanText;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

std::vector<Page> pages_of(const CardAnswer& answer, const drawing::Paper& paper = drawing::a4,
                           units::System system = metric) {
  return support::part_pages(report::write_packing_list, answer, paper, system);
}

/// All words, a line for each text.
std::string words_of(const PlanText& plan) {
  return support::all_words(pages_of(card_answer(plan)), '\n');
}

/// Small squares with nothing in them.
std::size_t tick_boxes(const std::vector<Page>& pages) {
  std::size_t count = 0;
  for (const Page& page : pages) {
    for (const drawing::Mark& mark : page.marks) {
      const auto* shape = std::get_if<drawing::Shape>(&mark);
      if (shape == nullptr || !shape->closed || shape->fill_grey) continue;
      const double width = shape->points[2].x - shape->points[0].x;
      const double height = shape->points[2].y - shape->points[0].y;
      constexpr double rounding = 1e-9;
      if (std::abs(width - height) < rounding && width < 12) ++count;
    }
  }
  return count;
}

/// One can of water and a truck that may weigh so much.
PlanText truck(const std::string& limit, const std::string& filled = "20 L") {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: " + filled +
                     ", for: drinking, empty_mass: 1.23 kg}"};
  plan.vehicles = {"{name: truck, fuel: diesel, mass: {empty: 2000 kg, gear: 100 kg" + limit +
                   "}, tanks: [{name: tank, holds: 80 L, filled: 0 L}]}"};
  plan.people = {PlanText::person("Ada", "1 L/day")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  plan.food = {"{item: stores, kept: dry, mass: 10 kg, meals: 60}"};
  return plan;
}

TEST(PackingList, HasABoxToTickForEveryThing) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    std::size_t lines = 0;
    for (const report::VehicleLoad& load : report::loads_at_outset(answer.needs.planned)) {
      lines += load.lines.size();
    }
    for (const auto& [name, paper] : support::papers()) {
      SCOPED_TRACE(answer.needs.planned.plan.trip.title + " on " + name);
      EXPECT_EQ(tick_boxes(pages_of(answer, paper)), lines);
    }
  }
}

TEST(PackingList, ShowsContentContainerAndBothRoundedUp) {
  const auto words = support::words_on(pages_of(card_answer(truck(""))));
  const auto at = std::ranges::find(words, "can");
  ASSERT_NE(at, words.end());
  const std::vector<std::string> row(at, at + 6);
  EXPECT_THAT(row, ::testing::ElementsAre("can", "drinking", "full, 20 L", "20.0", "1.3", "21.3"));
}

TEST(PackingList, SumsUpToWhatTheVehicleWeighs) {
  const std::string words = words_of(truck(""));
  // 20 + 1.23 + 10; the vehicle; the gear; one person of 70 kg.
  EXPECT_THAT(words, HasSubstr("31.3\nAll of this\n"));
  EXPECT_THAT(words, HasSubstr("2000.0\nThe vehicle, empty\n"));
  EXPECT_THAT(words, HasSubstr("100.0\nOther gear\n"));
  EXPECT_THAT(words, HasSubstr("70.0\nPeople: Ada\n"));
  EXPECT_THAT(words, HasSubstr("2201.3\nWhen setting out\n"));
  EXPECT_THAT(words, HasSubstr("Truck weighs 2202 kg when setting out; the plan gives no limit."));
}

TEST(PackingList, TellsTheLimitAndWhenItIsPassed) {
  const auto words = [](const std::string& limit) { return words_of(truck(", limit: " + limit)); };
  EXPECT_THAT(words("2300.9 kg"), HasSubstr("2202 kg when setting out; its limit is 2300 kg."));
  EXPECT_THAT(words("2201 kg"), HasSubstr("2202 kg when setting out: OVER its limit of 2201 kg."));
}

TEST(PackingList, TellsWhenAVehicleIsHeavierLater) {
  PlanText plan = truck(", limit: 2250 kg");
  plan.places = {PlanText::place("Base", "air", "diesel: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {diesel: fill}",
                    "stay: {nights: 1}"};
  const std::string words = words_of(plan);
  EXPECT_THAT(words, HasSubstr("Truck weighs 2202 kg when setting out, and"));
  EXPECT_THAT(words, HasSubstr("at its heaviest, on day 2: OVER its limit of 2250 kg."));
}

TEST(PackingList, SaysWhatToFillInAtTheLeast) {
  const auto words = [](const std::string& filled, units::System system) {
    return support::words_on(pages_of(card_answer(truck("", filled)), drawing::a4, system));
  };
  EXPECT_THAT(words("17.2 L", metric), Contains("18 L"));
  EXPECT_THAT(words("0 L", metric), Contains("empty"));
  // What is full holds no more than it does: 20 L are 5.28 US gal.
  EXPECT_THAT(words("20 L", units::System::us), Contains("full, 5.2 US gal"));
  EXPECT_THAT(words("10 L", units::System::us), Contains("2.7 US gal"));
}

TEST(PackingList, HasRoomForWhatAWeighbridgeSays) {
  const std::string words = words_of(truck(""));
  EXPECT_THAT(words, AllOf(HasSubstr("Weighbridge"), HasSubstr("front:"), HasSubstr("rear:"),
                           HasSubstr("a weighbridge decides")));
}

TEST(PackingList, WithoutVehiclesHasNoSums) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  const std::string words = words_of(plan);
  EXPECT_THAT(words, AllOf(HasSubstr("In no vehicle"), HasSubstr("full, 20 L"),
                           Not(HasSubstr("When setting out"))));
}

}  // namespace
}  // namespace drystage
