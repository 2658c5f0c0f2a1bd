#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <iostream>
#include <stdexcept>
#include <string_view>

#include "answers/resume/lessons.h"
#include "answers/resume/resume.h"
#include "ask_reading.h"
#include "commands.h"
#include "engine/route_point.h"
#include "engine/timeline.h"
#include "load.h"
#include "output.h"
#include "own_file.h"
#include "plan/write_observed.h"
#include "plan/write_reading.h"
#include "progress.h"
#include "reading_options.h"
#include "report/resume/report.h"
#include "threads.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::ResumeAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::resume_csv(answer);
    case Format::json:
      return report::resume_json(answer);
    case Format::table:
      break;
  }
  return report::resume_text(
      answer, {.color = options.color, .all = options.all, .system = options.system});
}

/// A change alone needs no reading: then they are where the plan has them.
void say_where(std::vector<GivenReading>& given, const plan::Plan& before) {
  const bool evening_alone =
      given.size() == 1 && std::string_view(given.front().option->name) == "evening";
  if (!evening_alone) return;
  const engine::Timeline timeline = engine::lay_timeline(before);
  const auto day = static_cast<std::size_t>(day_of(given, before));
  if (!timeline.problems.empty() || day >= timeline.days.size()) return;
  const int place = engine::place_at(timeline.days[day].schedule.to);
  if (place < 0) return;
  const auto* const where = std::ranges::find_if(reading_options, [](const ReadingOption& option) {
    return std::string_view(option.name) == "at";
  });
  given.push_back({.option = where, .value = before.places[at(place)].name});
}

/// The reading that was given: the one that the plan does not have as it is. Null: none.
const plan::Reading* given_reading(const plan::Plan& with, const plan::Plan& before) {
  const auto is_new = [&](const plan::Reading& reading) {
    return std::ranges::none_of(before.readings, [&](plan::Reading other) {
      other.mark = reading.mark;
      return other == reading;
    });
  };
  const auto found = std::ranges::find_if(with.readings, is_new);
  return found == with.readings.end() ? nullptr : &*found;
}

/// Writes what was given into the plan's own file. `day`: of the changes, from 0.
void write_plan(const Loaded& loaded, const plan::Plan& before, int day,
                const CommonOptions& options) {
  std::string text = loaded.reading.source;
  const plan::Reading* reading = given_reading(loaded.plan, before);
  if (reading == nullptr && options.changes.empty()) return;
  try {
    if (reading != nullptr) text = plan::with_reading(text, *reading, options.plan_path);
    for (const GivenChange& change : options.changes) {
      text = plan::with_change(text, change_members(change, day), options.plan_path);
    }
  } catch (const std::invalid_argument& error) {
    throw FileError(units::shown(options.plan_path) + ": not written: " + error.what());
  }
  write_result(text, options.plan_path);
  std::fputs(fmt::format("Wrote it into {}.\n", units::shown(options.plan_path)).c_str(), stderr);
}

/// Writes what the vehicles use into the file that has them: the plan's own, or one it includes.
void write_lessons(const Loaded& loaded, const answers::PlanRun& rest,
                   const CommonOptions& options) {
  std::vector<plan::FoundUse> uses;
  for (const answers::Lesson& lesson : answers::lessons(rest)) {
    if (!lesson.surface) continue;
    const engine::ReserveInfo& info = rest.course.reserves[at(lesson.reserve)];
    uses.push_back({.vehicle = rest.plan.vehicles[at(info.id.of)].name,
                    .surface = *lesson.surface,
                    .uses_l_km = lesson.planned * lesson.factor.factor,
                    .factor = lesson.factor.factor});
  }
  if (uses.empty()) return;
  std::vector<plan::SourceFile> files{{.name = options.plan_path, .text = loaded.reading.source}};
  files.insert(files.end(), loaded.reading.included.begin(), loaded.reading.included.end());
  std::string why;
  for (const plan::SourceFile& file : files) {
    try {
      const std::string text = plan::with_observed(file.text, uses);
      if (!options.force) spare_read_only("write", file.name);
      write_result(text, file.name);
      std::fputs(
          fmt::format("Wrote what the vehicles use into {}.\n", units::shown(file.name)).c_str(),
          stderr);
      return;
    } catch (const std::invalid_argument& error) {
      why = error.what();
    }
  }
  throw FileError(units::shown(options.plan_path) + ": not written: " + why);
}

}  // namespace

ExitStatus resume_command(const CommonOptions& options) {
  CommonOptions with = options;
  plan::ReadPlan before = read_plan(options, options.overrides);
  std::vector<GivenReading> given = options.readings;
  const bool asks = options.ask || (given.empty() && !options.finish && !options.plan_is_typed &&
                                    isatty(STDIN_FILENO) == 1);
  if (!before.plan) {
    tell(before, options);
    return wrong;
  }
  if (asks) {
    auto said = ask_reading(before, options, std::cin, std::cerr);
    if (!said) {
      std::fputs("drystage: ended; nothing was written\n", stderr);
      return fails;
    }
    given = std::move(*said);
  }
  if (given.empty() && before.plan->readings.empty()) {
    throw UsageError(
        "nothing was read yet: say what you found, as in --evening 6 --drinking 85L --fuel 139L, "
        "or put \"readings\" into the plan");
  }
  if (!options.changes.empty()) say_where(given, *before.plan);
  if (!given.empty()) {
    for (plan::Override& one : reading_overrides(given, *before.plan)) {
      with.overrides.push_back(std::move(one));
    }
  }
  for (const GivenChange& change : options.changes) {
    with.overrides.push_back(change_override(change, day_of(given, *before.plan)));
  }
  const std::optional<Loaded> loaded = load(with);
  if (!loaded) return wrong;
  const Threads threads(options);
  report::ResumeAnswer answer;
  std::optional<WaitingLine> waiting("Resuming");
  answer.resumed =
      answers::resume(loaded->plan, loaded->timeline,
                      options.as_planned ? answers::Rates::as_planned : answers::Rates::learned);
  answer.without_unconfirmed = answers::without_unconfirmed(answer.resumed.rest);
  waiting.reset();
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  if (options.finish) {
    write_result(options.format == Format::table
                     ? report::lessons_text(answer, {.system = options.system})
                     : text_of(answer, options),
                 options.output);
    if (options.write_plan) write_lessons(*loaded, answer.resumed.rest, options);
    return holds;
  }
  write_result(text_of(answer, options), options.output);
  if (options.write_plan) {
    write_plan(*loaded, *before.plan, day_of(given, *before.plan), options);
  }
  return answer.resumed.rest.verdict.holds ? holds : fails;
}

}  // namespace drystage::cli
