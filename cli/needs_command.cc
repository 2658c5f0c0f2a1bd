#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "commands.h"
#include "confidence.h"
#include "load.h"
#include "output.h"
#include "progress.h"
#include "report/needs/report.h"
#include "threads.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::NeedsAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::needs_csv(answer);
    case Format::json:
      return report::needs_json(answer);
    case Format::table:
      break;
  }
  return report::needs_text(
      answer,
      {.color = options.color, .all = options.all, .wide = options.wide, .system = options.system});
}

}  // namespace

ExitStatus needs_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  const Threads threads(options);
  report::NeedsAnswer answer;
  std::optional<WaitingLine> waiting("Needs");
  answer.planned = answers::run_plan(loaded->plan, loaded->timeline);
  answer.needs = answers::morning_needs(answer.planned);
  if (options.confidence) {
    waiting.reset();
    std::vector<answers::Leaving> none;
    answer.on_trips = raised(answer.needs, none, answer.planned, *options.confidence);
    waiting.emplace("Needs");
  }
  answer.turn_back = answers::turn_back_points(answer.planned);
  waiting.reset();
  // On the terminal they stand above; a sheet that is taken along must have them too.
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_result(text_of(answer, options), options.output);
  return answer.needs.met() ? holds : fails;
}

}  // namespace drystage::cli
