#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/day_axis.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Mark;
using drawing::Rect;
using drawing::Typesetter;

constexpr double room_box_pt = 13;

/// How near, from the least room to the most.
enum class Near { runs_out, beyond, tenth, quarter, half, far };

Near near_of(const Room& room) {
  constexpr double tenth = 0.1;
  constexpr double quarter = 0.25;
  constexpr double half = 0.5;
  if (room.runs_out) return Near::runs_out;
  if (room.beyond) return Near::beyond;
  if (room.share < tenth) return Near::tenth;
  if (room.share < quarter) return Near::quarter;
  return room.share < half ? Near::half : Near::far;
}

void draw_room(const Typesetter& typesetter, std::vector<Mark>& marks, const Rect& box, Near near) {
  constexpr double dark = 0.45;
  constexpr double close_pt = 2.4;
  constexpr double wide_pt = 5;
  const drawing::Stroke stroke{.width_pt = 0.7};
  const auto fill = [&](double apart_pt) {
    for (Mark& line : drawing::hatch(drawing::corners(box), box, apart_pt, stroke)) {
      marks.push_back(std::move(line));
    }
  };
  if (near == Near::half) fill(wide_pt);
  if (near == Near::quarter) fill(close_pt);
  if (near == Near::tenth) marks.emplace_back(drawing::filled(box, dark));
  if (near == Near::runs_out || near == Near::beyond) {
    marks.emplace_back(drawing::filled(box, 0));
    drawing::Text sign = typesetter.text(near == Near::beyond ? "!" : "!!", strong_font, {},
                                         box.width, drawing::Align::centre);
    sign.box.x = box.x;
    sign.box.y = box.y + (box.height - sign.box.height) / 2;
    sign.grey = 1;
    marks.emplace_back(std::move(sign));
  }
  marks.emplace_back(drawing::outline(box, {.width_pt = 0.5}));
}

/// A thick frame; a white line within it where the box is dark.
void draw_frame(std::vector<Mark>& marks, const Rect& box, Near near) {
  const auto inset = [&box](double by) {
    return Rect{.x = box.x + by,
                .y = box.y + by,
                .width = box.width - 2 * by,
                .height = box.height - 2 * by};
  };
  if (near <= Near::tenth) {
    marks.emplace_back(drawing::outline(inset(2), {.width_pt = 1, .dash_pt = {}, .grey = 1}));
  }
  marks.emplace_back(drawing::outline(inset(0.5), decides_line()));
}

Block key_of_rooms(const Typesetter& typesetter) {
  std::vector<KeyItem> items;
  const double y = (key_line_pt(typesetter) - room_box_pt) / 2;
  const auto add = [&](Near near, bool decides, std::string words) {
    KeyItem item{.words = std::move(words), .sample_pt = room_box_pt};
    const Rect box{.x = 0, .y = y + 1, .width = room_box_pt, .height = room_box_pt - 2};
    draw_room(typesetter, item.sample, box, near);
    if (decides) draw_frame(item.sample, box, near);
    items.push_back(std::move(item));
  };
  add(Near::runs_out, false, "runs out");
  add(Near::beyond, false, "beyond its margin");
  add(Near::tenth, false, "less than a tenth of the room is left");
  add(Near::quarter, false, "less than a quarter");
  add(Near::half, false, "less than half");
  add(Near::far, false, "half or more");
  add(Near::far, true, "nearest of that day");
  Block out = key(typesetter, items, picture.column_pt());
  out.height_pt += 3;
  return out;
}

class DecidesChart {
 public:
  DecidesChart(const Typesetter& typesetter, const answers::PlanRun& planned)
      : typesetter_(typesetter), planned_(planned) {}

  [[nodiscard]] Block piece(const DaysAcross& days) const {
    constexpr double gap_pt = 5;
    Block out;
    std::vector<drawing::Label> numbers;
    for (int day = days.piece.first; day < days.piece.first + days.piece.count; ++day) {
      numbers.push_back({.at_pt = days.across.scale.at_pt(day_h * (day + 0.5)),
                         .words = fmt::format("{}", day + 1)});
    }
    out.marks = row_of(typesetter_, numbers, stride(typesetter_, numbers, strong_font, 2),
                       strong_font, 0, days.across.scale.from_pt, picture.column_pt());
    out.marks.emplace_back(
        typesetter_.text("day", strong_font, {}, days.across.scale.from_pt - gap_pt));
    out.height_pt = key_line_pt(typesetter_) + 1;
    for (const std::size_t reserve : life_first(planned_)) row(out, days, reserve);
    out.height_pt += gap_pt;
    return out;
  }

 private:
  void row(Block& out, const DaysAcross& days, std::size_t reserve) const {
    constexpr double gap_pt = 6;
    constexpr double inset_pt = 1;
    drawing::Text name =
        typesetter_.text(capital(name_words(reserve_words(planned_.course.reserves[reserve]))),
                         body_font, {}, days.across.scale.from_pt - gap_pt);
    const double height = std::max(name.box.height, room_box_pt) + 1;
    name.box.y = out.height_pt + (height - name.box.height) / 2;
    out.marks.emplace_back(std::move(name));
    for (int day = days.piece.first; day < days.piece.first + days.piece.count; ++day) {
      const double from = days.across.scale.at_pt(day_h * day);
      const double to = days.across.scale.at_pt(day_h * (day + 1));
      const Rect box{.x = from + inset_pt,
                     .y = out.height_pt + (height - room_box_pt) / 2,
                     .width = to - from - 2 * inset_pt,
                     .height = room_box_pt};
      const auto index = static_cast<std::size_t>(day);
      const Near near = near_of(room_of(planned_, reserve, index));
      draw_room(typesetter_, out.marks, box, near);
      if (decides_on(planned_, index) == reserve) draw_frame(out.marks, box, near);
    }
    out.height_pt += height;
  }

  const Typesetter& typesetter_;
  const answers::PlanRun& planned_;
};

/// The level from which a reserve comes down, or up, to its margin.
double best_level(const answers::PlanRun& planned, const engine::ReserveInfo& info) {
  if (info.id.family != engine::Family::cold) return info.capacity;
  const plan::Cabinet& cabinet = planned.plan.cold[at(info.id.of)];
  return cabinet.ice_box ? 0 : cabinet.set_point_c;
}

}  // namespace

std::vector<Block> decides_chart(const Typesetter& typesetter, const answers::PlanRun& planned,
                                 const TripLine& line) {
  const DecidesChart chart(typesetter, planned);
  std::vector<Block> out;
  for (const DaysAcross& days : across_days(planned, line)) out.push_back(chart.piece(days));
  out.push_back(key_of_rooms(typesetter));
  return out;
}

Room room_of(const answers::PlanRun& planned, std::size_t reserve, std::size_t day) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  const engine::ReserveDay& row = planned.record.reserve(day, reserve);
  if (!row.judged) return {.share = 1};
  const bool above = info.sense == engine::Sense::keep_above;
  const double best = best_level(planned, info);
  const double whole = above ? best - row.margin : row.margin - best;
  Room out{.beyond = row.breach_h >= 0, .runs_out = row.short_of > 0};
  // Where the margin is the best there can be, there is no room at all.
  out.share = whole > 0 ? std::min(1.0, row.slack / whole) : std::min(0.0, row.slack);
  return out;
}

std::size_t decides_on(const answers::PlanRun& planned, std::size_t day) {
  return std::ranges::min(life_first(planned), {}, [&](std::size_t reserve) {
    const Room room = room_of(planned, reserve, day);
    const bool life = planned.course.reserves[reserve].life_supporting;
    return std::tuple(!room.runs_out, !room.beyond, room.beyond && !life, room.share);
  });
}

std::string decides_words(const answers::PlanRun& planned) {
  std::vector<std::vector<int>> days(planned.course.reserves.size());
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    days[decides_on(planned, day)].push_back(static_cast<int>(day));
  }
  std::vector<std::string> parts;
  for (const std::size_t reserve : life_first(planned)) {
    if (days[reserve].empty()) continue;
    parts.push_back(name_words(reserve_words(planned.course.reserves[reserve])) + " on " +
                    day_list(days[reserve]));
  }
  return units::listed(parts, "; ", "; ") + ".";
}

}  // namespace drystage::report
