#pragma once

#include <string>
#include <vector>

namespace drystage::testing {

using Row = std::vector<std::string>;

/// Reads comma-separated values strictly as RFC 4180 has them: lines end with CR LF, a field with
/// a comma, a quote or a line end stands in quotes, a quote within is doubled. Throws on anything
/// else, and on rows of unlike length.
std::vector<Row> parse_csv(const std::string& text);

}  // namespace drystage::testing
