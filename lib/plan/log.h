#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/spot.h"

namespace drystage::plan {

/// Collects what is found wrong while a plan is read.
class Log {
 public:
  void error(const Spot& spot, std::string what, std::string expected = {}, std::string hint = {});
  void warning(const Spot& spot, std::string what, std::string expected = {},
               std::string hint = {});

  /// How many errors so far. A reader compares before and after to see if its part is sound.
  [[nodiscard]] std::size_t errors() const { return errors_; }

  /// All of them, those of the command line first, then by their place in the file. Of a great
  /// many only the first are kept, and a last one says so.
  std::vector<Diagnostic> take();

 private:
  void add(Severity severity, const Spot& spot, std::string what, std::string expected,
           std::string hint);

  std::vector<Diagnostic> diagnostics_;
  std::size_t errors_ = 0;
  std::size_t dropped_ = 0;
};

}  // namespace drystage::plan
