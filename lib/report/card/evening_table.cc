#include <algorithm>
#include <utility>

#include "engine/route_point.h"
#include "report/card/day_columns.h"
#include "report/text/capital.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {

EveningTable evening_table(const NeedsAnswer& answer, units::System system) {
  EveningTable out;
  const std::vector<std::size_t> vital = life_supporting(answer);
  const std::vector<std::size_t> small = small_reserves(answer.planned);
  const auto name = [system](const engine::ReserveInfo& info) {
    return capital(reserve_words(info)) + ", " + unit(info, system);
  };
  for (const std::size_t i : vital) {
    out.reserves.push_back(name(reserve_of(answer.planned, answer.needs.reserves[i])));
  }
  for (const std::size_t r : small) out.small.push_back(name(answer.planned.course.reserves[r]));
  out.start = engine::route_point_name(answer.planned.plan,
                                       answer.planned.course.timeline->days.front().schedule.from);
  for (std::size_t evening = 0; evening < evenings(answer); ++evening) {
    EveningRow row;
    if (evening > 0) row.facts = day_facts(answer.planned, evening - 1, system);
    for (const std::size_t i : vital) {
      row.figures.push_back(evening_figures(answer, i, evening, system));
    }
    for (const std::size_t r : small) {
      row.small.push_back(small_figure(answer, r, evening, system));
    }
    out.rows.push_back(std::move(row));
  }
  return out;
}

std::string load_words(const EveningTable& table, const EveningRow& row) {
  const bool lacks = std::ranges::any_of(row.figures, &EveningFigures::lacks);
  return "At " + table.start + ": " +
         (lacks ? "load to plan; with ! even that is too little" : "load to plan, as packed");
}

std::string small_words(const EveningTable& table, const EveningRow& row) {
  std::string words;
  for (std::size_t r = 0; r < row.small.size(); ++r) {
    const SmallFigure& figure = row.small[r];
    if (figure.plan.empty()) continue;
    const std::string& name = table.small[r];
    const std::size_t comma = name.rfind(", ");
    units::add_to(
        words,
        name.substr(0, comma) + " " + marked(figure.plan, figure.low) + name.substr(comma + 1),
        "; ");
  }
  return words;
}

std::string marked(const std::string& figure, bool low) { return (low ? "! " : "") + figure; }

}  // namespace drystage::report
