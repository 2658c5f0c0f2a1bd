#pragma once

#include <string>
#include <utility>
#include <vector>

namespace drystage::testing {

/// What a program left behind: its exit status (128 + n if signal n ended it) and all it wrote.
struct Outcome {
  int status = -1;
  std::string out;
  std::string err;
};

/// How a program is started, beyond its arguments.
struct Surroundings {
  std::vector<std::pair<std::string, std::string>>
      set{};                         ///< added to the environment, or replaced
  std::vector<std::string> unset{};  ///< taken out of it
  std::string folder{};              ///< where it runs; empty: where we are
  std::string out_to{};              ///< standard output goes into this file
};

/// Runs the built `drystage` with these words, as a user does, and waits for it.
Outcome drystage(const std::vector<std::string>& words, const Surroundings& around = {});

}  // namespace drystage::testing
