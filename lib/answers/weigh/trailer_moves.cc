#include "answers/weigh/trailer_moves.h"

#include <algorithm>

namespace drystage::answers {
namespace {

constexpr double slight_kg = 1e-6;

}  // namespace

TrailerMoves trailer_moves(const plan::Vehicle& vehicle, int index, double over_kg,
                           double ball_over_kg) {
  TrailerMoves out;
  const plan::Trailer& trailer = *vehicle.trailer;
  std::vector<plan::Trailer::Gear> gear = trailer.gear;
  std::ranges::stable_sort(gear, {}, &plan::Trailer::Gear::mass_kg);
  const auto leave = [&](std::size_t g) {
    out.moves.push_back({.vehicle = index,
                         .name = gear[g].name,
                         .left = true,
                         .in_trailer = true,
                         .kg = gear[g].mass_kg});
    over_kg -= gear[g].mass_kg;
    ball_over_kg -= gear[g].mass_kg * gear[g].ahead_m / trailer.drawbar_m;
    gear.erase(gear.begin() + static_cast<std::ptrdiff_t>(g));
  };
  while (over_kg > slight_kg && !gear.empty()) {
    const auto enough = std::ranges::find_if(
        gear, [over_kg](const auto& one) { return one.mass_kg >= over_kg - slight_kg; });
    leave(enough == gear.end() ? gear.size() - 1 : static_cast<std::size_t>(enough - gear.begin()));
  }
  out.keeps_limit = over_kg <= slight_kg;
  const double hindmost_m = -trailer.drawbar_m / 2;
  for (const plan::Trailer::Gear& one : gear) {
    if (ball_over_kg <= slight_kg) break;
    const double to_m = one.ahead_m - ball_over_kg * trailer.drawbar_m / one.mass_kg;
    if (to_m < hindmost_m) continue;
    out.moves.push_back({.vehicle = index,
                         .name = one.name,
                         .from_m = one.ahead_m,
                         .to_m = to_m,
                         .in_trailer = true,
                         .kg = one.mass_kg});
    ball_over_kg = 0;
  }
  out.keeps_ball = ball_over_kg <= slight_kg;
  return out;
}

}  // namespace drystage::answers
