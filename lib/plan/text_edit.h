#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "plan/text_layout.h"

namespace drystage::plan {

/// A key and a value that come into a map, the value as it is to be written.
struct NewMember {
  std::string key;
  std::string value;
  bool usual = false;  ///< what holds without it too: written only if the neighbour writes it
};

/// A map that comes into a list.
struct NewItem {
  int after = -1;  ///< index of the item, which stays, that it comes after; -1: before them all
  std::vector<NewMember> members;
  bool in_this_order = false;  ///< its members; else in that of what stands beside it
};

/// Changes of a YAML text by place. Every byte that is not asked to change stays: comments, blank
/// lines, order, quotes and indents. What is new is written as what stands beside it is, in flow or
/// in block form. The pieces are those of `lay_out` for the same text, all of them of its block or
/// flow maps and lists. Nothing may be changed twice; of what comes in at one place, what was asked
/// for first stands first.
class TextEdit {
 public:
  /// `text` must outlive the edit.
  explicit TextEdit(std::string_view text);

  /// Writes another value for a scalar, in quotes if it stood in some. `value` itself has none.
  void set_scalar(const TextPart& scalar, const std::string& value);

  /// Writes another value for a scalar as it is to stand in the text, whatever stood there.
  void set_value(const TextPart& scalar, const std::string& value) {
    replace(scalar.begin, scalar.end, value);
  }

  /// Writes lines in place of the value of a key in a block map, whatever stood there.
  void set_lines(const TextPart& value, const std::vector<std::string>& lines);

  /// Adds lines after a block map.
  void add_lines(const TextPart& map, const std::vector<std::string>& lines) {
    insert_lines(after_comment(map.end), lines);
  }

  /// Takes members out of a map, one of which stays, and adds others at its end.
  void change_map(const TextPart& map, const std::vector<std::string_view>& removed,
                  const std::vector<NewMember>& added);

  /// Takes items out of a list that has some, with the comment behind each, and puts others in.
  void change_list(const TextPart& list, const std::vector<bool>& removed,
                   const std::vector<NewItem>& added);

  /// Puts items into the list under a key, or under a key within the map under a key, where there
  /// is no such list yet, or an empty one. What `map` lacks comes after the first of its members
  /// `beside` that is there, else at its end.
  void begin_list(const TextPart& map, const std::vector<std::string>& keys,
                  const std::vector<NewItem>& items, const std::vector<std::string_view>& beside);

  /// The text with all changes.
  [[nodiscard]] std::string result() const;

 private:
  struct Change {
    std::size_t begin;
    std::size_t end;
    std::string text;
  };
  struct Slot {  // an item or a member between brackets
    std::size_t begin;
    std::size_t end;
  };
  struct NewSlot {
    int after;
    std::string text;
  };
  class FlowChange;

  void replace(std::size_t begin, std::size_t end, std::string text);
  void insert(std::size_t at, std::string text) { replace(at, at, std::move(text)); }
  void insert_lines(std::size_t at, const std::vector<std::string>& lines);
  void change_flow(std::size_t open, const std::vector<Slot>& slots,
                   const std::vector<bool>& removed, const std::vector<NewSlot>& added);
  void change_block_list(const TextPart& list, const std::vector<bool>& removed,
                         const std::vector<NewItem>& added);
  void remove_block_member(const TextPart& map, std::size_t index);
  void begin_lines(const TextPart& value, const std::vector<std::string>& lines);
  [[nodiscard]] bool begins_line(std::size_t at) const;
  [[nodiscard]] std::size_t column(std::size_t at) const;
  [[nodiscard]] std::size_t after_comment(std::size_t at) const;
  [[nodiscard]] std::size_t after_lines(std::size_t at, std::size_t own_column) const;

  std::string_view text_;
  std::string line_end_;
  std::vector<Change> changes_;
};

/// A text as a YAML scalar that reads back as itself, alone or between brackets: in quotes unless
/// every reader of YAML takes it for a text without them.
std::string yaml_text(const std::string& text);

}  // namespace drystage::plan
