#pragma once

#include <stdexcept>

namespace drystage::cli {

/// A command line that cannot be understood; its text says what was expected.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The same with several lines, each of which says one thing. What they have of the user's must not
/// have a line end in it.
class UsageLines : public UsageError {
 public:
  using UsageError::UsageError;
};

}  // namespace drystage::cli
