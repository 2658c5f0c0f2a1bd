#include "report/charts/across.h"

#include <algorithm>

#include "report/charts/picture.h"
#include "report/charts/style.h"

namespace drystage::report {
namespace {

constexpr double left_of_frames_pt = 122;
constexpr double right_of_frames_pt = 4;

}  // namespace

double across_pt() { return picture.column_pt() - left_of_frames_pt - right_of_frames_pt; }

Across across(double from, double to, double share) {
  return {.scale = {.from = from,
                    .to = to,
                    .from_pt = left_of_frames_pt,
                    .to_pt = left_of_frames_pt + share * across_pt()}};
}

std::vector<drawing::Mark> night_marks(const Across& across, double top_pt, double foot_pt) {
  std::vector<drawing::Mark> out;
  for (const Stretch& night : across.nights) {
    const double from = across.scale.at_pt(std::max(night.from, across.scale.from));
    const double to = across.scale.at_pt(std::min(night.to, across.scale.to));
    if (to <= from) continue;
    out.emplace_back(drawing::filled(
        {.x = from, .y = top_pt, .width = to - from, .height = foot_pt - top_pt}, night_grey));
  }
  return out;
}

}  // namespace drystage::report
