#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/origin.h"

namespace drystage::plan {

struct Entry;

/// A YAML value as it was written: nothing is interpreted yet.
struct Node {
  enum class Kind { empty, text, list, map };
  Kind kind = Kind::empty;
  std::string text;
  Origin origin;
  std::vector<Node> items;
  std::vector<Entry> entries;  ///< in the order of the file; no key twice

  /// The value under `key`, or null if this is no map or has no such key.
  [[nodiscard]] const Node* find(std::string_view key) const;
  Node* find(std::string_view key);
};

struct Entry {
  std::string key;
  Origin origin;
  Node value;
};

class Log;

inline constexpr std::size_t most_source_bytes = std::size_t{1} << 20U;
inline constexpr std::size_t most_nodes = 100'000;
inline constexpr std::size_t most_depth = 40;

/// Reads one YAML document. Nothing comes back, and `log` says why, if it is not well-formed YAML
/// in UTF-8, or is larger, deeper or fuller than the limits above, or uses what plans have no use
/// for: aliases, tags, several documents, keys that are not plain text. A key given twice is
/// logged too, and only the first one is kept. If `set` is not empty, it becomes the origin of
/// every node; else `file` is the file of their marks.
std::optional<Node> parse_tree(std::string_view source, const std::string& set, Log& log,
                               int file = 0);

}  // namespace drystage::plan
