#pragma once

#include <boost/program_options.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "plan/override.h"
#include "units/format.h"

namespace drystage::cli {

/// A command line that cannot be understood; its text says what was expected.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

enum class Format { table, csv, json };

/// What every command that takes a plan understands.
struct CommonOptions {
  std::string plan_path;
  std::vector<plan::Override> overrides;
  std::string output;  ///< empty: standard output
  Format format = Format::table;
  units::System system = units::System::metric;
  bool color = false;         ///< on standard output
  bool color_errors = false;  ///< on standard error
  bool wide = false;
  bool help = false;
};

/// Which options a command takes beside the plan and those that all take.
struct Takes {
  bool formats = false;
  bool wide = false;
};

/// The options as Boost describes them.
boost::program_options::options_description describe(const Takes& takes);

/// Reads the words after the command. Throws UsageError.
CommonOptions parse(const std::vector<std::string>& words, const Takes& takes);

}  // namespace drystage::cli
