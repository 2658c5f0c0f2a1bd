// What holds of the set that is found for any plan, with what is usually on offer.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "answers/offers/decision.h"
#include "answers/size/size.h"
#include "plan/rewrite.h"
#include "support/random_plan.h"
#include "support/sizing.h"
#include "support/trip.h"

namespace drystage::answers::property_test {
namespace {

using support::random_plan;
using support::rapidcheck_pick;
using support::travel;
using support::Trip;

constexpr double tiny = 1e-6;

/// A short plan, often one for which there is enough to be had.
support::PlanText short_plan() {
  const auto pick = rapidcheck_pick();
  support::PlanText text = random_plan(pick);
  if (text.itinerary.size() > 3) text.itinerary.resize(3);
  if (pick(0, 2) > 0) text.cold.clear();
  if (text.cold.empty()) {
    std::erase_if(text.food, [](const std::string& food) {
      return food.find("kept: dry") == std::string::npos;
    });
    // What was in a cabinet is in the air.
    for (std::string& consumable : text.consumables) {
      constexpr std::string_view in_box = ", cabinet: box 0";
      for (std::size_t at = 0;
           (at = consumable.find(in_box.substr(0, 15), at)) != std::string::npos;) {
        consumable.erase(at, in_box.size());
      }
    }
    for (std::string& item : text.itinerary) {
      if (item.find("ice:") != std::string::npos) item = "stay: {nights: 1}";
    }
  }
  if (pick(0, 1) > 0) text.loads.clear();
  return text;
}

void check_lines(const SizedPlan& sized) {
  Totals sum;
  for (const SizedLine& line : sized.lines) {
    RC_ASSERT(line.amount >= 0);
    if (line.amount <= 0) RC_ASSERT(std::abs(line.kg) < tiny);
    sum.kg += line.kg;
    sum.cost += line.cost;
    sum.space_l += line.space_l;
  }
  RC_ASSERT(std::abs(sum.kg - sized.totals.kg) < tiny);
  RC_ASSERT(std::abs(sum.cost - sized.totals.cost) < tiny);
  RC_ASSERT(std::abs(sum.space_l - sized.totals.space_l) < tiny);
}

void check_holds(const plan::Plan& plan, const SizedPlan& sized) {
  const Trip again = travel(plan);
  RC_ASSERT(again.verdict.holds);
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    RC_ASSERT(again.record.heaviest[v].kg <=
              plan.vehicles[v].limit_kg.value_or(engine::without_limit) + tiny);
    RC_ASSERT(std::abs(again.record.heaviest[v].kg - sized.planned.record.heaviest[v].kg) < tiny);
  }
}

bool fails(const PlanRun& planned, const SizeOptions& options) {
  if (!planned.verdict.holds) return true;
  const auto confirmed = without_unconfirmed(planned);
  if (options.confirmed_only && confirmed && !confirmed->holds) return true;
  for (std::size_t v = 0; v < planned.plan.vehicles.size(); ++v) {
    if (planned.record.heaviest[v].kg > planned.plan.vehicles[v].limit_kg.value_or(1e12))
      return true;
  }
  return false;
}

RC_GTEST_PROP(SizeProperty, WhatIsFoundHoldsAndWhatIsNotFails, ()) {
  // So many things are on offer that it takes its time.
  if (rapidcheck_pick()(0, 11) > 0) return;
  const support::PlanText text = short_plan();
  const std::string source = text.text();
  RC_LOG() << source;
  const Trip planned = travel(support::read_plan(source));
  // Two banks, each with every battery and every panel, are more than a test has time for.
  if (planned.plan.power.banks.size() > 1) return;
  const SizeOptions options{.least = Least::mass, .confirmed_only = rapidcheck_pick()(0, 2) == 0};
  const Sizing sizing = size_plan(planned, options);
  RC_CLASSIFY(static_cast<bool>(sizing.found), "found");
  RC_ASSERT(sizing.found.has_value() != sizing.miss.has_value());
  const Sizing again = size_plan(planned, options);
  if (sizing.miss) {
    RC_ASSERT(!sizing.miss->failing.empty());
    RC_ASSERT(fails(travel(sizing.miss->set.plan), options));
    RC_ASSERT(again.miss &&
              support::told(again.miss->set.lines) == support::told(sizing.miss->set.lines));
    return;
  }
  const SizedPlan& found = *sizing.found;
  RC_LOG() << support::told(found.lines);
  RC_ASSERT(again.found && support::told(again.found->lines) == support::told(found.lines));
  check_lines(found);
  check_holds(found.plan, found);
  for (const SizedLine& line : found.lines) RC_ASSERT(!line.fewer || line.one_fewer);
  // The same through the text of the plan.
  const std::string written = plan::rewrite(source, planned.plan, found.plan);
  check_holds(support::read_plan(written), found);
}

}  // namespace
}  // namespace drystage::answers::property_test
