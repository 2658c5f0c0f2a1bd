// `drystage` draws nothing itself: `drystage-draw`, beside it, does (cli/draw.h).

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// The shared libraries that a program is linked with, as the loader lists them.
std::string libraries(const std::string& name) {
  return program(name, {}, {.set = {{"LD_TRACE_LOADED_OBJECTS", "1"}}}).out;
}

TEST(Draw, IsLoadedByTheProgramThatDrawsAlone) {
  EXPECT_THAT(libraries(tested_program() + "-draw"), HasSubstr("libcairo"));
  EXPECT_THAT(libraries(tested_program()), HasSubstr("libstdc++"));
  for (const char* drawing : {"libcairo", "libpango", "libglib"}) {
    EXPECT_THAT(libraries(tested_program()), Not(HasSubstr(drawing)));
  }
}

TEST(Draw, SaysWhatIsMissingWhereTheProgramThatDrawsIs) {
  const Workspace workspace;
  const std::string alone = workspace.path("drystage");
  std::filesystem::copy_file(tested_program(), alone);
  const std::string file = workspace.path("out.pdf");
  const std::string plan = scenario_path("base-camp");
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"card", plan, "--output", file},
        {"run", plan, "--chart", file},
        {"mishaps", plan, "--chart", file}}) {
    const Outcome outcome = program(alone, words);
    EXPECT_EQ(outcome.status, 3);
    EXPECT_EQ(outcome.out, "");
    EXPECT_THAT(outcome.err, HasSubstr(alone + "-draw: No such file or directory; cards and charts "
                                               "are drawn by that program, which belongs beside"));
    EXPECT_FALSE(std::filesystem::exists(file));
  }
  EXPECT_EQ(program(alone, {"card", "--help"}).status, 0);
  EXPECT_EQ(program(alone, {"run", plan}).status, 1);
}

}  // namespace
}  // namespace drystage::testing
