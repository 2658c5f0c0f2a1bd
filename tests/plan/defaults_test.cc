// What holds where a key is left out.
#include <gtest/gtest.h>

#include <algorithm>

#include "models/road_load.h"
#include "plan/values.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

TEST(Default, OfAKeyIsOneThatTheReaderTakesInItsRange) {
  for (const auto& some : declarations) {
    for (const Declaration& one : some) {
      const Key key(one);
      const auto value = default_number(key);
      // One that has a number but cannot be read would be taken for 0.
      const std::string text(default_of(key));
      const bool is_amount = !key.ranges().empty() && text.find("×") == std::string::npos &&
                             text.find_first_of("0123456789") != std::string::npos;
      EXPECT_EQ(value.has_value(), is_amount) << one.path;
      // Nothing may stand for no mishap at all, though it cannot be written.
      if (value && *value != 0) {
        EXPECT_EQ(fit_of(key.ranges().front(), *value), Fit::usual) << one.path;
      }
      const auto words = one.value.words;
      const bool is_word = std::ranges::find(words, one.absent) != words.end();
      if (one.value.sort == Sort::yes_no) {
        EXPECT_TRUE(one.absent == "yes" || one.absent == "no" || one.absent.starts_with("by "))
            << one.path;
      } else if (one.value.sort == Sort::word && !one.required()) {
        EXPECT_TRUE(is_word || one.absent.find(' ') != std::string::npos || one.absent == "none")
            << one.path;
      }
    }
  }
}

TEST(Default, DependsOnTheWordOfAnotherKey) {
  EXPECT_EQ(default_of("food.water"), "70 %");
  EXPECT_EQ(default_of("food.water", "dry"), "10 %");
  EXPECT_EQ(default_number("power.batteries.floor", "lfp"), 0.2);
  EXPECT_EQ(default_number("power.batteries.floor", "agm"), 0.5);
  EXPECT_EQ(default_number("cold.starts_at"), std::nullopt);
  EXPECT_EQ(default_number("cold.starts_at", "ice"), 4);
}

TEST(Default, OfSteepnessIsTheOneThatTheModelHas) {
  EXPECT_EQ(default_number("road.steepness"), models::usual_steepness);
}

}  // namespace
}  // namespace drystage::plan
