#pragma once

#include <string>
#include <vector>

#include "plan/tree.h"

namespace drystage::support {

/// A tree as a text of JSON, which is YAML too.
std::string json_text(const plan::Node& tree);

/// What an editor sees: for each document the first fault by `drystage schema`, or "valid". By
/// Debian's python3-jsonschema and python3-yaml.
std::vector<std::string> schema_faults(const std::vector<std::string>& yaml_texts);
std::vector<std::string> schema_faults_of_json(const std::vector<std::string>& json_texts);

}  // namespace drystage::support
