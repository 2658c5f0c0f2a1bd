#include <gtest/gtest.h>

#include <ostream>

#include "plan_text.h"

namespace drystage::plan {
namespace {

struct Oddity {
  const char* piece;
  const char* replacement;
  const char* what;
};

void PrintTo(const Oddity& oddity, std::ostream* out) { *out << oddity.replacement; }

class OddValue : public testing::TestWithParam<Oddity> {};

TEST_P(OddValue, IsTheOneWarningAndThePlanStillReads) {
  const Oddity& oddity = GetParam();
  const Reading reading = read_text(whole_plan_with(oddity.piece, oddity.replacement));
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  ASSERT_EQ(reading.diagnostics.size(), 1U) << all_of(reading);
  EXPECT_EQ(reading.diagnostics[0].severity, Severity::warning);
  EXPECT_NE(reading.diagnostics[0].what.find(oddity.what), std::string::npos) << all_of(reading);
  EXPECT_GT(reading.diagnostics[0].mark.line, 0);
}

INSTANTIATE_TEST_SUITE_P(
    All, OddValue,
    testing::Values(
        Oddity{"name: jerry 1, holds: 20 L", "name: jerry 1, holds: 400 L", "large for a can"},
        Oddity{"name: can 1, holds: 20 L", "name: can 1, holds: 61 L", "large for a can"},
        Oddity{"uses: 24 L/100km", "uses: 2 L/100km", "unusual use of fuel"},
        Oddity{"uses: 24 L/100km", "uses: 61 L/100km", "unusual use of fuel"},
        Oddity{"max: 22 °C", "max: 60 °C", "unusual air temperature"},
        Oddity{"min: 7 °C", "min: -46 °C", "unusual air temperature"},
        Oddity{"climb: 300 m, descent: 670 m", "climb: 900 m, descent: 670 m", "230 m higher"},
        Oddity{"climb: 300 m, descent: 670 m", "descent: 200 m", "descent of 200 m is too little"},
        Oddity{"sun: 5.4 kWh/m2/day", "sun: 9.5 kWh/m2/day", "more sun"},
        Oddity{"mass: 62 kg", "mass: 162 kg", "mass of 162 kg"},
        Oddity{"mass: 62 kg", "mass: 4 kg", "mass of 4 kg"},
        Oddity{"gravel: 60 km/h", "gravel: 160 km/h", "fast"},
        Oddity{"speed: 30 km/h", "speed: 131 km/h", "fast"},
        Oddity{"limit: 3500 kg", "limit: 2700 kg", "over its limit"},
        Oddity{"mass: 9 kg", "mass: 90 kg", "cabinet \"chest\" of 45 L"},
        Oddity{"distance: 445 km, surfaces: gravel", "distance: 45 km, surfaces: gravel",
               "shorter than the straight line"},
        Oddity{"diesel: {truck: 60 L}", "diesel: {truck: 120 L}", "supplies 100 at most"}));

TEST(OddValues, AreNotWhatIsMerelyUnconfirmedOrLarge) {
  EXPECT_TRUE(read_text(whole_plan()).diagnostics.empty());
  // A tank that is not called a can may be large.
  EXPECT_TRUE(
      read_text(whole_plan_with("name: main tank, holds: 80 L", "name: canister, holds: 90 L"))
          .diagnostics.empty());
}

}  // namespace
}  // namespace drystage::plan
