#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/fields.h"
#include "plan/sections.h"

namespace drystage::plan {

/// Where the itinerary has come to while it is read.
struct Position {
  bool known = false;  ///< false after a place that could not be read
  int place = 0;
};

/// One itinerary item each, from the value under its key. `here` is where it begins.
Drive read_drive(Log& log, const Node& node, const Position& here, const Plan& plan);
/// There, perhaps a stay, and back.
std::vector<ItineraryItem> read_side_trip(Log& log, const Node& node, const Position& here,
                                          const Plan& plan);
Stay read_stay(Log& log, const Node& node, const Plan& plan);
Resupply read_resupply(Log& log, const Node& node, const Position& here, const Plan& plan);

/// Reads what a drive says of its way, its length under the key `length`, and checks it against its
/// ends where both are known.
void read_way(Fields& fields, Key length, const Place* from, const Place* to, Drive& made);

/// Reads the things that are left where a drive begins.
Things read_left(Fields& fields, Key key, const Plan& plan);

/// The index of a place given by name.
std::optional<int> read_place_name(Log& log, const Node& node, const Plan& plan);

}  // namespace drystage::plan
