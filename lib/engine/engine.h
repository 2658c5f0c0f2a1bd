#pragma once

#include <algorithm>
#include <array>
#include <concepts>
#include <iterator>
#include <memory>
#include <tuple>
#include <utility>

#include "engine/course.h"
#include "engine/factors.h"
#include "engine/readings.h"
#include "engine/record.h"
#include "engine/remedy.h"
#include "engine/reserves/consumables.h"
#include "engine/reserves/food.h"
#include "engine/reserves/fuel.h"
#include "engine/reserves/power.h"
#include "engine/reserves/tyres.h"
#include "engine/reserves/water.h"
#include "engine/run.h"
#include "engine/scales.h"
#include "engine/timeline.h"
#include "units/index.h"

namespace drystage::engine {

/// What a family of reserves brings: how it gets ready, how it starts, what it does with an order
/// at a stop, how it steps, and what would help when one of its reserves lacks an amount. `compile`
/// adds its stores and reserves to the course; everything that answers and reports need is read
/// from there. A family may also have
///   compile(plan, course, like)                      takes over what is the same in another course
///   heed(compiled, plan, course)                     what of course.damage is its own; called
///                                                    after `compile`, and when there is more
///   refill(compiled, plan, course, steps)            what goes by the weather of steps, anew
///   lose_excess(compiled, state, run)                what no longer fits, after a loss, is lost
///   meet(compiled, state, run)                       its stores `Run::meet` another company
///   set_level(compiled, state, run, reserve, level)  its stores, found at a level
///   set_store(compiled, state, run, store, level)    one of them, found at a level
/// A state may hold nothing that depends on the numbering of steps.
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
  /// in its stores). The plan must be valid and the timeline free of problems. A course that is
  /// only gone on with need not be made ready before its `first_step`. What is the same as in the
  /// course `like` is shared with it.
  static Course compile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                        CourseOptions options = {}, const Course* like = nullptr) {
    Course course;
    static_cast<CourseBase&>(course) = base_course(plan, std::move(timeline), std::move(options));
    course.families =
        std::tuple<typename Family::Compiled...>{compile_one<Family>(plan, course, like)...};
    (heed_one<Family>(course, plan), ...);
    course.presences = presences_of(plan, course);
    course.scales = scales_of(plan, course, false);
    course.readings = readings_of(plan, course);
    return course;
  }

  /// Breaks more of what a course has, where that need not be compiled. The plan is the one that it
  /// was made of.
  static void damage(Course& course, const plan::Plan& plan, const Damage& more) {
    course.damage.add(more);
    (heed_one<Family>(course, plan), ...);
  }

  using States = std::tuple<typename Family::State...>;

  /// A run that has been halted before a step, to be looked at, kept, or gone on with.
  struct Standing {
    Run run;
    States states;
    std::size_t next = 0;  ///< the step that comes next
  };

  /// A run about to take its first step, into a record made by `blank_record`. Course and record
  /// must outlive it. `factors`: what differs in this run from what the course was made of.
  static Standing begin(const Course& course, Record& record, const Factors& factors = {}) {
    Run run(course, record, factors);
    States states{Family::begin(std::get<typename Family::Compiled>(course.families), run)...};
    if (!course.timeline->steps.empty()) {
      run.open_day(0);
      // What is taken on or left where the trip begins is weighed once that is done.
      if (course.timeline->steps.front().stop < 0) run.weigh(0);
    }
    return {.run = std::move(run), .states = std::move(states), .next = 0};
  }

  /// Goes on up to, and not including, a step. Allocates nothing.
  static void go_on(const Course& course, Standing& standing, std::size_t until) {
    const std::vector<TimeStep>& steps = course.timeline->steps;
    const std::size_t end = std::min(until, steps.size());
    while (standing.next < end) {
      begin_step(course, standing);
      end_step(course, standing);
    }
  }

  /// By family: whether it takes part in a run.
  using Chosen = std::array<bool, sizeof...(Family)>;
  template <class... Some>
  static constexpr Chosen only() {
    return {is_one_of<Family, Some...>...};
  }
  template <class... Some>
  static constexpr Chosen all_but() {
    return {!is_one_of<Family, Some...>...};
  }

  /// Goes on with some of the families alone, at a part of the cost. If they depend on none of the
  /// others, they fare as in the whole. The rest stays as it is, and nothing is compared with a
  /// margin: what the record says of the chosen is what was wanted and not there.
  static void go_on_with(const Chosen& chosen, const Course& course, Standing& standing,
                         std::size_t until) {
    const std::vector<TimeStep>& steps = course.timeline->steps;
    const std::size_t end = std::min(until, steps.size());
    for (; standing.next < end; ++standing.next) {
      const TimeStep& step = steps[standing.next];
      if (step.day != standing.run.day()) standing.run.open_day(static_cast<std::size_t>(step.day));
      meet_company(course, standing, step);
      if (step.stop >= 0) carry_out_orders(course, standing.run, standing.states, step, chosen);
      if (step.dt_h > 0) advance(course, standing, step, chosen);
      if (step.last_of_day) standing.run.close_day();
    }
  }

  /// The step that comes next in two parts, to be looked at in between: its stop, if it has one,
  /// and then its time. One must follow the other. Neither allocates.
  static void begin_step(const Course& course, Standing& standing) {
    const TimeStep& step = course.timeline->steps[standing.next];
    Run& run = standing.run;
    if (step.day != run.day()) run.open_day(static_cast<std::size_t>(step.day));
    meet_company(course, standing, step);
    run.begin_step(step.from_h);
    if (run.is_read_before(standing.next)) take_reading(course, standing, step.from_h);
    if (step.stop >= 0) call_at(course, run, standing.states, step);
  }
  static void end_step(const Course& course, Standing& standing) {
    const TimeStep& step = course.timeline->steps[standing.next];
    Run& run = standing.run;
    if (step.dt_h > 0) {
      if (step.day == 0 && step.from_h <= 0) run.observe_outset();
      run.begin_step(step.from_h);
      (Family::advance(std::get<typename Family::Compiled>(course.families),
                       std::get<typename Family::State>(standing.states), run, step),
       ...);
      run.observe(step.from_h + step.dt_h);
      // As stores empty, the load of an axle may rise.
      if (course.gets_heavier || course.scales.size() > course.vehicle_kg.size()) {
        run.weigh(step.from_h + step.dt_h);
      }
    }
    if (step.last_of_day) run.close_day();
    ++standing.next;
  }

  /// Who joins or leaves before the step that comes next does so now. The day must be open.
  static void meet_next(const Course& course, Standing& standing) {
    if (standing.next >= course.timeline->steps.size()) return;
    meet_company(course, standing, course.timeline->steps[standing.next]);
  }

  /// The same moment on another course, which has the same stores and reserves, and is the same up
  /// to then: to go on there from its step `next`, with the same factors, into a blank record of
  /// that course. The day's ledger begins at that moment. It may stand on the course of an engine
  /// that has more families behind these: then what those have on board weighs what it weighs now.
  template <class AnyStanding>
  static Standing resume(const AnyStanding& standing, const Course& course, std::size_t next,
                         Record& record) {
    const TimeStep& step = course.timeline->steps[next];
    Standing out{.run = Run(standing.run, course, record, next),
                 .states = States{std::get<typename Family::State>(standing.states)...},
                 .next = next};
    out.run.open_day(static_cast<std::size_t>(step.day));
    return out;
  }

  /// After the conditions of some days of a course's timeline have been filled anew: what of the
  /// course goes by them. The plan is the one that it was made of.
  static void refill(Course& course, const plan::Plan& plan, int from_day, int until_day) {
    const IndexRange steps = steps_of_days(*course.timeline, from_day, until_day);
    (refill_one<Family>(course, plan, steps), ...);
  }

  /// After something has broken: what the course no longer has room for is lost.
  static void lose_excess(const Course& course, Standing& standing) {
    (lose_excess_of<Family>(course, standing), ...);
  }

  /// Sets a reserve to a level, as though its stores had been found so: those used first are the
  /// emptier ones. Beyond what they hold, the last is given more than it can.
  static void set_level(const Course& course, Standing& standing, int reserve, double level) {
    (set_level_of<Family>(course, standing, reserve, level), ...);
  }

  /// Runs the whole course into a record made by `blank_record`.
  static void run(const Course& course, Record& record, const Factors& factors = {}) {
    Standing standing = begin(course, record, factors);
    go_on(course, standing, course.timeline->steps.size());
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

 private:
  template <class One, class... Some>
  static constexpr bool is_one_of = (std::same_as<One, Some> || ...);

  static constexpr Chosen every_one = all_but<>();

  template <class One>
  static void refill_one(Course& course, const plan::Plan& plan, const IndexRange& steps) {
    auto& compiled = std::get<typename One::Compiled>(course.families);
    if constexpr (requires { One::refill(compiled, plan, course, steps); }) {
      One::refill(compiled, plan, course, steps);
    }
  }

  template <class One>
  static typename One::Compiled compile_one(const plan::Plan& plan, Course& course,
                                            const Course* like) {
    if constexpr (requires { One::compile(plan, course, nullptr); }) {
      return One::compile(
          plan, course,
          like == nullptr ? nullptr : &std::get<typename One::Compiled>(like->families));
    } else {
      return One::compile(plan, course);
    }
  }

  template <class One>
  static void heed_one(Course& course, const plan::Plan& plan) {
    auto& compiled = std::get<typename One::Compiled>(course.families);
    if constexpr (requires { One::heed(compiled, plan, course); }) {
      One::heed(compiled, plan, course);
    }
  }

  template <class One>
  static void lose_excess_of(const Course& course, Standing& standing) {
    const auto& compiled = std::get<typename One::Compiled>(course.families);
    auto& state = std::get<typename One::State>(standing.states);
    if constexpr (requires { One::lose_excess(compiled, state, standing.run); }) {
      One::lose_excess(compiled, state, standing.run);
    }
  }

  template <class One>
  static void meet_one(const Course& course, Standing& standing) {
    const auto& compiled = std::get<typename One::Compiled>(course.families);
    auto& state = std::get<typename One::State>(standing.states);
    if constexpr (requires { One::meet(compiled, state, standing.run); }) {
      One::meet(compiled, state, standing.run);
    }
  }

  /// Whoever joins brings what they have, and whoever leaves takes it.
  static void meet_company(const Course& course, Standing& standing, const TimeStep& step) {
    if (step.company == standing.run.company()) return;
    standing.run.set_company(step.company);
    (meet_one<Family>(course, standing), ...);
    standing.run.company_has_met(step.from_h);
  }

  template <class One>
  static void set_level_of(const Course& course, Standing& standing, int reserve, double level) {
    const auto& compiled = std::get<typename One::Compiled>(course.families);
    auto& state = std::get<typename One::State>(standing.states);
    if constexpr (requires { One::set_level(compiled, state, standing.run, reserve, level); }) {
      One::set_level(compiled, state, standing.run, reserve, level);
    }
  }

  template <class One>
  static void set_store_of(const Course& course, Standing& standing, int store, double level) {
    const auto& compiled = std::get<typename One::Compiled>(course.families);
    auto& state = std::get<typename One::State>(standing.states);
    if constexpr (requires { One::set_store(compiled, state, standing.run, store, level); }) {
      One::set_store(compiled, state, standing.run, store, level);
    }
  }

  /// Everything that was found stands as it was found, and is judged from then on.
  static void take_reading(const Course& course, Standing& standing, double hour) {
    const ReadingInfo& reading = course.readings[standing.run.next_reading()];
    for (const ReadingInfo::Level& found : reading.stores) {
      (set_store_of<Family>(course, standing, found.of, found.level), ...);
    }
    for (const ReadingInfo::Level& found : reading.reserves) {
      set_level(course, standing, found.of, found.level);
    }
    standing.run.begin_judging(hour);
  }

  static void call_at(const Course& course, Run& run, States& states, const TimeStep& step) {
    const bool setting_out = step.day == 0 && step.from_h <= 0;
    if (!setting_out) run.observe(step.from_h);
    carry_out_orders(course, run, states, step, every_one);
    if (setting_out) run.set_out();
    run.weigh(step.from_h);
  }

  static void carry_out_orders(const Course& course, Run& run, States& states, const TimeStep& step,
                               const Chosen& chosen) {
    const int first = course.first_order[at(step.stop)];
    const int count = static_cast<int>(course.orders.size());
    for (int o = first; o >= 0 && o < count; ++o) {
      if (course.orders[at(o)].item != step.stop) break;
      std::size_t family = 0;
      ((chosen[family++] ? Family::supply(std::get<typename Family::Compiled>(course.families),
                                          std::get<typename Family::State>(states), run, o)
                         : void()),
       ...);
    }
  }

  static void advance(const Course& course, Standing& standing, const TimeStep& step,
                      const Chosen& chosen) {
    std::size_t family = 0;
    ((chosen[family++]
          ? Family::advance(std::get<typename Family::Compiled>(course.families),
                            std::get<typename Family::State>(standing.states), standing.run, step)
          : void()),
     ...);
  }
};

/// The engine that serves every answer. A new family of reserves is added to this list.
using Engine = EngineOf<reserves::Water, reserves::Fuel, reserves::Power, reserves::Food,
                        reserves::Consumables, reserves::Tyres>;
using Course = Engine::Course;

/// What life depends on alone: the first of the families, which depend on the others by their mass
/// only.
using VitalEngine = EngineOf<reserves::Water, reserves::Fuel>;

/// Compiles a plan, with every "what is needed to the next one" resolved. The timeline must be free
/// of problems (see `lay_timeline`). What is the same as in the course `like` is shared with it.
Course compile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
               const Course* like = nullptr, CourseOptions options = {});

/// Lets stops take what they take on another course. One of the two may have left stops out.
void take_as_much(CourseBase& course, const CourseBase& like);

/// Makes a plan that differs from one that has been compiled ready to go on from there: with the
/// same stores and reserves, the same damage and `more`, and stops that take what they take in that
/// one. It need not be made ready before `first_step`.
Course recompile(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                 const Course& like, std::size_t first_step = 0, const Damage& more = {});

/// Lets every stop take more than is ordered where its reserve stands lower than it did in a run of
/// the course, up to where it stood once the order had been carried out.
void make_up(Course& course, const Record& run);

}  // namespace drystage::engine
