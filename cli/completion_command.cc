#include <fmt/core.h>

#include <string_view>

#include "help.h"
#include "output.h"
#include "topics.h"

namespace drystage::cli {
namespace {

std::string names_of_commands() {
  std::string out;
  for (const Command& command : commands)
    out += (out.empty() ? "" : " ") + std::string(command.name);
  return out;
}

std::string topics_of_help() {
  std::string out = names_of_commands() + " man";
  for (const Topic& topic : topics) out += std::string(" ") + topic.name;
  return out;
}

/// What may stand in a plan's place; empty: a file.
std::string arguments_of(const Command& command) {
  if (command.go == help_command) return topics_of_help();
  return command.go == completion_command ? "bash zsh fish" : "";
}

std::string bash() {
  std::string cases;
  for (const Command& command : commands) {
    std::string options;
    for (const OptionHelp& option : options_of(command)) options += " --" + option.name;
    cases += fmt::format("    {}) options='{}' words='{}' ;;\n", command.name, options.substr(1),
                         arguments_of(command));
  }
  return fmt::format(R"(_drystage() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} options='' words=''
  case $COMP_CWORD,${{COMP_WORDS[1]}} in
    1,*) words='{}' ;;
  esac
  [ "$COMP_CWORD" -eq 1 ] || case ${{COMP_WORDS[1]}} in
{}  esac
  case $word,$words in
    -*) mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word") ;;
    *,) mapfile -t COMPREPLY < <(compgen -f -- "$word") ;;
    *) mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word") ;;
  esac
}}
complete -o filenames -F _drystage drystage
)",
                     names_of_commands(), cases);
}

/// In single quotes, with a backslash before what means something within brackets.
std::string quoted(std::string_view text, std::string_view special) {
  std::string out = "'";
  for (const char each : text) {
    if (special.find(each) != std::string_view::npos) out += '\\';
    out += each == '\'' ? "'\\''" : std::string(1, each);
  }
  return out + "'";
}

std::string zsh() {
  std::string names;
  std::string cases;
  for (const Command& command : commands) {
    names += "    " + quoted(std::string(command.name) + ":" + command.question, "") + "\n";
    cases += fmt::format("    {}) _arguments", command.name);
    for (const OptionHelp& option : options_of(command)) {
      std::string text = "--" + option.name + (option.value.empty() ? "" : "=") + "[";
      std::string words = quoted(option.about, "[]:");
      text += words.substr(1, words.size() - 2) + "]";
      if (!option.value.empty()) {
        text += ":" + std::string(option.value == "FILE" ? "file:_files" : "value: ");
      }
      cases += " \\\n      '" + text + "'";
    }
    const std::string arguments = arguments_of(command);
    cases += arguments.empty() ? " \\\n      '*:plan:_files'"
                               : " \\\n      '*:word:(" + arguments + ")'";
    cases += " ;;\n";
  }
  return fmt::format(R"(#compdef drystage
_drystage() {{
  local -a names
  names=(
{}  )
  if (( CURRENT == 2 )); then
    _describe command names
    return
  fi
  shift words
  (( CURRENT-- ))
  case $words[1] in
{}  esac
}}
compdef _drystage drystage
)",
                     names, cases);
}

std::string fish() {
  std::string out;
  for (const Command& command : commands) {
    out += fmt::format("complete -c drystage -f -n __fish_use_subcommand -a {} -d {}\n",
                       command.name, quoted(command.question, "\\"));
    const std::string within =
        fmt::format("complete -c drystage -n '__fish_seen_subcommand_from {}'", command.name);
    for (const OptionHelp& option : options_of(command)) {
      out += fmt::format("{} -l {}{} -d {}\n", within, option.name,
                         option.value.empty() ? "" : " -r", quoted(option.about, "\\"));
    }
    const std::string arguments = arguments_of(command);
    if (!arguments.empty()) out += fmt::format("{} -f -a '{}'\n", within, arguments);
  }
  return out;
}

}  // namespace

ExitStatus completion_command(const CommonOptions& options) {
  const std::string& shell = options.argument;
  std::string text;
  if (shell == "bash") text = bash();
  if (shell == "zsh") text = zsh();
  if (shell == "fish") text = fish();
  if (text.empty()) {
    throw UsageError(fmt::format("completion {}: expected bash, zsh or fish", shell));
  }
  write_result(text, options.output);
  return holds;
}

}  // namespace drystage::cli
