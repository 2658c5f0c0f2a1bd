#include "reading_options.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>

#include "plan/text_edit.h"
#include "plan/words.h"
#include "units/text.h"
#include "usage_error.h"

namespace drystage::cli {
namespace {

std::optional<std::string> value_of(const std::vector<GivenReading>& given, std::string_view name) {
  const auto is_it = [name](const GivenReading& one) { return one.option->name == name; };
  const auto found = std::find_if(given.rbegin(), given.rend(), is_it);
  if (found == given.rend()) return std::nullopt;
  return found->value;
}

std::optional<int> whole_number(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return number;
}

/// Which of the plan's readings is of the moment that is given.
std::optional<std::size_t> same_moment(const std::vector<GivenReading>& given,
                                       const plan::Plan& before) {
  const auto evening = value_of(given, "evening");
  if (!evening) return std::nullopt;
  const auto day = whole_number(*evening);
  for (std::size_t i = 0; day && i < before.readings.size(); ++i) {
    if (before.readings[i].in_the_evening && before.readings[i].day == *day - 1) return i;
  }
  return std::nullopt;
}

template <class Things>
std::vector<std::string> names(const Things& things) {
  std::vector<std::string> out;
  out.reserve(things.size());
  for (const auto& thing : things) out.push_back(thing.name);
  return out;
}

/// Whether an option is of vehicles: of the only one its name may be left out.
bool is_by_vehicle(std::string_view option) {
  return option == "fuel" || option == "spare-wheels" || option == "repairs";
}

/// What an option may name.
std::vector<std::string> things_of(std::string_view option, const plan::Plan& plan) {
  if (option == "container") return names(plan.water.containers);
  if (option == "battery") return names(plan.power.banks);
  if (option == "cabinet") return names(plan.cold);
  if (option == "consumable") return names(plan.consumables);
  if (is_by_vehicle(option)) return names(plan.vehicles);
  std::vector<std::string> out;
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    for (const plan::Tank& tank : vehicle.tanks) out.push_back(tank.name);
  }
  return out;
}

/// A name as a part of a path.
std::string path_part(const std::string& name) {
  const char quote = name.find('"') == std::string::npos ? '"' : '\'';
  return quote + name + quote;
}

plan::Override override_of(const GivenReading& one, const std::string& path,
                           const plan::Plan& plan) {
  const std::string said = fmt::format("--{} {}", one.option->name, one.value);
  const std::string key = path + "." + one.option->key;
  if (!one.option->of_things) {
    return {.path = key, .value = plan::yaml_text(one.value), .option = said};
  }
  // The last one: a name may have one in it, an amount never has.
  const std::size_t equals = one.value.rfind('=');
  std::string name;
  if (equals != std::string::npos) {
    name = units::tidy_blanks(one.value.substr(0, equals));
  } else {
    const std::vector<std::string> known = things_of(one.option->name, plan);
    const bool whole = is_by_vehicle(one.option->name) && known.size() == 1;
    if (whole) return {.path = key, .value = plan::yaml_text(one.value), .option = said};
    if (known.size() != 1) {
      throw UsageError(known.empty()
                           ? fmt::format("{}: the plan has no such thing", said)
                           : fmt::format("{}: of which one? Write --{} \"{}={}\". The plan has {}",
                                         said, one.option->name, known.front(), one.value,
                                         plan::one_of(known)));
    }
    name = known.front();
  }
  const std::string value = equals == std::string::npos ? one.value : one.value.substr(equals + 1);
  return {.path = key + "." + path_part(name),
          .value = plan::yaml_text(units::tidy_blanks(value)),
          .option = said};
}

}  // namespace

std::vector<plan::Override> reading_overrides(const std::vector<GivenReading>& given,
                                              const plan::Plan& before) {
  std::vector<plan::Override> out;
  const auto same = same_moment(given, before);
  const std::size_t index = same.value_or(before.readings.size());
  const std::string path = fmt::format("readings[{}]", index);
  if (!same) {
    const auto evening = value_of(given, "evening");
    out.push_back({.path = "readings[+]",
                   .value = "{}",
                   .option = evening ? "--evening " + *evening : "the options"});
  }
  for (const GivenReading& one : given) out.push_back(override_of(one, path, before));
  return out;
}

int day_of(const std::vector<GivenReading>& given, const plan::Plan& before) {
  for (const char* name : {"evening", "day"}) {
    // What is no number is told when the plan is read.
    if (const auto day = value_of(given, name)) {
      return std::max(1, whole_number(*day).value_or(1)) - 1;
    }
  }
  return before.readings.empty() ? 0 : before.readings.back().day;
}

std::vector<plan::NewMember> change_members(const GivenChange& change, int day) {
  return {{"day", std::to_string(day + 1)}, {change.option->key, plan::yaml_text(change.value)}};
}

plan::Override change_override(const GivenChange& change, int day) {
  std::string text;
  for (const plan::NewMember& member : change_members(change, day)) {
    text += (text.empty() ? "" : ", ") + member.key + ": " + member.value;
  }
  return {.path = "changes[+]",
          .value = "{" + text + "}",
          .option = fmt::format("--{} {}", change.option->name, change.value)};
}

}  // namespace drystage::cli
