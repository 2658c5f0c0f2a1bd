#include "plan/write_observed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

namespace drystage::plan::write_observed_test {
namespace {

const char* const text = R"(vehicles:
  - name: truck   # the old one
    observed:
      - {surface: sealed, speed: 85 km/h, mass: 3100 kg, uses: 12.5 L/100km}   # weighed
      - {surface: track, uses: 17 L/100km}
  - {name: van, tanks: []}
)";

TEST(WriteObserved, ChangesAFigureByTheFactorAndAddsTheMeanOfTheTrip) {
  const std::string made = with_observed(text, {{"truck", Surface::sealed, 0.14, 1.1},
                                                {"truck", Surface::sand, 0.224, 1.2},
                                                {"van", Surface::gravel, 0.1567, 1.0}});
  EXPECT_EQ(made, R"(vehicles:
  - name: truck   # the old one
    observed:
      - {surface: sealed, speed: 85 km/h, mass: 3100 kg, uses: 13.8 L/100km}   # weighed
      - {surface: track, uses: 17 L/100km}
      - {surface: sand, uses: 22.4 L/100km}
  - {name: van, tanks: [], observed: [{surface: gravel, uses: 15.7 L/100km}]}
)");
}

TEST(WriteObserved, SaysWhyNot) {
  EXPECT_THROW(with_observed(text, {{"lorry", Surface::sealed, 0.1, 1}}), std::invalid_argument);
  EXPECT_THROW(with_observed("places: {}\n", {{"van", Surface::sealed, 0.1, 1}}),
               std::invalid_argument);
}

}  // namespace
}  // namespace drystage::plan::write_observed_test
