#pragma once

#include "plan/mark.h"

namespace drystage::plan {

/// When somebody or something joins or goes home: with a day of the trip, or where the itinerary
/// comes to a place. At most one of the two is said.
struct Moment {
  int day = -1;    ///< of the trip, from 0
  int place = -1;  ///< index into Plan::places
  Mark mark{};

  [[nodiscard]] bool is_said() const { return day >= 0 || place >= 0; }
  bool operator==(const Moment& other) const { return day == other.day && place == other.place; }
};

/// For how long somebody or something is of the party. Nothing said: all the way.
struct Along {
  Moment from{};   ///< as that day begins, or on arrival at that place
  Moment until{};  ///< as that day ends, or on arrival at that place

  [[nodiscard]] bool is_all_the_way() const { return !from.is_said() && !until.is_said(); }
  bool operator==(const Along&) const = default;
};

}  // namespace drystage::plan
