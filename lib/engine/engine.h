#pragma once

#include <algorithm>
#include <concepts>
#include <iterator>
#include <memory>
#include <tuple>
#include <utility>

#include "engine/course.h"
#include "engine/record.h"
#include "engine/remedy.h"
#include "engine/reserves/food.h"
#include "engine/reserves/fuel.h"
#include "engine/reserves/power.h"
#include "engine/reserves/water.h"
#include "engine/run.h"
#include "engine/timeline.h"

namespace drystage::engine {

/// What a family of reserves brings: how it gets ready, how it starts, what it does with an order
/// at a stop, how it steps, and what would help when one of its reserves lacks an amount. `compile`
/// adds its stores and reserves to the course; everything that answers and reports need is read
/// from there.
template <class T>
concept ReserveFamily = requires(const plan::Plan& plan, CourseBase& course, Run& run,
                                 const typename T::Compiled& compiled, typename T::State& state,
                                 const TimeStep& step) {
  { T::compile(plan, course) } -> std::same_as<typename T::Compiled>;
  { T::begin(compiled, run) } -> std::same_as<typename T::State>;
  T::supply(compiled, state, run, 0);
  T::advance(compiled, state, run, step);
  { T::remedies(compiled, plan, 0, 0.0) } -> std::same_as<std::vector<Remedy>>;
};

/// An engine over a list of reserve families, stepped in the order of the list: a family sees what
/// those before it have done in the same step. The list is known when this is compiled, so a step
/// dispatches nothing at run time and allocates nothing.
template <ReserveFamily... Family>
class EngineOf {
 public:
  struct Course : CourseBase {
    std::tuple<typename Family::Compiled...> families;
  };

  /// Makes a plan ready to run on a timeline laid for it (or for a plan that differs from it only
  /// in its stores). The plan must be valid and the timeline free of problems.
  static Course compile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline) {
    Course course;
    static_cast<CourseBase&>(course) = base_course(plan, std::move(timeline));
    course.families = std::tuple<typename Family::Compiled...>{Family::compile(plan, course)...};
    return course;
  }

  /// Runs the whole course into a record made by `blank_record`.
  static void run(const Course& course, Record& record) {
    Run run(course, record);
    std::tuple<typename Family::State...> states{
        Family::begin(std::get<typename Family::Compiled>(course.families), run)...};
    step_all(course, run, states);
  }

  static Record run(const Course& course) {
    Record record = blank_record(course);
    run(course, record);
    return record;
  }

  /// What could help a reserve that lacks about `lacking` (in its own unit) at its tightest.
  static std::vector<Remedy> remedies(const Course& course, const plan::Plan& plan, int reserve,
                                      double lacking) {
    std::vector<Remedy> all;
    const auto append = [&all](std::vector<Remedy> some) {
      std::move(some.begin(), some.end(), std::back_inserter(all));
    };
    (append(Family::remedies(std::get<typename Family::Compiled>(course.families), plan, reserve,
                             lacking)),
     ...);
    return all;
  }

  /// The stepping alone, from states that have begun. Allocates nothing.
  static void step_all(const Course& course, Run& run,
                       std::tuple<typename Family::State...>& states) {
    const Timeline& timeline = *course.timeline;
    if (timeline.steps.empty()) return;
    run.open_day(0);
    run.weigh();
    for (const TimeStep& step : timeline.steps) {
      if (step.day != run.day()) run.open_day(static_cast<std::size_t>(step.day));
      if (step.stop >= 0) call_at(course, run, states, step);
      if (step.dt_h > 0) {
        (Family::advance(std::get<typename Family::Compiled>(course.families),
                         std::get<typename Family::State>(states), run, step),
         ...);
        run.observe(step.from_h + step.dt_h);
      }
      if (step.last_of_day) run.close_day();
    }
  }

 private:
  static void call_at(const Course& course, Run& run, std::tuple<typename Family::State...>& states,
                      const TimeStep& step) {
    const bool setting_out = step.day == 0 && step.from_h <= 0;
    if (!setting_out) run.observe(step.from_h);
    const int first = course.first_order[static_cast<std::size_t>(step.stop)];
    const int count = static_cast<int>(course.orders.size());
    for (int o = first; o >= 0 && o < count; ++o) {
      if (course.orders[static_cast<std::size_t>(o)].item != step.stop) break;
      (Family::supply(std::get<typename Family::Compiled>(course.families),
                      std::get<typename Family::State>(states), run, o),
       ...);
    }
    if (setting_out) run.set_out();
    run.weigh();
  }
};

/// The engine that serves every answer. A new family of reserves is added to this list.
using Engine = EngineOf<reserves::Water, reserves::Fuel, reserves::Power, reserves::Food>;
using Course = Engine::Course;

/// Reads, lays out and compiles in one go, with every "what is needed to the next one" resolved.
/// The timeline must be free of problems (see `lay_timeline`).
Course compile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline);

}  // namespace drystage::engine
