#include "plan/diagnostic.h"

#include <algorithm>

namespace drystage::plan {

bool has_error(const std::vector<Diagnostic>& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

}  // namespace drystage::plan
