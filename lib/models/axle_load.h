#pragma once

#include <optional>

namespace drystage::models {

/// What of a load rests on each axle, as shares of it. They sum to 1; one is less than 0 where the
/// load lies beyond the other axle.
struct AxleShares {
  double front = 1;
  double rear = 0;
};

/// The lever rule (statics): of a load at `at_m` behind the front axle (ahead of it: negative) of a
/// vehicle whose axles are `wheelbase_m` > 0 apart, at / wheelbase rests on the rear axle. A tow
/// ball d behind the rear axle lies at wheelbase + d.
AxleShares axle_shares(double at_m, double wheelbase_m);

/// The same across: what of a load on an axle rests on its right wheel, for a load `right_m` right
/// of the middle (left: negative) and wheels `track_m` > 0 apart. The rest is on the left one.
double right_share(double right_m, double track_m);

/// The steepest side slope, in degrees, on which a vehicle stands without tipping over, if springs
/// and tyres did not give way: where its centre of gravity, `height_m` > 0 above the ground and
/// `aside_m` off the middle, comes above the lower wheels (statics). A real one tips sooner, and
/// sooner still when it moves.
double static_roll_angle_deg(double track_m, double aside_m, double height_m);

/// What a tyre of a load index may carry at its rated speed and pressure, kg: 40 (140 kg) to 150
/// (3350 kg); nothing outside. As in the load index tables of tyre makers, after ETRTO and ISO
/// 4000-1.
std::optional<double> load_index_kg(int index);
inline constexpr int least_load_index = 40;
inline constexpr int most_load_index = 150;

}  // namespace drystage::models
