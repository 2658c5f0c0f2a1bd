// What a changed plan is written into: the user's own text, of which the rest stays.
#include "plan/rewrite.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include "plan_text.h"
#include "support/plan_text.h"
#include "support/rewritten.h"

namespace drystage::plan::rewrite_test {
namespace {

using support::can;
using support::Change;
using support::plan_around;
using support::PlanText;
using support::read_plan;
using support::rewritten;
using support::sections_after;
using support::take_out;

TEST(Rewrite, LeavesAnUnchangedPlanAsItIs) {
  const std::string text = whole_plan();
  EXPECT_EQ(rewritten(text, [](Plan&) {}), text);
}

TEST(Rewrite, WritesBlockItemsInBlockForm) {
  const std::string cans =
      "water:\n"
      "  containers:\n"
      "  - name: can 1\n"
      "    for: drinking       # boiled\n"
      "    holds: '20 L'\n"
      "    filled: 20 L\n"
      "\n"
      "  # the other\n"
      "  - name: can 2\n"
      "    holds: 20 L\n"
      "    filled: 20 L\n";
  EXPECT_EQ(sections_after(cans,
                           [](Plan& plan) {
                             auto& list = plan.water.containers;
                             list[0].holds_l = 22.5;
                             list[0].empty_kg = 1.25;
                             take_out(list, "can 2");
                             list.push_back(can("Čutora", 10));
                           }),
            "water:\n"
            "  containers:\n"
            "  - name: can 1\n"
            "    for: drinking       # boiled\n"
            "    holds: '22.5 L'\n"
            "    filled: 20 L\n"
            "    empty_mass: 1.25 kg\n"
            "  - name: Čutora\n"
            "    for: drinking\n"
            "    holds: 10 L\n"
            "    filled: 10 L\n"
            "    empty_mass: 1.2 kg\n"
            "\n"
            "  # the other\n");
}

TEST(Rewrite, BeginsListsThatWereNotThere) {
  const std::string line =
      "- {name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}\n";
  const Change add = [](Plan& plan) { plan.water.containers.push_back(can("can 1", 20)); };
  EXPECT_EQ(sections_after("", add), "water:\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water:\n", add), "water:\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water: {}\n", add),
            "water: {containers: [" + line.substr(2, line.size() - 3) + "]}\n");
  EXPECT_EQ(sections_after("water:\n  utility_use: {dishes: 0 L/day}   # none\n", add),
            "water:\n  utility_use: {dishes: 0 L/day}   # none\n  containers:\n    " + line);
  EXPECT_EQ(sections_after("water:\n  containers: []   # none yet\n", add),
            "water:\n  containers:   # none yet\n    " + line);
}

TEST(Rewrite, KeepsLineEndsAndTheByteOrderMark) {
  std::string text =
      "\xEF\xBB\xBF" +
      plan_around("water:\n  containers:\n    - {name: á, holds: 20 L, filled: 20 L}  # ü\n");
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 2)) {
    text.insert(at, "\r");
  }
  const std::string made = rewritten(text, [](Plan& plan) {
    plan.water.containers[0].filled_l = 19;
    plan.water.containers.push_back(can("b", 5));
  });
  const std::size_t at = text.find("    - {name: á");
  const std::size_t end = text.find("climate:");
  EXPECT_EQ(made, text.substr(0, at) +
                      "    - {name: á, holds: 20 L, filled: 19 L}  # ü\r\n"
                      "    - {name: b, holds: 5 L, filled: 5 L, empty_mass: 1.2 kg}\r\n" +
                      text.substr(end));
}

TEST(Rewrite, ChangesAPlanThatIsOneMapInBraces) {
  const std::string text =
      "{drystage: 1, trip: {title: A test, start: 2027-03-01, time_zone: \"+00:00\"},\n"
      " people: [" +
      PlanText::person("Ada", "4 L/day") +
      "], # one\n"
      " climate: {" +
      PlanText::steady_climate("air", 20) +
      "},\n"
      " places: {" +
      PlanText::place("Base", "air") +
      "},\n"
      " itinerary: [{at: Base}, {stay: {nights: 5}}]}";
  const std::string made = rewritten(text, [](Plan& plan) {
    plan.water.containers.push_back(can("can", 20));
    plan.food.push_back(
        {.name = "rice", .meals = 12, .water_fraction = 0.1, .potentially_hazardous = false});
  });
  EXPECT_TRUE(made.starts_with(text.substr(0, text.size() - 1))) << made;
}

// Whatever its list of keys has, though `size` never changes this one.
TEST(Rewrite, ChangesEveryAmountOfAThing) {
  const std::string made = rewritten(plan_around(support::one_truck()),
                                     [](Plan& plan) { plan.vehicles[0].tanks[0].unusable_l = 7; });
  EXPECT_NE(made.find("unusable: 7 L}]  # one"), std::string::npos) << made;
  const std::string rig =
      "{name: 'big rig', fuel: diesel, mass: {empty: 2 t}, tanks: [{name: tank, ";
  const std::string two = support::one_truck() + "  - " + rig + "holds: 9 L, filled: 9 L}]}\n";
  const std::string cans =
      "water: {containers: [{name: can, holds: 9 L, filled: 9 L, in: 'big rig'}]}\n";
  const std::string moved =
      rewritten(plan_around(two + cans), [](Plan& plan) { plan.water.containers[0].vehicle = 0; });
  EXPECT_NE(moved.find("filled: 9 L, in: truck}]}"), std::string::npos) << moved;
}

TEST(Rewrite, RefusesAChangeThatItDoesNotWrite) {
  const std::string text = plan_around(support::one_truck());
  const Plan before = read_plan(text);
  const auto refused = [&](const Change& change) {
    Plan after = before;
    change(after);
    EXPECT_THROW((void)rewrite(text, before, after), std::logic_error);
  };
  refused([](Plan& plan) { plan.power.banks.emplace_back(); });
  refused([](Plan& plan) { plan.vehicles[0].tanks[0].gauge.marks = {{0.1, 10}}; });
  refused([](Plan& plan) { plan.vehicles[0].tanks.clear(); });
  refused([](Plan& plan) { plan.vehicles[0].tanks[0].filled_l = 81; });
  refused([](Plan& plan) { plan.vehicles.clear(); });
  refused([](Plan& plan) { plan.cold.emplace_back(); });
  Plan after = before;
  after.vehicles[0].tanks[0].filled_l = 7;
  EXPECT_THROW((void)rewrite(plan_around(""), before, after), std::logic_error);
  EXPECT_THROW((void)rewrite("a: [", before, after), std::logic_error);
}

}  // namespace
}  // namespace drystage::plan::rewrite_test
