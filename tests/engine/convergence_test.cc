// A step of an hour is short enough: halving it changes nothing that matters on the plans that are
// shipped.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "plan/read.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::ReserveDay;
using support::Trip;

std::vector<std::filesystem::path> scenarios() {
  std::vector<std::filesystem::path> found;
  for (const auto& entry : std::filesystem::directory_iterator(DRYSTAGE_SCENARIOS)) {
    if (entry.path().extension() == ".yaml") found.push_back(entry.path());
  }
  std::ranges::sort(found);
  return found;
}

void compare(const Trip& whole, const Trip& half, const std::string& name) {
  ASSERT_EQ(whole.days(), half.days());
  for (std::size_t r = 0; r < whole.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = whole.course.reserves[r];
    const bool cold = info.sense == engine::Sense::keep_below;
    // Of a temperature, half a percent of the some 25 K between inside and outside.
    double limit = cold ? 0.005 * 25 : 0.005 * info.capacity;
    // Frozen banks of this kind take no charge, and where a drive leads into another climate that
    // begins with a step: up to half an hour of 2 A sooner or later. The next test halves on.
    if (info.name == "battery:instrument battery") limit = 1;
    for (std::size_t d = 0; d < whole.days(); ++d) {
      const ReserveDay& a = whole.record.reserve(d, r);
      const ReserveDay& b = half.record.reserve(d, r);
      EXPECT_NEAR(a.lowest, b.lowest, limit) << name << ", " << info.name << " on day " << d + 1;
      if (!cold) {
        EXPECT_NEAR(a.end, b.end, limit) << name << ", " << info.name << " on day " << d + 1;
      }
    }
  }
}

TEST(Convergence, HalvingTheStepHardlyChangesAnyReserveOfTheShippedScenarios) {
  const auto paths = scenarios();
  ASSERT_FALSE(paths.empty());
  for (const auto& path : paths) {
    const plan::ReadPlan reading = plan::read_file(path);
    ASSERT_TRUE(reading.plan) << path;
    const std::string name = path.filename().string();
    compare(support::travel(*reading.plan, 1.0), support::travel(*reading.plan, 0.5), name);
  }
}

TEST(Convergence, ShorterStepsFindTheHourAtWhichADriveLeadsIntoFrost) {
  const plan::Plan plan = *plan::read_file(DRYSTAGE_SCENARIOS "/high-plateau.yaml").plan;
  const Trip eighth = support::travel(plan, 0.125);
  const Trip sixteenth = support::travel(plan, 0.0625);
  for (std::size_t d = 0; d < eighth.days(); ++d) {
    EXPECT_NEAR(eighth.reserve(d, "battery:instrument battery").end,
                sixteenth.reserve(d, "battery:instrument battery").end, 0.03);
  }
}

TEST(Convergence, HalvingTheStepDoesNotChangeTheVerdictOfTheShippedScenarios) {
  for (const auto& path : scenarios()) {
    const plan::ReadPlan reading = plan::read_file(path);
    ASSERT_TRUE(reading.plan) << path;
    const Trip whole = support::travel(*reading.plan, 1.0);
    const Trip half = support::travel(*reading.plan, 0.5);
    ASSERT_EQ(whole.verdict.holds, half.verdict.holds) << path;
    if (whole.verdict.holds) continue;
    EXPECT_EQ(whole.verdict.first_breach->day, half.verdict.first_breach->day) << path;
    EXPECT_EQ(whole.verdict.first_breach->reserve, half.verdict.first_breach->reserve) << path;
    EXPECT_NEAR(whole.verdict.first_breach->hour, half.verdict.first_breach->hour, 1.0) << path;
  }
}

}  // namespace
}  // namespace drystage
