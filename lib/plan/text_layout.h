#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "plan/tree.h"

namespace drystage::plan {

struct Member;

/// Where a YAML value stands in its text: bytes from `begin` up to `end`, without the comment and
/// the blanks after it.
struct TextPart {
  enum class Form { nothing, scalar, flow_list, flow_map, block_list, block_map };
  Form form = Form::nothing;
  std::size_t begin = 0;  ///< of a block list its first dash, of a block map its first key
  std::size_t end = 0;    ///< of nothing: as `begin`, after the colon of its key
  std::string text;       ///< of a scalar, without its quotes
  std::vector<TextPart> items;
  std::vector<std::size_t> dashes;  ///< of a block list: one for each item
  std::vector<Member> members;

  /// The member with this key, or null if there is none.
  [[nodiscard]] const Member* member(std::string_view key) const;

  /// Its value, or null if there is none.
  [[nodiscard]] const TextPart* find(std::string_view key) const;

  [[nodiscard]] bool in_brackets() const {
    return form == Form::flow_list || form == Form::flow_map;
  }
};

/// A key of a map, and its value.
struct Member {
  std::string key;
  std::size_t begin = 0;
  TextPart value;
};

/// Finds the places of every value. `root` is what parse_tree made of this same text, without an
/// error. Throws std::logic_error if the two do not fit each other.
TextPart lay_out(std::string_view text, const Node& root);

/// The first byte from `at` on that is no space or tab.
std::size_t skip_blanks(std::string_view text, std::size_t at);

/// The first byte from `at` on that is no space, tab, line end, or part of a comment.
std::size_t skip_gap(std::string_view text, std::size_t at);

/// The first byte of the line that `at` is on.
std::size_t line_start(std::string_view text, std::size_t at);

/// The end of the line that `at` is on, before its line end (LF or CR LF).
std::size_t line_end(std::string_view text, std::size_t at);

/// The first byte of the next line, or the end of the text.
std::size_t next_line(std::string_view text, std::size_t at);

}  // namespace drystage::plan
