#include <cmath>

#include "report/card/pieces.h"
#include "report/card/writers.h"

namespace drystage::report {

void write_notes(const Sheet& sheet) {
  drawing::Flow& flow = sheet.flow;
  const drawing::Paper& paper = flow.paper();
  if (std::isinf(paper.height_pt)) return;
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

}  // namespace drystage::report
