#include <string>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/flags.h"
#include "report/charts/level_strip.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Typesetter;

class DistanceChart {
 public:
  DistanceChart(const Typesetter& typesetter, const answers::PlanRun& planned, const TripLine& line,
                const answers::Levels& levels, units::System system)
      : typesetter_(typesetter),
        planned_(planned),
        line_(line),
        levels_(levels),
        system_(system),
        shown_(units::display(units::Kind::distance, system)),
        across_(across(0, shown_.number(line.total_km()))) {
    for (const Halt& halt : line.halts) across_.lines.push_back(shown_.number(halt.km));
  }

  [[nodiscard]] std::vector<Block> blocks() const {
    std::vector<Block> out{names()};
    for (const std::size_t reserve : life_first(planned_)) {
      const engine::Family family = planned_.course.reserves[reserve].id.family;
      if (family != engine::Family::fuel && family != engine::Family::drinking_water) continue;
      out.push_back(level_strip(typesetter_, strip(reserve), across_));
    }
    out.push_back(numbers());
    return out;
  }

 private:
  [[nodiscard]] Block names() const {
    std::vector<NameUnder> names;
    for (const Halt& halt : line_.halts) {
      if (halt.place < 0) continue;
      const double at_pt = across_.scale.at_pt(shown_.number(halt.km));
      names.push_back(
          {.from_pt = at_pt, .to_pt = at_pt, .words = name_in(planned_.plan.places, halt.place)});
    }
    return name_rows(typesetter_, std::move(names), across_.scale.from_pt, picture.column_pt());
  }

  [[nodiscard]] LevelStrip strip(std::size_t reserve) const {
    const ChartedReserve charted(planned_, levels_, nullptr, reserve, system_);
    const DayPiece all{.first = 0, .count = static_cast<int>(planned_.record.days())};
    return strip_of(
        planned_, charted, reserve, all,
        [this](double hour) { return shown_.number(line_.km_at(hour)); },
        [&](const BreachMoment& moment) {
          return moment_by_way(planned_, reserve, moment, line_, system_);
        });
  }

  /// The way driven, under the last strip.
  [[nodiscard]] Block numbers() const {
    constexpr double number_apart_pt = 45;
    constexpr double gap_pt = 4;
    const drawing::Axis axis = drawing::axis_over(across_.scale.from, across_.scale.to,
                                                  across_.width_pt(), gap_pt, number_apart_pt);
    std::vector<drawing::Label> labels;
    for (const double number : axis.numbers()) {
      if (!across_.has(number)) continue;
      labels.push_back({.at_pt = across_.scale.at_pt(number),
                        .words = units::format_number(number, units::decimals(axis.decimals))});
    }
    Block out{.height_pt = key_line_pt(typesetter_) + gap_pt};
    out.marks = row_of(typesetter_, labels, stride(typesetter_, labels, body_font, gap_pt),
                       body_font, 0, across_.scale.from_pt - gap_pt, picture.column_pt());
    out.marks.emplace_back(typesetter_.text(std::string(shown_.unit) + " driven", strong_font, {},
                                            across_.scale.from_pt - 2 * gap_pt));
    return out;
  }

  const Typesetter& typesetter_;
  const answers::PlanRun& planned_;
  const TripLine& line_;
  const answers::Levels& levels_;
  units::System system_;
  units::Display shown_;
  Across across_;
};

}  // namespace

std::vector<Block> distance_chart(const Typesetter& typesetter, const answers::PlanRun& planned,
                                  const TripLine& line, const answers::Levels& levels,
                                  units::System system) {
  if (line.total_km() <= 0) return {};
  return DistanceChart(typesetter, planned, line, levels, system).blocks();
}

}  // namespace drystage::report
