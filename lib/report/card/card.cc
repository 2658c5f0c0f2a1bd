#include "report/card/card.h"

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/back.h"
#include "report/card/front.h"
#include "report/card/home.h"
#include "report/card/isolated.h"
#include "report/card/notes.h"
#include "report/card/pieces.h"

namespace drystage::report {

namespace {

/// The title and, not cut for its sake, where the plan came from.
std::string foot(const drawing::Typesetter& typesetter, const CardAnswer& answer,
                 const drawing::Paper& paper) {
  const std::string& title = answer.needs.trial.plan.trip.title;
  if (answer.source.empty()) return title;
  constexpr double share = 0.4;
  return typesetter.shortened(title, body_font, share * paper.column_pt()) + " \u00B7 " +
         isolated(answer.source);
}

}  // namespace

drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  write_front(flow, typesetter, answer, system);
  flow.new_page();
  write_back(flow, typesetter, answer, system);
  // Printed on both sides, the part to leave at home is a sheet of its own.
  if (flow.pages(typesetter, {}).size() % 2 != 0) write_notes(flow, typesetter);
  flow.new_page();
  write_home(flow, typesetter, answer, system);
  const std::string& title = answer.needs.trial.plan.trip.title;
  return {.title = title, .pages = flow.pages(typesetter, foot(typesetter, answer, paper))};
}

}  // namespace drystage::report
