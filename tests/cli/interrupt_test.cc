// Ctrl-C: once to stop a search, twice to end the program.
#include "cli/interrupt.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace drystage::cli {
namespace {

TEST(Interrupt, FirstOneOnlyRaisesAFlag) {
  const Interrupt interrupt;
  EXPECT_FALSE(Interrupt::flag()->load());
  ASSERT_EQ(std::raise(SIGINT), 0);
  EXPECT_TRUE(Interrupt::flag()->load());
}

TEST(Interrupt, BeginsAnewWithTheFlagDown) {
  {
    const Interrupt interrupt;
    ASSERT_EQ(std::raise(SIGINT), 0);
  }
  const Interrupt interrupt;
  EXPECT_FALSE(Interrupt::flag()->load());
}

TEST(InterruptDeathTest, SecondOneEndsTheProgram) {
  const auto twice = [] {
    const Interrupt interrupt;
    std::raise(SIGINT);
    std::raise(SIGINT);
    std::exit(0);
  };
  EXPECT_EXIT(twice(), ::testing::KilledBySignal(SIGINT), "");
}

TEST(InterruptDeathTest, OneAfterwardsEndsTheProgram) {
  const auto afterwards = [] {
    { const Interrupt interrupt; }
    std::raise(SIGINT);
    std::exit(0);
  };
  EXPECT_EXIT(afterwards(), ::testing::KilledBySignal(SIGINT), "");
}

TEST(InterruptDeathTest, StaysIgnoredWhereItWas) {
  const auto ignored = [] {
    std::signal(SIGINT, SIG_IGN);
    const Interrupt interrupt;
    std::raise(SIGINT);
    std::raise(SIGINT);
    std::exit(Interrupt::flag()->load() ? 1 : 0);
  };
  EXPECT_EXIT(ignored(), ::testing::ExitedWithCode(0), "");
}

}  // namespace
}  // namespace drystage::cli
