#include <gtest/gtest.h>

#include "plan_text.h"

namespace drystage::plan {
namespace {

// The whole plan with another itinerary.
ReadPlan with_itinerary(std::string_view items) {
  std::string text = whole_plan();
  text.erase(text.find("\nitinerary:") + 1);
  text += "itinerary:\n";
  text += items;
  return read_text(text);
}

// What is wrong with an itinerary, as one text; empty if nothing is.
std::string errors_of(std::string_view items) {
  std::string text;
  for (const Diagnostic& d : of_severity(with_itinerary(items), Severity::error)) {
    text += d.what + "\n";
  }
  return text;
}

TEST(Itinerary, BeginsAtAPlace) {
  EXPECT_EQ(errors_of("  - stay: {nights: 2}\n"), "a stay before any place\n");
  EXPECT_EQ(errors_of("  - drive: {to: Oru, distance: 5 km, surfaces: track}\n"),
            "a drive before any place\n");
  EXPECT_EQ(errors_of("  - resupply: {diesel: fill}\n"), "a resupply before any place\n");
}

TEST(Itinerary, IsNotEmpty) {
  EXPECT_EQ(errors_of(""), "the itinerary is empty\n");
  EXPECT_EQ(errors_of("  []\n"), "the itinerary is empty\n");
}

TEST(Itinerary, StaysWhereItHasDrivenTo) {
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - {at: Kemet Wells}\n"),
            "at \"Kemet Wells\", but the itinerary is at \"Oru\" by now\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - {at: Oru}\n"), "");
}

TEST(Itinerary, KnowsItsPlaces) {
  const ReadPlan reading = with_itinerary(
      "  - {at: Oru}\n  - drive: {to: Kemet Wels, distance: 400 km, surfaces: sand}\n"
      "  - resupply: {ice: fill}\n");
  const auto errors = of_severity(reading, Severity::error);
  ASSERT_EQ(errors.size(), 1U) << all_of(reading);
  EXPECT_EQ(errors[0].what, "there is no place \"Kemet Wels\"");
  EXPECT_EQ(errors[0].hint, "did you mean \"Kemet Wells\"?");
}

TEST(Itinerary, HasOneThingPerItem) {
  EXPECT_EQ(errors_of("  - {at: Oru, stay: {nights: 1}}\n"),
            "\"at\" and \"stay\" in one itinerary item\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - sleep: {nights: 1}\n"),
            "an itinerary item has no key \"sleep\"\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - stay\n"),
            "an itinerary item: a plain value does not belong here\n");
}

TEST(Itinerary, StaysWholeNights) {
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - stay: {nights: 0}\n"), "nights: 0 is too low\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - stay: {nights: 1.5}\n"),
            "nights: 1.5 is not a whole number\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - stay: {nights: 2 nights, activity: serve}\n"),
            "there is no activity \"serve\"\n");
}

TEST(Itinerary, HasSurfacesThatAddUp) {
  const auto leg = [](const char* surfaces) {
    return errors_of(std::string("  - {at: Oru}\n  - drive: {to: Wadi Sennu, distance: 240 km, "
                                 "surfaces: ") +
                     surfaces + "}\n");
  };
  EXPECT_EQ(leg("{sealed: 90 km, gravel: 160 km}"),
            "the surfaces add up to 250 km, but the distance is 240 km\n");
  EXPECT_EQ(leg("{sealed: 90 km, gravel: 152 km}"), "");  // within 1 %
  EXPECT_EQ(leg("{sealed: 90 km, gravel: 153 km}"),
            "the surfaces add up to 243 km, but the distance is 240 km\n");
  EXPECT_EQ(leg("{soft_sand: 240 km}"), "");
  EXPECT_EQ(leg("{mud: 240 km}"), "there is no surface \"mud\"\n");
  EXPECT_EQ(leg("{}"), "the surfaces add up to 0 km, but the distance is 240 km\n");
  EXPECT_EQ(leg("{sealed: -90 km, gravel: 330 km}"), "sealed: -90 km is negative\n");
  EXPECT_EQ(leg("[{surface: sand, distance: 240 km, pace: 3 km/h}]"),
            "a part of the way has no key \"pace\"\n");
}

TEST(Itinerary, GoesSomewhere) {
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - drive: {to: Oru, distance: 0 km, surfaces: track}\n"),
            "a drive of no distance to \"Oru\", where you are already\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - drive: {to: Oru, distance: 30 km, surfaces: track}\n"),
            "");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - drive: {distance: 30 km, surfaces: track}\n"),
            "a drive lacks \"to\"\n");
}

TEST(Itinerary, ResuppliesWhatThePlaceHas) {
  EXPECT_EQ(errors_of("  - {at: Kemet Wells}\n  - resupply: {food: fill}\n"),
            "\"Kemet Wells\" does not supply food\n");
  EXPECT_EQ(errors_of("  - {at: Wadi Sennu}\n  - resupply: {diesel: fill}\n"),
            "\"Wadi Sennu\" does not supply diesel\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {diesl: fill}\n"),
            "a resupply that takes nothing\na resupply has no key \"diesl\"\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {mains: yes}\n"),
            "a resupply: \"mains\" does not belong here\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {food: 20 meals, ice: 5 kg}\n"), "");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {ice: 5 L}\n"), "ice: 5 L is a volume\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {diesel: full}\n"),
            "diesel: unknown word \"full\"\n");
}

TEST(Itinerary, ResuppliesForVehiclesThatUseIt) {
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {diesel: {trailer rig: 20 L}}\n"),
            "vehicle \"trailer rig\" does not use diesel\n");
  EXPECT_EQ(errors_of("  - {at: Oru}\n  - resupply: {diesel: {trcuk: 20 L}}\n"),
            "there is no vehicle \"trcuk\"\n");
  std::string text = whole_plan_with("    fuel: petrol\n", "    fuel: diesel\n");
  const ReadPlan reading = read_text(text);
  const auto errors = of_severity(reading, Severity::error);
  ASSERT_EQ(errors.size(), 2U) << all_of(reading);  // the generator, then the resupply
  EXPECT_EQ(errors[0].what, "no vehicle carries the fuel of charger \"little generator\"");
  EXPECT_EQ(errors[1].what, "no vehicle uses petrol");
}

TEST(Itinerary, ResuppliesOnlyWhereThereIsRoomForIt) {
  std::string text = whole_plan_with("{name: can 1, holds: 20 L, filled: 5 US gal, for: drinking",
                                     "{name: can 1, holds: 20 L, filled: 5 US gal, for: utility");
  const std::size_t spare = text.find("filled: 10 L, opened");
  text.replace(spare, 20, "filled: 10 L, for: utility, opened");
  const ReadPlan reading = read_text(text);
  const auto errors = of_severity(reading, Severity::error);
  ASSERT_EQ(errors.size(), 1U) << all_of(reading);
  EXPECT_EQ(errors[0].what, "there is no container for drinking water");
}

}  // namespace
}  // namespace drystage::plan
