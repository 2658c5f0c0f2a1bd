#include "models/cholesky.h"

#include <cmath>
#include <utility>

namespace drystage::models {

Cholesky::Cholesky(SquareMatrix symmetric) : lower_(std::move(symmetric)) {
  constexpr double least_pivot = 1e-14;  // of what the diagonal was
  SquareMatrix& l = lower_;
  for (std::size_t j = 0; j < l.rows(); ++j) {
    const double diagonal = l.at(j, j);
    double pivot = diagonal;
    for (std::size_t k = 0; k < j; ++k) {
      pivot -= l.at(j, k) * l.at(j, k);
    }
    const double least = least_pivot * std::abs(diagonal);
    if (!(pivot > least)) {
      definite_ = false;
      pivot = least > 0.0 ? least : 1.0;
    }
    l.at(j, j) = std::sqrt(pivot);
    for (std::size_t i = j + 1; i < l.rows(); ++i) {
      double rest = l.at(i, j);
      for (std::size_t k = 0; k < j; ++k) {
        rest -= l.at(i, k) * l.at(j, k);
      }
      l.at(i, j) = rest / l.at(j, j);
    }
  }
}

std::vector<double> Cholesky::half_solve(std::vector<double> b) const {
  for (std::size_t i = 0; i < b.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      b[i] -= lower_.at(i, k) * b[k];
    }
    b[i] /= lower_.at(i, i);
  }
  return b;
}

std::vector<double> Cholesky::solve(std::vector<double> b) const {
  b = half_solve(std::move(b));
  for (std::size_t i = b.size(); i-- > 0;) {
    for (std::size_t k = i + 1; k < b.size(); ++k) {
      b[i] -= lower_.at(k, i) * b[k];
    }
    b[i] /= lower_.at(i, i);
  }
  return b;
}

}  // namespace drystage::models
