#include <unistd.h>

#include <cstdlib>
#include <utility>

#include "answers/base/plan_run.h"
#include "answers/mishaps/spell.h"
#include "answers/offers/mend.h"
#include "commands.h"
#include "draw.h"
#include "load.h"
#include "output.h"
#include "progress.h"
#include "report/run/report.h"
#include "sparklines.h"

namespace drystage::cli {
namespace {

bool shows_sparklines(const CommonOptions& options) {
  if (!options.all || !options.output.empty()) return false;
  return wants_sparklines(isatty(STDOUT_FILENO) == 1, std::getenv("TERM"),
                          {.all = std::getenv("LC_ALL"),
                           .ctype = std::getenv("LC_CTYPE"),
                           .lang = std::getenv("LANG")});
}

std::string text_of(const report::RunAnswer& answer, const CommonOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::run_csv(answer);
    case Format::json:
      return report::run_json(answer);
    case Format::table:
      break;
  }
  return report::run_text(answer, {.color = options.color,
                                   .all = options.all,
                                   .wide = options.wide,
                                   .system = options.system,
                                   .sparklines = shows_sparklines(options)});
}

}  // namespace

ExitStatus run_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  report::RunAnswer answer;
  std::optional<WaitingLine> waiting("Running");
  answer.planned = answers::run_plan(loaded->plan, loaded->timeline);
  answers::Spells spells = answers::try_spells(answer.planned);
  const plan::Spell weather = options.weather.value_or(loaded->plan.trip.weather);
  if (const answers::SpellFinding* shown = spells.of(weather)) {
    answer.shown = *shown;
    answer.planned = answers::in_spell(answer.planned, *shown);
  } else {
    answer.spells = std::move(spells);
  }
  answer.without_unconfirmed = answers::without_unconfirmed(answer.planned);
  answer.mend = answers::smallest_mend(answer.planned);
  waiting.reset();
  // On the terminal they stand above; a sheet that is taken along must have them too.
  if (!options.output.empty() || options.format == Format::json) answer.warnings = loaded->warnings;
  write_result(text_of(answer, options), options.output);
  if (!options.chart.empty()) {
    answer.warnings = loaded->warnings;
    write_chart(options.chart, answer, options.system);
  }
  return answer.planned.verdict.holds ? holds : fails;
}

}  // namespace drystage::cli
