#include "plan/text_layout.h"

#include <algorithm>
#include <stdexcept>

#include "units/text.h"

namespace drystage::plan {
namespace {

constexpr bool is_blank(char c) { return c == ' ' || c == '\t'; }
constexpr bool is_space(char c) { return is_blank(c) || c == '\n' || c == '\r'; }

[[noreturn]] void lost() {
  throw std::logic_error("the places of the plan's values in its text were not found");
}

class Layout {
 public:
  explicit Layout(std::string_view text) : text_(text), starts_{0} {
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\n') starts_.push_back(i + 1);
    }
  }

  // `parent` is the column of the keys or dashes around a value, -1 at the top.
  [[nodiscard]] TextPart piece(const Node& node, int parent, bool in_flow) const {
    TextPart made;
    made.begin = past_properties(offset(node.origin.mark));
    if (node.kind == Node::Kind::text || node.kind == Node::Kind::empty) {
      made.form = TextPart::Form::scalar;
      made.text = node.text;
      made.end = scalar_end(made.begin, parent, in_flow);
      return made;
    }
    const char first = at(made.begin);
    if (node.kind == Node::Kind::list) {
      if (first == '[') {
        fill_flow_list(made, node, parent);
      } else {
        fill_block_list(made, node);
      }
      return made;
    }
    const bool braces = first == '{';
    made.form = braces ? TextPart::Form::flow_map : TextPart::Form::block_map;
    const int column = braces || in_flow ? parent : column_of(made.begin);
    made.end = made.begin + (braces ? 1 : 0);
    for (const Entry& entry : node.entries) {
      made.members.push_back(member(entry, column, braces || in_flow));
      made.end = made.members.back().value.end;
    }
    if (braces) made.end = past_closing(made.end, '}');
    return made;
  }

 private:
  [[nodiscard]] char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\n'; }

  [[nodiscard]] std::size_t offset(Mark mark) const {
    const auto line = static_cast<std::size_t>(mark.line);
    if (line < 1 || line > starts_.size()) lost();
    std::size_t place = starts_[line - 1];
    for (int column = 1; column < mark.column && place < text_.size(); ++column) {
      ++place;
      while ((static_cast<unsigned char>(at(place)) & 0xC0U) == 0x80U) ++place;
    }
    return place;
  }

  [[nodiscard]] int column_of(std::size_t place) const {
    return static_cast<int>(place - line_start(text_, place));
  }

  // An anchor (&name), which nothing refers to, and the tag "!" may stand before a value.
  [[nodiscard]] std::size_t past_properties(std::size_t place) const {
    while (at(place) == '&' || at(place) == '!') {
      while (!is_space(at(place))) ++place;
      place = skip_gap(text_, place);
    }
    return place;
  }

  [[nodiscard]] std::size_t past_closing(std::size_t place, char bracket) const {
    place = skip_gap(text_, place);
    if (at(place) == ',') place = skip_gap(text_, place + 1);
    if (at(place) != bracket) lost();
    return place + 1;
  }

  void fill_flow_list(TextPart& made, const Node& node, int parent) const {
    made.form = TextPart::Form::flow_list;
    made.end = made.begin + 1;
    for (const Node& item : node.items) {
      made.items.push_back(piece(item, parent, true));
      made.end = made.items.back().end;
    }
    made.end = past_closing(made.end, ']');
  }

  void fill_block_list(TextPart& made, const Node& node) const {
    made.form = TextPart::Form::block_list;
    const int column = column_of(made.begin);
    made.end = made.begin;
    for (const Node& item : node.items) {
      const std::size_t dash = skip_gap(text_, made.end);
      if (at(dash) != '-') lost();
      made.dashes.push_back(dash);
      made.items.push_back(piece(item, column, false));
      made.end = made.items.back().end;
    }
  }

  [[nodiscard]] Member member(const Entry& entry, int column, bool in_flow) const {
    Member made;
    made.key = entry.key;
    made.begin = offset(entry.origin.mark);
    if (entry.value.kind != Node::Kind::empty) {
      made.value = piece(entry.value, column, in_flow);
      return made;
    }
    const std::size_t key_end = scalar_end(past_properties(made.begin), column, in_flow);
    const std::size_t colon = skip_gap(text_, key_end);
    made.value.begin = at(colon) == ':' ? colon + 1 : key_end;
    made.value.end = made.value.begin;
    // Or there is a word for nothing: "~" or "null".
    const std::size_t word = skip_blanks(text_, made.value.begin);
    if (at(word) == '~' || units::lower_ascii(text_.substr(word, 4)) == "null") {
      made.value.form = TextPart::Form::scalar;
      made.value.begin = word;
      made.value.end = scalar_end(word, column, in_flow);
    }
    return made;
  }

  [[nodiscard]] std::size_t scalar_end(std::size_t place, int parent, bool in_flow) const {
    const char first = at(place);
    if (first == '"' || first == '\'') return quoted_end(place);
    if (!in_flow && (first == '|' || first == '>')) return block_scalar_end(place, parent);
    return plain_end(place, parent, in_flow);
  }

  [[nodiscard]] std::size_t quoted_end(std::size_t place) const {
    const char quote = text_[place];
    for (std::size_t i = place + 1; i < text_.size(); ++i) {
      if (quote == '"' && text_[i] == '\\') {
        ++i;
      } else if (text_[i] == quote) {
        if (quote == '"' || at(i + 1) != '\'') return i + 1;
        ++i;
      }
    }
    lost();
  }

  [[nodiscard]] std::size_t block_scalar_end(std::size_t place, int parent) const {
    std::size_t end = line_end(text_, place);
    std::size_t line = next_line(text_, place);
    while (line < text_.size()) {
      const std::size_t first = skip_blanks(text_, line);
      const bool is_empty = first >= line_end(text_, line);
      if (!is_empty && column_of(first) <= parent) break;
      if (!is_empty) end = line_end(text_, line);
      line = next_line(text_, line);
    }
    return end;
  }

  [[nodiscard]] bool ends_plain(std::size_t place, bool in_flow) const {
    static constexpr std::string_view brackets = ",[]{}";
    const char c = at(place);
    if (in_flow && brackets.find(c) != std::string_view::npos) return true;
    if (c != ':') return false;
    const char after = at(place + 1);
    return is_space(after) || (in_flow && brackets.find(after) != std::string_view::npos);
  }

  [[nodiscard]] std::size_t plain_end(std::size_t place, int parent, bool in_flow) const {
    std::size_t end = place;
    while (place < text_.size()) {
      if (is_space(text_[place])) {
        const std::size_t next = std::min(text_.find_first_not_of(" \t\r\n", place), text_.size());
        const bool on_new_line = line_start(text_, next) > place;
        if (at(next) == '#' || (on_new_line && !in_flow && column_of(next) <= parent)) break;
        place = next;
      } else {
        if (ends_plain(place, in_flow)) break;
        end = ++place;
      }
    }
    return end;
  }

  std::string_view text_;
  std::vector<std::size_t> starts_;
};

}  // namespace

const Member* TextPart::member(std::string_view key) const {
  const auto found = std::find_if(members.begin(), members.end(),
                                  [key](const Member& one) { return one.key == key; });
  return found == members.end() ? nullptr : &*found;
}

const TextPart* TextPart::find(std::string_view key) const {
  const Member* found = member(key);
  return found == nullptr ? nullptr : &found->value;
}

TextPart lay_out(std::string_view text, const Node& root) {
  return Layout(text).piece(root, -1, false);
}

std::size_t skip_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && is_blank(text[at])) ++at;
  return at;
}

std::size_t skip_gap(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    if (text[at] == '#') {
      at = line_end(text, at);
    } else if (is_space(text[at])) {
      ++at;
    } else {
      break;
    }
  }
  return at;
}

std::size_t line_start(std::string_view text, std::size_t at) {
  if (at == 0) return 0;
  const std::size_t before = text.rfind('\n', at - 1);
  return before == std::string_view::npos ? 0 : before + 1;
}

std::size_t line_end(std::string_view text, std::size_t at) {
  const std::size_t end = std::min(text.find('\n', at), text.size());
  return end > at && end < text.size() && text[end - 1] == '\r' ? end - 1 : end;
}

std::size_t next_line(std::string_view text, std::size_t at) {
  return std::min(text.find('\n', at), text.size() - 1) + 1;
}

}  // namespace drystage::plan
