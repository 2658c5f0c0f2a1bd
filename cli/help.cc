#include "help.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/program_options/options_description.hpp>
#include <boost/program_options/value_semantic.hpp>
#include <sstream>
#include <string_view>

#include "output.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "topics.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

std::string topic_help(const Topic& topic) {
  std::string out = std::string(topic.title) + "\n\n";
  for (const std::string& line : lines_of(topic.text)) out += report::paragraph(line);
  return out;
}

/// Says which of the commands, and topics, was meant.
[[noreturn]] void refuse(std::string_view what, const std::string& name, bool topics_too) {
  std::string_view nearest;
  double distance = 3;
  const auto consider = [&](std::string_view known) {
    const auto edits = units::edit_distance(name, known, distance);
    if (!edits || *edits >= distance) return;
    distance = *edits;
    nearest = known;
  };
  for (const Command& command : commands) consider(command.name);
  if (topics_too) {
    for (const Topic& topic : topics) consider(topic.name);
  }
  throw UsageError(fmt::format("no {} '{}'{}", what, name,
                               nearest.empty() ? std::string("; `drystage help` lists them")
                                               : fmt::format("; did you mean '{}'?", nearest)));
}

}  // namespace

std::vector<OptionHelp> options_of(const Command& command) {
  std::vector<OptionHelp> out;
  const auto described = describe(command.takes);
  for (const auto& option : described.options()) {
    const bool takes_value = option->semantic()->max_tokens() > 0;
    out.push_back({.name = option->long_name(),
                   .value = takes_value ? option->format_parameter() : "",
                   .about = option->description()});
  }
  return out;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    out.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

std::string question_of(const Command& command) {
  const std::string question = command.question;
  return question.ends_with('?') ? question : question + ".";
}

std::string synopsis(const Command& command) {
  std::string out = fmt::format("drystage {}", command.name);
  if (command.takes.plan) out += " PLAN.yaml";
  if (command.takes.argument != nullptr) out += std::string(" ") + command.takes.argument;
  return out + " [options]";
}

std::string usage() {
  std::string text =
      "Usage: drystage COMMAND PLAN.yaml [options]\n\n"
      "Plans water, fuel, food, cold and battery together, day by day, for a\n"
      "self-built vehicle in remote country. Begin with `drystage start`. With - in\n"
      "place of PLAN.yaml the plan is read from standard input.\n\n"
      "Commands:\n";
  for (const Command& command : commands) {
    text += report::wrap_after(fmt::format("  {:10} ", command.name), command.question,
                               report::page_columns());
  }
  text += "\nTopics of `drystage help`:\n";
  for (const Topic& topic : topics) {
    text += fmt::format("  {:10} {}\n", topic.name, topic.title);
  }
  return text +
         "\n`drystage help COMMAND` shows what a command takes, `drystage --version` the\n"
         "version. Exit status: 0 the plan holds, 1 it does not; more by `help exit`.\n";
}

std::string command_help(const Command& command) {
  std::ostringstream all;
  all << describe(command.takes);
  std::string options = all.str();
  // Boost fills the lines of its list with blanks.
  for (std::size_t at = options.find(" \n"); at != std::string::npos; at = options.find(" \n")) {
    options.erase(at, 1);
  }
  if (!options.ends_with('\n')) options += '\n';
  std::string out =
      fmt::format("Usage: {}\n\n{}{}\nExamples:\n", synopsis(command),
                  report::paragraph(question_of(command)), report::paragraph(command.about));
  for (const std::string& line : lines_of(command.examples)) out += "  " + line + "\n";
  return out + "\n" + options;
}

const Command& command_named(const std::string& name) {
  const auto* const found = std::ranges::find(commands, name, &Command::name);
  if (found == commands.end() && name.ends_with(".yaml")) {
    throw UsageError("the command comes before the plan, as in drystage run " + name);
  }
  if (found == commands.end()) refuse("command", name, false);
  return *found;
}

ExitStatus help_command(const CommonOptions& options) {
  const std::string& of = options.argument;
  const auto* const topic = std::ranges::find(topics, of, &Topic::name);
  const auto* const command = std::ranges::find(commands, of, &Command::name);
  std::string text;
  if (of.empty()) {
    text = usage();
  } else if (of == "man") {
    text = man_page();
  } else if (topic != topics.end()) {
    text = topic_help(*topic);
  } else if (command != commands.end()) {
    text = command_help(*command);
  } else {
    refuse("command or topic", of, true);
  }
  write_result(text, options.output);
  return holds;
}

}  // namespace drystage::cli
