// Names under what they name, as many as there is room for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <variant>

#include "report/charts/flags.h"
#include "support/overlaps.h"

namespace drystage::report::name_rows_test {
namespace {

using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

TEST(NameRows, StandInTheMiddle) {
  const drawing::Block block =
      name_rows(typesetter(), {{.from_pt = 100, .to_pt = 200, .words = "Red Tables"}}, 0, 400);
  const drawing::Rect ink = ink_box(typesetter(), std::get<drawing::Text>(block.marks.at(0)));
  EXPECT_NEAR(ink.x + ink.width / 2, 150, 1.5);
}

TEST(NameRows, StayBetweenTheEdges) {
  const drawing::Block block =
      name_rows(typesetter(), {{.from_pt = 0, .to_pt = 2, .words = "Marrabel"}}, 0, 400);
  EXPECT_GE(ink_box(typesetter(), std::get<drawing::Text>(block.marks.at(0))).x, -0.5);
}

TEST(NameRows, GiveWayToTheWidest) {
  std::vector<NameUnder> all(5, {.from_pt = 100, .to_pt = 101, .words = "narrow"});
  all.push_back({.from_pt = 90, .to_pt = 110, .words = "wide"});
  EXPECT_THAT(words_of(name_rows(typesetter(), all, 0, 400).marks), HasSubstr("wide"));
}

TEST(NameRows, LeaveOutWhatIsWiderThanAll) {
  const drawing::Block block =
      name_rows(typesetter(), {{.from_pt = 0, .to_pt = 2, .words = "Marrabel"}}, 0, 20);
  EXPECT_THAT(words_of(block.marks), Not(HasSubstr("Marrabel")));
}

RC_GTEST_PROP(NameRowsProperty, MeetNowhere, ()) {
  const auto places = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 400));
  std::vector<NameUnder> all;
  for (const int place : places) {
    const auto wide = *rc::gen::inRange(0, 60);
    all.push_back({.from_pt = static_cast<double>(place),
                   .to_pt = static_cast<double>(place + wide),
                   .words = "Place " + std::to_string(place)});
  }
  const drawing::Block block = name_rows(typesetter(), all, 0, 460);
  for (const std::string& fault : support::faults(typesetter(), block, 460)) RC_FAIL(fault);
}

}  // namespace
}  // namespace drystage::report::name_rows_test
