#pragma once

#include <cstddef>
#include <vector>

namespace drystage::models {

/// A square matrix of a few dozen rows, by rows.
class SquareMatrix {
 public:
  explicit SquareMatrix(std::size_t rows) : rows_(rows), cells_(rows * rows, 0.0) {}
  [[nodiscard]] std::size_t rows() const { return rows_; }
  double& at(std::size_t row, std::size_t column) { return cells_[row * rows_ + column]; }
  [[nodiscard]] double at(std::size_t row, std::size_t column) const {
    return cells_[row * rows_ + column];
  }

 private:
  std::size_t rows_;
  std::vector<double> cells_;
};

/// A = L L', for a symmetric A, of which only the lower half is read. Method: Cholesky, in every
/// handbook of numerical methods.
class Cholesky {
 public:
  explicit Cholesky(SquareMatrix symmetric);
  /// Whether A is positive definite. If not, by rounding or at all, the rest answers for one near
  /// it.
  [[nodiscard]] bool definite() const { return definite_; }
  [[nodiscard]] const SquareMatrix& lower() const { return lower_; }
  /// x where L x = b.
  [[nodiscard]] std::vector<double> half_solve(std::vector<double> b) const;
  /// x where A x = b.
  [[nodiscard]] std::vector<double> solve(std::vector<double> b) const;

 private:
  SquareMatrix lower_;
  bool definite_ = true;
};

}  // namespace drystage::models
