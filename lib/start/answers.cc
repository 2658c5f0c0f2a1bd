#include "start/answers.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "plan/log.h"
#include "plan/values.h"
#include "units/coordinate.h"
#include "units/text.h"

namespace drystage::start {
namespace {

std::optional<double> read_one_of(plan::Log& log, const plan::Node& node, plan::Key key) {
  const auto words = key->value.words;
  const auto found = std::ranges::find(words, units::lower_ascii(node.text));
  if (found != words.end()) return static_cast<double>(found - words.begin());
  log.error({}, fmt::format("{}: {} is none of these", key->path, units::in_quotes(node.text)),
            plan::one_of(words), plan::did_you_mean(node.text, words));
  return std::nullopt;
}

std::optional<double> read(plan::Log& log, const plan::Node& node, plan::Key key) {
  const std::string_view name = key->path;
  switch (key->value.sort) {
    case plan::Sort::amount:
      if (key.ranges().front().kind) return plan::read_quantity(log, node, key, name);
      return plan::read_whole_number(log, node, key, name);
    case plan::Sort::word:
      return read_one_of(log, node, key);
    case plan::Sort::date:
      return plan::read_date(log, node, name) ? std::optional(0.0) : std::nullopt;
    case plan::Sort::latitude:
      return plan::read_coordinate(log, node, key, units::latitude);
    case plan::Sort::longitude:
      return plan::read_coordinate(log, node, key, units::longitude);
    default:
      return plan::read_text(log, node, name) ? std::optional(0.0) : std::nullopt;
  }
}

const Answer* find(const Answers& answers, std::string_view option) {
  const auto found = answers.find(option);
  return found == answers.end() ? nullptr : &found->second;
}

// What people use until the end and three days more, each day 5 L to drink and 3 L for all else
// (ours); nothing where it is not known how many they are.
std::optional<std::string> stores_for(const Question& question, const Answers& answers) {
  const Answer* people = find(answers, "people");
  const Answer* days = find(answers, "days");
  if (people == nullptr || days == nullptr) return std::nullopt;
  constexpr double spare_days = 3;
  const double all_days = days->number + spare_days;
  if (question.option() == "food") return fmt::format("{}", all_days);
  const bool drinking = question.option() == "drinking";
  const double step_l = drinking ? 20 : 10;
  const double volume_l =
      step_l * std::ceil(people->number * all_days * (drinking ? 5 : 3) / step_l);
  return fmt::format("{} L", std::min(volume_l, question.asked.value.ranges()[0].usual_high));
}

}  // namespace

Heard hear(const Question& question, std::string_view text) {
  plan::Log log;
  plan::Node node;
  node.kind = plan::Node::Kind::text;
  node.text = units::tidy_blanks(text);
  const plan::Key key(question.asked);
  if (key->value.sort == plan::Sort::word) node.text = units::lower_ascii(node.text);
  Heard heard;
  if (const auto number = read(log, node, key)) heard.answer = {node.text, *number};
  for (const plan::Diagnostic& found : log.take()) {
    heard.remarks.push_back(units::Problem{found.what, found.expected, found.hint}.line());
  }
  return heard;
}

bool Kit::has(std::string_view section) const {
  return std::ranges::find(sections, section) != sections.end();
}

bool arises(const Question& question, const Answers& answers, const Kit& kit) {
  if (kit.has(question.section)) return false;
  if (question.only_if.empty()) return true;
  const Answer* other = find(answers, question.only_if);
  return other != nullptr && other->number > 0;
}

std::string wording(const Question& question, const Answers& answers) {
  std::string made(question.asked.meaning);
  const auto words = question.asked.value.words;
  const Answer* latitude = find(answers, "latitude");
  if (words.empty()) return made;
  return made + " " +
         (words.data() == country_names.data() && latitude != nullptr
              ? plan::one_of(usual_countries(latitude->number))
              : plan::one_of(words));
}

std::string fallback_of(const Question& question, const Answers& answers) {
  std::string usual(question.asked.absent);
  if (question.option() == "country") {
    const Answer* latitude = find(answers, "latitude");
    const auto offered = usual_countries(latitude == nullptr ? 0 : latitude->number);
    const bool fits = std::ranges::find(offered, usual) != offered.end();
    if (latitude != nullptr && !offered.empty() && !fits) return offered.front();
  }
  if (question.option() == "rough") {
    const Answer* distance = find(answers, "distance");
    if (distance != nullptr && distance->number < hear(question, usual).answer->number) {
      return "0 km";
    }
  }
  if (question.option() == "drinking" || question.option() == "utility" ||
      question.option() == "food") {
    return stores_for(question, answers).value_or(usual);
  }
  if (question.option() == "limit") {
    // Common practice: loaded, such a vehicle weighs up to a third more than empty.
    const Answer* mass = find(answers, "mass");
    const double loaded_kg = mass == nullptr ? 0 : 100 * std::ceil(mass->number * 1.3 / 100);
    if (hear(question, usual).answer->number < loaded_kg) return fmt::format("{} kg", loaded_kg);
  }
  return usual;
}

std::vector<std::string> contradictions(const Answers& answers) {
  std::vector<std::string> found;
  const Answer* rough = find(answers, "rough");
  const Answer* distance = find(answers, "distance");
  if (rough != nullptr && distance != nullptr && rough->number > distance->number) {
    found.push_back(fmt::format("rough: {} of track is more than the whole way, {}", rough->text,
                                distance->text));
  }
  const Answer* mass = find(answers, "mass");
  const Answer* limit = find(answers, "limit");
  if (mass != nullptr && limit != nullptr && limit->number <= mass->number) {
    found.push_back(
        fmt::format("limit: {} is not more than the empty mass, {}", limit->text, mass->text));
  }
  const Answer* latitude = find(answers, "latitude");
  if (latitude == nullptr) return found;
  const auto offered = usual_countries(latitude->number);
  if (offered.empty()) {
    found.push_back(fmt::format("latitude: there is no usual weather for {}; expected 70° or less",
                                latitude->text));
    return found;
  }
  const Answer* country = find(answers, "country");
  if (country != nullptr && std::ranges::find(offered, country->text) == offered.end()) {
    found.push_back(fmt::format("country: {} is not usual at {}; expected {}", country->text,
                                latitude->text, plan::one_of(offered)));
  }
  return found;
}

Taken take_defaults(const Given& given, const Kit& kit) {
  Taken made{.answers = kit.known};
  bool wrong = false;
  for (const Question& question : questions) {
    const auto said = given.find(std::string(question.option()));
    if (kit.has(question.section)) continue;
    if (!wrong && !arises(question, *made.answers)) {
      if (said == given.end()) continue;
      made.remarks.push_back(fmt::format("{}: there is no {} to go with it; leave out --{}",
                                         question.option(), question.only_if, question.option()));
      wrong = true;
    }
    Heard heard =
        hear(question, said == given.end() ? fallback_of(question, *made.answers) : said->second);
    made.remarks.insert(made.remarks.end(), heard.remarks.begin(), heard.remarks.end());
    wrong = wrong || !heard.answer;
    if (heard.answer) (*made.answers)[question.option()] = std::move(*heard.answer);
  }
  if (wrong) made.answers.reset();
  return made;
}

}  // namespace drystage::start
