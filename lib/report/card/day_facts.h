#pragma once

#include <cstddef>
#include <string>

#include "answers/trial.h"
#include "units/format.h"

namespace drystage::report {

/// What is told of a day beside its reserves, in words.
struct DayFacts {
  std::string number;    ///< from 1
  std::string date;      ///< "Mon 08 Mar"
  std::string sun;       ///< "06:12-18:03" by the local clock; or that it does not rise or set
  std::string from;      ///< where it begins
  std::string to;        ///< where it ends; empty where nothing is driven
  std::string distance;  ///< "195 km"; empty where nothing is driven
  std::string hours;     ///< at the wheel: "2.7 h"; the same
};

DayFacts day_facts(const answers::Trial& trial, std::size_t day, units::System system);

}  // namespace drystage::report
