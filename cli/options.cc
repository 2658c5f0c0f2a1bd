#include "options.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string_view>
#include <utility>

#include "color.h"
#include "plan/words.h"
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

/// A whole number of 1 or more and at most `most`, and nothing else.
std::optional<int> count(std::string_view text, int most) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return number >= 1 && number <= most ? std::optional(number) : std::nullopt;
}

plan::MishapKind kind_of(const std::string& word) {
  const auto texts = plan::texts(plan::mishap_words);
  const auto* const found = std::ranges::find(texts, word);
  if (found != texts.end()) {
    return plan::mishap_words.at(static_cast<std::size_t>(found - texts.begin())).value;
  }
  const std::string guess = plan::did_you_mean(word, texts);
  throw UsageError(fmt::format("--only {}: no such kind of mishap{}{} Kinds are {}", word,
                               guess.empty() ? "." : "; ", guess, plan::one_of(texts)));
}

/// Kinds with commas between, each taken once.
void add_kinds(std::string_view list, std::vector<plan::MishapKind>& kinds) {
  while (true) {
    const std::size_t comma = std::min(list.find(','), list.size());
    const plan::MishapKind kind = kind_of(std::string(list.substr(0, comma)));
    if (std::ranges::find(kinds, kind) == kinds.end()) kinds.push_back(kind);
    if (comma == list.size()) return;
    list.remove_prefix(comma + 1);
  }
}

std::pair<int, int> days_of(const std::string& text) {
  constexpr int most = 1'000'000;
  const std::size_t dash = text.find('-');
  const auto first = count(text.substr(0, dash), most);
  const auto last = dash == std::string::npos ? first : count(text.substr(dash + 1), most);
  if (!first || !last) {
    throw UsageError(fmt::format(
        "--days {}: expected a day of the trip, or the first and the last of several, as in "
        "--days 4 or --days 3-5",
        text));
  }
  if (*first > *last) {
    throw UsageError(
        fmt::format("--days {}: the first day comes after the last; did you mean "
                    "--days {}-{}?",
                    text, *last, *first));
  }
  return {*first, *last};
}

std::size_t jobs_of(const std::string& text) {
  constexpr int most = 1024;
  const auto jobs = count(text, most);
  if (!jobs) {
    throw UsageError(
        fmt::format("--jobs {}: expected a number of threads, from 1 to {}", text, most));
  }
  return static_cast<std::size_t>(*jobs);
}

void read_mishaps(const po::variables_map& values, CommonOptions& options) {
  options.two = values.count("two") > 0;
  if (values.count("only") > 0) {
    for (const std::string& list : values["only"].as<std::vector<std::string>>()) {
      add_kinds(list, options.only);
    }
  }
  if (values.count("days") > 0) options.days = days_of(values["days"].as<std::string>());
  if (values.count("jobs") > 0) options.jobs = jobs_of(values["jobs"].as<std::string>());
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
  read_mishaps(values, options);
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
  if (takes.wide) add("wide", "show all there is, however wide the table");
  if (takes.mishaps) {
    std::string kinds;
    for (const std::string_view text : plan::texts(plan::mishap_words)) {
      kinds += (kinds.empty() ? "" : ", ") + std::string(text);
    }
    add("two", "try every two of them together as well");
    add("only", po::value<std::vector<std::string>>()->value_name("KIND,...")->composing(),
        ("try these kinds alone: " + kinds + "; may be repeated").c_str());
    add("days", po::value<std::string>()->value_name("FIRST-LAST"),
        "let them strike on these days alone: 4, or 3-5");
  }
  if (takes.jobs) {
    add("jobs", po::value<std::string>()->value_name("N"),
        "use so many threads; without it as many as there are");
  }
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
