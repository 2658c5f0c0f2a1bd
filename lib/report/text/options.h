#pragma once

#include "units/format.h"

namespace drystage::report {

/// How an answer is written for people.
struct TextOptions {
  bool color = false;
  bool all = false;   ///< all there is, not what fits a screen
  bool wide = false;  ///< tables as wide as what stands in them
  units::System system = units::System::metric;
  bool sparklines = false;  ///< of run: a line of blocks for each reserve, in Unicode
};

}  // namespace drystage::report
