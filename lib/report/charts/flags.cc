#include "report/charts/flags.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "drawing/plot.h"
#include "report/charts/picture.h"
#include "report/charts/trip_line.h"

namespace drystage::report {
namespace {

using drawing::Rect;

constexpr double pole_gap_pt = 3;
constexpr double flag_gap_pt = 5;
constexpr double pole_dot_pt = 2;
constexpr double widest_flag_pt = 250;
constexpr double narrowest_flag_pt = 100;

/// Where the words of a flag stand; heights are counted upward from the foot of all.
struct PlacedFlag {
  const Flag* flag = nullptr;
  Rect box;  ///< `y` is the lower edge
};

bool overlap(double a_from, double a_to, double b_from, double b_to) {
  return a_from < b_to && b_from < a_to;
}

/// Whether the words of one stand on the pole of another, which is the higher one.
bool lies_on(const PlacedFlag& words, const PlacedFlag& pole) {
  return words.box.y < pole.box.y && words.box.x - 1 < pole.flag->at_pt &&
         words.box.right() + 1 > pole.flag->at_pt;
}

int times_on_poles(const std::vector<PlacedFlag>& placed) {
  int out = 0;
  for (const PlacedFlag& words : placed) {
    for (const PlacedFlag& pole : placed) out += lies_on(words, pole) ? 1 : 0;
  }
  return out;
}

double top_of(const std::vector<PlacedFlag>& placed) {
  double top = 0;
  for (const PlacedFlag& one : placed) top = std::max(top, one.box.bottom());
  return top;
}

/// Places flags one after the other, each as low as it can be on the side where words are to be:
/// from the right on where that is right of the pole, else from the left on. So the poles of the
/// higher ones pass beside the words of the lower ones.
class FlagPlaces {
 public:
  FlagPlaces(const drawing::Typesetter& typesetter, double from_pt, double to_pt, bool right)
      : typesetter_(typesetter), from_pt_(from_pt), to_pt_(to_pt), right_(right) {}

  std::vector<PlacedFlag> place(const std::vector<Flag>& all) {
    std::vector<const Flag*> order;
    order.reserve(all.size());
    for (const Flag& flag : all) order.push_back(&flag);
    std::ranges::stable_sort(
        order, {}, [this](const Flag* flag) { return right_ ? -flag->at_pt : flag->at_pt; });
    for (const Flag* flag : order) {
      PlacedFlag now{.flag = flag, .box = beside(*flag)};
      while (!is_free(now)) now.box.y += key_line_pt(typesetter_);
      placed_.push_back(now);
    }
    return std::move(placed_);
  }

 private:
  /// A box for its words: on the one side of its pole, or the other, or across where neither has
  /// room.
  [[nodiscard]] Rect beside(const Flag& flag) const {
    const double all_pt = typesetter_.width(flag.words, flag.font) + 1;
    const double right_room_pt = to_pt_ - flag.at_pt - pole_gap_pt;
    const double left_room_pt = flag.at_pt - pole_gap_pt - from_pt_;
    const double least_pt = std::min(all_pt, narrowest_flag_pt);
    const bool fits_right = right_room_pt >= least_pt;
    const bool fits_left = left_room_pt >= least_pt;
    const auto box = [&](double room_pt, const auto& left_edge) {
      const double width = std::min({all_pt, widest_flag_pt, room_pt});
      return Rect{.x = left_edge(width),
                  .width = width,
                  .height = typesetter_.size(flag.words, flag.font, width).height_pt};
    };
    if (fits_right && (right_ || !fits_left)) {
      return box(right_room_pt, [&](double) { return flag.at_pt + pole_gap_pt; });
    }
    if (fits_left) {
      return box(left_room_pt, [&](double width) { return flag.at_pt - pole_gap_pt - width; });
    }
    return box(to_pt_ - from_pt_, [&](double width) {
      return std::clamp(flag.at_pt - width / 2, from_pt_, to_pt_ - width);
    });
  }

  /// It meets no words, and stands on no pole: those of lower flags end below it.
  [[nodiscard]] bool is_free(const PlacedFlag& now) const {
    return std::ranges::none_of(placed_, [&now](const PlacedFlag& other) {
      return lies_on(now, other) ||
             (overlap(now.box.x - flag_gap_pt, now.box.right() + flag_gap_pt, other.box.x,
                      other.box.right()) &&
              overlap(now.box.y, now.box.bottom(), other.box.y, other.box.bottom()));
    });
  }

  const drawing::Typesetter& typesetter_;
  double from_pt_;
  double to_pt_;
  bool right_;
  std::vector<PlacedFlag> placed_{};
};

/// The better of both ways: words off poles first, then as few lines as can be.
std::vector<PlacedFlag> placed_flags(const drawing::Typesetter& typesetter,
                                     const std::vector<Flag>& all, double from_pt, double to_pt) {
  std::vector<PlacedFlag> right = FlagPlaces(typesetter, from_pt, to_pt, true).place(all);
  std::vector<PlacedFlag> left = FlagPlaces(typesetter, from_pt, to_pt, false).place(all);
  const auto badness = [](const std::vector<PlacedFlag>& placed) {
    return std::pair(times_on_poles(placed), top_of(placed));
  };
  return badness(left) < badness(right) ? left : right;
}

}  // namespace

drawing::Block flags(const drawing::Typesetter& typesetter, const std::vector<Flag>& all,
                     double from_pt, double to_pt) {
  drawing::Block out;
  const std::vector<PlacedFlag> placed = placed_flags(typesetter, all, from_pt, to_pt);
  out.height_pt = top_of(placed);
  for (const PlacedFlag& one : placed) {
    const double x = one.flag->at_pt;
    const double top = out.height_pt - one.box.bottom() + 1;
    const double foot = out.height_pt + one.flag->fall_pt;
    out.marks.emplace_back(
        drawing::line({.x = x, .y = top}, {.x = x, .y = foot}, {.width_pt = 0.7}));
    out.marks.emplace_back(drawing::dot({.x = x, .y = foot}, pole_dot_pt));
  }
  for (const PlacedFlag& one : placed) {
    const drawing::Point at{.x = one.box.x, .y = out.height_pt - one.box.bottom()};
    drawing::Text words = typesetter.text(one.flag->words, one.flag->font, at, one.box.width);
    const bool on_pole = std::ranges::any_of(
        placed, [&one](const PlacedFlag& other) { return lies_on(one, other); });
    if (on_pole) out.marks.emplace_back(drawing::filled(words.box, 1));
    out.marks.emplace_back(std::move(words));
  }
  return out;
}

drawing::Block name_rows(const drawing::Typesetter& typesetter, std::vector<NameUnder> names,
                         double from_pt, double to_pt) {
  constexpr std::size_t most_rows = 3;
  constexpr double longest_name_pt = 110;
  constexpr double names_apart_pt = 6;
  std::vector<std::vector<Stretch>> rows(most_rows);
  drawing::Block out;
  const double line_pt = key_line_pt(typesetter);
  std::ranges::stable_sort(names, std::greater<>{},
                           [](const NameUnder& one) { return one.to_pt - one.from_pt; });
  for (const NameUnder& one : names) {
    const std::string words = typesetter.shortened(one.words, body_font, longest_name_pt);
    const double width = typesetter.width(words, body_font) + 1;
    if (width > to_pt - from_pt) continue;
    const double middle = (one.from_pt + one.to_pt) / 2;
    const double x = std::clamp(middle - width / 2, from_pt, to_pt - width);
    const auto row = std::ranges::find_if(rows, [&](const std::vector<Stretch>& taken) {
      return std::ranges::none_of(taken, [&](const Stretch& other) {
        return x < other.to + names_apart_pt && other.from < x + width + names_apart_pt;
      });
    });
    if (row == rows.end()) continue;
    row->push_back({.from = x, .to = x + width});
    const double y = line_pt * static_cast<double>(row - rows.begin());
    out.height_pt = std::max(out.height_pt, y + line_pt);
    out.marks.emplace_back(typesetter.text(words, body_font, {.x = x, .y = y}, width));
  }
  return out;
}

}  // namespace drystage::report
