#include "report/charts/picture.h"

#include <fmt/core.h>

#include "report/charts/style.h"
#include "report/text/capital.h"
#include "report/text/cautions.h"
#include "report/text/words.h"

namespace drystage::report {

void write(drawing::Flow& flow, const drawing::Typesetter& typesetter, const std::string& words,
           const drawing::Font& font, double gap_pt) {
  if (words.empty()) return;
  flow.add(drawing::paragraph(typesetter, words, font, flow.paper().column_pt()));
  flow.add(drawing::space(gap_pt));
}

void write_trip(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const answers::PlanRun& planned) {
  write(flow, typesetter, planned.plan.trip.title, title_font, 2);
  const std::size_t people = planned.plan.people.size();
  const std::vector<engine::DayInfo>& days = planned.course.timeline->days;
  std::string when = long_date(days.front().schedule.date);
  if (days.size() > 1) when += " to " + long_date(days.back().schedule.date);
  write(flow, typesetter,
        fmt::format("{} {}, {} {}: {}", people, people == 1 ? "person" : "people", days.size(),
                    days.size() == 1 ? "day" : "days", when),
        body_font);
}

void write_warnings(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const std::vector<std::string>& warnings) {
  for (const std::string& warning : warnings) {
    write(flow, typesetter, "Warning: " + warning + ".", body_font, 2);
  }
}

void write_remarks(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const std::vector<std::string>& remarks) {
  for (const std::string& remark : remarks) {
    const bool ends = remark.ends_with('.') || remark.ends_with('!');
    write(flow, typesetter, capital(remark) + (ends ? "" : "."), body_font, 2);
  }
}

void write_cautions(drawing::Flow& flow, const drawing::Typesetter& typesetter) {
  constexpr double gap_pt = 6;
  flow.add(drawing::space(gap_pt));
  write(flow, typesetter, std::string(cautions), body_font, 0);
}

}  // namespace drystage::report
