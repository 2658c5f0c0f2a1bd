#include "report/charts/name_rows.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "report/charts/key.h"
#include "report/charts/stretch.h"
#include "report/charts/style.h"

namespace drystage::report {

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
