#include "options.h"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <boost/program_options.hpp>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <limits>
#include <optional>
#include <span>
#include <string_view>
#include <utility>

#include "color.h"
#include "confidence.h"
#include "picture.h"
#include "plan/words.h"
#include "units/list.h"
#include "units/parse.h"
#include "units/text.h"
#include "whole_number.h"

namespace drystage::cli {
namespace {

namespace po = boost::program_options;

template <class T, std::size_t n>
T choose(const std::string& text, const char* option,
         const std::array<std::pair<const char*, T>, n>& choices) {
  std::string offered;
  for (const auto& [name, value] : choices) {
    if (text == name) return value;
    units::add_to(offered, name);
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

/// Where a word stands among those that an option knows.
std::size_t place_of(const std::string& word, std::span<const std::string_view> known,
                     const char* option, const char* what, const std::string& known_words) {
  const auto found = std::ranges::find(known, word);
  if (found != known.end()) return static_cast<std::size_t>(found - known.begin());
  const std::string guess = plan::did_you_mean(word, known);
  throw UsageError(fmt::format("--{} {}: no such {}{}{} {}", option, word, what,
                               guess.empty() ? "." : "; ", guess, known_words));
}

/// The kinds that an option's lists name, each once; all of them, which is none, where one of the
/// words is `all`.
std::vector<plan::MishapKind> kinds_of(const std::vector<std::string>& lists, const char* option,
                                       const char* all = nullptr) {
  const auto kinds = plan::texts(plan::mishap_words);
  std::vector<std::string_view> known(kinds.begin(), kinds.end());
  if (all != nullptr) known.emplace_back(all);
  std::vector<plan::MishapKind> out;
  bool everything = false;
  for (const std::string& list : lists) {
    for (const std::string& word : between_commas(list)) {
      const std::size_t index =
          place_of(word, known, option, "kind of mishap",
                   fmt::format("Kinds are {}{}", plan::one_of(kinds),
                               all != nullptr ? fmt::format("; {} is all of them", all) : ""));
      everything = everything || index == kinds.size();
      if (index == kinds.size()) continue;
      const plan::MishapKind kind = plan::mishap_words.at(index).value;
      if (std::ranges::find(out, kind) == out.end()) out.push_back(kind);
    }
  }
  if (everything) out.clear();
  return out;
}

/// The parts of the card that an option's lists name.
report::CardParts parts_of(const std::vector<std::string>& lists) {
  const auto parts = plan::texts(report::card_part_words);
  std::vector<std::string_view> known(parts.begin(), parts.end());
  known.emplace_back("all");
  report::CardParts out;
  for (const std::string& list : lists) {
    for (const std::string& word : between_commas(list)) {
      const std::size_t index =
          place_of(word, known, "with", "part of the card",
                   fmt::format("Parts are {}; all is all of them", plan::one_of(parts)));
      for (std::size_t p = 0; p < parts.size(); ++p) {
        if (p == index || index == parts.size()) out.*report::card_part_words.at(p).value = true;
      }
    }
  }
  return out;
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
    options.only = kinds_of(values["only"].as<std::vector<std::string>>(), "only");
  }
  if (values.count("days") > 0) options.days = days_of(values["days"].as<std::string>());
  if (values.count("jobs") > 0) options.jobs = jobs_of(values["jobs"].as<std::string>());
}

/// A share such as 5% or ±0.5 %, of more than nothing and at most all.
double share_of(std::string text, const char* option, const char* example) {
  const std::string given = text;
  for (const std::string_view sign : {"±", "+-"}) {
    if (text.starts_with(sign)) text.erase(0, sign.size());
  }
  const auto share = units::parse(text, units::Kind::fraction);
  if (!share || text.find('%') == std::string::npos || *share <= 0 || *share > 1) {
    throw UsageError(
        fmt::format("--{} {}: expected a share in percent, as in {}: more than 0 and at most 100 %",
                    option, given, example));
  }
  return *share;
}

void read_odds(const po::variables_map& values, CommonOptions& options) {
  constexpr std::uint64_t most_trips = 10'000'000;
  constexpr std::uint64_t any = std::numeric_limits<std::uint64_t>::max();
  const auto text = [&](const char* option) { return values[option].as<std::string>(); };
  const auto number = [&](const char* option, std::uint64_t least, std::uint64_t most) {
    return whole_number(text(option), option, least, most);
  };
  if (values.count("trips") > 0) options.odds.trips = number("trips", 1, most_trips);
  if (values.count("seed") > 0) options.odds.seed = number("seed", 0, any);
  if (values.count("until") > 0) options.odds.until = share_of(text("until"), "until", "±0.5%");
  if (values.count("at-most") > 0) options.at_most = share_of(text("at-most"), "at-most", "5%");
  if (values.count("trip") > 0) options.trip = number("trip", 0, any);
  if (values.count("worst") > 0) {
    constexpr std::uint64_t most_worst = 1000;
    options.odds.worst = static_cast<int>(number("worst", 1, most_worst));
  }
  options.show_sources = values.count("show-sources") > 0;
  if (options.odds.until && values.count("trips") > 0) {
    throw UsageError("--until and --trips contradict: --until runs as many trips as it takes");
  }
  for (const char* other : {"chart", "trips", "until", "at-most", "worst"}) {
    if (values.count(other) == 0) continue;
    if (options.trip) {
      throw UsageError(
          fmt::format("--trip with --{}: that is of all trips, and not of one", other));
    }
    if (options.show_sources) {
      throw UsageError(fmt::format("--show-sources with --{}: nothing is run then", other));
    }
  }
  if (options.trip && options.show_sources) {
    throw UsageError("--show-sources with --trip: nothing is run then");
  }
  if (options.show_sources && options.format != Format::table) {
    throw UsageError("--show-sources: it is text alone, without --format");
  }
}

/// Where the plan is read from: standard input may be a file too.
std::string source_of(const CommonOptions& options) {
  return options.plan_is_typed ? "/dev/stdin" : options.plan_path;
}

std::string write_of(const std::string& path, const CommonOptions& options) {
  if (path == "-") {
    throw UsageError(fmt::format("--write {}: expected the name of a file", path));
  }
  if (same_file(path, source_of(options))) {
    throw UsageError(fmt::format("--write {}: that is the plan itself", path));
  }
  if (!options.output.empty() && same_file(path, options.output)) {
    throw UsageError(fmt::format("--write {}: --output goes there", path));
  }
  if (!options.overrides.empty()) {
    throw UsageError(
        "--write with --set: the file would not have the change; make it in the plan first");
  }
  return path;
}

/// The file that a chart goes to, which no other result may go to.
std::string chart_of(const std::string& path, const CommonOptions& options) {
  if (!picture_form(path)) {
    throw UsageError(
        fmt::format("--chart {}: expected a file whose name ends in {}", path, picture_endings));
  }
  if (same_file(path, source_of(options))) {
    throw UsageError(fmt::format("--chart {}: that is the plan itself", path));
  }
  if (!options.output.empty() && same_file(path, options.output)) {
    throw UsageError(fmt::format("--chart {}: --output goes there", path));
  }
  if (!options.write.empty() && same_file(path, options.write)) {
    throw UsageError(fmt::format("--chart {}: --write goes there", path));
  }
  return path;
}

void read_card(const po::variables_map& values, CommonOptions& options) {
  if (options.output.empty()) {
    throw UsageError(fmt::format(
        "a card goes into a file: add --output trip.pdf, or another name that ends in {}",
        picture_endings));
  }
  if (!picture_form(options.output)) {
    throw UsageError(fmt::format("--output {}: expected a file whose name ends in {}",
                                 options.output, picture_endings));
  }
  options.paper = choose<drawing::Paper, 2>(values["paper"].as<std::string>(), "paper",
                                            {{{"a4", drawing::a4}, {"letter", drawing::letter}}});
  if (values.count("with") > 0) {
    if (picture_form(options.output) == PictureForm::html) {
      throw UsageError("--with: parts are printed with the sheet; a page for a telephone has none");
    }
    options.with = parts_of(values["with"].as<std::vector<std::string>>());
  }
}

void read_size(const po::variables_map& values, CommonOptions& options) {
  if (values.count("least") > 0) {
    options.least_cost = choose<bool, 2>(values["least"].as<std::string>(), "least",
                                         {{{"mass", false}, {"cost", true}}});
  }
  if (values.count("survive") > 0) {
    options.survive =
        kinds_of(values["survive"].as<std::vector<std::string>>(), "survive", "mishap");
  }
  if (values.count("keep") > 0) options.keep = values["keep"].as<std::vector<std::string>>();
  options.confirmed_only = values.count("confirmed-only") > 0;
  if (values.count("write") > 0) {
    options.write = write_of(values["write"].as<std::string>(), options);
  }
}

void read_start(const po::variables_map& values, CommonOptions& options) {
  for (const start::Question& question : start::questions) {
    const std::string option(question.option());
    if (values.count(option) > 0) options.given[option] = values[option].as<std::string>();
  }
  options.defaults = values.count("defaults") > 0;
  options.ask = values.count("ask") > 0;
  options.full = values.count("full") > 0;
  if (values.count("kit") > 0) options.kit = values["kit"].as<std::string>();
  if (options.defaults && options.ask) throw UsageError("--defaults and --ask contradict");
}

void read_reading(const po::variables_map& values, CommonOptions& options) {
  for (const ReadingOption& option : reading_options) {
    if (values.count(option.name) == 0) continue;
    for (const std::string& value : values[option.name].as<std::vector<std::string>>()) {
      options.readings.push_back({.option = &option, .value = value});
    }
  }
  for (const ChangeOption& option : change_options) {
    if (values.count(option.name) == 0) continue;
    for (const std::string& value : values[option.name].as<std::vector<std::string>>()) {
      options.changes.push_back({.option = &option, .value = value});
    }
  }
  options.ask = values.count("ask") > 0;
  options.as_planned = values.count("as-planned") > 0;
  options.write_plan = values.count("write") > 0;
  options.finish = values.count("finish") > 0;
  if (options.plan_is_typed && options.write_plan) {
    throw UsageError(
        "--write: the plan comes from standard input, so there is no file to write it into; name "
        "the plan's file in place of -");
  }
  if (options.plan_is_typed && options.ask) {
    throw UsageError(
        "--ask: the plan comes from standard input, so no answers can; name the plan's file in "
        "place of -");
  }
  if (options.ask && !options.readings.empty()) {
    throw UsageError("--ask asks for all that is found: leave the other options out");
  }
  if (options.write_plan && !options.overrides.empty()) {
    throw UsageError(
        "--write with --set: the file would not have the change; make it in the plan first");
  }
}

/// So that nobody waits for an answer that goes nowhere.
void refuse_nameless(const po::variables_map& values, const Takes& takes) {
  for (const std::string option : {"output", "chart", "write", "kit"}) {
    // That of resume has no name.
    if (values.count(option) == 0 || (option == "write" && !takes.size)) continue;
    if (!values[option].as<std::string>().empty()) continue;
    throw UsageError(
        fmt::format("--{}: expected the name of a file, and this one is empty{}", option,
                    option == "output" ? "; without --output it goes to standard output" : ""));
  }
}

/// What to read a plan from: a file, or with "-" standard input.
void read_plan_path(const std::string& given, CommonOptions& options) {
  options.plan_is_typed = given == "-";
  options.plan_path = options.plan_is_typed ? "standard input" : given;
}

CommonOptions read(const po::variables_map& values, const Takes& takes) {
  CommonOptions options;
  options.help = values.count("help") > 0;
  if (options.help) return options;
  refuse_nameless(values, takes);
  options.force = values.count("force") > 0;
  const auto plans = values.count("plan") > 0 ? values["plan"].as<std::vector<std::string>>()
                                              : std::vector<std::string>{};
  if (takes.argument != nullptr && plans.size() == 1) {
    options.argument = plans.front();
  } else if (!takes.plan && !plans.empty()) {
    throw UsageError(fmt::format("no plan is wanted here, but there is {}", plans.front()));
  }
  if (takes.plan && plans.size() != 1) {
    throw UsageError(plans.empty() ? "expected a plan file, as in drystage run trip.yaml"
                                   : fmt::format("expected one plan file, not {}", plans.size()));
  }
  if (takes.plan) read_plan_path(plans.front(), options);
  if (values.count("set") > 0) {
    for (const std::string& text : values["set"].as<std::vector<std::string>>()) {
      options.overrides.push_back(override_of(text));
    }
  }
  if (values.count("output") > 0) options.output = values["output"].as<std::string>();
  std::error_code unknown_file;
  if (!options.output.empty() && options.output != "-" &&
      std::filesystem::equivalent(options.output, source_of(options), unknown_file)) {
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
  if (takes.start) read_start(values, options);
  if (!takes.plan) return options;
  const auto color = choose<Color, 3>(
      values["color"].as<std::string>(), "color",
      {{{"auto", Color::automatic}, {"always", Color::always}, {"never", Color::never}}});
  options.color =
      options.output.empty() ? wants_color(color, STDOUT_FILENO) : color == Color::always;
  options.color_errors = wants_color(color, STDERR_FILENO);
  options.wide = values.count("wide") > 0;
  options.all = options.wide || values.count("all") > 0;
  if (values.count("weather") > 0) {
    options.weather = choose<plan::Spell, 3>(
        values["weather"].as<std::string>(), "weather",
        {{{"usual", plan::Spell::usual}, {"hot", plan::Spell::hot}, {"dull", plan::Spell::dull}}});
  }
  read_mishaps(values, options);
  if (takes.odds) read_odds(values, options);
  if (takes.confidence) options.confidence = confidence_of(values);
  if (takes.size) read_size(values, options);
  if (values.count("chart") > 0) {
    if (options.confidence) {
      throw UsageError(
          "--chart with --confidence: the chart is of what more margin weighs, and that is not "
          "asked then");
    }
    options.chart = chart_of(values["chart"].as<std::string>(), options);
  }
  if (takes.reading) read_reading(values, options);
  if (takes.card) read_card(values, options);
  return options;
}

/// Where a unit stands apart from its number, and so counts as a plan: "5 %" as two words.
std::string apart_words(const std::vector<std::string>& words) {
  for (std::size_t i = 1; i < words.size(); ++i) {
    const std::string number = words[i - 1].substr(words[i - 1].find_last_of('=') + 1);
    if (number.empty() || !units::is_digit(number.back()) || words[i].starts_with('-')) continue;
    std::error_code unknown_file;
    if (std::filesystem::exists(words[i], unknown_file)) continue;
    const std::string joined = number + " " + words[i];
    for (std::size_t kind = 0; kind < units::kind_count; ++kind) {
      if (!units::parse(joined, static_cast<units::Kind>(kind))) continue;
      return fmt::format(
          "{} and {} came as two words: write {}{} as one, or put quotes around both, as in "
          "\"{}\"",
          number, words[i], number, words[i], joined);
    }
  }
  return {};
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

bool same_file(const std::string& a, const std::string& b) {
  std::error_code unknown_file;
  if (std::filesystem::equivalent(a, b, unknown_file)) return true;
  const auto whole = [&unknown_file](const std::string& path) {
    return std::filesystem::weakly_canonical(std::filesystem::absolute(path), unknown_file);
  };
  return whole(a) == whole(b);
}

std::vector<std::string> between_commas(std::string_view list) {
  std::vector<std::string> words;
  while (true) {
    const std::size_t comma = std::min(list.find(','), list.size());
    words.emplace_back(list.substr(0, comma));
    if (comma == list.size()) return words;
    list.remove_prefix(comma + 1);
  }
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
  if (const std::string apart = apart_words(words); takes.plan && !apart.empty()) {
    throw UsageError(apart);
  }
  return read(values, takes);
}

}  // namespace drystage::cli
