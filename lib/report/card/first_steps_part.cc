#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "drawing/table.h"
#include "report/card/blanks.h"
#include "report/card/first_steps.h"
#include "report/card/home.h"
#include "report/card/isolated.h"
#include "report/card/pieces.h"
#include "report/card/supply_places.h"
#include "report/card/way_out_table.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr double box_gap_pt = 7;  ///< between boxes

/// A frame with a title and its steps.
drawing::Block framed_advice(const drawing::Typesetter& typesetter, const Advice& advice,
                             double width_pt, double stroke_pt) {
  constexpr double pad_pt = 5;
  const double inner = width_pt - 2 * pad_pt;
  drawing::Block inside;
  const drawing::Text title = typesetter.text(advice.title, strong_font, {.x = 0, .y = 0}, inner);
  inside.marks.emplace_back(title);
  inside.height_pt = title.box.bottom() + 2;
  for (std::size_t s = 0; s < advice.steps.size(); ++s) {
    put(inside, stacked(item(typesetter, fmt::format("{}.", s + 1), advice.steps[s], inner)), 0,
        inside.height_pt);
  }
  drawing::Block out;
  put(out, inside, pad_pt, pad_pt - 1);
  const double height = out.height_pt + pad_pt - 2;
  out.marks.emplace_back(drawing::outline({.x = stroke_pt / 2,
                                           .y = stroke_pt / 2,
                                           .width = width_pt - stroke_pt,
                                           .height = height - stroke_pt},
                                          {.width_pt = stroke_pt}));
  out.height_pt = height + box_gap_pt;
  return out;
}

/// One that is too long to stay together: over as many pages as it takes.
void add_long(drawing::Flow& flow, const drawing::Typesetter& typesetter, const Advice& advice) {
  const double width = flow.paper().column_pt();
  flow.add(small_title(typesetter, advice.title, width));
  for (std::size_t s = 0; s < advice.steps.size(); ++s) {
    flow.add(item(typesetter, fmt::format("{}.", s + 1), advice.steps[s], width));
  }
}

/// Boxes below each other, in two columns where there is room: each goes under the shorter one, and
/// what stands together is not too high for the rest of a page.
class Boxes {
 public:
  Boxes(drawing::Flow& flow, const drawing::Typesetter& typesetter)
      : flow_(flow),
        typesetter_(typesetter),
        columns_(flow.paper().column_pt() >= 2 * least_width_pt + box_gap_pt ? 2 : 1) {}

  /// One across the whole width, before all others.
  void add_wide(const Advice& advice) {
    end();
    add(framed_advice(typesetter_, advice, flow_.paper().column_pt(), 1.5), advice);
  }

  void add_narrow(const Advice& advice) {
    drawing::Block box = framed_advice(typesetter_, advice, width_pt(), 0.7);
    if (box.height_pt > most_height_pt || columns_.size() == 1) {
      end();
      add(std::move(box), advice);
      return;
    }
    auto* shorter = &*std::ranges::min_element(columns_);
    if (*shorter + box.height_pt > most_height_pt) {
      end();
      shorter = columns_.data();
    }
    const auto column = static_cast<double>(shorter - columns_.data());
    put(together_, box, column * (width_pt() + box_gap_pt), *shorter);
    *shorter += box.height_pt;
  }

  void end() {
    if (together_.height_pt > 0) flow_.add(std::move(together_));
    together_ = {};
    std::ranges::fill(columns_, 0.0);
  }

 private:
  static constexpr double least_width_pt = 220;
  static constexpr double most_height_pt = 330;

  [[nodiscard]] double width_pt() const {
    const auto count = static_cast<double>(columns_.size());
    return (flow_.paper().column_pt() - box_gap_pt * (count - 1)) / count;
  }

  void add(drawing::Block box, const Advice& advice) {
    if (box.height_pt <= most_height_pt) {
      flow_.add(std::move(box));
    } else {
      add_long(flow_, typesetter_, advice);
    }
  }

  drawing::Flow& flow_;
  const drawing::Typesetter& typesetter_;
  std::vector<double> columns_;  ///< how far each is filled
  drawing::Block together_;
};

/// A place and its position, which rescuers ask for.
std::string place_and_position(const plan::Place& place) {
  return name_in_words(place.name) + ", " + coordinate_words(place);
}

/// The positions of the places on the way that supply nothing.
std::string other_places(const answers::Trial& trial, const std::vector<SupplyVisit>& visits) {
  std::string text;
  std::vector<int> told(visits.size());
  std::ranges::transform(visits, told.begin(), &SupplyVisit::place);
  const auto tell = [&](int place) {
    if (place < 0 || std::ranges::find(told, place) != told.end()) return;
    told.push_back(place);
    units::add_to(text, place_and_position(trial.plan.places[static_cast<std::size_t>(place)]),
                  "; ");
  };
  const engine::Timeline& timeline = *trial.course.timeline;
  for (const engine::TimeStep& step : timeline.steps) {
    tell(timeline.place_days[static_cast<std::size_t>(step.place_day)].place);
    if (step.drive >= 0) tell(timeline.legs[static_cast<std::size_t>(step.leg)].from);
  }
  if (!timeline.days.empty()) tell(engine::place_at(timeline.days.back().schedule.to));
  return text;
}

void add_supply_table(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                      const answers::Trial& trial, units::System system) {
  const std::vector<SupplyVisit> visits = supply_visits(trial);
  const double width = flow.paper().column_pt();
  if (visits.empty()) {
    flow.add(sentences(typesetter, "No place on this trip supplies anything.", width));
  } else {
    drawing::Table table(typesetter, width,
                         {{.heading = "Day"},
                          {.heading = "Place"},
                          {.heading = "What is there"},
                          {.heading = "Open"},
                          {.heading = "State"}},
                         body_font);
    std::vector<int> told;
    for (const SupplyVisit& visit : visits) {
      const plan::Place& place = trial.plan.places[static_cast<std::size_t>(visit.place)];
      const bool again = std::ranges::find(told, visit.place) != told.end();
      told.push_back(visit.place);
      const std::string days =
          visit.first_day == visit.last_day
              ? fmt::format("{}", visit.first_day + 1)
              : fmt::format("{} to {}", visit.first_day + 1, visit.last_day + 1);
      bool first = true;
      for (const SupplyRow& row : supply_rows(trial, visit, system)) {
        const std::string name = again ? name_in_words(place.name) : place_and_position(place);
        table.add({first ? days : "", first ? name : "", row.what, row.open,
                   row.confirmed ? "confirmed" : "NOT CONFIRMED"},
                  !row.confirmed);
        first = false;
      }
    }
    std::vector<drawing::Block> heading{
        small_title(typesetter, "Where there is something to be had, day by day", width)};
    for (drawing::Block& block : table.heading()) heading.push_back(std::move(block));
    flow.repeat(std::move(heading));
    flow.add(kept_together(table.rows()));
    flow.repeat_nothing();
  }
  const std::string others = other_places(trial, visits);
  if (others.empty()) return;
  flow.add(drawing::space(3));
  flow.add(sentences(typesetter, "Nothing to be had, for their position: " + others + ".", width));
}

/// What is needed at hand when the alarm is raised, to be filled in before setting out.
void add_blanks(drawing::Flow& flow, const drawing::Typesetter& typesetter) {
  flow.add(blank_blocks(
      typesetter,
      {{.words = "Emergency number of the region"}, {.words = "Person at home (name, telephone)"}},
      flow.paper().column_pt()));
}

}  // namespace

void write_first_steps(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                       const CardAnswer& answer, units::System system) {
  const double width = flow.paper().column_pt();
  flow.add(part_title(typesetter, "If a reading is below must have", width));
  flow.add(sentences(typesetter,
                     "Common practice, on the cautious side. Local advice, and what rescuers tell "
                     "you, come before it.",
                     width));
  const std::vector<Advice> all = first_steps(answer, system);
  Boxes boxes(flow, typesetter);
  boxes.add_wide(all.front());
  write_way_out(flow, typesetter, answer, system);
  for (std::size_t i = 1; i < all.size(); ++i) boxes.add_narrow(all[i]);
  boxes.end();
  add_blanks(flow, typesetter);
  add_supply_table(flow, typesetter, answer.needs.trial, system);
}

}  // namespace drystage::report
