#pragma once

#include <atomic>
#include <cstddef>
#include <deque>
#include <mutex>
#include <span>
#include <string>
#include <vector>

#include "answers/mishaps/aftermath.h"
#include "answers/mishaps/sweep.h"

namespace drystage::answers {

/// A mishap at one of the moments at which it can strike.
struct Strike {
  std::size_t mishap = 0;   ///< index into SweepPlan::mishaps()
  std::size_t ordinal = 0;  ///< its index among the moments at which it can strike the plan
  std::size_t step = 0;     ///< of the plan's own laid trip
};

/// Everything that a sweep shares: the plan's own laid trip, where it stands before each step, and
/// the mishaps with the moments at which they are to be tried. Nothing changes once it is made, so
/// that strikes can be tried in parallel.
class SweepPlan {
 public:
  /// The plan's run must outlive it. `like`: the laid trip of one for a plan that differs in its
  /// stores alone, to share what is the same; null: none.
  SweepPlan(const PlanRun& planned, SweepOptions options, const LaidTrip* like = nullptr);

  [[nodiscard]] const std::vector<Mishap>& mishaps() const { return mishaps_; }
  [[nodiscard]] const std::vector<Strike>& strikes() const { return strikes_; }
  /// What the reader must know of how it has been reckoned so far.
  [[nodiscard]] std::vector<std::string> remarks() const;
  [[nodiscard]] Finding plan_itself() const;

  /// The laid trip after a mishap that strikes the plan's own, or one that comes from it. One that
  /// does not depend on the moment is made once and shared.
  [[nodiscard]] LaidTrip struck(const Strike& strike) const;
  [[nodiscard]] LaidTrip struck(const LaidTrip& laid, const Mishap& mishap, std::size_t step) const;

  /// One mishap, run to the end of the trip from where the plan stands before it.
  [[nodiscard]] Finding finding(const Strike& strike) const;

  /// The same, and whether turning back at once would save what runs out.
  [[nodiscard]] Finding finding_with_retreat(const Strike& strike) const;

  [[nodiscard]] const LaidTrip& laid() const { return laid_; }
  /// The laid trip's course, whose stops make up for what is missing.
  [[nodiscard]] const engine::Course& planned_course() const { return planned_course_; }
  /// Where the plan stands before a step at which something strikes.
  [[nodiscard]] const engine::Engine::Standing& before(std::size_t step) const;
  /// The steps at which something strikes, and the first morning's, in order.
  [[nodiscard]] const std::vector<std::size_t>& stands_at() const { return stands_at_; }
  /// The plan's own fate from a moment on, after the stops that fall on it, by reserve; beyond its
  /// end, at its end.
  [[nodiscard]] std::span<const Fate> planned(const engine::TimeStep& from) const;
  [[nodiscard]] bool on_the_days(const LaidTrip& laid, std::size_t step) const;

 private:
  /// What the plan itself is judged from.
  [[nodiscard]] std::size_t first_step() const;
  void list_strikes();
  [[nodiscard]] Finding finding(const Strike& strike, const LaidTrip& laid) const;
  void note_days(std::size_t days) const;

  const plan::Plan& given_;
  LaidTrip laid_;
  SweepOptions options_;
  engine::Record record_;
  std::vector<Mishap> mishaps_;
  std::vector<Strike> strikes_;
  std::vector<std::string> remarks_;
  std::vector<std::size_t> stands_at_;
  std::vector<engine::Engine::Standing> standings_;  ///< before each of them
  std::vector<Fate> planned_;
  engine::Course planned_course_;
  struct Timeless {
    std::once_flag made;
    LaidTrip laid;
  };
  /// By mishap: its laid trip, if that does not depend on the moment, once it is asked for.
  mutable std::deque<Timeless> timeless_;
  mutable std::atomic<std::size_t> longest_days_ = 0;  ///< of the trips that mishaps have made
};

}  // namespace drystage::answers
