#include "report/card/back.h"

#include "report/card/dip_tables.h"
#include "report/card/first_steps.h"
#include "report/card/packing_list.h"
#include "report/card/pieces.h"
#include "report/charts/level_chart.h"

namespace drystage::report {

void write_back(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const CardAnswer& answer, units::System system) {
  const double width = flow.paper().column_pt();
  write_first_steps(flow, typesetter, answer, system);
  flow.add(part_title(typesetter, "The levels, to plot readings in", width));
  flow.add(with_next(sentences(
      typesetter, "Tonight's reading goes on the line at the end of its day: midnight.", width)));
  flow.add(level_charts(typesetter, answer.needs.trial, answer.levels, &answer.needs.needs, width,
                        system));
  write_packing_list(flow, typesetter, answer, system);
  write_dip_tables(flow, typesetter, answer, system);
}

}  // namespace drystage::report
