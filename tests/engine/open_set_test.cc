// Reserves are an open set: cooking gas, defined in this file alone, is judged and reported like
// those that were there before.
#include <gtest/gtest.h>

#include "answers/base/verdict.h"
#include "engine/engine.h"
#include "report/run/report.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::CourseBase;
using engine::Run;
using engine::TimeStep;

/// A bottle of 2 kg of which every meal takes 0.05 kg.
struct CookingGas {
  static constexpr double kg_per_meal = 0.05;

  struct Compiled {
    int store = 0;
    int reserve = 0;
  };
  struct State {};

  static Compiled compile(const plan::Plan& plan, CourseBase& course) {
    Compiled made;
    made.store = engine::add_store(course, {.name = "gas bottle",
                                            .kind = units::Kind::mass,
                                            .capacity = 2,
                                            .initial = 2,
                                            .kg_per_unit = 1});
    made.reserve = engine::add_reserve(course, plan,
                                       {.name = "cooking_gas",
                                        .title = "Gas",
                                        .kind = units::Kind::mass,
                                        .capacity = 2,
                                        .decimals = 1},
                                       {.kind = plan::MarginKind::days, .value = 2});
    return made;
  }

  static State begin(const Compiled& compiled, Run& run) {
    run.reserve_level(compiled.reserve) = run.level(compiled.store);
    return {};
  }

  static void supply(const Compiled& /*compiled*/, State& /*state*/, Run& /*run*/, int /*order*/) {}

  static void advance(const Compiled& compiled, State& /*state*/, Run& run, const TimeStep& step) {
    const double wanted = step.meals * kg_per_meal;
    const double got = std::min(wanted, run.level(compiled.store));
    run.use(compiled.store, compiled.reserve, got);
    run.fall_short(compiled.reserve, wanted - got, step.from_h);
    run.use_per_day(compiled.reserve) =
        run.course().timeline->place_days[static_cast<std::size_t>(step.place_day)].meals *
        kg_per_meal;
    run.reserve_level(compiled.reserve) = run.level(compiled.store);
  }

  static std::vector<engine::Remedy> remedies(const Compiled& /*compiled*/,
                                              const plan::Plan& /*plan*/, int /*reserve*/,
                                              double /*lacking*/) {
    return {};
  }
};

using WithGas = engine::EngineOf<engine::reserves::Water, engine::reserves::Fuel,
                                 engine::reserves::Power, engine::reserves::Food, CookingGas>;

/// One person, three meals a day: 0.15 kg a day. 2 kg less 0.3 kg of margin last 11 1/3 days.
report::RunAnswer twelve_days() {
  support::PlanText text;
  text.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 12}"};
  report::RunAnswer answer;
  answers::PlanRun& planned = answer.planned;
  planned.plan = text.plan();
  const auto timeline =
      std::make_shared<const engine::Timeline>(engine::lay_timeline(planned.plan));
  const WithGas::Course course = WithGas::compile(planned.plan, timeline);
  planned.record = WithGas::run(course);
  planned.verdict = answers::verdict(course, planned.record);
  static_cast<CourseBase&>(planned.course) = course;
  return answer;
}

TEST(OpenSet, ANewReserveDecidesTheVerdict) {
  const report::RunAnswer answer = twelve_days();
  ASSERT_TRUE(answer.planned.verdict.first_breach);
  const auto reserve = static_cast<std::size_t>(answer.planned.verdict.first_breach->reserve);
  EXPECT_EQ(answer.planned.course.reserves[reserve].name, "cooking_gas");
  EXPECT_EQ(answer.planned.verdict.first_breach->day, 11);
  // 1.7 kg at 0.15 kg a day last 272 hours: 11 days and eight hours.
  EXPECT_NEAR(answer.planned.verdict.first_breach->hour, 8, 1e-9);
}

TEST(OpenSet, ANewReserveIsInTheDayTable) {
  const std::string text = report::run_text(twelve_days(), {});
  EXPECT_NE(text.find("Gas"), std::string::npos) << text;
  EXPECT_NE(text.find("cooking"), std::string::npos) << text;
}

TEST(OpenSet, ANewReserveIsInTheJson) {
  const std::string json = report::run_json(twelve_days());
  EXPECT_NE(json.find("\"reserve\": \"cooking_gas\""), std::string::npos);
  EXPECT_NE(json.find("\"cooking_gas\": {"), std::string::npos);
}

TEST(OpenSet, ANewReserveIsInTheCsv) {
  EXPECT_NE(report::run_csv(twelve_days()).find("12,2027-03-12,cooking_gas,kg,"),
            std::string::npos);
}

}  // namespace
}  // namespace drystage
