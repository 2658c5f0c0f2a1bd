#include "report/charts/level_chart.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <string>
#include <utility>

#include "drawing/paper.h"
#include "drawing/plot.h"
#include "report/capital.h"
#include "report/charts/day_axis.h"
#include "report/charts/day_list.h"
#include "report/charts/key.h"
#include "report/charts/must_have.h"
#include "report/charts/style.h"
#include "report/needs_words.h"
#include "report/rounding.h"
#include "report/words.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Point;
using drawing::Typesetter;

constexpr double day_h = 24;
constexpr double frame_height_pt = 100;
constexpr double least_day_pt = 4 * drawing::points_per_mm;
constexpr double fine_pt = 5.2;     // between lines of the grid at the least
constexpr double number_pt = 13.5;  // between numbers beside it
constexpr double least_left_pt = 28;
constexpr double both_sides_from_pt = 400;  // wider charts have numbers on the right too
constexpr double right_edge_pt = 5;
constexpr double label_gap_pt = 6.5;  // half of the lowest number hangs into it
constexpr double dot_pt = 2;
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

std::string mornings_words(const std::vector<int>& days) {
  return (days.size() == 1 ? "Morning of " : "Mornings of ") + day_list(days);
}

/// The plan has too little that morning: points down to it.
drawing::Shape lacks_sign(Point centre) { return triangle(centre, -sign_pt, true); }

/// What must be on board lies above the chart.
drawing::Shape beyond_sign(Point centre) { return triangle(centre, sign_pt, false); }

class ReserveChart {
 public:
  ReserveChart(const Typesetter& typesetter, const answers::Trial& trial,
               const answers::Levels& levels, const answers::Needs* needs, std::size_t reserve,
               double width_pt, units::System system)
      : typesetter_(typesetter),
        trial_(trial),
        info_(trial.course.reserves[reserve]),
        reserve_(reserve),
        levels_(levels.reserves[reserve]),
        width_pt_(width_pt),
        system_(system),
        unit_(unit(info_, system)),
        mornings_(mornings_of(trial, needs, reserve)) {
    const auto [low, high] = range();
    axis_ = drawing::axis_over(low, high, frame_height_pt, fine_pt, number_pt);
  }

  /// How wide its numbers are.
  [[nodiscard]] double numbers_pt() const { return numbers_width(typesetter_, axis_, body_font); }

  /// With so much room for numbers, which is the same for all charts: days stand below each other.
  [[nodiscard]] std::vector<Block> blocks(double numbers_pt) {
    left_pt_ = numbers_pt;
    right_pt_ = width_pt_ >= both_sides_from_pt ? left_pt_ : right_edge_pt;
    const auto days = static_cast<int>(trial_.record.days());
    const double room = width_pt_ - left_pt_ - right_pt_;
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
  [[nodiscard]] double shown(double level) const { return display_number(info_, level, system_); }
  [[nodiscard]] bool above() const { return info_.sense == engine::Sense::keep_above; }

  /// What the chart shows from foot to top, in the units to show.
  [[nodiscard]] std::pair<double, double> range() const {
    constexpr double least_degrees = 5;
    constexpr double most_margin = 1.5;  // times what can be held
    constexpr double more = 1.03;        // lest what is full lies on the edge
    double low = shown(levels_.front().level);
    double high = low;
    double margin = shown(levels_.front().margin);
    double least_margin = margin;
    for (const answers::Level& level : levels_) {
      low = std::min(low, shown(level.level));
      high = std::max(high, shown(level.level));
      margin = std::max(margin, shown(level.margin));
      least_margin = std::min(least_margin, shown(level.margin));
    }
    if (!above()) {
      // A degree more on either side, so that no line lies on the edge.
      low = std::min(low, least_margin) - 1;
      high = std::max(high, margin) + 1;
      return {low, std::max(high, low + least_degrees)};
    }
    const double held = shown(info_.capacity);
    high = std::max({high, held, std::min(margin, most_margin * held)});
    for (const Morning& morning : mornings_) {
      if (morning.can_be_met()) high = std::max(high, shown(morning.need->must_have));
    }
    return {std::min(0.0, low), high > 0 ? high * more : 1.0};
  }

  [[nodiscard]] bool has_margin() const {
    return !above() ||
           std::ranges::any_of(levels_, [](const answers::Level& one) { return one.margin > 0; });
  }

  [[nodiscard]] std::string title(const DayPiece& piece, bool cut) const {
    std::string text = capital(reserve_words(info_) + ", " + unit_);
    if (cut) text += fmt::format(", days {} to {}", piece.first + 1, piece.first + piece.count);
    return text;
  }

  [[nodiscard]] const engine::ReserveDay& row(int day) const {
    return trial_.record.reserve(static_cast<std::size_t>(day), reserve_);
  }

  /// Days of the piece, or mornings of it, of which something is so.
  static std::vector<int> days_where(const DayPiece& piece, const std::function<bool(int)>& so) {
    std::vector<int> out;
    for (int day = piece.first; day < piece.first + piece.count; ++day) {
      if (so(day)) out.push_back(day);
    }
    return out;
  }

  [[nodiscard]] std::vector<int> mornings_where(
      const DayPiece& piece, const std::function<bool(const Morning&)>& so) const {
    std::vector<int> out;
    for (const Morning& morning : mornings_) {
      if (piece.has(morning.day) && so(morning)) out.push_back(morning.day);
    }
    return out;
  }

  [[nodiscard]] std::vector<int> dry_days(const DayPiece& piece) const {
    return days_where(piece, [this](int day) { return row(day).short_of > 0; });
  }

  [[nodiscard]] std::vector<int> low_days(const DayPiece& piece) const {
    return days_where(piece,
                      [this](int day) { return row(day).short_of <= 0 && row(day).breach_h >= 0; });
  }

  [[nodiscard]] std::vector<int> lacking(const DayPiece& piece) const {
    return mornings_where(piece, [](const Morning& morning) {
      return morning.can_be_met() && morning.need->lacks();
    });
  }

  [[nodiscard]] std::vector<int> beyond(const DayPiece& piece) const {
    return mornings_where(piece, [](const Morning& morning) { return !morning.can_be_met(); });
  }

  /// A sign with its meaning; `words` drawn as a sign where `draw` is null.
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
    if (has_margin()) out.push_back(line_item(typesetter_, margin_line(), "margin"));
    if (!mornings_.empty()) {
      KeyItem must = line_item(typesetter_, must_line(), "must have in the morning");
      const double y = key_line_pt(typesetter_) / 2;
      must.sample.emplace_back(drawing::dot({.x = must.sample_pt / 2, .y = y}, dot_pt));
      out.push_back(std::move(must));
    }
    if (!low_days(piece).empty()) {
      out.push_back(sign_item("!", above() ? "below its margin" : "above its margin"));
    }
    if (!dry_days(piece).empty()) out.push_back(sign_item("!!", above() ? "runs out" : "is gone"));
    if (!lacking(piece).empty()) {
      out.push_back(sign_item(lacks_sign, "the plan has less than it must"));
    }
    if (!beyond(piece).empty())
      out.push_back(sign_item(beyond_sign, "must have lies above the chart"));
    return out;
  }

  /// What cannot be seen in the chart.
  [[nodiscard]] std::vector<std::string> notes(const DayPiece& piece) const {
    std::vector<std::string> out;
    const auto endless =
        mornings_where(piece, [](const Morning& morning) { return is_endless(*morning.need); });
    const auto too_much = mornings_where(piece, [](const Morning& morning) {
      return !is_endless(*morning.need) && !morning.need->fits;
    });
    if (!too_much.empty()) {
      double most = 0;
      for (const Morning& morning : mornings_) {
        if (std::ranges::find(too_much, morning.day) != too_much.end()) {
          most = std::max(most, morning.need->must_have);
        }
      }
      out.push_back(fmt::format("{}: must have {}{}, more than the {} that can be held.",
                                mornings_words(too_much), too_much.size() > 1 ? "up to " : "",
                                amount_toward(info_, most, system_, Toward::up),
                                amount_toward(info_, info_.capacity, system_, Toward::down)));
    }
    if (!endless.empty()) {
      out.push_back(mornings_words(endless) + ": no amount is enough.");
    }
    std::vector<int> hidden;
    for (const answers::Level& level : levels_) {
      const bool known = !hidden.empty() && hidden.back() == level.day;
      if (known || !piece.has(level.day) || shown(level.margin) <= axis_.high) continue;
      hidden.push_back(level.day);
    }
    if (!hidden.empty()) {
      out.push_back(fmt::format("On {} the margin lies above the chart.", day_list(hidden)));
    }
    return out;
  }

  [[nodiscard]] std::vector<Point> line_of(double answers::Level::*what) const {
    std::vector<Point> out;
    out.reserve(levels_.size());
    for (const answers::Level& level : levels_) {
      out.push_back({.x = level.hour, .y = shown(level.*what)});
    }
    return out;
  }

  void draw_must_have(drawing::Plot& plot, const DayPiece& piece) const {
    for (const std::vector<MustHave>& line :
         must_have_lines(trial_, levels_, mornings_, reserve_, piece)) {
      std::vector<Point> numbers;
      numbers.reserve(line.size());
      for (const MustHave& at : line) numbers.push_back({.x = at.hour, .y = shown(at.level)});
      plot.line(numbers, must_line());
    }
    for (const Morning& morning : mornings_) {
      if (!piece.has(morning.day) || !morning.can_be_met()) continue;
      plot.add(drawing::dot(plot.at(morning.hour, shown(morning.need->must_have)), dot_pt));
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
    write(low_days(piece), "!");
    write(dry_days(piece), "!!");
    const double middle_pt = top_pt + height_pt / 2;
    const auto mark = [&](const std::vector<int>& days, drawing::Shape (*draw)(Point)) {
      for (const int day : days) {
        const double hour = mornings_[static_cast<std::size_t>(day)].hour;
        plot.add(draw({.x = plot.across().at_pt(hour), .y = middle_pt}));
      }
    };
    mark(lacking(piece), lacks_sign);
    mark(beyond(piece), beyond_sign);
  }

  /// Title and key, side by side where there is room. Answers how high they are.
  double head(Block& block, const DayPiece& piece, bool cut) const {
    constexpr double gap_pt = 14;
    const auto add = [&block](const Block& part, double x, double y) {
      for (const drawing::Mark& mark : part.marks) block.marks.push_back(moved(mark, x, y));
    };
    const std::string words = title(piece, cut);
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
    const bool signs = !low_days(piece).empty() || !dry_days(piece).empty() ||
                       !lacking(piece).empty() || !beyond(piece).empty();
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
    if (width_pt_ >= both_sides_from_pt) plot.numbers_right(typesetter_, axis_, body_font);
    if (has_margin()) plot.line(line_of(&answers::Level::margin), margin_line());
    plot.line(line_of(&answers::Level::level), plan_line());
    draw_must_have(plot, piece);
    if (signs) draw_signs(plot, piece, signs_pt, line_pt);
    y += frame_height_pt + label_gap_pt;
    y += day_labels(plot, typesetter_, trial_, piece, y, width_pt_);
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    for (const std::string& note : notes(piece)) {
      const drawing::Text text = typesetter_.text(note, body_font, {.x = 0, .y = y}, width_pt_);
      y += text.box.height;
      out.marks.emplace_back(text);
    }
    out.height_pt = y + foot_gap_pt;
    return out;
  }

  const Typesetter& typesetter_;
  const answers::Trial& trial_;
  const engine::ReserveInfo& info_;
  std::size_t reserve_;
  const std::vector<answers::Level>& levels_;
  double width_pt_;
  units::System system_;
  std::string unit_;
  std::vector<Morning> mornings_;  ///< of every day, where needs are known
  drawing::Axis axis_;
  double left_pt_ = 0;
  double right_pt_ = 0;
};

}  // namespace

std::vector<Block> level_charts(const Typesetter& typesetter, const answers::Trial& trial,
                                const answers::Levels& levels, const answers::Needs* needs,
                                double width_pt, units::System system) {
  std::vector<std::size_t> order(trial.course.reserves.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_partition(order.begin(), order.end(), [&trial](std::size_t r) {
    return trial.course.reserves[r].life_supporting;
  });
  std::vector<ReserveChart> charts;
  double numbers_pt = least_left_pt;
  for (const std::size_t reserve : order) {
    charts.emplace_back(typesetter, trial, levels, needs, reserve, width_pt, system);
    numbers_pt = std::max(numbers_pt, charts.back().numbers_pt());
  }
  std::vector<Block> out;
  for (ReserveChart& chart : charts) {
    for (Block& block : chart.blocks(numbers_pt)) out.push_back(std::move(block));
  }
  return out;
}

}  // namespace drystage::report
