// What a plan may hold at the most.
#include "plan/limits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/read.h"
#include "plan_text.h"
#include "support/plan_text.h"

namespace drystage::plan {
namespace limits_test {
namespace {

using ::testing::HasSubstr;

/// A plan with so many things to carry: a tank of the vehicle, food, and containers.
ReadPlan with_things(std::size_t count) {
  support::PlanText text;
  text.containers.clear();
  for (std::size_t i = 2; i < count; ++i) {
    text.containers.push_back("{name: can " + std::to_string(i) + ", holds: 1 L, filled: 1 L}");
  }
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  return read_text(text.text());
}

TEST(Limits, SoManyThingsMayBeCarriedAndNoMore) {
  const ReadPlan most = with_things(most_to_carry);
  EXPECT_TRUE(most.plan) << all_of(most);
  const ReadPlan more = with_things(most_to_carry + 1);
  EXPECT_FALSE(more.plan);
  ASSERT_EQ(more.diagnostics.size(), 1U);
  EXPECT_THAT(more.diagnostics.front().what, HasSubstr("more than 300 things to carry: 301"));
  EXPECT_GT(more.diagnostics.front().mark.line, 1);
}

}  // namespace
}  // namespace limits_test
}  // namespace drystage::plan
