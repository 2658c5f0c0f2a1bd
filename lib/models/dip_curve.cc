#include "models/dip_curve.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {
namespace {

using plan::DipMark;

double slope(const DipMark& a, const DipMark& b) {
  return (b.volume_l - a.volume_l) / (b.depth_m - a.depth_m);
}

// Where the line from `a` with the slope below it meets the line to `b` with the slope above it.
DipMark meeting(const DipMark& a, const DipMark& b, double below, double above) {
  const double run_m =
      (above * (b.depth_m - a.depth_m) - (b.volume_l - a.volume_l)) / (above - below);
  return {.depth_m = a.depth_m + run_m, .volume_l = a.volume_l + below * run_m};
}

// What `to` is on the straight line between two corners, where `from` is `at`.
double between(const DipMark& a, const DipMark& b, double DipMark::*from, double DipMark::*to,
               double at) {
  const double share = (at - a.*from) / (b.*from - a.*from);
  return a.*to + share * (b.*to - a.*to);
}

}  // namespace

DipCurve::DipCurve(const std::vector<DipMark>& marks) {
  std::vector<DipMark> all = marks;
  if (all.front().depth_m > 0) all.insert(all.begin(), DipMark{});
  corners_ = {all[0], all[1]};
  if (all.size() < 3) return;
  constexpr double straight = 1;
  constexpr double cone = 3;
  power_ = std::clamp(slope(all[1], all[2]) / slope(all[0], all[1]), straight, cone);
  // Widening by less than this is no more than rounding.
  constexpr double least_widening = 1 + 1e-9;
  for (std::size_t i = 1; i + 1 < all.size(); ++i) {
    const double below = slope(all[i - 1], all[i]);
    const double here = slope(all[i], all[i + 1]);
    const double above = i + 2 < all.size() ? slope(all[i + 1], all[i + 2]) : 2 * here - below;
    if (here > below * least_widening && above > here * least_widening) {
      corners_.push_back(meeting(all[i], all[i + 1], below, above));
    }
    corners_.push_back(all[i + 1]);
  }
}

double DipCurve::volume_l(double depth_m) const {
  const DipMark& base = corners_[0];
  const DipMark& first = corners_[1];
  if (depth_m <= base.depth_m) return base.volume_l;
  if (depth_m >= corners_.back().depth_m) return corners_.back().volume_l;
  if (depth_m < first.depth_m) {
    return base.volume_l +
           (first.volume_l - base.volume_l) *
               std::pow((depth_m - base.depth_m) / (first.depth_m - base.depth_m), power_);
  }
  const auto above = std::ranges::upper_bound(corners_, depth_m, {}, &DipMark::depth_m);
  return between(*(above - 1), *above, &DipMark::depth_m, &DipMark::volume_l, depth_m);
}

std::optional<double> DipCurve::depth_m(double volume_l) const {
  const DipMark& base = corners_[0];
  const DipMark& first = corners_[1];
  if (volume_l < base.volume_l || volume_l > corners_.back().volume_l) return std::nullopt;
  if (volume_l < first.volume_l) {
    return base.depth_m +
           (first.depth_m - base.depth_m) *
               std::pow((volume_l - base.volume_l) / (first.volume_l - base.volume_l), 1 / power_);
  }
  const auto reached = std::ranges::lower_bound(corners_, volume_l, {}, &DipMark::volume_l);
  if (reached == corners_.begin() + 1) return first.depth_m;
  return between(*(reached - 1), *reached, &DipMark::volume_l, &DipMark::depth_m, volume_l);
}

}  // namespace drystage::models
