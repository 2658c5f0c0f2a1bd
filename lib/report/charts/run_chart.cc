#include <string>
#include <utility>
#include <vector>

#include "answers/base/levels.h"
#include "report/charts/charts.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/charts/trip_line.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"

namespace drystage::report {

drawing::Drawing run_chart(const RunAnswer& answer, units::System system) {
  constexpr double gap_pt = 8;
  const drawing::Typesetter typesetter;
  const answers::PlanRun& planned = answer.planned;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, planned);
  std::string verdict = verdict_words(planned, answer.without_unconfirmed, system, answer.spells);
  if (answer.shown) verdict = in_spell_words(std::move(verdict), *answer.shown);
  write(flow, typesetter, verdict, heading_font);
  if (answer.shown) write(flow, typesetter, shown_spell_words(*answer.shown, system), body_font);
  if (answer.spells) {
    for (const answers::SpellFinding& finding : answer.spells->found) {
      write(flow, typesetter, spell_words(planned, finding, system), body_font);
    }
  }
  if (!planned.verdict.holds) write(flow, typesetter, others_words(planned, system), body_font);
  write(flow, typesetter, without_unconfirmed_words(planned, answer.without_unconfirmed, system),
        body_font);
  write_warnings(flow, typesetter, answer.warnings);
  const TripLine line = trip_line(*planned.course.timeline);
  const answers::Levels levels = answers::levels(planned);
  const auto add = [&](const char* heading, const std::vector<drawing::Block>& chart) {
    if (chart.empty()) return;
    flow.add(drawing::space(gap_pt));
    write(flow, typesetter, heading, part_font);
    flow.add(chart);
  };
  add("What decides, day by day", decides_chart(typesetter, planned, line));
  write(flow, typesetter, "Nearest to its margin: " + decides_words(planned), body_font, 2);
  write(flow, typesetter,
        "Room: what is left above the margin, of all that can be held above it. Of cold: how far "
        "below its margin, of the way down to the set point (with ice: 0 °C).",
        body_font);
  add("Day by day", time_chart(typesetter, planned, line, levels, system));
  add("Along the way", distance_chart(typesetter, planned, line, levels, system));
  if (line.total_km() > 0) {
    write(flow, typesetter, "Straight down: used while nobody drives. Straight up: taken on.",
          body_font);
  }
  write_cautions(flow, typesetter);
  return {.title = planned.plan.trip.title, .pages = flow.pages(typesetter, {})};
}

}  // namespace drystage::report
