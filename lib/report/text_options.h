#pragma once

#include "units/format.h"

namespace drystage::report {

/// How an answer is written for people.
struct TextOptions {
  bool color = false;
  bool wide = false;  ///< all reserves, however wide
  units::System system = units::System::metric;
};

}  // namespace drystage::report
