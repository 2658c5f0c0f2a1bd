#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <variant>

#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;

// Out from Oru (980 m) to Wadi Sennu (610 m), 128 km in a straight line, with this road back.
ReadPlan with_back(const std::string& back, const std::string& to = "Wadi Sennu") {
  std::string text = whole_plan();
  text.erase(text.find("\nitinerary:") + 1);
  text += "itinerary:\n  - {at: Oru}\n  - drive: {to: " + to +
          ", distance: 240 km, surfaces: gravel, back: " + back + "}\n  - drive: {to: Oru, " +
          "distance: 240 km, surfaces: gravel}\n";
  return read_text(text);
}

std::vector<std::string> said_of(const ReadPlan& reading) {
  std::vector<std::string> out;
  for (const Diagnostic& d : reading.diagnostics) out.push_back(d.what);
  return out;
}

WayBack way_back(const std::string& back) {
  const ReadPlan reading = with_back(back);
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_TRUE(reading.diagnostics.empty()) << all_of(reading);
  if (!reading.plan) return {};
  const auto& drive = std::get<Drive>(reading.plan->itinerary[1]);
  EXPECT_TRUE(drive.back.has_value());
  return drive.back.value_or(WayBack{});
}

TEST(WayBack, IsReadFromTheWholePlan) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  const auto& items = reading.plan->itinerary;
  EXPECT_FALSE(std::get<Drive>(items[1]).back.has_value());
  const auto& drive = std::get<Drive>(items[3]);
  ASSERT_TRUE(drive.back.has_value());
  EXPECT_DOUBLE_EQ(drive.distance_km, 205);  // what belongs to the way out is left alone
  EXPECT_EQ(drive.surfaces.size(), 3U);
  EXPECT_FALSE(drive.climb_m.has_value());
  const WayBack& back = *drive.back;
  EXPECT_DOUBLE_EQ(back.distance_km, 230);
  ASSERT_EQ(back.surfaces.size(), 2U);
  EXPECT_EQ(back.surfaces[0].surface, Surface::gravel);
  EXPECT_DOUBLE_EQ(back.surfaces[0].distance_km, 40);
  EXPECT_DOUBLE_EQ(back.surfaces[0].speed_km_h.value(), 55);
  EXPECT_EQ(back.surfaces[1].surface, Surface::sealed);
  EXPECT_DOUBLE_EQ(back.surfaces[1].speed_km_h.value(), 55);
  EXPECT_DOUBLE_EQ(back.climb_m.value(), 190);
  EXPECT_DOUBLE_EQ(back.descent_m.value(), 120);
  EXPECT_GT(back.mark.line, 0);
}

TEST(WayBack, HasSurfacesInEveryForm) {
  const WayBack plain = way_back("{distance: 210 km, surfaces: sand}");
  ASSERT_EQ(plain.surfaces.size(), 1U);
  EXPECT_DOUBLE_EQ(plain.surfaces[0].distance_km, 210);
  EXPECT_FALSE(plain.surfaces[0].speed_km_h.has_value());
  EXPECT_FALSE(plain.climb_m.has_value());

  const WayBack parts = way_back(
      "{distance: 210 km, surfaces: [{surface: sand, distance: 110 km, speed: 20 km/h}, "
      "{surface: track, distance: 100 km}], speed: 40 km/h}");
  ASSERT_EQ(parts.surfaces.size(), 2U);
  EXPECT_DOUBLE_EQ(parts.surfaces[0].speed_km_h.value(), 20);
  EXPECT_DOUBLE_EQ(parts.surfaces[1].speed_km_h.value(), 40);

  // The rounding of the parts is spread over them.
  const WayBack rounded = way_back("{distance: 210 km, surfaces: {sand: 110 km, track: 101 km}}");
  ASSERT_EQ(rounded.surfaces.size(), 2U);
  EXPECT_DOUBLE_EQ(rounded.surfaces[0].distance_km + rounded.surfaces[1].distance_km, 210);
}

TEST(WayBack, IsWrongAsADriveIs) {
  EXPECT_THAT(said_of(with_back("{}")),
              ElementsAre("the way back lacks \"distance\"", "the way back lacks \"surfaces\""));
  EXPECT_THAT(said_of(with_back("gravel")),
              ElementsAre("the way back: a plain value does not belong here"));
  EXPECT_THAT(said_of(with_back("{distance: 0 km, surfaces: gravel}")),
              ElementsAre("distance: 0 km is too low"));
  EXPECT_THAT(said_of(with_back("{distance: 210, surfaces: gravel}")),
              ElementsAre("distance: 210 has no unit"));
  EXPECT_THAT(said_of(with_back("{distance: 210 km, surfaces: {gravel: 200 km}}")),
              ElementsAre("the surfaces add up to 200 km, but the distance is 210 km"));
  EXPECT_THAT(said_of(with_back("{distance: 210 km, surfaces: mud}")),
              ElementsAre("there is no surface \"mud\""));
  EXPECT_THAT(said_of(with_back("{distance: 210 km, surfaces: gravel, to: Oru}")),
              ElementsAre("the way back has no key \"to\""));
}

TEST(WayBack, IsOddAsADriveIsSeenFromItsOwnEnds) {
  const auto warnings = [](const std::string& back) {
    const ReadPlan reading = with_back(back);
    EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
    return said_of(reading);
  };
  EXPECT_THAT(
      warnings("{distance: 100 km, surfaces: gravel}"),
      ElementsAre(
          "100 km is shorter than the straight line from \"Wadi Sennu\" to \"Oru\", 127.8 km"));
  EXPECT_THAT(warnings("{distance: 210 km, surfaces: gravel, speed: 140 km/h}"),
              ElementsAre("speed: 140 km/h is unusually high"));
  // Oru is 370 m higher: what was right on the way out is wrong on the way back.
  EXPECT_THAT(warnings("{distance: 210 km, surfaces: gravel, climb: 670 m, descent: 300 m}"),
              ElementsAre());
  EXPECT_THAT(warnings("{distance: 210 km, surfaces: gravel, climb: 300 m, descent: 670 m}"),
              ElementsAre("climb and descent leave the road 370 m lower than it began"));
  EXPECT_THAT(warnings("{distance: 210 km, surfaces: gravel, climb: 200 m}"),
              ElementsAre("a climb of 200 m is too little"));
}

TEST(WayBack, BelongsToADriveThatGoesSomewhereElse) {
  EXPECT_THAT(said_of(with_back("{distance: 210 km, surfaces: gravel}", "Oru")),
              ElementsAre("a way back for a drive that ends where it began, at \"Oru\""));
  // With an end that is not known only that is said.
  EXPECT_THAT(said_of(with_back("{distance: 100 km, surfaces: gravel}", "Orru")),
              ElementsAre("there is no place \"Orru\""));
}

}  // namespace
}  // namespace drystage::plan
