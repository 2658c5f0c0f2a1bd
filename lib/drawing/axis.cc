#include "drawing/axis.h"

#include <algorithm>
#include <cmath>

namespace drystage::drawing {
namespace {

/// What a quotient may be off a whole number and still be taken for it.
constexpr double noise = 1e-9;

struct Round {
  int digit = 1;
  int power = 0;

  [[nodiscard]] double number() const {
    // Powers of ten from 1 up are exact, so that 0.1 is the double nearest to it.
    return power < 0 ? digit / std::pow(10.0, -power) : digit * std::pow(10.0, power);
  }
};

Round round_up(double at_least) {
  Round out{.digit = 1, .power = static_cast<int>(std::floor(std::log10(at_least))) - 1};
  for (;; ++out.power) {
    for (const int digit : {1, 2, 5}) {
      out.digit = digit;
      if (out.number() >= at_least * (1 - noise)) return out;
    }
  }
}

/// The next larger round number of which `fine` is a whole part.
Round coarser(const Round& fine, double at_least) {
  Round out = round_up(std::max(at_least, 2 * fine.number()));
  while (std::abs(std::remainder(out.number() / fine.number(), 1.0)) > noise) {
    out = round_up(out.number() * 1.5);
  }
  return out;
}

std::vector<double> multiples(double of, double low, double high) {
  std::vector<double> out;
  const double first = std::ceil(low / of - noise);
  const double last = std::floor(high / of + noise);
  for (double i = first; i <= last; ++i) out.push_back(i == 0 ? 0 : i * of);
  return out;
}

}  // namespace

double round_step(double at_least) { return round_up(at_least).number(); }

std::vector<double> Axis::numbers() const { return multiples(step, low, high); }

std::vector<double> Axis::fine_lines() const {
  std::vector<double> out = multiples(fine, low, high);
  std::erase_if(out,
                [this](double at) { return std::abs(std::remainder(at / step, 1.0)) <= noise; });
  return out;
}

Axis axis_over(double low, double high, double length_pt, double fine_pt, double step_pt) {
  const double most_lines = std::max(1.0, std::floor(length_pt / fine_pt));
  // The ends are moved outward to fine lines, which may leave too little between the lines: then
  // the next round step is tried.
  Round fine = round_up((high - low) / most_lines);
  Axis out;
  while (true) {
    const double width = fine.number();
    out.low = std::floor(low / width + noise) * width;
    out.high = std::ceil(high / width - noise) * width;
    if ((out.high - out.low) / width <= most_lines + noise) break;
    fine = round_up(width * 1.5);
  }
  const double per_pt = (out.high - out.low) / length_pt;
  const Round step = coarser(fine, step_pt * per_pt);
  out.fine = fine.number();
  out.step = step.number();
  out.decimals = std::max(0, -step.power);
  return out;
}

}  // namespace drystage::drawing
