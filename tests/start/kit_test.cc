// A first plan that takes a kit over: what the kit has is neither asked nor written.
#include "start/kit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <sstream>

#include "cli/workspace.h"
#include "start/dialogue.h"
#include "start/first_plan.h"

namespace drystage::start {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr const char* van = R"(drystage: 1
people:
  - {name: Ada, mass: 70 kg, height: 170 cm, age: 30, sex: female}
  - {name: Bo, mass: 80 kg, height: 180 cm, age: 30, sex: male}
  - {name: Cy, mass: 60 kg, height: 160 cm, age: 30, sex: male}
vehicles:
  - name: van
    fuel: petrol
    mass: {empty: 2 t, limit: 3500 kg}
    tanks: [{name: tank, holds: 90 L, filled: 90 L}]
    observed: [{surface: sealed, uses: 12 L/100km}]
water:
  containers:
    - {name: a, holds: 90 L, filled: 80 L, for: drinking}
    - {name: b, holds: 60 L, filled: 60 L, for: drinking}
    - {name: c, holds: 30 L, filled: 20 L, for: utility}
)";

class StartKit : public ::testing::Test {
 protected:
  Kit kit_with(const std::string& more) {
    file_ = space_.write("van.yaml", van + more);
    const plan::ReadPlan reading = plan::read_kit(file_);
    EXPECT_TRUE(reading.is_kit);
    return kit_of(reading, file_, space_.path("trip.yaml"));
  }

  const testing::Workspace space_;
  std::string file_;
};

TEST_F(StartKit, SaysWhatOthersDependOn) {
  const Kit kit = kit_with("");
  EXPECT_EQ(kit.include, file_);
  EXPECT_THAT(kit.sections, ElementsAre("people", "vehicles", "water"));
  EXPECT_THAT(kit.fuels, ElementsAre("petrol"));
  EXPECT_EQ(kit.known.at("people").number, 3);
  EXPECT_EQ(kit.known.at("drinking").number, 140);
  EXPECT_EQ(kit.known.at("utility").number, 20);
  EXPECT_EQ(kit.known.size(), 3U);
}

TEST_F(StartKit, IsFoundFromTheFolderOfThePlan) {
  const plan::ReadPlan reading = plan::read_kit(space_.write("van.yaml", van));
  EXPECT_EQ(kit_of(reading, "van.yaml", "trip.yaml").include, "van.yaml");
  EXPECT_EQ(kit_of(reading, "./kits/van.yaml", "trip.yaml").include, "kits/van.yaml");
  EXPECT_EQ(kit_of(reading, "kits/van.yaml", "trips/a.yaml").include, "../kits/van.yaml");
  EXPECT_EQ(kit_of(reading, "/kits/van.yaml", "trips/a.yaml").include, "/kits/van.yaml");
}

TEST_F(StartKit, GivesAPlanThatIsRightWithoutItsSections) {
  const Kit kit = kit_with("");
  const Taken taken = take_defaults({}, kit);
  ASSERT_TRUE(taken.answers);
  EXPECT_EQ(taken.answers->count("tank"), 0U);
  const FirstPlan plan = first_plan(*taken.answers, kit);
  ASSERT_THAT(plan.problems, IsEmpty());
  for (const char* section : {"people:", "vehicles:", "water:"}) {
    EXPECT_THAT(plan.text, Not(HasSubstr(std::string("\n") + section)));
  }
  for (const char* section : {"food:", "cold:", "power:", "margins:"}) {
    EXPECT_THAT(plan.text, HasSubstr(std::string("\n") + section));
  }
  EXPECT_THAT(plan.text, HasSubstr("supplies: {petrol: {}, drinking_water"));
  EXPECT_THAT(plan.text, HasSubstr("utility_water: 10 %"));
  EXPECT_THAT(plan.text, HasSubstr("meals: 90, mass: 54 kg}"));  // 10 days of three people
  const plan::ReadPlan reading = plan::read_text(plan.text, {}, kit.plan_file);
  ASSERT_TRUE(reading.plan.has_value());
  EXPECT_EQ(reading.plan->people.size(), 3U);
  EXPECT_EQ(reading.plan->vehicles.at(0).name, "van");
}

TEST_F(StartKit, GivesAPlanWithWhateverSectionsItHas) {
  const Kit kit = kit_with(
      "margins: {drinking_water: 4 days}\nfood: [{item: rice, kept: dry, meals: 90, mass: 54 kg}]\n"
      "power: {batteries: [{name: bank, kind: lfp, capacity: 90 Ah}]}\n"
      "activities: {digging: {high: 4 h}}\ntrip: {driving: {depart: \"07:00\"}}\n");
  const FirstPlan plan = first_plan(*take_defaults({}, kit).answers, kit);
  ASSERT_THAT(plan.problems, IsEmpty());
  EXPECT_THAT(plan.text, Not(HasSubstr("margins:")));
  EXPECT_THAT(plan.text, Not(HasSubstr("cold:")));  // a fridge is only asked beside a battery
  const plan::ReadPlan reading = plan::read_text(plan.text, {}, kit.plan_file);
  ASSERT_TRUE(reading.plan.has_value());
  EXPECT_EQ(reading.plan->trip.driving.depart_h, 7);
}

TEST_F(StartKit, IsNotAskedFor) {
  const Kit kit = kit_with("food: [{item: rice, kept: dry, meals: 90, mass: 54 kg}]\n");
  std::istringstream in(std::string(60, '\n'));
  std::ostringstream out;
  const auto plan = ask({}, in, out, kit);
  EXPECT_EQ(plan, first_plan(*take_defaults({}, kit).answers, kit).text);
  for (const Question& question : questions) {
    const std::string words(question.asked.meaning);
    if (kit.has(question.section)) {
      EXPECT_THAT(out.str(), Not(HasSubstr(words)));
    } else {
      EXPECT_THAT(out.str(), HasSubstr(words));
    }
  }
  EXPECT_THAT(out.str(), Not(HasSubstr("Water and food")));
}

}  // namespace
}  // namespace drystage::start
