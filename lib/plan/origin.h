#pragma once

#include <string>

#include "plan/mark.h"

namespace drystage::plan {

/// Where a piece of the plan comes from: a place in the file, or an option of the command line.
struct Origin {
  Mark mark{};
  std::string set;  ///< "--set path=value" when given on the command line, else empty
};

}  // namespace drystage::plan
