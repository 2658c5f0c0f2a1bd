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
  bool out_is_terminal = false;      ///< standard output is a terminal
  int columns = 0;                   ///< of that terminal; 0: it does not say
  std::string typed{};               ///< what is typed in a terminal; empty: there is none
};

/// The program that is tested: the one built, or that which DRYSTAGE_PROGRAM names.
std::string tested_program();

/// Runs the built `drystage` with these words, as a user does, and waits for it.
Outcome drystage(const std::vector<std::string>& words, const Surroundings& around = {});

/// Runs any program in the same way, by its path or by its name. Throws when there is none.
Outcome program(const std::string& name, const std::vector<std::string>& words,
                const Surroundings& around = {});

}  // namespace drystage::testing
