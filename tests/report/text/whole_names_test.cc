// Places of which one's name is a part of another's: both are named.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/rules.h"
#include "report/text/page.h"
#include "support/card_answer.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using support::PlanText;

/// Unconfirmed water at "Oru East" and then at "Oru", without which it runs out.
PlanText by_two_wells() {
  PlanText plan;
  plan.margins = {"drinking_water: 1 day"};
  plan.containers = {"{name: can, holds: 120 L, filled: 12 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air"),
                 PlanText::place("Oru East", "air", "drinking_water: {confirmed: no}"),
                 PlanText::place("Oru", "air", "drinking_water: {confirmed: no}")};
  plan.itinerary = {"{at: Base}",
                    "stay: {nights: 1}",
                    "drive: {to: Oru East, distance: 40 km, surfaces: sealed}",
                    "resupply: {drinking_water: 4 L}",
                    "stay: {nights: 1}",
                    "drive: {to: Oru, distance: 40 km, surfaces: sealed}",
                    "resupply: {drinking_water: 40 L}",
                    "stay: {nights: 6}"};
  return plan;
}

TEST(WholeNames, AreAllListedOfWhatIsNotConfirmed) {
  EXPECT_EQ(report::unconfirmed_words(support::travel(by_two_wells())),
            "drinking water at Oru East, drinking water at Oru");
}

TEST(WholeNames, AreAllListedOfWhatMustBeConfirmedBeforeSettingOut) {
  const auto answer = support::card_answer(by_two_wells());
  const auto rules = report::leave_rules(answer, units::System::metric);
  ASSERT_FALSE(rules.empty());
  EXPECT_EQ(rules[0].headline,
            "DO NOT SET OUT UNLESS drinking water at Oru East and drinking water at Oru IS "
            "CONFIRMED.");
}

}  // namespace
}  // namespace drystage
