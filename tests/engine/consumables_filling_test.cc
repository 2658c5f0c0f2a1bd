// What fills with use: a toilet cassette, of which room is what runs out.
#include <gtest/gtest.h>

#include <string>

#include "support/trip.h"

namespace drystage::consumables_filling_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr double exact = 1e-9;
constexpr const char* cassette = "consumable:cassette";

/// 18 L with 3 L in them, 2 L a day of one person; emptied at Far on the third day.
PlanText with_cassette(const std::string& emptied = "empty") {
  PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 100 L, filled: 100 L}"};
  text.consumables = {
      "{name: cassette, unit: L, unit_mass: 1 kg, fills: yes, stores: [{name: box, holds: 18 L, "
      "filled: 3 L, empty_mass: 4 kg}], use: {per_person_day: 2 L}, margin: 1 day}"};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("Far", "air", "consumables: {cassette: {}}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 2}",
                    "drive: {to: Far, distance: 100 km, surfaces: sealed, speed: 50 km/h}",
                    "resupply: {consumables: {cassette: " + emptied + "}}", "stay: {nights: 3}"};
  return text;
}

TEST(WhatFills, HasTheRoomThatIsLeft) {
  const Trip trip = travel(with_cassette());
  EXPECT_NEAR(trip.reserve(0, cassette).start, 15, exact);
  EXPECT_NEAR(trip.reserve(0, cassette).end, 13, exact);
  EXPECT_NEAR(trip.reserve(0, cassette).margin, 2, exact);
}

TEST(WhatFills, IsEmptiedAtAPlace) {
  const Trip trip = travel(with_cassette());
  // From 00:00 to 10:00 of day 3, when it gets there, 2 L/day less.
  EXPECT_NEAR(trip.reserve(2, cassette).gained, 18 - (15 - 2 * (2 + 10.0 / 24)), 1e-6);
  EXPECT_NEAR(trip.reserve(2, cassette).end, 18 - 2 * 14.0 / 24, 1e-6);
  EXPECT_NEAR(travel(with_cassette("3 L")).reserve(2, cassette).gained, 3, exact);
}

TEST(WhatFills, IsFullWhenNoRoomIsLeft) {
  PlanText text = with_cassette();
  text.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  const Trip trip = travel(text);
  // 15 L at 2 L a day: seven days and a half.
  EXPECT_NEAR(trip.reserve(7, cassette).short_h, 12, exact);
}

TEST(WhatFills, WeighsWhatIsInIt) {
  PlanText bare = with_cassette();
  bare.consumables.clear();
  bare.places[1] = PlanText::place("Far", "air");
  bare.itinerary.erase(bare.itinerary.begin() + 3);
  PlanText text = with_cassette();
  // Nothing is drunk or burnt before the first step: 3 L and the box of 4 kg.
  EXPECT_NEAR(travel(text).record.heaviest[0].kg, travel(bare).record.heaviest[0].kg + 3 + 4, 1e-6);
  // Where it fills faster than water is drunk, the heaviest moment is when it is full.
  text.consumables[0].replace(text.consumables[0].find("2 L"), 3, "9 L");
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Far, distance: 1 km, surfaces: sealed, speed: 50 km/h}"};
  bare.itinerary = text.itinerary;
  EXPECT_GT(travel(text).record.heaviest[0].kg, travel(bare).record.heaviest[0].kg + 3 + 4 + 1);
}

TEST(WhatFills, KeepsItsLedger) {
  const Trip trip = travel(with_cassette());
  for (std::size_t day = 0; day < trip.days(); ++day) {
    const engine::StoreDay& row = trip.store(day, "box");
    EXPECT_NEAR(row.start + row.gained - row.used - row.lost, row.end, exact);
    EXPECT_GE(row.end, 0);
    EXPECT_LE(row.end, 18);
  }
}

}  // namespace
}  // namespace drystage::consumables_filling_test
