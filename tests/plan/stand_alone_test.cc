// A plan with all that it includes written into it.
#include "plan/stand_alone.h"

#include <gtest/gtest.h>

#include "cli/workspace.h"
#include "plan/log.h"
#include "plan/same_plan.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

std::string alone(const std::string& kit, const std::string& trip) {
  const testing::Workspace space;
  EXPECT_NE(space.write("kit.yaml", kit), "");
  std::string text = stand_alone(read_file(space.write("trip.yaml", trip)));
  const std::size_t folder = text.find(space.folder() + "/");
  if (folder != std::string::npos) text.erase(folder, space.folder().size() + 1);
  return text;
}

TEST(StandAlone, IsTheTextItselfWhereNothingIsIncluded) {
  EXPECT_EQ(stand_alone(read_text(whole_plan())), whole_plan());
}

TEST(StandAlone, AddsWhatOnlyTheKitHasAndKeepsTheTripsText) {
  EXPECT_EQ(alone("water: # ours\n"
                  "  containers:\n"
                  "    - {name: can 1, holds: 20 L, filled: 20 L, for: drinking}\n"
                  "    - {name: can 2, holds: 20 L, filled: 20 L, for: drinking}\n"
                  "food: [{item: rice, kept: dry, meals: 9}]\n",
                  "# Mine\n"
                  "drystage: 1  # always\n"
                  "include: kit.yaml  # the truck\n"
                  "\n"
                  "margins: {fuel:  150 km}\n"),
            "# Mine\n"
            "drystage: 1  # always\n"
            "\n"
            "margins: {fuel:  150 km}\n"
            "\n"
            "# Taken over from kit.yaml\n"
            "water:\n"
            "  containers:\n"
            "    - {name: can 1, holds: 20 L, filled: 20 L, for: drinking}\n"
            "    - {name: can 2, holds: 20 L, filled: 20 L, for: drinking}\n"
            "\n"
            "food: [{item: rice, kept: dry, meals: 9}]\n");
}

TEST(StandAlone, WritesASectionOfBothAnewWhereItStands) {
  EXPECT_EQ(alone("margins: {fuel: 150 km, food: 2 days}\n"
                  "people: [{name: Ada, mass: 70 kg, age: 30}]\n"
                  "cold: [{name: chest}]\n",
                  "include:\n"
                  "  - kit.yaml\n"
                  "margins:\n"
                  "  # more than usual\n"
                  "  fuel: 300 km\n"
                  "# Who goes\n"
                  "people: [{name: Ada, mass: 65 kg}]  # without boots\n"
                  "food:\n"
                  "cold:\n"
                  "drystage: 1\n"),
            "margins:\n"
            "  # more than usual\n"
            "  fuel: 300 km\n"
            "  food: 2 days\n"
            "# Who goes\n"
            "people:  # without boots\n"
            "  - {name: Ada, mass: 65 kg, age: 30}\n"
            "food:\n"
            "drystage: 1\n");
}

TEST(StandAlone, SaysTheSameInWhateverFormTheFilesAre) {
  const std::vector<std::string> kits{
      "{\"water\": {containers: [{name: \"no: 1\", holds: \"20 L\"}]}, food: []}",
      "---\nwater:\n- name: 'yes'\n  \"a\\tb\": \"c\\nd\\\\\"\n- [1, [2, {x: ~}], []]\n...\n",
      "vehicles:\n  - name: a very long name that leaves no room\n    tanks:\n"
      "      - {name: another long name for a tank, holds: 80 L, filled: 80 L, unusable: 4 L}\n"
      "    notes: >\n      folded\n      text\n    more: |\n      kept\n      lines\n"};
  const std::vector<std::string> trips{
      "include: kit.yaml\nwater: {use: 1}\nvehicles: [{name: b, x: 1}]",
      "{drystage: 1, include: [kit.yaml], water: {use: 1}}\n",
      "  drystage: 1\r\n  include: kit.yaml\r\n  vehicles:\r\n  - name: b\r\n  # end\r\n",
      "--- \ndrystage: 1\ninclude: kit.yaml\n...\n", "include: kit.yaml\n"};
  for (const std::string& kit : kits) {
    for (const std::string& trip : trips) {
      const testing::Workspace space;
      EXPECT_NE(space.write("kit.yaml", kit), "");
      const ReadPlan reading = read_file(space.write("trip.yaml", trip));
      ASSERT_TRUE(reading.merged.has_value()) << all_of(reading);
      const std::string text = stand_alone(reading);
      Log log;
      const auto tree = parse_tree(text, {}, log);
      ASSERT_TRUE(tree.has_value()) << text;
      EXPECT_EQ(log.errors(), 0U) << text;
      EXPECT_EQ(tree->entries.size(), reading.merged->entries.size()) << text;
      for (const Entry& entry : reading.merged->entries) {
        ASSERT_NE(tree->find(entry.key), nullptr) << text;
        EXPECT_TRUE(same_node(*tree->find(entry.key), entry.value)) << text;
      }
    }
  }
}

}  // namespace
}  // namespace drystage::plan
