#include "report/card/card.h"

#include "report/card/isolated.h"
#include "report/card/pieces.h"
#include "report/card/writers.h"
#include "report/charts/level_chart.h"

namespace drystage::report {

namespace {

/// The title and, not cut for its sake, where the plan came from.
std::string foot(const drawing::Typesetter& typesetter, const CardAnswer& answer,
                 const drawing::Paper& paper) {
  const std::string& title = answer.needs.planned.plan.trip.title;
  if (answer.source.empty()) return title;
  constexpr double share = 0.4;
  return typesetter.shortened(title, body_font, share * paper.column_pt()) + " \u00B7 " +
         isolated(answer.source);
}

void write_charts(const Sheet& sheet) {
  sheet.flow.add(part_title(sheet.typesetter, "The levels, to plot readings in", sheet.width_pt()));
  sheet.flow.add(with_next(sentences(sheet.typesetter,
                                     "Tonight's reading goes on the line at the end of its day.",
                                     sheet.width_pt())));
  sheet.flow.add(level_charts(sheet.typesetter, sheet.planned(), sheet.answer.levels,
                              &sheet.answer.needs.needs, sheet.width_pt(), sheet.system));
}

/// One side of the sheet, in the largest type that has room on one page, else in the least.
void write_side(Sheet sheet, void (*write)(const Sheet&)) {
  for (const double size_pt : {8.5, 8.0}) {
    drawing::Flow alone(sheet.flow.paper());
    write({alone, sheet.typesetter, sheet.answer, sheet.system, size_pt});
    if (alone.pages(sheet.typesetter, {}).size() > 1) continue;
    sheet.small_pt = size_pt;
    break;
  }
  write(sheet);
}

}  // namespace

void write_notes(const Sheet& sheet) {
  drawing::Flow& flow = sheet.flow;
  const drawing::Paper& paper = flow.paper();
  constexpr double apart_pt = 8 * drawing::points_per_mm;
  constexpr double page_foot_pt = 20;  ///< of a page, with the space above it
  flow.new_page();
  drawing::Block title = part_title(sheet.typesetter, "Notes", paper.column_pt());
  double room_pt = paper.height_pt - 2 * paper.margin_pt - page_foot_pt - title.height_pt;
  flow.add(std::move(title));
  for (; room_pt >= apart_pt; room_pt -= apart_pt) {
    flow.add(drawing::Block{
        .height_pt = apart_pt,
        .marks = {drawing::line({.x = 0, .y = apart_pt}, {.x = paper.column_pt(), .y = apart_pt},
                                {.width_pt = 0.4})}});
  }
}

drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system,
                      const CardParts& with) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  const CardAnswer shown = with_isolated_names(answer);
  const Sheet sheet{flow, typesetter, shown, system};
  write_side(sheet, write_front);
  flow.new_page();
  write_side(sheet, write_back);
  flow.new_page();
  if (with.packing) write_packing_list(sheet);
  if (with.charts) write_charts(sheet);
  if (with.dips) write_dip_tables(sheet);
  if (with.notes) write_notes(sheet);
  if (with.home) {
    // Printed on both sides, it is to come off the rest.
    if (flow.pages(typesetter, {}).size() % 2 != 0) write_notes(sheet);
    flow.new_page();
    write_home(sheet);
  }
  const std::string& title = answer.needs.planned.plan.trip.title;
  return {.title = title, .pages = flow.pages(typesetter, foot(typesetter, answer, paper))};
}

}  // namespace drystage::report
