// The `mass` of cabinets and solar panels.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <utility>

#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

TEST(Masses, OfACabinetAndAPanelAreRead) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->cold[0].mass_kg, 17);
  EXPECT_DOUBLE_EQ(reading.plan->cold[1].mass_kg, 0);
  EXPECT_DOUBLE_EQ(reading.plan->power.chargers[1].mass_kg, 11);
}

TEST(Masses, OfOtherChargersAreRefusedWithAReason) {
  for (const auto& [piece, with_mass] : {std::pair{"mains: 10 A}", "mains: 10 A, mass: 2 kg}"},
                                         {"current: 20 A,", "current: 20 A, mass: 2 kg,"},
                                         {"runs: 2 h/day,", "runs: 2 h/day, mass: 2 kg,"}}) {
    const ReadPlan reading = read_text(whole_plan_with(piece, with_mass));
    ASSERT_THAT(reading.diagnostics, SizeIs(1)) << all_of(reading);
    EXPECT_THAT(reading.diagnostics[0].what, HasSubstr("\"mass\" does not belong here"));
    EXPECT_THAT(reading.diagnostics[0].hint, HasSubstr("only a solar panel has one"));
  }
}

TEST(Masses, OfACabinetAndAPanelCountForTheLimitOfTheirVehicle) {
  const auto over = [](const char* piece, const char* replacement) {
    const ReadPlan reading = read_text(whole_plan_with(piece, replacement));
    const bool is_over = reading.diagnostics.size() > 1;  // the mass itself is questioned
    return is_over ? reading.diagnostics[0].what : std::string();
  };
  EXPECT_THAT(over("mass: 17 kg", "mass: 1017 kg"), HasSubstr("vehicle \"truck\" starts with"));
  EXPECT_EQ(over("mass: 11 kg", "mass: 1011 kg"), "");  // on the battery of the trailer rig
}

}  // namespace
}  // namespace drystage::plan
