#pragma once

#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

#include "answers/onward/stretches.h"

namespace drystage::answers {

inline constexpr double to_the_minute_h = 1.0 / 120;

/// A moment within a step, and how a way back that begins there does.
struct Turned {
  double hour = 0;  ///< of the clock
  Moment moment;    ///< on the way that is turned back from there
  double slack = -std::numeric_limits<double>::infinity();  ///< least
};

/// Turns back at a clock hour within a step, up to which the trip goes on.
Turned turned_within(const WayOn& way, const Span& span, std::size_t step, double hour,
                     engine::Record& scratch);

/// What going back needs more than going on, from a moment within a step; and what going on needs.
struct Balance {
  double back_more = 0;
  double on = 0;
  Moment moment;
};
Balance balance(const WayOn& way, const Span& span, std::size_t step, double hour);

/// Halves the time between a clock hour at which something is so and one at which it is not, down
/// to a minute: what was found at the last hour at which it is so. `look(hour)` finds nothing where
/// it is not.
template <class Found, class Look>
Found to_the_minute(Found found, double so_h, double not_h, const Look& look) {
  while (std::abs(so_h - not_h) > to_the_minute_h) {
    const double hour = (so_h + not_h) / 2;
    const std::optional<Found> there = look(hour);
    (there ? so_h : not_h) = hour;
    if (there) found = *there;
  }
  return found;
}

}  // namespace drystage::answers
