#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "answers/base/kept_timelines.h"
#include "answers/base/moment.h"
#include "answers/base/plan_run.h"

namespace drystage::answers {

/// Distances nearer than this are the same.
inline constexpr double tiny_km = 1e-6;

/// A plan under way: laid out and compiled, so that it can be gone on from any moment, as it is or
/// changed.
struct LaidTrip {
  std::shared_ptr<const plan::Plan> plan;
  std::vector<engine::Detour> detours;
  std::shared_ptr<const engine::Timeline> timeline;
  std::shared_ptr<const engine::Course> course;
  /// Items that an answer has put in, stops for what limited supplies give: to call there in the
  /// morning is no reason to fill up with anything else.
  std::vector<int> added_stops{};
  /// Where timelines that follow from this one are kept, and as what; null: nowhere.
  std::shared_ptr<KeptTimelines> kept{};
  KeptTimelines::Key kept_as{};
};

/// The laid trip of a plan. Climates that lack months get them from the nearest one that they have,
/// so that it can be run into days that the plan does not reach.
LaidTrip laid_trip_of(const PlanRun& planned);

/// The same on what is certain: every supply that nobody has confirmed is shut.
LaidTrip laid_trip_on_what_is_certain(const PlanRun& planned);

/// The laid trip of a plan, stopping also wherever something can be had that the plan leaves:
/// nothing is taken there as long as all goes as planned. `like`: that of a plan that differs in
/// its stores alone, to share what is the same and what it keeps; null: none.
LaidTrip laid_trip_past_every_supply(const PlanRun& planned, const LaidTrip* like = nullptr);

/// Whether it tops up a store, and not a battery, and in amounts.
bool is_taken_on(plan::Commodity commodity);

/// A change that cannot be laid out: it makes the trip longer than any that is.
class CannotBeLaidOut : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Nothing but a place to keep timelines, to be like.
LaidTrip keeping_timelines();

/// The laid trip with another plan or other detours, the same before `day`. The course is left
/// unset. Throws CannotBeLaidOut.
LaidTrip changed(const LaidTrip& before, std::shared_ptr<const plan::Plan> plan,
                 std::vector<engine::Detour> detours, int day);

/// What `laid_trip_of` filled in for a trip of so many days, in words; empty if nothing.
std::vector<std::string> borrowed_months(const plan::Plan& plan, std::size_t days);

/// Where a laid trip stands before each of its steps, in order. The record receives the run; it and
/// the course must outlive what comes back.
std::vector<engine::Engine::Standing> stand_before_each_step(const engine::Course& course,
                                                             engine::Record& record);

/// The step at which a day is looked at as it begins: its first; on the first day, once what is
/// taken on at the outset is on board.
std::size_t morning_step(const engine::Timeline& timeline, int day);

/// The first day whose morning is still to come: 0 before the trip, else the day after the last
/// reading. May be beyond the last day.
int first_morning(const engine::CourseBase& course);

/// Time and place of the last reading; of the outset where there is none.
Moment last_reading(const PlanRun& planned);

/// Time and place before a step; of the number of steps, the end of the trip.
Moment moment_before(const LaidTrip& laid, std::size_t step);

/// Leg under way or driven last before a step, and how much of it has been driven.
struct Progress {
  int leg = -1;  ///< -1: none has been begun
  double done_km = 0;
  bool under_way = false;  ///< neither at its beginning nor at its end
};
Progress progress_before(const engine::Timeline& timeline, std::size_t step);

}  // namespace drystage::answers
