#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

TEST(SchemaCommand, PrintsTheSchemaOrWritesItToAFile) {
  const Outcome printed = drystage({"schema"});
  EXPECT_EQ(printed.status, 0);
  EXPECT_EQ(printed.err, "");
  EXPECT_EQ(nlohmann::json::parse(printed.out).at("$schema"),
            "http://json-schema.org/draft-07/schema#");
  const Workspace space;
  const std::string path = space.path("plan.schema.json");
  const Outcome written = drystage({"schema", "--output", path});
  EXPECT_EQ(written.status, 0);
  EXPECT_EQ(written.out, "");
  EXPECT_EQ(read_file(path), printed.out);
}

TEST(SchemaCommand, TakesNoPlanAndNothingAboutOne) {
  const Outcome plan = drystage({"schema", "plan.yaml"});
  EXPECT_EQ(plan.status, 2);
  EXPECT_NE(plan.err.find("no plan is wanted here, but there is plan.yaml"), std::string::npos);
  EXPECT_EQ(drystage({"schema", "--set", "people[0].mass=70 kg"}).status, 2);
  EXPECT_EQ(drystage({"schema", "--help"}).out.find("PLAN.yaml"), std::string::npos);
}

}  // namespace
}  // namespace drystage::testing
