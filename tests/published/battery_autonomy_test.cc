// A bank for so many days without sun, as stand-alone systems are sized:
//
//   capacity = load of a day x days of autonomy / depth of discharge allowed x cold factor
//
// This is the first step of IEEE 1013 (lead-acid in stand-alone photovoltaic systems; memory), with
// its correction for the temperature, whose factors are those of IEEE 485. Left out are its other
// steps: the allowance for age and for an uncertain load, which a plan has in its margin; the
// deepest discharge of a single day; and the rate of discharge, for which this program has
// Peukert's law, tried below by itself.
//
// The worked example: 1000 Wh a day for 2.5 days from 12 V, half of the bank to be used, in a mild
// place and at 40 °F, with a factor of 1.30: 416.7 Ah and 541.7 Ah (a public page on the simplified
// IEEE method, batteries-solar.blogspot.com). Here 2.5 days of 1000 Wh are 5 days of 500 Wh.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "support/size_of.h"

namespace drystage {
namespace {

using answers::Sizing;
using support::PlanText;
using support::size_of;
using support::taken;

/// A bank that may be had in steps of 10 Ah, in air of one temperature, with its load and no sun.
struct Autonomy {
  std::string kind = "agm";
  double air_c = 25;
  int days = 5;
  double depth = 0.5;  ///< of discharge
  std::string load = "energy: 500 Wh/day";
  std::string peukert{};
};

double capacity_found(const Autonomy& given) {
  PlanText plan;
  plan.margins = {fmt::format("battery: {} %", 100 * (1 - given.depth))};
  plan.containers = {"{name: cans, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.climate = {PlanText::steady_climate("air", given.air_c)};
  plan.batteries = {
      fmt::format("{{name: bank, kind: {}, capacity: 100 Ah, rate: 20 h, floor: 5 %, cut_off: 4 %, "
                  "mass: 30 kg{}}}",
                  given.kind, given.peukert.empty() ? "" : ", peukert: " + given.peukert)};
  plan.loads = {"{name: load, " + given.load + "}"};
  plan.itinerary = {"{at: Base}", fmt::format("stay: {{nights: {}}}", given.days)};
  std::string offers;
  for (int ah = 10; ah <= 1500; ah += 10) offers += fmt::format("{}{} Ah", ah > 10 ? ", " : "", ah);
  const Sizing sizing = size_of(plan, "size: {batteries: {bank: [" + offers + "]}}");
  return taken(sizing, "bank");
}

double next_offer(double ah) { return 10 * std::ceil(ah / 10 - 1e-9); }

TEST(BatteryAutonomy, IsThatOfTheWorkedExample) {
  EXPECT_EQ(capacity_found({}), next_offer(416.7));
  EXPECT_EQ(capacity_found({.air_c = 4.4}), next_offer(541.7));
}

TEST(BatteryAutonomy, GrowsWithTheDaysTheLoadAndTheDepth) {
  for (const std::string kind : {"flooded", "agm"}) {
    for (const int days : {2, 3, 7}) {
      for (const double depth : {0.3, 0.5, 0.8}) {
        EXPECT_EQ(capacity_found({.kind = kind, .days = days, .depth = depth}),
                  next_offer(500.0 / 12 * days / depth))
            << kind << " " << days << " " << depth;
      }
    }
  }
}

TEST(BatteryAutonomy, InTheColdTakesTheFactorsOfIeee485ForLead) {
  for (const auto& [air_c, factor] : {std::pair{15.6, 1.11}, std::pair{10.0, 1.19},
                                      std::pair{4.4, 1.30}, std::pair{-3.9, 1.52}}) {
    for (const std::string kind : {"flooded", "agm"}) {
      EXPECT_EQ(capacity_found({.kind = kind, .air_c = air_c}),
                next_offer(500.0 / 12 * 5 / 0.5 * factor))
          << kind << " at " << air_c;
    }
  }
}

TEST(BatteryAutonomy, OfLithiumIronPhosphateMayBeUsedDeeperAndMindsTheColdLess) {
  // Down to a fifth; at freezing point it takes 1.12 of it (common practice).
  EXPECT_EQ(capacity_found({.kind = "lfp", .depth = 0.8}), next_offer(500.0 / 12 * 5 / 0.8));
  EXPECT_EQ(capacity_found({.kind = "lfp", .air_c = 0, .depth = 0.8}),
            next_offer(500.0 / 12 * 5 / 0.8 * 1.12));
}

TEST(BatteryAutonomy, OfAHeavyLoadIsLargerByPeukertsLaw) {
  // 30 A for the two hours after dark from a bank rated over 20 h, k = 1.2. With the law in the
  // form t = H (C / (I H))^k for the whole, half of the bank lasts half as long; solved for C.
  const double ah = 30 * 20 * std::pow(2 / 0.5 / 20, 1 / 1.2);
  EXPECT_EQ(
      capacity_found({.days = 1, .load = "draw: 360 W, after_dark: 2 h/day", .peukert = "1.2"}),
      next_offer(ah));
  EXPECT_GT(next_offer(ah), next_offer(30 * 2 / 0.5));
  // Slower than the rate of 20 h nothing is gained or lost.
  EXPECT_EQ(capacity_found({.days = 1, .load = "draw: 12 W", .peukert = "1.2"}),
            next_offer(1.0 * 24 / 0.5));
}

}  // namespace
}  // namespace drystage
