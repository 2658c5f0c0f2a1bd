#include "options.h"

#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <utility>

#include "color.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

namespace po = boost::program_options;

template <class T, std::size_t n>
T choose(const std::string& text, const char* option,
         const std::array<std::pair<const char*, T>, n>& choices) {
  std::string offered;
  for (const auto& [name, value] : choices) {
    if (text == name) return value;
    offered += (offered.empty() ? "" : ", ") + std::string(name);
  }
  throw UsageError(fmt::format("--{} {}: expected one of {}", option, text, offered));
}

bool wants_color(Color color, int descriptor) {
  return wants_color(color, isatty(descriptor) == 1, std::getenv("NO_COLOR"), std::getenv("TERM"));
}

plan::Override override_of(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0) {
    throw UsageError(
        fmt::format("--set {}: expected path=value, as in --set \"people[0].mass=70 kg\"", text));
  }
  return {.path = text.substr(0, equals), .value = text.substr(equals + 1)};
}

CommonOptions read(const po::variables_map& values) {
  CommonOptions options;
  options.help = values.count("help") > 0;
  if (options.help) return options;
  const auto plans = values.count("plan") > 0 ? values["plan"].as<std::vector<std::string>>()
                                              : std::vector<std::string>{};
  if (plans.size() != 1) {
    throw UsageError(plans.empty() ? "expected a plan file"
                                   : fmt::format("expected one plan file, not {}", plans.size()));
  }
  options.plan_path = plans.front();
  if (values.count("set") > 0) {
    for (const std::string& text : values["set"].as<std::vector<std::string>>()) {
      options.overrides.push_back(override_of(text));
    }
  }
  if (values.count("output") > 0) options.output = values["output"].as<std::string>();
  std::error_code unknown_file;
  if (!options.output.empty() &&
      std::filesystem::equivalent(options.output, options.plan_path, unknown_file)) {
    throw UsageError(fmt::format("--output {}: that is the plan itself", options.output));
  }
  if (values.count("format") > 0) {
    options.format = choose<Format, 3>(
        values["format"].as<std::string>(), "format",
        {{{"table", Format::table}, {"csv", Format::csv}, {"json", Format::json}}});
  }
  if (values.count("units") > 0) {
    options.system = choose<units::System, 3>(values["units"].as<std::string>(), "units",
                                              {{{"metric", units::System::metric},
                                                {"us", units::System::us},
                                                {"imperial", units::System::imperial}}});
  }
  const auto color = choose<Color, 3>(
      values["color"].as<std::string>(), "color",
      {{{"auto", Color::automatic}, {"always", Color::always}, {"never", Color::never}}});
  options.color =
      options.output.empty() ? wants_color(color, STDOUT_FILENO) : color == Color::always;
  options.color_errors = wants_color(color, STDERR_FILENO);
  options.wide = values.count("wide") > 0;
  return options;
}

std::string unknown(const std::string& option, const po::options_description& all) {
  std::string nearest;
  double distance = 3;
  for (const auto& known : all.options()) {
    const std::string name = "--" + known->long_name();
    const auto edits = units::edit_distance(option, name, distance);
    if (!edits || *edits >= distance || name == "--plan") continue;
    distance = *edits;
    nearest = name;
  }
  return fmt::format("no option '{}'{}", option,
                     nearest.empty() ? std::string("; --help lists them")
                                     : fmt::format("; did you mean '{}'?", nearest));
}

}  // namespace

po::options_description describe(const Takes& takes) {
  po::options_description description("Options", 80, 42);
  auto add = description.add_options();
  if (takes.formats) {
    add("format", po::value<std::string>()->value_name("FORM"), "table, csv or json");
    add("units", po::value<std::string>()->value_name("UNITS"),
        "metric, us or imperial: what the table shows; csv and json are metric");
  }
  if (takes.wide) add("wide", "show every reserve, however wide the table");
  add("output", po::value<std::string>()->value_name("FILE"),
      "write there instead of to standard output; whole or not at all");
  add("set", po::value<std::vector<std::string>>()->value_name("PATH=VALUE")->composing(),
      "change a value of the plan for this run; may be repeated");
  add("color", po::value<std::string>()->value_name("WHEN")->default_value("auto"),
      "auto, always or never");
  add("help", "show this");
  return description;
}

CommonOptions parse(const std::vector<std::string>& words, const Takes& takes) {
  po::options_description all = describe(takes);
  all.add_options()("plan", po::value<std::vector<std::string>>());
  po::positional_options_description places;
  places.add("plan", -1);
  po::variables_map values;
  try {
    namespace style = po::command_line_style;
    constexpr int exact = style::unix_style & ~style::allow_guessing;
    po::store(po::command_line_parser(words).options(all).positional(places).style(exact).run(),
              values);
    po::notify(values);
  } catch (const po::unknown_option& error) {
    throw UsageError(unknown(error.get_option_name(), all));
  } catch (const po::error& error) {
    throw UsageError(error.what());
  }
  return read(values);
}

}  // namespace drystage::cli
