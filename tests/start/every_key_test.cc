// Every key of a plan in a listing that can be copied from.
#include "start/every_key.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "plan/keys.h"
#include "plan/read.h"

namespace drystage::start {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// The listing without its "# " and its head: a plan that has every key.
std::string uncommented() {
  std::istringstream lines(every_key());
  std::string made;
  std::string line;
  bool head = true;
  while (std::getline(lines, line)) {
    if (!head) made += line.substr(2) + '\n';
    if (line == "#") head = false;
  }
  return made;
}

TEST(EveryKey, IsThereOnceWithItsMeaning) {
  const std::string text = every_key();
  for (const auto& some : plan::declarations) {
    for (const plan::Declaration& one : some) {
      if (one.name() == "*" || one.map() == "dip" || one.map() == "dip.depth") continue;
      EXPECT_THAT(text, HasSubstr(std::string(one.name()) + ":")) << one.path;
      EXPECT_THAT(text, HasSubstr(std::string(one.meaning))) << one.path;
    }
  }
}

TEST(EveryKey, IsOneThatTheReaderKnowsWhereItStands) {
  const plan::ReadPlan reading = plan::read_text(uncommented());
  EXPECT_FALSE(reading.diagnostics.empty());  // not all of them go together
  for (const plan::Diagnostic& found : reading.diagnostics) {
    EXPECT_THAT(found.what, Not(HasSubstr("unknown key"))) << found.mark.line;
    EXPECT_THAT(found.what, Not(HasSubstr("YAML"))) << found.mark.line;
    // A map where a list belongs, and the like.
    EXPECT_THAT(found.what, Not(HasSubstr(": a "))) << found.mark.line;
  }
}

}  // namespace
}  // namespace drystage::start
