#include "units/coordinate.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace drystage::units {
namespace {

using ::testing::HasSubstr;

TEST(Coordinate, IsReadAsItIsWrittenOnMapsAndScreens) {
  for (const char* text : {"-30.2°", "30.2 S", "30.2° S", "30.2°S", "S 30.2", "S30.2", "S 30.2°",
                           "30°12' S", "30° 12' S", "30°12'00\" S", "30° 12′ S", "s 30.2",
                           "30.2 deg S", "30.2 degrees S", "-30°12'", "−30.2°"}) {
    const auto read = parse_coordinate(text, latitude);
    ASSERT_TRUE(read) << text << ": " << read.problem().line();
    EXPECT_NEAR(*read, -30.2, 1e-12) << text;
  }
  EXPECT_NEAR(*parse_coordinate("6°30'36\" W", longitude), -6.51, 1e-12);
  EXPECT_NEAR(*parse_coordinate("6.51 E", longitude), 6.51, 1e-12);
  EXPECT_NEAR(*parse_coordinate("27.1 degrees", latitude), 27.1, 1e-12);
}

std::string refusal(const char* text, const Axis& axis) {
  const auto read = parse_coordinate(text, axis);
  return read ? "accepted" : read.problem().line();
}

TEST(Coordinate, WithoutLetterOrSignIsToldBothDirections) {
  EXPECT_THAT(refusal("30.2", latitude), HasSubstr("write 30.2° N or 30.2° S"));
  EXPECT_THAT(refusal("130.2", longitude), HasSubstr("write 130.2° E or 130.2° W"));
  EXPECT_THAT(refusal("-30.2", latitude), HasSubstr("write -30.2°"));
}

TEST(Coordinate, OfTheOtherAxisIsRefused) {
  EXPECT_THAT(refusal("30.2 E", latitude), HasSubstr("E is no direction of a latitude"));
  EXPECT_THAT(refusal("30°12' S", longitude), HasSubstr("S is no direction of a longitude"));
}

TEST(Coordinate, ThatIsNoneIsRefused) {
  for (const char* text :
       {"", "S", "S S", "-30.2 S", "S -30.2", "30°60' S", "30°11'60\" S", "30°12 S", "30' S",
        "30°12'x S", "30 12 S", "30.2 km", "30.2 km S", "north", "\xFF"}) {
    EXPECT_NE(refusal(text, latitude), "accepted") << text;
  }
}

}  // namespace
}  // namespace drystage::units
