#include <fmt/core.h>

#include <csignal>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <vector>

#include "answers/base/laid_trip.h"
#include "commands.h"
#include "draw.h"
#include "drawing/no_fonts.h"
#include "exit_status.h"
#include "help.h"
#include "options.h"
#include "output.h"
#include "own_file.h"
#include "report/text/page.h"
#include "terminal_width.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

ExitStatus go(const std::vector<std::string>& words) {
  if (words.empty()) {
    std::fputs(usage().c_str(), stderr);
    return wrong;
  }
  if (words[0] == "--help" || words[0] == "-h") {
    write_result(usage(), {});
    return holds;
  }
  if (words[0] == "--version") {
    write_result("drystage " DRYSTAGE_VERSION "\n", {});
    return holds;
  }
  const Command& command = command_named(words[0]);
  const CommonOptions options = parse({words.begin() + 1, words.end()}, command.takes);
  if (options.help) {
    write_result(command_help(command), {});
    return holds;
  }
  if (!command.takes.plan && !command.takes.start) spare_files_of_the_user(options);
  if (command.takes.card || !options.chart.empty()) hand_over_to_draw(words);
  // What goes into a file is the same wherever it is written.
  if (command.takes.plan && options.output.empty()) {
    report::set_page_columns(terminal_columns());
  }
  return command.go(options);
}

ExitStatus complain(const std::string& what, ExitStatus status) {
  std::fputs(("drystage: " + what + "\n").c_str(), stderr);
  return status;
}

/// Says that memory has run out, without asking for any.
ExitStatus out_of_memory() {
  std::fputs("drystage: not enough memory for this plan and this question\n", stderr);
  return io;
}

ExitStatus guarded(const std::vector<std::string>& words) {
  try {
    return go(words);
  } catch (const UsageLines& error) {
    return complain(shown_lines(error.what()), wrong);
  } catch (const UsageError& error) {
    // On one line: a line end in it stands in a name or a value, and is no end of the message.
    return complain(units::shown(error.what()), wrong);
  } catch (const FileError& error) {
    return complain(units::shown(error.what()), io);
  } catch (const answers::CannotBeLaidOut& error) {
    return complain("with a delay or the way back " + units::shown(error.what()) +
                        ": too long for this question",
                    wrong);
  } catch (const drawing::NoFonts& error) {
    return complain(shown_lines(error.what()), io);
  } catch (const std::bad_alloc&) {
    return out_of_memory();
  } catch (const std::exception& error) {
    return complain(std::string("a fault of drystage itself: ") + units::shown(error.what()),
                    our_fault);
  }
}

}  // namespace
}  // namespace drystage::cli

int main(int argc, char** argv) {
  // A file that grows beyond what the system allows is an error of writing, which is told.
  std::signal(SIGXFSZ, SIG_IGN);
  using namespace drystage::cli;
  try {
    return guarded({argv + (argc > 0 ? 1 : 0), argv + argc});
  } catch (const std::bad_alloc&) {
    return out_of_memory();
  }
}
