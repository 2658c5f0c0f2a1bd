#include "answers/odds/spread.h"

#include <algorithm>
#include <cmath>

namespace drystage::answers {
namespace {

constexpr std::size_t fold_count = 20;

// Of what does not differ, rounding.
constexpr double no_variance = 1e-12;

/// Sums of one part of the trips, or of all.
struct Sums {
  double count = 0;
  double sum = 0;
  double squares = 0;

  [[nodiscard]] double variance() const {
    return count > 1 ? std::max(0.0, (squares - sum * sum / count) / (count - 1)) : 0;
  }
  Sums operator-(const Sums& other) const {
    return {count - other.count, sum - other.sum, squares - other.squares};
  }
  void add(double value) {
    count += 1;
    sum += value;
    squares += value * value;
  }
};

/// About the first value, so that little is lost to rounding.
std::vector<Sums> sums_of(const std::vector<double>& values, double about) {
  std::vector<Sums> out(fold_count + 1);
  for (std::size_t i = 0; i < values.size(); ++i) {
    out[i * fold_count / values.size()].add(values[i] - about);
    out[fold_count].add(values[i] - about);
  }
  return out;
}

}  // namespace

Spread::Spread(std::size_t reserves, std::uint64_t trips)
    : reserves_(reserves), spare_(reserves * trips, 0) {}

void Spread::put(std::uint64_t trip, const TripOutcome& outcome) {
  for (std::size_t r = 0; r < reserves_; ++r) {
    const TripOutcome::OfReserve& its = outcome.reserves[r];
    const bool judged = its.slack < engine::without_limit;
    spare_[trip * reserves_ + r] = judged ? its.slack - its.short_of : 0;
  }
}

std::vector<double> Spread::of(std::size_t reserve) const {
  std::vector<double> out;
  for (std::size_t i = reserve; i < spare_.size(); i += reserves_) out.push_back(spare_[i]);
  return out;
}

void Spread::put(std::uint64_t trip, const Spread& other) {
  const auto row = static_cast<std::ptrdiff_t>(trip * reserves_);
  std::copy_n(other.spare_.begin() + row, reserves_, spare_.begin() + row);
}

std::optional<Spread::Share> Spread::share_of(const Spread& without, std::size_t reserve) const {
  const std::vector<double> all = of(reserve);
  if (all.size() < fold_count) return std::nullopt;
  const std::vector<Sums> with_it = sums_of(all, all.front());
  const std::vector<Sums> without_it = sums_of(without.of(reserve), all.front());
  const double variance = with_it[fold_count].variance();
  if (variance <= no_variance) return std::nullopt;
  const auto share = [](const Sums& with, const Sums& left) {
    return with.variance() > 0 ? 1 - left.variance() / with.variance() : 0;
  };
  const double whole = share(with_it[fold_count], without_it[fold_count]);
  double mean = 0;
  std::vector<double> left_out;
  for (std::size_t p = 0; p < fold_count; ++p) {
    left_out.push_back(
        share(with_it[fold_count] - with_it[p], without_it[fold_count] - without_it[p]));
    mean += left_out.back() / fold_count;
  }
  double squares = 0;
  for (const double one : left_out) squares += (one - mean) * (one - mean);
  constexpr double of_student = 2.093;  // 97.5 % with 19 degrees of freedom
  const double error = std::sqrt(squares * (fold_count - 1.0) / fold_count);
  return Share{
      .share = whole, .low = whole - of_student * error, .high = whole + of_student * error};
}

bool Spread::is_same(const Spread& other, std::uint64_t trips) const {
  const auto end = static_cast<std::ptrdiff_t>(trips * reserves_);
  return std::equal(spare_.begin(), spare_.begin() + end, other.spare_.begin());
}

double Spread::quantile(std::size_t reserve, double share) const {
  std::vector<double> values = of(reserve);
  if (values.empty()) return 0;
  const auto index = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(index),
                   values.end());
  return values[index];
}

}  // namespace drystage::answers
