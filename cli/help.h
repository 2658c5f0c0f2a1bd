#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "commands.h"

namespace drystage::cli {

/// An option, as every kind of help needs it.
struct OptionHelp {
  std::string name;   ///< without its dashes
  std::string value;  ///< what it takes: "FILE"; empty: nothing
  std::string about;
};

/// The options of a command, in the order in which help shows them.
std::vector<OptionHelp> options_of(const Command& command);

/// The lines of a text.
std::vector<std::string> lines_of(std::string_view text);

/// What a command answers, in sentences: "Does the plan hold? The verdict, then a row for each
/// day."
std::string question_of(const Command& command);

/// How a command is called: "drystage run PLAN.yaml [options]".
std::string synopsis(const Command& command);

/// All commands and topics, a line each.
std::string usage();

/// What a command answers, its options and examples. Within 80 columns.
std::string command_help(const Command& command);

/// The command of a name. Throws UsageError, with the nearest there is.
const Command& command_named(const std::string& name);

/// The source of the manual page, in the mdoc macros.
std::string man_page();

}  // namespace drystage::cli
