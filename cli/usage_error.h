#pragma once

#include <stdexcept>

namespace drystage::cli {

/// A command line that cannot be understood; its text says what was expected.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace drystage::cli
