#pragma once

#include <cstddef>
#include <string>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// The trip in a line: its days, who goes, and the vehicles, on paper with what they burn.
std::string trip_words(const answers::PlanRun& planned, bool with_fuel);

/// What is told of a day beside its reserves, in words.
struct DayFacts {
  std::string number;    ///< from 1
  std::string date;      ///< "Mon 08 Mar"
  std::string sun;       ///< "06:12-18:03" by the local clock: where the day begins, and where it
                         ///< ends; or that it does not rise or set
  std::string by;        ///< of a drive that ends where it began: the places on the way
  std::string from;      ///< where it begins
  std::string to;        ///< where it ends; empty where nothing is driven
  std::string distance;  ///< "195 km", to the nearest; empty where nothing is driven
  std::string hours;     ///< at the wheel: "2.7 h"; the same
  std::string warmest;   ///< of the air: "38 °C", rounded up
  std::string coldest;   ///< the same, rounded down, where it freezes; else empty
};

DayFacts day_facts(const answers::PlanRun& planned, std::size_t day, units::System system);

}  // namespace drystage::report
