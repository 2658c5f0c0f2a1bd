#include <cstdio>

#include "answers/base/plan_run.h"
#include "answers/odds/odds.h"
#include "answers/odds/trip_runner.h"
#include "commands.h"
#include "draw.h"
#include "interrupt.h"
#include "load.h"
#include "output.h"
#include "report/odds/report.h"
#include "report/run/report.h"
#include "threads.h"
#include "watched.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::OddsAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::odds_csv(answer);
    case Format::json:
      return report::odds_json(answer);
    case Format::table:
      break;
  }
  return report::odds_text(
      answer,
      {.color = options.color, .all = options.all, .wide = options.wide, .system = options.system});
}

/// One trip as `run` shows a plan.
ExitStatus show_trip(const answers::PlanRun& planned, const Loaded& loaded,
                     const CommonOptions& options) {
  const answers::TripGround ground(planned);
  const answers::TripDraw draw = answers::TripDraws(planned, options.odds.seed).draw(*options.trip);
  answers::TripRunner::Replay replay = answers::TripRunner(ground).replay(draw);
  report::RunAnswer answer;
  answer.seeks_mend = false;
  answer.planned.plan = *replay.laid.plan;
  answer.planned.course = *replay.laid.course;
  answer.planned.record = std::move(replay.record);
  answer.planned.learned = planned.learned;
  answer.planned.verdict = answers::verdict(answer.planned.course, answer.planned.record);
  answer.drawn =
      report::drawn_trip(planned, draw, replay.happened, *options.trip, options.odds.seed,
                         options.format == Format::json ? units::System::metric : options.system);
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded.warnings;
  std::string text;
  if (options.format == Format::json) {
    text = report::run_json(answer);
  } else if (options.format == Format::csv) {
    text = report::run_csv(answer);
  } else {
    text = report::run_text(answer, {.color = options.color,
                                     .all = options.all,
                                     .wide = options.wide,
                                     .system = options.system});
  }
  write_result(text, options.output);
  return answer.planned.verdict.holds ? holds : fails;
}

}  // namespace

ExitStatus odds_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  if (options.show_sources) {
    write_result(report::sources_text(loaded->plan), options.output);
    return holds;
  }
  const Threads threads(options);
  report::OddsAnswer answer;
  answer.planned = answers::run_plan(loaded->plan, loaded->timeline);
  if (options.trip) return show_trip(answer.planned, *loaded, options);
  answer.at_most = options.at_most;
  answer.told_worst = options.odds.worst;
  {
    const Interrupt interrupt;
    answer.odds = watched("Odds", [&](const answers::Watch& watch) {
      return answers::odds_of(answer.planned, options.odds, watch);
    });
  }
  if (answer.odds.trips == 0) {
    std::fputs("drystage: stopped before a trip was run: nothing is known yet\n", stderr);
    return fails;
  }
  // On the terminal they stand above; a sheet that is taken along must have them too.
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_result(text_of(answer, options), options.output);
  if (!options.chart.empty()) {
    answer.warnings = loaded->warnings;
    write_chart(options.chart, answer, options.system);
  }
  return report::odds_accepted(answer) ? holds : fails;
}

}  // namespace drystage::cli
