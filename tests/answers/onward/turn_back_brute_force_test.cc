// Turning back, against a plan that does it: for the hours of every shipped scenario, the way back
// is written down as a trip of its own, which is run from the start.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>

#include "answers/onward/least_level.h"
#include "answers/onward/retreat.h"
#include "answers/onward/turn_back.h"
#include "cli/workspace.h"
#include "plan/read.h"
#include "support/diary.h"
#include "support/plan_text.h"
#include "support/settled.h"
#include "support/tight.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using engine::Engine;
using engine::Timeline;
using engine::TimeStep;
using support::Diary;
using support::Tight;
using support::travel;
using support::Trip;

constexpr double day_h = 24;
constexpr double tiny = 1e-6;
constexpr int longest_wait_days = 14;
constexpr double never = -std::numeric_limits<double>::infinity();
// Of the hours of a trip every fifth is tried, besides those where the answer changes.
constexpr std::size_t every = 5;

double trip_h(const TimeStep& step) { return day_h * step.day + step.from_h; }
double trip_h(const Moment& moment) { return day_h * moment.day + moment.hour; }

/// How near two ways of reckoning the same slack must come. A trip of its own may camp a little
/// earlier, since nobody drives on for less than a quarter of an hour and it has more legs. What
/// people have used otherwise until the moment is load, which takes fuel. And a margin of km counts
/// the mean use of a leg, which is another one where only a part of it is a leg of its own.
double tolerance(const engine::ReserveInfo& reserve) {
  if (reserve.endurance != engine::Endurance::km) return 0.02;
  return 0.15 + 0.1 * reserve.margin.km;
}

plan::Plan scenario(const std::string& name) {
  return support::settled(*plan::read_file(testing::scenario_path(name)).plan);
}

/// The plan when nothing that nobody has confirmed is there.
plan::Plan on_what_is_certain(plan::Plan plan) {
  for (plan::Place& place : plan.places) {
    for (plan::Supply& supply : place.supplies) {
      if (!supply.confirmed) supply.open_weekdays.reset();
    }
  }
  return plan;
}

/// What a plan needs of a reserve until an hour, as far as that depends on what a day is like.
double needed(const Timeline& timeline, double until_h, const engine::ReserveInfo& reserve) {
  double sum = 0;
  for (const TimeStep& step : timeline.steps) {
    const double share = std::min(1.0, (until_h - trip_h(step)) / std::max(step.dt_h, tiny));
    if (share <= 0) break;
    if (reserve.commodity == plan::Commodity::drinking_water) {
      sum += timeline.conditions.steps[step.index].drink_l * share;
    }
    if (reserve.commodity == plan::Commodity::food) sum += step.meals * share;
  }
  return sum;
}

/// Utility water that was drunk in place of drinking water, and drinking water that was lacking.
double wanted_l(const engine::Record& record, std::size_t drinking) {
  double sum = 0;
  for (std::size_t d = 0; d < record.days(); ++d) {
    const engine::ReserveDay& day = record.reserve(d, drinking);
    sum += day.stood_in + day.short_of;
  }
  return sum;
}

/// A shipped scenario and what is answered of it.
class Case {
 public:
  explicit Case(const plan::Plan& plan)
      : trip_(travel(on_what_is_certain(plan))),
        timeline_(*trip_.course.timeline),
        answer_(turn_back_points(travel(plan))),
        laid_(laid_trip_of(trip_)),
        record_(engine::blank_record(trip_.course)),
        standings_(stand_before_each_step(*laid_.course, record_)) {}

  const Trip& trip() const { return trip_; }
  const Timeline& timeline() const { return timeline_; }
  const TurnBack& answer() const { return answer_; }
  const engine::ReserveInfo& info(int reserve) const {
    return trip_.course.reserves[static_cast<std::size_t>(reserve)];
  }

  /// Makes good what has been drunk more, or less, until the moment, by the water that it took:
  /// utility water where drinking water had run out.
  template <class More>
  void give_back(const More& more_until_then, const engine::Course& course,
                 Engine::Standing& standing, const engine::Record& record) const {
    const int drinking = support::reserve_index(course, "drinking_water");
    const double more_l = more_until_then(info(drinking));
    const double replaced_l = wanted_l(record, static_cast<std::size_t>(drinking));
    const double left_l = standing.run.reserve_level(drinking);
    const double of_utility_l =
        std::clamp(more_l, std::min(0.0, left_l + std::min(more_l, 0.0)), replaced_l);
    Engine::set_level(course, standing, drinking, left_l + more_l - of_utility_l);
    if (std::abs(of_utility_l) < tiny) return;
    const int utility = support::reserve_index(course, "utility_water");
    const double utility_l = standing.run.reserve_level(utility);
    Engine::set_level(course, standing, utility, utility_l + of_utility_l);
  }

  /// Least slack on the way back, of a trip of its own. Its last day is one of driving from the
  /// morning on, where that of the trip may have begun as one of rest: what people have needed
  /// otherwise until the moment is made good.
  Tight own_slack(const Turn& turn, int reserve) const {
    const bool drinks = info(reserve).commodity == plan::Commodity::drinking_water ||
                        info(reserve).commodity == plan::Commodity::utility_water;
    const Diary diary(trip_.plan, timeline_, turn.step, turn.hour,
                      drinks ? Diary::Height::higher_end : Diary::Height::between);
    for (const int nights : {0, longest_wait_days}) {
      const plan::Plan plan = diary.back_to(turn.to_leg, nights);
      // What a meal is follows from all the days of a trip; it stays what it was.
      auto own = std::make_shared<const Timeline>(
          engine::lay_timeline(plan, engine::Layout{.detours = {}, .same = &timeline_}));
      if (!own->problems.empty()) throw std::runtime_error(own->problems.front().what);
      const PlanRun planned = run_plan(plan, own);
      const std::size_t from = diary.first_step(*own);
      const std::size_t until =
          support::supplied_at(plan, *own, from, info(reserve), diary.first_home_item());
      if (until == own->steps.size()) continue;
      engine::Record record = engine::blank_record(planned.course);
      Engine::Standing standing = Engine::begin(planned.course, record);
      Engine::go_on(planned.course, standing, from);
      const auto more_until_then = [&](const engine::ReserveInfo& of) {
        return needed(*own, diary.at_h(), of) - needed(timeline_, diary.at_h(), of);
      };
      if (drinks) give_back(more_until_then, planned.course, standing, record);
      Tight out = support::go_on_watching(planned.course, standing, record, until, reserve);
      if (!drinks) out.slack += more_until_then(info(reserve));
      return out;
    }
    return {};
  }

  /// The same as the answer reckons it, from the beginning of a step.
  double answered_slack(const Turn& turn, int reserve) const {
    engine::Record scratch;
    const LaidTrip back = retreat(laid_, turn, {reserve});
    const auto refuge = next_refuge(back, turn.step, reserve);
    if (!refuge) return never;
    return slack_over({.course = *back.course,
                       .start = standings_[turn.step],
                       .from = turn.step,
                       .until = refuge->step,
                       .reserve = reserve},
                      std::nullopt, scratch);
  }

  /// Steps of a stretch, and the leg that leads away from its supply.
  struct Steps {
    std::size_t first = 0;
    std::size_t end = 0;
    int leg = 0;
  };
  Steps steps(const SupplyStretch& stretch) const {
    const auto at = [&](double h) {
      const auto found = std::ranges::find_if(
          timeline_.steps, [h](const TimeStep& step) { return trip_h(step) > h - tiny; });
      return static_cast<std::size_t>(found - timeline_.steps.begin());
    };
    Steps out{.first = at(trip_h(stretch.leaves)), .end = at(trip_h(stretch.arrives)), .leg = 0};
    while (timeline_.steps[out.first].drive < 0) ++out.first;
    out.leg = timeline_.steps[out.first].leg;
    return out;
  }

 private:
  Trip trip_;
  const Timeline& timeline_;
  TurnBack answer_;
  LaidTrip laid_;
  engine::Record record_;
  std::vector<Engine::Standing> standings_;
};

/// Whether an answer says that turning back is possible.
bool possible(const SupplyStretch& stretch, double at_h) {
  return std::ranges::any_of(stretch.windows, [at_h](const Window& window) {
    return at_h > trip_h(window.from) - tiny && at_h < trip_h(window.last) + tiny;
  });
}

/// Compares a stretch with trips that turn back in it.
void expect_agreement(const Case& one, const SupplyStretch& stretch) {
  const engine::ReserveInfo& info = one.info(stretch.reserve);
  const Case::Steps steps = one.steps(stretch);
  // Where the supply is left there is no way back yet.
  for (std::size_t k = steps.first + 1; k < steps.end; ++k) {
    const TimeStep& step = one.timeline().steps[k];
    const bool says = possible(stretch, trip_h(step));
    const auto turns = [&](std::size_t s) {
      return possible(stretch, trip_h(one.timeline().steps[s])) != says;
    };
    const bool sampled = k % every == 0 || k == steps.first + 1 || k + 1 == steps.end;
    if (!sampled && !turns(k - 1) && !turns(k + 1)) continue;
    const Turn turn{.step = k, .hour = step.from_h, .to_leg = steps.leg};
    const Tight way = one.own_slack(turn, stretch.reserve);
    const double own = way.slack;
    const double answered = one.answered_slack(turn, stretch.reserve);
    const double near = tolerance(info);
    SCOPED_TRACE(info.name + ", hour " + std::to_string(trip_h(step)));
    // How short it gets depends on what else is at hand when there is nothing left.
    const bool alike = own == answered || std::abs(own - answered) <= near;
    EXPECT_TRUE(alike || way.dry) << own << " " << answered;
    EXPECT_TRUE(says ? own >= -near : own <= near) << own;
  }
}

/// Compares the last moment of a stretch with trips that turn back a minute before and after.
void expect_last_minute(const Case& one, const SupplyStretch& stretch) {
  const engine::ReserveInfo& info = one.info(stretch.reserve);
  const Case::Steps steps = one.steps(stretch);
  const double last_h = trip_h(*stretch.last);
  for (const bool later : {false, true}) {
    const double at_h = last_h + (later ? 1 : -1) / 60.0;
    std::size_t k = steps.first;
    while (k + 1 < steps.end && trip_h(one.timeline().steps[k + 1]) <= at_h) ++k;
    const TimeStep& step = one.timeline().steps[k];
    if (k == steps.first || at_h > trip_h(step) + step.dt_h) continue;
    const Turn turn{.step = k, .hour = at_h - day_h * step.day, .to_leg = steps.leg};
    const Tight way = one.own_slack(turn, stretch.reserve);
    const double own = way.slack;
    SCOPED_TRACE(info.name + (later ? ", a minute later" : ", a minute before"));
    if (later) {
      EXPECT_LE(own, tolerance(info));
    } else {
      EXPECT_GE(own, -tolerance(info));
    }
  }
}

/// Walks through the trip from supply to supply.
void expect_stretches(const Case& one) {
  const plan::Plan& plan = one.trip().plan;
  std::size_t next = 0;
  for (std::size_t r = 0; r < one.trip().course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = one.info(static_cast<int>(r));
    if (!info.commodity || info.sense != engine::Sense::keep_above) continue;
    const std::size_t end = one.timeline().steps.size();
    // All set out from a place that has everything.
    int from = one.timeline().days.front().schedule.from.from;
    std::size_t met = 0;
    while (met < end) {
      std::size_t leaves = met;
      while (leaves < end && one.timeline().steps[leaves].drive < 0) ++leaves;
      if (leaves == end) break;
      met = support::supplied_at(plan, one.timeline(), leaves + 1, info);
      ASSERT_LT(next, one.answer().stretches.size());
      const SupplyStretch& stretch = one.answer().stretches[next++];
      EXPECT_EQ(stretch.reserve, static_cast<int>(r));
      EXPECT_EQ(stretch.from_place, from);
      EXPECT_NEAR(trip_h(stretch.leaves), trip_h(one.timeline().steps[leaves]), tiny);
      if (met == end) {
        EXPECT_EQ(stretch.to_place, -1);
        break;
      }
      EXPECT_NEAR(trip_h(stretch.arrives), trip_h(one.timeline().steps[met]), tiny);
      from = stretch.to_place;
      EXPECT_TRUE(support::supplies(plan, info, from, support::date_of(one.timeline(), met)));
    }
  }
  EXPECT_EQ(next, one.answer().stretches.size());
}

class TurnBackBruteForce : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, TurnBackBruteForce, ::testing::ValuesIn(testing::scenarios()),
                         testing::AsTestName{});

TEST_P(TurnBackBruteForce, AgreesWithATripThatTurnsBack) {
  const Case one(scenario(GetParam()));
  ASSERT_FALSE(one.answer().stretches.empty());
  expect_stretches(one);
  for (const SupplyStretch& stretch : one.answer().stretches) {
    expect_agreement(one, stretch);
    if (stretch.last) expect_last_minute(one, stretch);
  }
}

TEST_P(TurnBackBruteForce, AgreesOnFuelWhereItsMarginIsLitres) {
  plan::Plan plan = scenario(GetParam());
  std::erase_if(plan.margins, [](const auto& margin) { return margin.first.starts_with("fuel"); });
  plan.margins["fuel"] = {.kind = plan::MarginKind::amount, .value = 20};
  const Case one(plan);
  for (const SupplyStretch& stretch : one.answer().stretches) {
    if (one.info(stretch.reserve).endurance == engine::Endurance::km)
      expect_agreement(one, stretch);
  }
}

// Far is come to by Mid, 200 km from Near, and later by a road of 60 km. That one leads home.
TEST(TurnBackBruteForceSmall, GoesHomeByTheShortestOfTheRoadsThatWereDriven) {
  support::PlanText text;
  text.margins = {"fuel: 1 L"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 70 L, "
      "filled: 65 L}], observed: [{surface: gravel, uses: 10 L/100km}]}"};
  text.places = {support::PlanText::place("Base", "air", "diesel: {}"),
                 support::PlanText::place("Near", "air"), support::PlanText::place("Mid", "air"),
                 support::PlanText::place("Far", "air")};
  text.itinerary = {"{at: Base}",
                    "drive: {to: Near, distance: 50 km, surfaces: gravel}",
                    "drive: {to: Mid, distance: 100 km, surfaces: gravel}",
                    "drive: {to: Far, distance: 100 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Mid, distance: 100 km, surfaces: gravel}",
                    "drive: {to: Near, distance: 100 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Far, distance: 60 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Mid, distance: 100 km, surfaces: gravel}",
                    "stay: {nights: 1}"};
  const Case one(text.plan());
  ASSERT_EQ(one.answer().stretches.size(), 1U);
  const SupplyStretch& stretch = one.answer().stretches[0];
  expect_agreement(one, stretch);
  // 51 L to Far and 11 L back leave 3 L; by Mid 25 L would be needed.
  const auto& steps = one.timeline().steps;
  const auto at_far =
      static_cast<std::size_t>(std::ranges::find(steps, 3, &TimeStep::day) - steps.begin());
  EXPECT_NEAR(one.answered_slack({.step = at_far, .hour = 0, .to_leg = 0}, stretch.reserve), 3 - 1,
              1e-6);
  // On the way to Mid, 61 L are gone there. From x km behind Far x / 10 + 11 L are needed.
  ASSERT_TRUE(stretch.last);
  EXPECT_EQ(stretch.last->day, 3);
  EXPECT_NEAR(stretch.last->done_km, 10, 1);
}

}  // namespace
}  // namespace drystage::answers
