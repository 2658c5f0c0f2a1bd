#include "report/charts/run_chart.h"

#include "answers/levels.h"
#include "report/charts/level_chart.h"
#include "report/charts/picture.h"
#include "report/charts/style.h"
#include "report/run_words.h"

namespace drystage::report {

drawing::Drawing run_chart(const RunAnswer& answer, units::System system) {
  constexpr double gap_pt = 8;
  const drawing::Typesetter typesetter;
  const answers::Trial& trial = answer.trial;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, trial);
  write(flow, typesetter, verdict_words(trial, answer.without_unconfirmed, system), heading_font);
  if (!trial.verdict.holds) write(flow, typesetter, others_words(trial), body_font);
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
