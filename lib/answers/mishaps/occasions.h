#pragma once

#include <cstddef>
#include <vector>

#include "answers/base/laid_trip.h"

namespace drystage::answers {

// The steps of a laid trip before which things can strike, each in order.

/// Every morning (see `morning_step`).
std::vector<std::size_t> mornings(const LaidTrip& laid);

/// Of each leg the step before which a share of it (0 to 1) has been driven, as nearly as steps
/// end; of 0 the one that begins it.
std::vector<std::size_t> along_legs(const LaidTrip& laid, double share);

/// The same, but for the first leg: where the trip begins, nobody is in need yet.
std::vector<std::size_t> along_later_legs(const LaidTrip& laid, double share);

/// Of each day with driving, the step in which half of it has been driven; or the next one in the
/// middle of a leg; of a day with none, the first that drives.
std::vector<std::size_t> halfway_each_day(const LaidTrip& laid);

/// Every stop at a place but those where the trip begins; with `visits_too` also every arrival.
std::vector<std::size_t> stops_at(const LaidTrip& laid, int place, bool visits_too);

/// Whether every way back to the last supplies leads over the very road that a step sets out on: if
/// it is shut there is nothing but to wait, which is another mishap.
bool is_only_road(const LaidTrip& laid, std::size_t step);

}  // namespace drystage::answers
