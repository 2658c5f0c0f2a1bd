#include <fmt/core.h>

#include <boost/program_options/options_description.hpp>
#include <cstdio>
#include <exception>
#include <sstream>
#include <string>
#include <vector>

#include "answers/base/laid_trip.h"
#include "commands.h"
#include "draw.h"
#include "exit_status.h"
#include "options.h"
#include "output.h"
#include "report/text/layout.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

std::string usage() {
  std::string text =
      "Usage: drystage COMMAND PLAN.yaml [options]\n"
      "       drystage start [options]\n"
      "       drystage schema [options]\n\n"
      "Plans water, fuel, food, cold and battery together, day by day, for a\n"
      "self-built vehicle in remote country.\n\n"
      "Commands:\n";
  for (const Command& command : commands) {
    text += report::wrap_after(fmt::format("  {:8} ", command.name), command.question, 80);
  }
  return text +
         "\n`drystage COMMAND --help` shows what a command takes; `drystage --version`\n"
         "the version.\n\n"
         "Exit status: 0 every reserve keeps its margin (mishaps: no single one runs\n"
         "drinking water or fuel dry; size: a set on offer is enough); 1 that is not\n"
         "so; 2 the plan or the command line is wrong; 3 a file could not be read or\n"
         "written; 70 a fault of drystage itself.\n";
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
  std::string question = command.question;
  if (!question.ends_with('?')) question += '.';
  return fmt::format("Usage: drystage {}{} [options]\n\n{}\n\n{}", command.name,
                     command.takes.plan ? " PLAN.yaml" : "", question, options);
}

const Command& find(const std::string& name) {
  const Command* nearest = nullptr;
  double distance = 3;
  for (const Command& command : commands) {
    if (name == command.name) return command;
    const auto edits = units::edit_distance(name, command.name, distance);
    if (!edits || *edits >= distance) continue;
    distance = *edits;
    nearest = &command;
  }
  throw UsageError(fmt::format("no command '{}'{}", name,
                               nearest == nullptr
                                   ? std::string("; `drystage --help` lists them")
                                   : fmt::format("; did you mean '{}'?", nearest->name)));
}

ExitStatus go(const std::vector<std::string>& words) {
  if (words.empty()) {
    std::fputs(usage().c_str(), stderr);
    return wrong;
  }
  if (words[0] == "--help" || words[0] == "-h" || words[0] == "help") {
    write_result(usage(), {});
    return holds;
  }
  if (words[0] == "--version") {
    write_result("drystage " DRYSTAGE_VERSION "\n", {});
    return holds;
  }
  const Command& command = find(words[0]);
  const CommonOptions options = parse({words.begin() + 1, words.end()}, command.takes);
  if (options.help) {
    write_result(command_help(command), {});
    return holds;
  }
  if (command.takes.card || !options.chart.empty()) hand_over_to_draw(words);
  return command.go(options);
}

ExitStatus complain(const std::string& what, ExitStatus status) {
  std::fputs(("drystage: " + what + "\n").c_str(), stderr);
  return status;
}

ExitStatus guarded(const std::vector<std::string>& words) {
  try {
    return go(words);
  } catch (const UsageError& error) {
    return complain(error.what(), wrong);
  } catch (const FileError& error) {
    return complain(error.what(), io);
  } catch (const answers::CannotBeLaidOut& error) {
    return complain(std::string("with a delay or the way back ") + error.what() +
                        ": too long for this question",
                    wrong);
  } catch (const std::exception& error) {
    return complain(std::string("a fault of drystage itself: ") + error.what(), our_fault);
  }
}

}  // namespace
}  // namespace drystage::cli

int main(int argc, char** argv) {
  return drystage::cli::guarded({argv + (argc > 0 ? 1 : 0), argv + argc});
}
