#include <fmt/core.h>

#include "answers/base/plan_run.h"
#include "answers/mishaps/mishaps.h"
#include "commands.h"
#include "draw.h"
#include "interrupt.h"
#include "load.h"
#include "output.h"
#include "report/mishaps/report.h"
#include "threads.h"
#include "watched.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::MishapsAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::mishaps_csv(answer);
    case Format::json:
      return report::mishaps_json(answer);
    case Format::table:
      break;
  }
  return report::mishaps_text(
      answer,
      {.color = options.color, .all = options.all, .wide = options.wide, .system = options.system});
}

/// The days that were asked for, counted from 0. Throws UsageError when the trip has no such day.
std::optional<std::pair<int, int>> days_of(const CommonOptions& options, std::size_t trip_days) {
  if (!options.days) return std::nullopt;
  const auto [first, last] = *options.days;
  if (static_cast<std::size_t>(last) > trip_days) {
    throw UsageError(
        fmt::format("--days {}: the trip has {} {}",
                    first == last ? fmt::format("{}", first) : fmt::format("{}-{}", first, last),
                    trip_days, trip_days == 1 ? "day" : "days"));
  }
  return std::pair{first - 1, last - 1};
}

void search(report::MishapsAnswer& answer) {
  const Interrupt interrupt;
  answer.sweep = watched("Mishaps", [&](const answers::Watch& watch) {
    return answers::sweep_mishaps(answer.planned, answer.narrowed, watch);
  });
  if (!answer.two || answer.sweep.partial() || Interrupt::flag()->load()) return;
  answer.pairs = watched("Pairs", [&](const answers::Watch& watch) {
    return answers::sweep_pairs(answer.planned, answer.narrowed, answer.sweep, watch);
  });
}

}  // namespace

ExitStatus mishaps_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  if (options.two && options.format == Format::csv) {
    throw UsageError("--two --format csv: pairs are in the table and in json");
  }
  report::MishapsAnswer answer;
  answer.narrowed = {.only = options.only, .days = days_of(options, loaded->timeline->days.size())};
  answer.two = options.two;
  const Threads threads(options);
  answer.planned = answers::run_plan(loaded->plan, loaded->timeline);
  search(answer);
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_result(text_of(answer, options), options.output);
  if (!options.chart.empty()) {
    answer.warnings = loaded->warnings;
    write_chart(options.chart, answer, options.system);
  }
  return report::survives_any_one(answer) && !report::partial(answer) ? holds : fails;
}

}  // namespace drystage::cli
