#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "answers/mishaps/mishap.h"

namespace drystage::answers {

/// The plan and the timeline after a mishap that strikes before a step, but for a way back: the
/// course is that of before.
LaidTrip laid_after(const LaidTrip& before, const Mishap& mishap, std::size_t step);

/// The laid trip after a mishap that strikes before a step. Up to that step it is the laid trip
/// before it. At later stops people take what they take on the course `planned`, or more, as its
/// orders say (see engine::make_up); it has the damage that has been done by then. Where time
/// moves, its course is ready from that step on alone.
LaidTrip after(const LaidTrip& before, const Mishap& mishap, std::size_t step,
               const engine::Course& planned);

/// The reserves that life depends on.
std::vector<int> vital_reserves(const engine::CourseBase& course);

/// The leg that leads away from the farthest of the last supplies of some reserves; 0, where the
/// trip began, if none of one lies behind.
int leg_to_last_supplies(const LaidTrip& laid, std::size_t step, const std::vector<int>& reserves);

/// What must hold until when: reserves are judged to the end of the trip, or where the party has
/// turned back, to their own supply.
std::vector<std::size_t> judged_until(const LaidTrip& laid, const Mishap& mishap, std::size_t step);

/// What is worse by no more than this is no worse.
inline constexpr double noticeable = 1e-6;

/// How a reserve fares in the plan itself from a moment to its end: what is no worse than this is
/// not the mishap's doing.
struct Fate {
  double slack = engine::without_limit;  ///< at its tightest
  double short_of = 0;                   ///< wanted and not there
  double stood_in = 0;                   ///< utility water drunk in place of drinking water
};

/// By step, by reserve: of a run of the course from its start. `before` is shown where it stands
/// before each step. Of the days' ledgers in `record`, what Fate has is overwritten.
std::vector<Fate> fate_from_each_step(
    const engine::Course& course, engine::Record& record,
    const std::function<void(std::size_t step, const engine::Engine::Standing&)>& before = {});

/// Goes on with a laid trip from where something has struck, and judges how it fares.
/// `standing` may stand on the course before; what is in excess is lost first. `planned` is the
/// plan's own fate from then on, by reserve; `planned_heaviest` how heavy it is, by scale: where
/// that is given, it is looked for what the mishap overloads. Leaves the run in `record`.
Finding finding_after(const LaidTrip& laid, const engine::Engine::Standing& standing,
                      std::size_t step, const std::vector<std::size_t>& until,
                      std::span<const Fate> planned, engine::Record& record,
                      std::span<const engine::Heaviest> planned_heaviest = {});

/// Whether turning back at once, after the mishap has struck, keeps a reserve that would run out,
/// and all that life depends on, from running dry. Nothing where no supply of them lies behind,
/// or the party has not set out yet.
std::optional<bool> retreat_saves(const LaidTrip& after, const Mishap& mishap, int reserve,
                                  const engine::Engine::Standing& standing, std::size_t step);

}  // namespace drystage::answers
