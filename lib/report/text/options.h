#pragma once

#include "units/format.h"

namespace drystage::report {

/// How an answer is written for people.
struct TextOptions {
  bool color = false;
  bool wide = false;  ///< all reserves, however wide
  units::System system = units::System::metric;
  bool sparklines = false;  ///< of run: a line of blocks for each reserve, in Unicode
};

}  // namespace drystage::report
