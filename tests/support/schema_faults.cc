#include "schema_faults.h"

#include <fmt/core.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "cli/process.h"
#include "cli/workspace.h"
#include "plan/schema.h"

namespace drystage::support {

using drystage::testing::lines;
using drystage::testing::program;
using drystage::testing::Workspace;
namespace {

using Json = nlohmann::ordered_json;

Json json_of(const plan::Node& node) {
  switch (node.kind) {
    case plan::Node::Kind::empty:
      return nullptr;
    case plan::Node::Kind::text:
      return node.text;
    case plan::Node::Kind::list: {
      Json made = Json::array();
      for (const plan::Node& item : node.items) made.push_back(json_of(item));
      return made;
    }
    case plan::Node::Kind::map:
      break;
  }
  Json made = Json::object();
  for (const plan::Entry& entry : node.entries) made[entry.key] = json_of(entry.value);
  return made;
}

std::vector<std::string> faults(const std::string& documents) {
  const Workspace space;
  const auto outcome = program("python3", {DRYSTAGE_TEST_DATA "/support/validate.py",
                                           space.write("schema.json", plan::editor_schema()),
                                           space.write("documents.jsonl", documents)});
  if (outcome.status != 0) throw std::runtime_error("the validator failed: " + outcome.err);
  return lines(outcome.out);
}

}  // namespace

std::vector<std::string> schema_faults(const std::vector<std::string>& yaml_texts) {
  std::string documents;
  for (const std::string& text : yaml_texts) documents += Json{{"yaml", text}}.dump() + "\n";
  return faults(documents);
}

std::vector<std::string> schema_faults_of_json(const std::vector<std::string>& json_texts) {
  std::string documents;
  for (const std::string& text : json_texts) documents += fmt::format("{{\"json\":{}}}\n", text);
  return faults(documents);
}

std::string json_text(const plan::Node& tree) { return json_of(tree).dump(); }

}  // namespace drystage::support
