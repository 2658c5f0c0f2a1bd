#pragma once

#include <cstdint>

namespace drystage::engine {

/// Something worth telling. What `subject`, `amount` and `other` mean is said beside each kind.
enum class EventKind : std::uint8_t {
  // Known when the itinerary is laid out. Subject: an order; of the camps and waits, the drive's
  // place in the itinerary.
  shut,              ///< the supply is not open on that day
  unconfirmed,       ///< the plan leans on a supply that nobody has confirmed
  camp_dusk,         ///< night in the bush: no daylight left (amount: km still to go)
  camp_hours,        ///< night in the bush: driving hours used up (amount: km still to go)
  waits,             ///< no light or hours left to set out
  vehicle_joins,     ///< subject: vehicle
  vehicle_leaves,    ///< subject: vehicle: goes home
  person_joins,      ///< subject: person
  person_leaves,     ///< subject: person: goes home
  left_behind,       ///< subject: drive that leaves things where it begins (other: that place)
  picked_up,         ///< the same, when the party is there again
  heat_ceiling,      ///< drinking need above the published daily ceiling (subject: person, L)
  observed_low,      ///< observed drinking far under the model (subject: person; amount: L planned;
                     ///< other: L by the model)
  hot_wind,          ///< wind hotter than skin, beyond the proven one (amount: m/s)
  altitude,          ///< the first night above 2500 m (amount: elevation; other: m above the last)
  fast_ascent,       ///< a night too far above the last (amount: elevation; other: m above it)
  frost,             ///< water freezes (amount: the lowest temperature of the day)
  not_used_to_heat,  ///< subject: person
  heat_unproven,     ///< beyond the heat for which the sweat model was validated
  // Found while stepping.
  refill,          ///< subject: order; amount: taken
  brackish_in,     ///< subject: store: brackish water put in, utility-only from now
  utility_drunk,   ///< subject: store: a utility container is drunk from (amount: L at first)
  potable_short,   ///< subject: reserve: what must be potable is short, and brackish water is left
                   ///< (amount: L left)
  only_brackish,   ///< drinking water short though brackish water is left (amount: L left)
  short_of,        ///< subject: reserve: ran dry (amount: first shortfall)
  spoiled,         ///< subject: store (food item); amount: meals lost
  thrown_away,     ///< the same by the 4-hour rule
  use_now,         ///< subject: store: above 5 °C for two hours
  thawed,          ///< subject: cabinet: the frozen goods have melted
  shed,            ///< subject: load
  restored,        ///< subject: load: no longer shed
  charge_refused,  ///< subject: bank: too cold to be charged
  cut_off,         ///< subject: bank: loads disconnected
  reconnected,     ///< subject: bank
  vital_unserved,  ///< subject: load never to be shed, and there is no charge for it
  generator_dry,   ///< subject: charger: no fuel to run it
  poured,          ///< subject: store: a can is poured into another vehicle (other: its reserve)
  perished,        ///< subject: store of a consumable that was too warm or too cold for too long;
                   ///< amount: lost, in its unit
};

struct Event {
  EventKind kind{};
  std::int16_t day = 0;  ///< 0-based
  double hour = 0;       ///< local clock
  int subject = -1;
  double amount = 0;
  double other = 0;
};

}  // namespace drystage::engine
