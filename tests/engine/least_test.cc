// A record that keeps the least of each reserve says of a run what the ledgers of its days say.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <string>

#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace least_test {
namespace {

using engine::Engine;
using engine::Factors;
using engine::Keep;
using engine::Least;
using engine::Record;
using engine::ReserveDay;
using support::Trip;

/// The moment at which a reserve is said to be tightest, short, ...: none where that is never.
struct Moment {
  int day = -1;
  double hour = -1;
  bool operator==(const Moment&) const = default;
};

/// The first day of a reserve of which something is so.
template <class Is>
Moment first(const Record& ledgers, std::size_t reserve, double ReserveDay::*hour, const Is& is) {
  for (std::size_t d = 0; d < ledgers.days(); ++d) {
    const ReserveDay& row = ledgers.reserve(d, reserve);
    if (is(row)) return {.day = static_cast<int>(d), .hour = row.*hour};
  }
  return {};
}

/// What the least of a reserve says that its ledgers do not; nothing where they agree.
std::string difference(const Least& least, const Record& ledgers, std::size_t reserve) {
  double slack = engine::without_limit;
  double short_of = 0;
  for (std::size_t d = 0; d < ledgers.days(); ++d) {
    slack = std::min(slack, ledgers.reserve(d, reserve).slack);
    short_of += ledgers.reserve(d, reserve).short_of;
  }
  if (least.slack != slack) return "slack";
  if (least.short_of != short_of) return "what was short";
  const Moment tightest = first(ledgers, reserve, &ReserveDay::tight_h,
                                [&](const ReserveDay& row) { return row.slack == slack; });
  if (Moment{.day = least.day, .hour = least.hour} != tightest) return "tightest moment";
  const ReserveDay& then = ledgers.reserve(static_cast<std::size_t>(least.day), reserve);
  if (least.left != then.left) return "level at that moment";
  const Moment breach = first(ledgers, reserve, &ReserveDay::breach_h,
                              [](const ReserveDay& row) { return row.breach_h >= 0; });
  if (Moment{.day = least.breach_day, .hour = least.breach_h} != breach) return "first breach";
  const Moment dry = first(ledgers, reserve, &ReserveDay::short_h,
                           [](const ReserveDay& row) { return row.short_of > 0; });
  return Moment{.day = least.short_day, .hour = least.short_h} == dry ? "" : "first shortage";
}

/// The same of all reserves of a trip, and of its verdict, and of what is kept besides.
std::string difference(const Trip& trip) {
  Record least = engine::blank_record(trip.course, Keep::least);
  Engine::run(trip.course, least);
  if (least.days() != 0 || !least.events.empty()) return "days or events are kept";
  for (std::size_t r = 0; r < least.reserves; ++r) {
    const std::string of = " of " + trip.course.reserves[r].name;
    const std::string what = difference(least.least[r], trip.record, r);
    if (!what.empty()) return what + of;
    const answers::ReserveOutlook& outlook = trip.verdict.reserves[r];
    if (least.least[r].breach_day != outlook.first_breach_day.value_or(-1)) return "verdict" + of;
    if (least.least[r].lowest != outlook.lowest) return "lowest" + of;
  }
  if (least.order_taken != trip.record.order_taken) return "orders";
  if (least.order_slack != trip.record.order_slack) return "slack of orders";
  for (std::size_t v = 0; v < least.heaviest.size(); ++v) {
    if (least.heaviest[v].kg != trip.record.heaviest[v].kg) return "mass";
    if (least.heaviest[v].over_day != trip.record.heaviest[v].over_day) return "overload";
  }
  return "";
}

TEST(Least, IsThatOfTheLedgersInEveryScenario) {
  for (const plan::Plan& plan : support::all_scenarios()) {
    EXPECT_EQ(difference(support::travel(plan)), "") << plan.trip.title;
  }
}

RC_GTEST_PROP(Least, IsThatOfTheLedgers, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_LOG() << text.text();
  const std::string what = difference(support::travel(text));
  RC_LOG() << what << "\n";
  RC_ASSERT(what.empty());
}

RC_GTEST_PROP(Least, OfManyRunsIntoOneRecordIsThatOfEach, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const Trip trip = support::travel(support::random_plan(pick));
  Record many = engine::blank_record(trip.course, Keep::least);
  for (int i = 0; i < 3; ++i) {
    const Factors factors{.drinking = 0.1 * pick(5, 20),
                          .meals = 0.1 * pick(5, 20),
                          .loads = 0.1 * pick(5, 20),
                          .panels = 0.1 * pick(5, 20)};
    engine::wipe(many);
    Engine::run(trip.course, many, factors);
    Record ledgers = engine::blank_record(trip.course);
    Engine::run(trip.course, ledgers, factors);
    for (std::size_t r = 0; r < ledgers.reserves; ++r) {
      RC_ASSERT(difference(many.least[r], ledgers, r).empty());
    }
  }
}

}  // namespace
}  // namespace least_test
}  // namespace drystage
