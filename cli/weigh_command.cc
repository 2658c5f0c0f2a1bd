#include "answers/base/plan_run.h"
#include "answers/weigh/weighing.h"
#include "commands.h"
#include "draw.h"
#include "load.h"
#include "output.h"
#include "progress.h"
#include "report/weigh/report.h"

namespace drystage::cli {
namespace {

std::string text_of(const report::WeighAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::weigh_csv(answer);
    case Format::json:
      return report::weigh_json(answer);
    case Format::table:
      break;
  }
  return report::weigh_text(
      answer,
      {.color = options.color, .all = options.all, .wide = options.wide, .system = options.system});
}

}  // namespace

ExitStatus weigh_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  report::WeighAnswer answer;
  std::optional<WaitingLine> waiting("Weighing");
  answer.planned = answers::run_plan(loaded->plan, loaded->timeline);
  answer.weighing = answers::weigh(answer.planned);
  waiting.reset();
  // On the terminal they stand above; a sheet that is taken along must have them too.
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_result(text_of(answer, options), options.output);
  if (!options.chart.empty()) {
    answer.warnings = loaded->warnings;
    write_chart(options.chart, answer, options.system);
  }
  return answer.weighing.over.empty() ? holds : fails;
}

}  // namespace drystage::cli
