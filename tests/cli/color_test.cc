#include "cli/color.h"

#include <gtest/gtest.h>

namespace drystage::cli {
namespace {

TEST(Color, IsForTerminalsThatCanAndUsersWhoWant) {
  EXPECT_TRUE(wants_color(Color::automatic, true, nullptr, "xterm"));
  EXPECT_TRUE(wants_color(Color::automatic, true, "", "xterm"));
  EXPECT_FALSE(wants_color(Color::automatic, true, "1", "xterm"));
  EXPECT_FALSE(wants_color(Color::automatic, true, nullptr, "dumb"));
  EXPECT_FALSE(wants_color(Color::automatic, true, nullptr, nullptr));
  EXPECT_FALSE(wants_color(Color::automatic, false, nullptr, "xterm"));
}

TEST(Color, IsAsAskedWhateverTheSurroundings) {
  EXPECT_TRUE(wants_color(Color::always, false, "1", "dumb"));
  EXPECT_FALSE(wants_color(Color::never, true, nullptr, "xterm"));
}

}  // namespace
}  // namespace drystage::cli
