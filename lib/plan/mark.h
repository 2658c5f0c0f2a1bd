#pragma once

namespace drystage::plan {

/// Where in a file something was written. Lines and columns count from 1; line 0 means "not in the
/// file" (a default, or a value given on the command line).
struct Mark {
  int line = 0;
  int column = 0;
  int file = 0;  ///< 0: the plan's own; from 1 on: one that it includes (ReadPlan::included)
  bool operator==(const Mark&) const = default;
};

}  // namespace drystage::plan
