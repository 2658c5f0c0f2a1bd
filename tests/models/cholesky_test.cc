#include "models/cholesky.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <vector>

namespace drystage::models::cholesky_test {
namespace {

SquareMatrix matrix(std::size_t rows, std::initializer_list<double> cells) {
  SquareMatrix made(rows);
  std::size_t i = 0;
  for (const double cell : cells) {
    made.at(i / rows, i % rows) = cell;
    ++i;
  }
  return made;
}

// A textbook's example: the factor is (2; 6 1; -8 5 3), in whole numbers.
TEST(Cholesky, SolvesTheTextbooksExample) {
  const Cholesky factor(matrix(3, {4, 12, -16, 12, 37, -43, -16, -43, 98}));
  EXPECT_TRUE(factor.definite());
  const std::vector<double> half = factor.half_solve({2, 7, 0});
  EXPECT_NEAR(half[0], 1, 1e-12);
  EXPECT_NEAR(half[1], 1, 1e-12);
  EXPECT_NEAR(half[2], 1, 1e-12);
  // 4 + 24 - 48, 12 + 74 - 129, -16 - 86 + 294
  const std::vector<double> x = factor.solve({-20, -43, 192});
  EXPECT_NEAR(x[0], 1, 1e-10);
  EXPECT_NEAR(x[1], 2, 1e-10);
  EXPECT_NEAR(x[2], 3, 1e-10);
}

TEST(Cholesky, ReadsTheLowerHalfAlone) {
  const Cholesky factor(matrix(2, {4, 99, 2, 5}));
  const std::vector<double> x = factor.solve({8, 12});
  EXPECT_NEAR(x[0], 1, 1e-12);
  EXPECT_NEAR(x[1], 2, 1e-12);
}

TEST(Cholesky, SaysWhatIsNotPositiveDefiniteAndStaysFinite) {
  for (const SquareMatrix& bad : {matrix(2, {1, 1, 1, 1}), matrix(2, {1, 2, 2, 1}),
                                  matrix(2, {0, 0, 0, 0}), matrix(2, {-1, 0, 0, 1})}) {
    const Cholesky factor(bad);
    EXPECT_FALSE(factor.definite());
    for (const double x : factor.solve({1, 2})) {
      EXPECT_TRUE(std::isfinite(x));
    }
  }
  EXPECT_TRUE(Cholesky(SquareMatrix(0)).definite());
}

}  // namespace
}  // namespace drystage::models::cholesky_test
