#include <fmt/core.h>

#include <filesystem>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "answers/mishaps/spell.h"
#include "answers/onward/leaving.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "answers/onward/way_out.h"
#include "commands.h"
#include "confidence.h"
#include "load.h"
#include "output.h"
#include "picture.h"
#include "progress.h"
#include "report/card/card.h"
#include "report/page/page.h"
#include "threads.h"
#include "units/text.h"
#include "write_picture.h"

namespace drystage::cli {
namespace {

const char* outcome(const report::CardAnswer& answer) {
  if (!answer.needs.planned.verdict.holds) return "does not hold";
  if (answer.needs.on_trips && !answer.needs.needs.met()) {
    return "holds as planned, and has less than must have on the card";
  }
  const bool hopes = answer.without_unconfirmed && !answer.without_unconfirmed->holds;
  if (hopes) return "holds only if what nobody has confirmed is there";
  return answer.spells->break_something() ? "holds in usual weather" : "holds";
}

/// The plan's file, and what was changed in it: "trip.yaml, --set trip.start=2027-03-01".
std::string source_words(const CommonOptions& options) {
  std::string words = std::filesystem::path(options.plan_path).filename().string();
  for (const plan::Override& change : options.overrides) {
    words += ", --set " + change.path + "=" + change.value;
  }
  return units::shown(words);
}

/// Writes the card in the form that the file's name asks for. Answers what was written, in words.
std::string write_card(const report::CardAnswer& answer, const CommonOptions& options) {
  if (picture_form(options.output) == PictureForm::html) {
    write_result(report::card_page(answer, options.system), options.output);
    return "page for a telephone";
  }
  const drawing::Drawing pages = report::card(answer, options.paper, options.system, options.with);
  write_picture(options.output, pages);
  const std::size_t count = pages.pages.size();
  return fmt::format("{} {}", count, count == 1 ? "page" : "pages");
}

}  // namespace

ExitStatus card_command(const CommonOptions& options) {
  const std::optional<Loaded> loaded = load(options);
  if (!loaded) return wrong;
  const Threads threads(options);
  report::CardAnswer answer;
  std::optional<WaitingLine> waiting("Card");
  answer.needs.planned = answers::run_plan(loaded->plan, loaded->timeline);
  answer.needs.needs = answers::morning_needs(answer.needs.planned);
  answer.leavings = answers::leavings(answer.needs.planned);
  const answers::Needs as_planned = answer.needs.needs;
  if (options.confidence) {
    waiting.reset();
    answer.needs.on_trips =
        raised(answer.needs.needs, answer.leavings, answer.needs.planned, *options.confidence);
    waiting.emplace("Card");
  }
  answer.needs.turn_back = answers::turn_back_points(answer.needs.planned);
  answer.needs.warnings = loaded->warnings;
  answer.without_unconfirmed = answers::without_unconfirmed(answer.needs.planned);
  answer.spells = answers::try_spells(answer.needs.planned);
  answer.levels = answers::levels(answer.needs.planned);
  answer.ways_out = answers::ways_out(answer.needs.planned, as_planned);
  answers::raise_in_proportion(answer.ways_out, answer.needs.planned.course, as_planned,
                               answer.needs.needs);
  answer.source = source_words(options);
  const std::string written = write_card(answer, options);
  waiting.reset();
  write_result(
      fmt::format("{}: {}; the plan {}\n", units::shown(options.output), written, outcome(answer)),
      {});
  const bool enough = !answer.needs.on_trips || answer.needs.needs.met();
  return answer.needs.planned.verdict.holds && enough ? holds : fails;
}

}  // namespace drystage::cli
