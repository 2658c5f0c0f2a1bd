#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/base/laid_trip.h"

namespace drystage::answers {

/// Whether a supply can be counted on when it is open: it is confirmed, and gives all that fits.
bool can_be_counted_on(const plan::Supply& supply);

/// The supply at a place of what tops a reserve up (of a bank: mains; of tyres: who mends them);
/// null where it has none.
const plan::Supply* supply_at(const LaidTrip& laid, int place, int reserve);

/// Where a reserve can be topped up: the step before which the party is there.
struct Refuge {
  std::size_t step = 0;
  int place = 0;
};

/// The first supply of a reserve that can be counted on at or after a step: a stop that orders it;
/// or a place that has it and is open when the party arrives, or in the morning when it sets out
/// late enough.
std::optional<Refuge> next_refuge(const LaidTrip& laid, std::size_t from, int reserve);

/// A supply that has been met, and when it is left again.
struct Passed {
  Refuge refuge;
  std::size_t leaves = 0;  ///< the step that drives away from it; the number of steps: none does
  int to_leg = 0;          ///< the leg that leads away; one past the last where none does
};

/// Every supply of a reserve that can be counted on, in the order in which a laid trip meets them;
/// the first may be the place where it begins.
std::vector<Passed> passed_refuges(const LaidTrip& laid, int reserve);

/// For each order at a supply that gives at most so much, its reserve's part of that in the visit;
/// nothing for the others. One that shares it with no other reserve has all of it. Where vehicles
/// share it, each has what it takes in a run of the course (`taken`, by order), and an equal part
/// of what that leaves: so the parts are never more than there is.
std::vector<std::optional<double>> parts_of_what_there_is(const engine::Course& course,
                                                          const std::vector<double>& taken);

/// The places on the way from one step to another at which a reserve is taken on, in the order in
/// which they are met, from a supply that gives at most so much.
std::vector<int> taken_on_the_way(const LaidTrip& laid, std::size_t from, std::size_t until,
                                  int reserve);

/// Whether reserves share such a supply, so that their parts depend on a run.
bool shares_what_there_is(const engine::Course& course);

/// The same course for one reserve: where a supply of it gives at most so much, it takes its part.
engine::Course taking_all_there_is(engine::Course course, int reserve,
                                   const std::vector<std::optional<double>>& parts);

/// The same, its parts found by going on with the course from a moment as planned.
engine::Course taking_all_there_is(const engine::Course& course, int reserve,
                                   const engine::Engine::Standing& start, std::size_t from);

/// The parts in a run of the whole course.
std::vector<std::optional<double>> parts_of_what_there_is(const engine::Course& course);

/// Where a reserve's stretch ends: its next refuge; or where its vehicle goes home before that, at
/// a place.
std::optional<Refuge> next_goal(const LaidTrip& laid, std::size_t from, int reserve);

/// Whether what a reserve is of is with the party in a step.
bool is_there(const engine::CourseBase& course, std::size_t step, int reserve);

}  // namespace drystage::answers
