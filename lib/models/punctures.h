#pragma once

namespace drystage::models {

/// Punctures to be expected, in mean: those that a repair mends, and those that only another wheel
/// helps. Each is 0 or more.
struct Punctures {
  double holes = 0;
  double cuts = 0;
};

/// What there is against them. Each is 0 or more.
struct Spares {
  int wheels = 0;
  int repairs = 0;
};

/// The chance, 0 to 1, that the spares are enough: that no wheel is missing for a cut, nor wheels
/// and repairs together for all. A wheel serves for a hole where no repair is left.
///
/// Punctures come one by one and independently, each at the same rate for each km of a surface: so
/// their number is Poisson's, of holes and of cuts independently (any textbook of probability). Of
/// up to `most_spares` of each; what is beyond is taken for that many.
[[nodiscard]] double chance_enough(const Punctures& expected, const Spares& spares);

/// How many spares, wheels and repairs together, must be there so that they are enough with a
/// chance from 0 to below 1. Where those at hand are enough: the fewest with which they still are
/// when the repairs are taken away first, then wheels. Where they are not: those at hand and the
/// fewest wheels more. So `spares` are enough if, and only if, they are as many or more. At most
/// `most_spares` above what is at hand.
[[nodiscard]] int spares_needed(const Punctures& expected, const Spares& spares, double chance);

/// Nobody expects as many, or carries them.
inline constexpr int most_spares = 250;

}  // namespace drystage::models
