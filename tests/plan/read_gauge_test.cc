// How a vessel is read with a dipstick: shapes and marks.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "plan/gauge.h"
#include "plan_text.h"
#include "support/plan_text.h"

namespace drystage::plan::read_gauge_test {
namespace {

using support::PlanText;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string tank_with(const std::string& gauge) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 60 L, " +
      gauge + "}]}"};
  return plan.text();
}

Gauge tank_gauge(const std::string& gauge) {
  const ReadPlan reading = read_text(tank_with(gauge));
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  return reading.plan ? reading.plan->vehicles[0].tanks[0].gauge : Gauge{};
}

Diagnostic error_with(const std::string& gauge) { return only_error(read_text(tank_with(gauge))); }

TEST(Gauge, IsReadOfContainersAndTanksAlike) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan) << all_of(reading);
  const auto& cans = reading.plan->water.containers;
  EXPECT_EQ(cans[0].gauge.shape, (Shape{Box{.length_m = 0.8, .width_m = 0.4, .height_m = 0.28}}));
  EXPECT_FALSE(cans[1].gauge.is_given());
  EXPECT_EQ(cans[2].gauge.shape, (Shape{StandingCylinder{.diameter_m = 0.2, .height_m = 0.32}}));
  const Gauge& main = reading.plan->vehicles[0].tanks[0].gauge;
  EXPECT_THAT(main.marks,
              ElementsAre(DipMark{0.05, 9}, DipMark{0.1, 20}, DipMark{0.2, 45}, DipMark{0.31, 70}));
  EXPECT_TRUE(main.is_given());
  EXPECT_FALSE(reading.plan->vehicles[0].tanks[1].gauge.is_given());
  EXPECT_EQ(reading.plan->vehicles[1].tanks[0].gauge.shape,
            (Shape{LyingCylinder{.diameter_m = 0.32, .length_m = 0.75}}));
}

TEST(Gauge, KnowsTheRoomAndTheHeightOfItsShape) {
  constexpr double pi = std::numbers::pi;
  const Shape box = Box{.length_m = 0.8, .width_m = 0.4, .height_m = 0.35};
  EXPECT_DOUBLE_EQ(room_l(box), 112);
  EXPECT_EQ(height_m(box), 0.35);
  const Shape lying = LyingCylinder{.diameter_m = 0.4, .length_m = 0.9};
  EXPECT_NEAR(room_l(lying), 36 * pi, 1e-12);  // pi 2^2 dm2 times 9 dm
  EXPECT_EQ(height_m(lying), 0.4);
  const Shape standing = StandingCylinder{.diameter_m = 0.4, .height_m = 0.9};
  EXPECT_NEAR(room_l(standing), 36 * pi, 1e-12);
  EXPECT_EQ(height_m(standing), 0.9);
  EXPECT_EQ(room_l({}), 0);
  EXPECT_EQ(height_m({}), 0);
}

TEST(Gauge, TakesAnyUnitOfLengthAndVolume) {
  const Gauge gauge =
      tank_gauge("dip: {0 cm: 1 L, 2 in: 2 US gal, 100 mm: 3 imp gal, 0.5 m: 80 L}");
  ASSERT_EQ(gauge.marks.size(), 4U);
  EXPECT_EQ(gauge.marks[0], (DipMark{0, 1}));
  EXPECT_NEAR(gauge.marks[1].depth_m, 0.0508, 1e-12);
  EXPECT_NEAR(gauge.marks[1].volume_l, 2 * 3.785411784, 1e-9);  // 231 cubic inches
  EXPECT_NEAR(gauge.marks[2].volume_l, 3 * 4.54609, 1e-9);
  EXPECT_EQ(gauge.marks[3], (DipMark{0.5, 80}));
}

TEST(Gauge, MayBeATenthOffWhatTheVesselHoldsAndNoMore) {
  const auto box = [](int height_mm) {
    return "shape: {box: {length: 100 cm, width: 40 cm, height: " + std::to_string(height_mm) +
           " mm}}";
  };
  for (const int height_mm : {181, 200, 219}) {
    EXPECT_TRUE(tank_gauge(box(height_mm)).is_given()) << height_mm;
  }
  for (const int height_mm : {179, 221}) {
    const Diagnostic error = error_with(box(height_mm));
    EXPECT_THAT(error.what, HasSubstr("has room for"));
    EXPECT_THAT(error.what, HasSubstr("but it holds 80 L"));
    EXPECT_THAT(error.expected, HasSubstr("within 10 %"));
    EXPECT_THAT(error.hint, HasSubstr("dip"));
  }
}

struct Slip {
  const char* gauge;
  const char* what;
  const char* mend;  ///< is in what was expected, or in the hint
};

TEST(Gauge, TellsOfEverySlipHowToMendIt) {
  for (const Slip& slip : {
           Slip{"shape: {bx: {length: 1 m}}", "has no key \"bx\"", "did you mean \"box\"?"},
           Slip{"shape: box", "\"box\" has no measures", "length: 80 cm"},
           Slip{"shape: lyingcylinder", "has no measures", "did you mean \"lying_cylinder\"?"},
           Slip{"shape: {}", "is not said", "length: 80 cm"},
           Slip{"shape: [box]", "the shape of tank \"tank\"", "a map"},
           Slip{"shape: {box: {length: 1 m, width: 40 cm}}", "the box lacks \"height\"", "height"},
           Slip{"shape: {box: {length: 1 m, width: 40 cm, height: 0 cm}}",
                "height: 0 cm is too low", "from 0.1 to 1000 cm"},
           Slip{"shape: {box: {length: 1 m, width: 40 cm, height: -20 cm}}", "-20 cm is negative",
                "from 0.1 to 1000 cm"},
           Slip{"shape: {box: {length: 1 m, width: 40 m, height: 20 cm}}",
                "width: 40 m is 4000 cm, which is too high", "did you mean 40 cm?"},
           Slip{"shape: {box: {length: 1 m, width: 400, height: 20 cm}}", "400 has no unit",
                "write 400 cm"},
           Slip{"shape: {box: {length: 1 m, width: 40 cm, height: 20 cm}, lying_cylinder: "
                "{diameter: 4 dm, length: 64 cm}}",
                "is a box and a lying_cylinder", "one of them"},
           Slip{"shape: {standing_cylinder: {diameter: 40 cm}}",
                "the standing_cylinder lacks \"height\"", "height"},
           Slip{"dip: {}", "there is no mark above the bottom", "5 cm: 9 L"},
           Slip{"dip: ", "there is no mark above the bottom", "5 cm: 9 L"},
           Slip{"dip: {0 cm: 2 L}", "there is no mark above the bottom", "5 cm: 9 L"},
           Slip{"dip: [9 L]", "dip", "5 cm: 9 L"},
           Slip{"dip: 5 cm", "dip", "5 cm: 9 L"},
           Slip{"dip: {5: 9 L}", "dip: 5 has no unit", "write 5 cm"},
           Slip{"dip: {5 cm: 9}", "9 has no unit", "9 L"},
           Slip{"dip: {5 L: 9 L}", "5 L is a volume", "length"},
           Slip{"dip: {-5 cm: 9 L}", "-5 cm is negative", "from 0"},
           Slip{"dip: {5 cm: 9 L, 12 m: 70 L}", "12 m is 1200 cm, which is too high",
                "from 0 to 1000 cm"},
           Slip{"dip: {5 cm: -9 L}", "-9 L is negative", "from 0"},
           Slip{"dip: {5 cm: 0 L}", "nothing is in it at 5 cm", "more than 0"},
           Slip{"dip: {5 cm: 9 L, 50 mm: 10 L}", "50 mm is no deeper", "from the bottom up"},
           Slip{"dip: {5 cm: 9 L, 4 cm: 10 L}", "4 cm is no deeper", "from the bottom up"},
           Slip{"dip: {0.9 mm: 9 L}", "hardly deeper than the bottom", "1 mm apart"},
           Slip{"dip: {50 mm: 9 L, 50.4 mm: 10 L}", "hardly deeper than the mark", "1 mm apart"},
           Slip{"dip: {5 cm: 9 L, 6 cm: 9 L}", "9 L at 6 cm is no more", "more at every mark"},
           Slip{"dip: {0 cm: 9 L, 6 cm: 8 L}", "8 L at 6 cm is no more", "more at every mark"},
           Slip{"dip: {5 cm: 9 L, 40 cm: 80.5 L}", "80.5 L at 40 cm, but it holds 80 L",
                "no more than it holds"},
           Slip{"dip: {5 cm: 9 L, 5 cm: 10 L}", "twice", ""},
           Slip{"shape: {box: {length: 1 m, width: 40 cm, height: 20 cm}}, dip: {5 cm: 9 L}",
                "has a shape and dip marks", "leave the shape out"},
       }) {
    SCOPED_TRACE(slip.gauge);
    const Diagnostic error = error_with(slip.gauge);
    EXPECT_THAT(error.what, HasSubstr(slip.what));
    EXPECT_THAT(error.expected + " " + error.hint, HasSubstr(slip.mend));
  }
}

TEST(Gauge, IsNotBlamedForAWrongHolds) {
  PlanText plan;
  plan.containers = {
      "{name: tub, holds: 90, filled: 0 L, shape: {box: {length: 1 m, width: 40 cm, height: 20 "
      "cm}}}",
      "{name: bin, holds: 90, filled: 0 L, dip: {5 cm: 9 L}}"};
  const auto errors = of_severity(read_text(plan.text()), Severity::error);
  ASSERT_EQ(errors.size(), 2U);
  for (const Diagnostic& error : errors) EXPECT_THAT(error.what, HasSubstr("holds"));
}

TEST(Gauge, CanBeSetFromTheCommandLine) {
  const std::string text = tank_with("dip: {5 cm: 9 L, 10 cm: 20 L}");
  const std::vector<Override> overrides{{"vehicles.truck.tanks.tank.dip.10 cm", "21 L"},
                                        {"vehicles.truck.tanks.tank.dip.\"12.5 cm\"", "30 L"}};
  const ReadPlan reading = read_text(text, overrides);
  ASSERT_TRUE(reading.plan) << all_of(reading);
  EXPECT_THAT(reading.plan->vehicles[0].tanks[0].gauge.marks,
              ElementsAre(DipMark{0.05, 9}, DipMark{0.1, 21}, DipMark{0.125, 30}));
}

TEST(Gauge, MayHaveMarksAMillimetreApart) {
  EXPECT_EQ(tank_gauge("dip: {1 mm: 1 L, 0.2 cm: 2 L, 3 mm: 3 L, 0.301 m: 4 L, 0.302 m: 5 L}")
                .marks.size(),
            5U);
}

TEST(Gauge, MayBeWrittenOverSeveralLines) {
  const Gauge gauge =
      tank_gauge("dip: {5 cm: 9 L,   # a first\n          10 cm: 20 L,\n          31 cm: 70 L}");
  EXPECT_EQ(gauge.marks.size(), 3U);
}

}  // namespace
}  // namespace drystage::plan::read_gauge_test
