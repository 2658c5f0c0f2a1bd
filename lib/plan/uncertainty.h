#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "plan/words.h"

namespace drystage::plan {

/// What makes one trip differ from another of the same plan.
enum class Source {
  heat,         ///< how much warmer or colder it is than the month's mean
  sun,          ///< how clear the days are
  drinking,     ///< what people drink
  work,         ///< for how long people work
  utility,      ///< all other uses of water
  meals,        ///< what is eaten
  consumables,  ///< gas, oil and the like
  fuel,         ///< what a kilometre takes
  distance,     ///< more kilometres than on the map
  headwind,     ///< wind along the road
  loads,        ///< what electrical loads draw
  cabinets,     ///< what compressors draw
  lids,         ///< how much is put in through the lids
  panels,       ///< what solar panels yield
  batteries,    ///< what is left of their capacity
  fills,        ///< what is in containers and tanks that count as filled
  spoilage,     ///< how fast food spoils
  delays,       ///< days on which nothing moves
  supplies,     ///< something is not to be had
  containers,   ///< a container, tank or can is lost
  compressors,  ///< a compressor stops
  chargers,     ///< a charging source is gone
  punctures,    ///
  illness       ///< somebody is ill, and the party rests for a day
};
inline constexpr int source_count = 24;

/// The words for them, in the order of Source.
inline constexpr std::array<Word<Source>, source_count> source_words{
    {{"heat", Source::heat},
     {"sun", Source::sun},
     {"drinking", Source::drinking},
     {"work", Source::work},
     {"utility", Source::utility},
     {"meals", Source::meals},
     {"consumables", Source::consumables},
     {"fuel", Source::fuel},
     {"distance", Source::distance},
     {"headwind", Source::headwind},
     {"loads", Source::loads},
     {"cabinets", Source::cabinets},
     {"lids", Source::lids},
     {"panels", Source::panels},
     {"batteries", Source::batteries},
     {"fills", Source::fills},
     {"spoilage", Source::spoilage},
     {"delays", Source::delays},
     {"supplies", Source::supplies},
     {"containers", Source::containers},
     {"compressors", Source::compressors},
     {"chargers", Source::chargers},
     {"punctures", Source::punctures},
     {"illness", Source::illness}}};

/// How trips differ. Shares are of what is planned; deviations are standard deviations of the
/// logarithm, which for small ones are shares too. `trip`: fixed for the trip.
struct Uncertainty {
  struct Heat {
    double year_k = 0;       ///< standard deviation of the season, fixed for the trip
    double persistence = 0;  ///< correlation of a day's mean with that of the day before
  } heat;                    ///< days differ by the climate's `spread`
  struct Sun {
    std::optional<double> day;  ///< standard deviation over mean; none: by the month's clearness
    double persistence = 0;
    double with_heat = 0;  ///< correlation with the temperature of the same day, -1 to 1
  } sun;
  struct Drinking {
    std::optional<double> person;  ///< of each person; none: by whether it was observed
    double day = 0;
  } drinking;
  double work_trip = 0;
  double utility_trip = 0;
  double meals_trip = 0;
  double consumables_trip = 0;
  struct Fuel {
    std::optional<double> trip;  ///< of each vehicle; none: by whether it was observed
    double leg = 0;
  } fuel;
  struct Distance {
    double usual = 0;  ///< more than on the map, median
    double high = 0;   ///< one trip in twenty has more than that; at least `usual`
  } distance;
  double headwind_leg_m_s = 0;  ///< standard deviation of the wind along the road
  double loads_trip = 0;
  struct Factor {
    double usual = 1;  ///< median
    double trip = 0;
  };
  Factor cabinets{};
  double lids_trip = 0;
  Factor panels{};
  Factor batteries{};
  double fills_vessel = 0;  ///< standard deviation, of each container, tank or can
  double spoilage_trip = 0;
  struct Delays {
    double day = 0;       ///< chance of one on any day
    double soft_leg = 0;  ///< chance of one on a leg with soft ground
    double length_h = 0;  ///< mean; lengths are exponential
  } delays;
  struct Supplies {
    double confirmed = 0;  ///< chance that it is not there
    double unconfirmed = 0;
  } supplies;
  double containers_day = 0;  ///< chance to lose one of them, on any day
  double compressors_day = 0;
  double chargers_day = 0;
  double punctures = 1;          ///< times the rate of the plan, or the usual one
  double illness_day = 0;        ///< chance for each person, on any day
  std::vector<Source> left_out;  ///< stay as planned

  [[nodiscard]] bool draws(Source source) const {
    return std::ranges::find(left_out, source) == left_out.end();
  }
};

}  // namespace drystage::plan
