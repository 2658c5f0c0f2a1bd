#pragma once

namespace drystage::report {

/// A part of an axis, in its numbers.
struct Stretch {
  double from = 0;
  double to = 0;
};

}  // namespace drystage::report
