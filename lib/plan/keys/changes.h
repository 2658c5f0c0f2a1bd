#pragma once

#include "plan/keys/declaration.h"
#include "plan/keys/readings.h"

namespace drystage::plan::keys {

/// What is otherwise than planned.
inline constexpr auto changes = std::to_array<Declaration>({
    {"changes.day", amount(day_of_trip), required, "from this day on, counted from 1", "6"},
    {"changes.wait", amount({Kind::time_h, "days", 1, 60, 1, 365}), "one of these",
     "from that evening on you wait so long where you are", "2 days"},
    {"changes.stay", name_of("place"), "one of these", "the stay there is another; with `nights`"},
    {"changes.nights", amount({{}, "", 0, 60, 0, 365}), "with `stay`", "in all; 0 leaves it out",
     "1"},
    {"changes.no_supply", name_of("place"), "one of these", "nothing is to be had there any more"},
    {"changes.of", many(Many::one_or_list, name_of("supply of the place")), "everything",
     "of `no_supply`, these alone", "[diesel]"},
    {"changes.shut", name_of("place"), "one of these",
     "the road of the drive to this place is shut"},
    {"changes.joins", name_of("person or vehicle"), "one of these", "comes along from this day on"},
    {"changes.leaves", name_of("person or vehicle"), "one of these", "goes home with this day"},
    {"changes.lost", many(Many::one_or_list, name_of("container, tank or store")), "one of these",
     "is lost, with what was in it"},
});

}  // namespace drystage::plan::keys
