#include "report/charts/level_chart.h"

#include <algorithm>
#include <string>
#include <utility>

#include "drawing/page.h"
#include "drawing/plot.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/day_axis.h"
#include "report/charts/picture.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Point;
using drawing::Typesetter;

constexpr double frame_height_pt = 100;
constexpr double least_day_pt = 4 * drawing::points_per_mm;
constexpr double fine_pt = 5.2;     // between lines of the grid at the least
constexpr double number_pt = 13.5;  // between numbers beside it
constexpr double least_left_pt = 28;
constexpr double number_gap_pt = 6.5;  // half of the lowest number stands in it
constexpr double day_dot_pt = 2;
constexpr double sign_pt = 2.6;  // half as wide as a sign
constexpr double foot_gap_pt = 9;

drawing::Shape triangle(Point centre, double up_pt, bool filled) {
  drawing::Shape out{.points = {{.x = centre.x - sign_pt, .y = centre.y + up_pt},
                                {.x = centre.x + sign_pt, .y = centre.y + up_pt},
                                {.x = centre.x, .y = centre.y - up_pt}},
                     .closed = true};
  if (filled) {
    out.fill_grey = 0;
  } else {
    out.stroke = {.width_pt = 1};
  }
  return out;
}

/// The plan has too little that morning: points down to it.
drawing::Shape lacks_sign(Point centre) { return triangle(centre, -sign_pt, true); }

/// What must be on board lies above the chart.
drawing::Shape beyond_sign(Point centre) { return triangle(centre, sign_pt, false); }

class ReserveChart {
 public:
  ReserveChart(const Typesetter& typesetter, const answers::PlanRun& planned,
               const answers::Levels& levels, const answers::Needs* needs, std::size_t reserve,
               double width_pt, units::System system)
      : typesetter_(typesetter),
        planned_(planned),
        reserve_(planned, levels, needs, reserve, system),
        width_pt_(width_pt) {
    const auto [low, high] = reserve_.range();
    axis_ = drawing::axis_over(low, high, frame_height_pt, fine_pt, number_pt);
  }

  /// How wide its numbers are.
  [[nodiscard]] double numbers_pt() const { return numbers_width(typesetter_, axis_, body_font); }

  /// With so much room for numbers, which is the same for all charts: days stand below each other.
  [[nodiscard]] std::vector<Block> blocks(double numbers_pt) {
    left_pt_ = numbers_pt;
    const auto days = static_cast<int>(planned_.record.days());
    const double room = width_pt_ - 2 * left_pt_;
    const std::vector<DayPiece> pieces = day_pieces(days, room, least_day_pt);
    std::vector<Block> out;
    for (const DayPiece& piece : pieces) {
      // A day is as wide in the last piece, which may have fewer, as in the others.
      const double share = static_cast<double>(piece.count) / pieces.front().count;
      out.push_back(block(piece, room * share, pieces.size() > 1));
    }
    return out;
  }

 private:
  /// A sign with its meaning, drawn or in letters.
  [[nodiscard]] KeyItem sign_item(drawing::Shape (*draw)(Point), std::string words) const {
    KeyItem out{.words = std::move(words), .sample_pt = 2 * sign_pt};
    out.sample.emplace_back(draw({.x = sign_pt, .y = key_line_pt(typesetter_) / 2}));
    return out;
  }

  [[nodiscard]] KeyItem sign_item(const std::string& sign, std::string words) const {
    const double width = typesetter_.width(sign, strong_font) + 1;
    KeyItem out{.words = std::move(words), .sample_pt = width};
    out.sample.emplace_back(typesetter_.text(sign, strong_font, {}, width));
    return out;
  }

  [[nodiscard]] std::vector<KeyItem> key_items(const DayPiece& piece) const {
    std::vector<KeyItem> out;
    out.push_back(line_item(typesetter_, plan_line(), "plan"));
    if (reserve_.has_margin()) out.push_back(line_item(typesetter_, margin_line(), "margin"));
    if (!reserve_.mornings().empty()) {
      KeyItem must = line_item(typesetter_, must_line(), "must have in the morning");
      const double y = key_line_pt(typesetter_) / 2;
      must.sample.emplace_back(drawing::dot({.x = must.sample_pt / 2, .y = y}, day_dot_pt));
      out.push_back(std::move(must));
    }
    if (!reserve_.low_days(piece).empty()) {
      out.push_back(sign_item("!", reserve_.above() ? "below its margin" : "above its margin"));
    }
    if (!reserve_.dry_days(piece).empty()) {
      out.push_back(sign_item("!!", reserve_.above() ? "runs out" : "is gone"));
    }
    if (!reserve_.lacking(piece).empty()) {
      out.push_back(sign_item(lacks_sign, "less than it must have"));
    }
    if (!reserve_.beyond(piece).empty()) {
      out.push_back(sign_item(beyond_sign, "must have lies above the chart"));
    }
    return out;
  }

  [[nodiscard]] std::vector<Point> line_of(double answers::Level::*what) const {
    std::vector<Point> out;
    out.reserve(reserve_.levels().size());
    for (const answers::Level& level : reserve_.levels()) {
      out.push_back({.x = level.hour, .y = reserve_.shown(level.*what)});
    }
    return out;
  }

  void draw_must_have(drawing::Plot& plot, const DayPiece& piece) const {
    for (const std::vector<MustHave>& line : reserve_.must_have(piece)) {
      std::vector<Point> numbers;
      numbers.reserve(line.size());
      for (const MustHave& at : line) {
        numbers.push_back({.x = at.hour, .y = reserve_.shown(at.level)});
      }
      plot.line(numbers, must_line());
    }
    for (const Morning& morning : reserve_.mornings()) {
      if (!piece.has(morning.day) || !morning.can_be_met()) continue;
      plot.add(
          drawing::dot(plot.at(morning.hour, reserve_.shown(morning.need->must_have)), day_dot_pt));
    }
  }

  void draw_signs(drawing::Plot& plot, const DayPiece& piece, double top_pt,
                  double height_pt) const {
    const auto write = [&](const std::vector<int>& days, const std::string& sign) {
      const double width = typesetter_.width(sign, strong_font) + 2;
      for (const int day : days) {
        const double middle = plot.across().at_pt(day_h * (day + 0.5));
        plot.add(typesetter_.text(sign, strong_font, {.x = middle - width / 2, .y = top_pt}, width,
                                  drawing::Align::centre));
      }
    };
    write(reserve_.low_days(piece), "!");
    write(reserve_.dry_days(piece), "!!");
    const double middle_pt = top_pt + height_pt / 2;
    const auto mark = [&](const std::vector<int>& days, drawing::Shape (*draw)(Point)) {
      for (const int day : days) {
        const double hour = reserve_.mornings()[at(day)].hour;
        plot.add(draw({.x = plot.across().at_pt(hour), .y = middle_pt}));
      }
    };
    mark(reserve_.lacking(piece), lacks_sign);
    mark(reserve_.beyond(piece), beyond_sign);
  }

  /// Title and key, side by side where there is room. Answers how high they are.
  double head(Block& block, const DayPiece& piece, bool cut) const {
    constexpr double gap_pt = 14;
    const auto add = [&block](const Block& part, double x, double y) {
      for (const drawing::Mark& mark : part.marks) block.marks.push_back(moved(mark, x, y));
    };
    const std::string words = reserve_.title(piece, cut);
    const drawing::Text text = typesetter_.text(words, heading_font, {}, width_pt_);
    block.marks.emplace_back(text);
    const std::vector<KeyItem> items = key_items(piece);
    const double title_pt = typesetter_.width(words, heading_font);
    const double items_pt = key_width(typesetter_, items);
    if (title_pt + gap_pt + items_pt <= width_pt_) {
      const Block beside = key(typesetter_, items, items_pt + 1);
      add(beside, width_pt_ - items_pt - 1, text.box.height - beside.height_pt);
      return text.box.height;
    }
    const Block below = key(typesetter_, items, width_pt_);
    add(below, 0, text.box.height);
    return text.box.height + below.height_pt;
  }

  [[nodiscard]] Block block(const DayPiece& piece, double frame_width_pt, bool cut) const {
    Block out;
    const double line_pt = key_line_pt(typesetter_);
    double y = head(out, piece, cut);
    const bool signs = !reserve_.low_days(piece).empty() || !reserve_.dry_days(piece).empty() ||
                       !reserve_.lacking(piece).empty() || !reserve_.beyond(piece).empty();
    const double signs_pt = y;
    // Half a line for the number at the top of the frame.
    y += signs ? line_pt : line_pt / 2 + 1;
    const double from_h = day_h * piece.first;
    const double to_h = day_h * (piece.first + piece.count);
    drawing::Plot plot({.x = left_pt_, .y = y, .width = frame_width_pt, .height = frame_height_pt},
                       from_h, to_h, axis_.low, axis_.high);
    plot.level_lines(axis_.fine_lines(), fine_grid());
    day_lines(plot, piece, strong_grid(), fine_grid());
    plot.level_lines(axis_.numbers(), strong_grid());
    plot.edge(edge_line());
    plot.numbers_left(typesetter_, axis_, body_font);
    plot.numbers_right(typesetter_, axis_, body_font);
    if (reserve_.has_margin()) plot.line(line_of(&answers::Level::margin), margin_line());
    plot.line(line_of(&answers::Level::level), plan_line());
    draw_must_have(plot, piece);
    if (signs) draw_signs(plot, piece, signs_pt, line_pt);
    y += frame_height_pt + number_gap_pt;
    y += day_labels(plot, typesetter_, planned_, piece, y, width_pt_);
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    for (const std::string& note : reserve_.notes(piece, axis_.high)) {
      const drawing::Text text = typesetter_.text(note, body_font, {.x = 0, .y = y}, width_pt_);
      y += text.box.height;
      out.marks.emplace_back(text);
    }
    out.height_pt = y + foot_gap_pt;
    return out;
  }

  const Typesetter& typesetter_;
  const answers::PlanRun& planned_;
  ChartedReserve reserve_;
  double width_pt_;
  drawing::Axis axis_;
  double left_pt_ = 0;
};

}  // namespace

std::vector<Block> level_charts(const Typesetter& typesetter, const answers::PlanRun& planned,
                                const answers::Levels& levels, const answers::Needs* needs,
                                double width_pt, units::System system) {
  std::vector<ReserveChart> charts;
  double numbers_pt = least_left_pt;
  for (const std::size_t reserve : life_first(planned)) {
    charts.emplace_back(typesetter, planned, levels, needs, reserve, width_pt, system);
    numbers_pt = std::max(numbers_pt, charts.back().numbers_pt());
  }
  std::vector<Block> out;
  for (ReserveChart& chart : charts) {
    for (Block& block : chart.blocks(numbers_pt)) out.push_back(std::move(block));
  }
  return out;
}

}  // namespace drystage::report
