#include "report/charts/run_chart.h"

#include <string>
#include <utility>

#include "answers/base/levels.h"
#include "report/charts/level_chart.h"
#include "report/charts/picture.h"
#include "report/charts/style.h"
#include "report/run/spell_words.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"

namespace drystage::report {

drawing::Drawing run_chart(const RunAnswer& answer, units::System system) {
  constexpr double gap_pt = 8;
  const drawing::Typesetter typesetter;
  const answers::Trial& trial = answer.trial;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, trial);
  std::string verdict = verdict_words(trial, answer.without_unconfirmed, system, answer.spells);
  if (answer.shown) verdict = in_spell_words(std::move(verdict), *answer.shown);
  write(flow, typesetter, verdict, heading_font);
  if (answer.shown) write(flow, typesetter, shown_spell_words(*answer.shown, system), body_font);
  if (answer.spells) {
    for (const answers::SpellFinding& finding : answer.spells->found) {
      write(flow, typesetter, spell_words(trial, finding, system), body_font);
    }
  }
  if (!trial.verdict.holds) write(flow, typesetter, others_words(trial, system), body_font);
  write(flow, typesetter, without_unconfirmed_words(trial, answer.without_unconfirmed, system),
        body_font);
  write_warnings(flow, typesetter, answer.warnings);
  flow.add(drawing::space(gap_pt));
  flow.add(level_charts(typesetter, trial, answers::levels(trial), nullptr, picture.column_pt(),
                        system));
  write_cautions(flow, typesetter);
  return {.title = trial.plan.trip.title, .pages = flow.pages(typesetter, {})};
}

}  // namespace drystage::report
