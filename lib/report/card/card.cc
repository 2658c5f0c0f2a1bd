#include "report/card/card.h"

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/back.h"
#include "report/card/front.h"
#include "report/card/home.h"

namespace drystage::report {

drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(paper);
  write_front(flow, typesetter, answer, system);
  flow.new_page();
  write_back(flow, typesetter, answer, system);
  flow.new_page();
  write_home(flow, typesetter, answer, system);
  const std::string& title = answer.needs.trial.plan.trip.title;
  return {.title = title, .pages = flow.pages(typesetter, title)};
}

}  // namespace drystage::report
