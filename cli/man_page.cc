#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <string_view>

#include "help.h"
#include "topics.h"

namespace drystage::cli {
namespace {

/// As roff takes it: a backslash, a dash and the degree sign have names, and a line may not begin
/// with a dot or an apostrophe.
std::string roff(std::string_view text) {
  constexpr std::string_view degree = "\u00b0";
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char each = text[at];
    const bool begins = at == 0 || text[at - 1] == '\n';
    if (begins && (each == '.' || each == '\'')) out += "\\&";
    if (text.substr(at).starts_with(degree)) {
      out += "\\(de";
      at += degree.size() - 1;
    } else if (each == '\\') {
      out += "\\e";
    } else if (each == '-') {
      out += "\\-";
    } else {
      out += each;
    }
  }
  return out;
}

/// A sentence to a line, as man pages are written.
std::string sentences(std::string_view text) {
  std::string out(text);
  for (std::size_t at = out.find(". "); at != std::string::npos; at = out.find(". ", at + 1)) {
    out[at + 1] = '\n';
  }
  return roff(out) + "\n";
}

std::string item(const std::string& head, std::string_view about) {
  return ".It " + head + "\n" + sentences(about);
}

std::string option_head(const OptionHelp& option) {
  return "Fl \\-" + roff(option.name) + (option.value.empty() ? "" : " Ar " + roff(option.value));
}

std::string section_of(const Command& command) {
  std::string out = fmt::format(".Ss {}\n.Dl {}\n.Pp\n", command.name, roff(synopsis(command)));
  out += sentences(question_of(command)) + sentences(command.about);
  out += ".Bl -tag -width Ds\n";
  for (const OptionHelp& option : options_of(command)) {
    out += item(option_head(option), option.about);
  }
  return out + ".El\n.Pp\nExamples:\n.Bd -literal -offset indent\n" + roff(command.examples) +
         "\n.Ed\n";
}

}  // namespace

std::string man_page() {
  std::string out =
      ".\\\" Made by `drystage help man`.\n"
      ".Dd November 30, 2026\n.Dt DRYSTAGE 1\n.Os\n"
      ".Sh NAME\n.Nm drystage\n"
      ".Nd plan water, fuel, food, cold and battery for a vehicle in remote country\n"
      ".Sh SYNOPSIS\n.Nm\n.Ar command\n.Op Ar plan.yaml\n.Op Ar options\n"
      ".Sh DESCRIPTION\n.Nm\n"
      "reads a trip from one YAML file and steps all reserves through it together, hour by hour.\n"
      "Results go to standard output, errors and warnings to standard error.\n"
      "With \\- in place of the plan's name it is read from standard input.\n"
      "A file that is written appears whole or not at all.\n"
      "It replaces only what drystage has written itself, unless\n.Fl \\-force\nis given.\n"
      ".Sh COMMANDS\n";
  for (const Command& command : commands) out += section_of(command);
  for (const Topic& topic : topics) {
    std::string title(topic.title);
    std::ranges::transform(title, title.begin(), [](unsigned char each) {
      return static_cast<char>(std::toupper(each));
    });
    out += ".Sh " + (topic.name == std::string_view("exit") ? std::string("EXIT STATUS") : title) +
           "\n";
    std::string text;
    for (const std::string& line : lines_of(topic.text)) {
      text += (text.empty() ? "" : ".Pp\n") + sentences(line);
    }
    out += text;
  }
  return out +
         ".Sh SEE ALSO\n"
         "guide.md, format.md, models.md and cautions.md in the documentation folder.\n";
}

}  // namespace drystage::cli
