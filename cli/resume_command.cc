#include <fmt/core.h>
#include <unistd.h>

#include <cstdio>
#include <iostream>

#include "answers/resume/resume.h"
#include "ask_reading.h"
#include "commands.h"
#include "load.h"
#include "output.h"
#include "plan/write_reading.h"
#include "progress.h"
#include "reading_options.h"
#include "report/resume/report.h"
#include "threads.h"

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

/// Writes what was given into the plan's own file.
void write_plan(const Loaded& loaded, const CommonOptions& options, bool reading) {
  std::string text = loaded.reading.source;
  const int day = loaded.plan.readings.back().day;
  if (reading) text = plan::with_reading(text, loaded.plan.readings.back(), options.plan_path);
  for (const GivenChange& change : options.changes) {
    text = plan::with_change(text, change_members(change, day), options.plan_path);
  }
  write_result(text, options.plan_path);
  std::fputs(fmt::format("Wrote it into {}.\n", options.plan_path).c_str(), stderr);
}

}  // namespace

ExitStatus resume_command(const CommonOptions& options) {
  CommonOptions with = options;
  plan::ReadPlan before = plan::read_file(options.plan_path, options.overrides);
  std::vector<GivenReading> given = options.readings;
  const bool asks = options.ask || (given.empty() && isatty(STDIN_FILENO) == 1);
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
  write_result(text_of(answer, options), options.output);
  if (options.write_plan) write_plan(*loaded, options, !given.empty());
  return answer.resumed.rest.verdict.holds ? holds : fails;
}

}  // namespace drystage::cli
