#include "plan/text_edit.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "plan/utf8.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

std::string spaces(std::size_t count) { return std::string(count, ' '); }

// The members in the order in which the neighbour has them, those that it lacks at the end, and
// without what need not be said.
std::vector<NewMember> arranged(const std::vector<NewMember>& members, const TextPart* neighbour) {
  const auto has = [&](const std::string& key) {
    return neighbour != nullptr && neighbour->member(key) != nullptr;
  };
  std::vector<NewMember> made;
  if (neighbour != nullptr) {
    for (const Member& one : neighbour->members) {
      std::copy_if(members.begin(), members.end(), std::back_inserter(made),
                   [&](const NewMember& other) { return other.key == one.key; });
    }
  }
  std::copy_if(members.begin(), members.end(), std::back_inserter(made),
               [&](const NewMember& one) { return !one.usual && !has(one.key); });
  return made;
}

std::vector<NewMember> arranged(const NewItem& item, const TextPart& neighbour) {
  return item.in_this_order ? item.members : arranged(item.members, &neighbour);
}

std::string entry(const NewMember& member) { return member.key + ": " + member.value; }

std::string flow_map(const std::vector<NewMember>& members) {
  std::string made = "{";
  for (const NewMember& one : members) made += (made.size() > 1 ? ", " : "") + entry(one);
  return made + "}";
}

std::string flow_list(const std::vector<NewItem>& items) {
  std::string made = "[";
  for (const NewItem& one : items) {
    made += (made.size() > 1 ? ", " : "") + flow_map(arranged(one.members, nullptr));
  }
  return made + "]";
}

bool is_bare_of_all(const TextPart& piece) {
  return piece.form == TextPart::Form::nothing || piece.form == TextPart::Form::scalar;
}

}  // namespace

TextEdit::TextEdit(std::string_view text)
    : text_(text), line_end_(text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n") {}

void TextEdit::replace(std::size_t begin, std::size_t end, std::string text) {
  changes_.push_back({begin, end, std::move(text)});
}

std::string TextEdit::result() const {
  std::vector<Change> changes = changes_;
  std::stable_sort(changes.begin(), changes.end(), [](const Change& a, const Change& b) {
    return std::pair(a.begin, a.end > a.begin) < std::pair(b.begin, b.end > b.begin);
  });
  std::string made;
  std::size_t done = 0;
  for (const Change& change : changes) {
    if (change.begin < done) throw std::logic_error("two changes of one piece of the plan's text");
    made += text_.substr(done, change.begin - done);
    made += change.text;
    done = change.end;
  }
  made += text_.substr(done);
  return made;
}

bool TextEdit::begins_line(std::size_t at) const {
  return skip_blanks(text_, line_start(text_, at)) == at;
}

std::size_t TextEdit::column(std::size_t at) const {
  const std::size_t start = line_start(text_, at);
  return static_cast<std::size_t>(columns(text_.substr(start, at - start)));
}

// The line after `at`, past the comment that follows `at` on its line and goes on below, in lines
// whose "#" stands under the first one's.
std::size_t TextEdit::after_comment(std::size_t at) const {
  const std::size_t comment = skip_blanks(text_, at);
  std::size_t next = next_line(text_, at);
  if (comment >= text_.size() || text_[comment] != '#') return next;
  for (;;) {
    const std::size_t first = skip_blanks(text_, next);
    if (first >= text_.size() || text_[first] != '#' || column(first) != column(comment)) break;
    next = next_line(text_, next);
  }
  return next;
}

// The same, and past comment lines that stand as deep as `own_column` or deeper.
std::size_t TextEdit::after_lines(std::size_t at, std::size_t own_column) const {
  std::size_t next = after_comment(at);
  for (;;) {
    const std::size_t first = skip_blanks(text_, next);
    if (first >= text_.size() || text_[first] != '#' || column(first) < own_column) return next;
    next = next_line(text_, next);
  }
}

// `at` is the first byte of a line, or the end of a text that may lack its last line end.
void TextEdit::insert_lines(std::size_t at, const std::vector<std::string>& lines) {
  const bool in_open_line = at > 0 && text_[at - 1] != '\n';
  std::string made;
  for (const std::string& line : lines) {
    made += in_open_line ? line_end_ + line : line + line_end_;
  }
  insert(at, std::move(made));
}

void TextEdit::set_scalar(const TextPart& scalar, const std::string& value) {
  const char first = text_[scalar.begin];
  const std::string quote = first == '"' || first == '\'' ? std::string(1, first) : std::string();
  replace(scalar.begin, scalar.end, quote + value + quote);
}

void TextEdit::set_lines(const TextPart& value, const std::vector<std::string>& lines) {
  const bool in_block =
      value.form == TextPart::Form::block_list || value.form == TextPart::Form::block_map;
  if (!in_block) {
    begin_lines(value, lines);
    return;
  }
  replace(line_start(text_, value.begin), after_comment(value.end), "");
  insert_lines(after_comment(value.end), lines);
}

void TextEdit::change_map(const TextPart& map, const std::vector<std::string_view>& removed,
                          const std::vector<NewMember>& added) {
  if (removed.empty() && added.empty()) return;
  const auto goes = [&](const Member& one) {
    return std::find(removed.begin(), removed.end(), one.key) != removed.end();
  };
  if (map.form == TextPart::Form::flow_map) {
    std::vector<Slot> slots;
    std::vector<bool> is_removed;
    for (const Member& one : map.members) {
      slots.push_back({one.begin, one.value.end});
      is_removed.push_back(goes(one));
    }
    int last = -1;
    for (std::size_t i = 0; i < slots.size(); ++i) {
      if (!is_removed[i]) last = static_cast<int>(i);
    }
    std::vector<NewSlot> entries;
    entries.reserve(added.size());
    for (const NewMember& one : added) entries.push_back({last, entry(one)});
    change_flow(map.begin + 1, slots, is_removed, entries);
    return;
  }
  for (std::size_t i = 0; i < map.members.size(); ++i) {
    if (goes(map.members[i])) remove_block_member(map, i);
  }
  if (added.empty()) return;
  std::vector<std::string> lines;
  lines.reserve(added.size());
  const std::size_t indent = column(map.members.front().begin);
  for (const NewMember& one : added) lines.push_back(spaces(indent) + entry(one));
  insert_lines(after_comment(map.end), lines);
}

void TextEdit::remove_block_member(const TextPart& map, std::size_t index) {
  const Member& one = map.members[index];
  if (begins_line(one.begin)) {
    replace(line_start(text_, one.begin), after_comment(one.value.end), "");
  } else if (index + 1 < map.members.size()) {  // it stands after the dash of a list
    replace(one.begin, map.members[index + 1].begin, "");
  }
}

void TextEdit::change_list(const TextPart& list, const std::vector<bool>& removed,
                           const std::vector<NewItem>& added) {
  if (list.form == TextPart::Form::block_list) {
    change_block_list(list, removed, added);
    return;
  }
  std::vector<Slot> slots;
  slots.reserve(list.items.size());
  for (const TextPart& item : list.items) slots.push_back({item.begin, item.end});
  std::vector<NewSlot> maps;
  maps.reserve(added.size());
  for (const NewItem& one : added) {
    const auto beside = static_cast<std::size_t>(std::max(one.after, 0));
    maps.push_back({one.after, flow_map(arranged(one, list.items[beside]))});
  }
  change_flow(list.begin + 1, slots, removed, maps);
}

void TextEdit::change_block_list(const TextPart& list, const std::vector<bool>& removed,
                                 const std::vector<NewItem>& added) {
  const auto own_column = [&](std::size_t i) {
    return std::max(column(list.dashes[i]) + 1,
                    begins_line(list.items[i].begin) ? 0 : column(list.items[i].begin));
  };
  for (const NewItem& one : added) {
    const auto beside = static_cast<std::size_t>(std::max(one.after, 0));
    const TextPart& neighbour = list.items[beside];
    const std::size_t dash = list.dashes[beside];
    const std::string_view gap = text_.substr(dash + 1, neighbour.begin - dash - 1);
    const bool on_line = gap.find_first_not_of(' ') == std::string_view::npos;
    std::string lead = spaces(column(dash)) + "-" + (on_line ? std::string(gap) : " ");
    const std::vector<NewMember> members = arranged(one, neighbour);
    std::vector<std::string> lines;
    if (neighbour.form == TextPart::Form::flow_map) {
      lines.push_back(lead + flow_map(members));
    } else {
      for (const NewMember& member : members) {
        lines.push_back(lead + entry(member));
        lead = spaces(lead.size());
      }
    }
    insert_lines(one.after < 0 ? line_start(text_, list.dashes.front())
                               : after_lines(neighbour.end, own_column(beside)),
                 lines);
  }
  for (std::size_t i = 0; i < list.items.size(); ++i) {
    if (!removed[i]) continue;
    replace(line_start(text_, list.dashes[i]), after_lines(list.items[i].end, own_column(i)), "");
  }
}

// Block lines in place of a value that is not there, or holds nothing.
void TextEdit::begin_lines(const TextPart& value, const std::vector<std::string>& lines) {
  if (value.end > value.begin) {
    const std::size_t blanks = text_.find_last_not_of(" \t", value.begin - 1) + 1;
    replace(blanks, value.end, "");
  }
  insert_lines(after_comment(value.end), lines);
}

void TextEdit::begin_list(const TextPart& map, const std::vector<std::string>& keys,
                          const std::vector<NewItem>& items,
                          const std::vector<std::string_view>& beside) {
  const bool in_block = map.form == TextPart::Form::block_map;
  const TextPart* value = map.find(keys.front());
  const bool is_map = value != nullptr && !value->members.empty();
  if (keys.size() > 1 &&
      (is_map || (value != nullptr && value->form == TextPart::Form::flow_map))) {
    begin_list(*value, {keys.begin() + 1, keys.end()}, items, {});
    return;
  }
  std::string flow = flow_list(items);
  if (keys.size() > 1) flow = "{" + keys.back() + ": " + flow + "}";
  std::vector<std::string> lines;
  if (in_block) {
    std::size_t indent = column(map.members.front().begin);
    for (std::size_t k = value == nullptr ? 0 : 1; k < keys.size(); ++k) {
      lines.push_back(spaces(indent + 2 * k) + keys[k] + ":");
    }
    indent += 2 * keys.size();
    for (const NewItem& one : items) {
      lines.push_back(spaces(indent) + "- " + flow_map(arranged(one.members, nullptr)));
    }
  }
  if (value == nullptr && !in_block) {
    change_map(map, {}, {{keys.front(), flow}});
  } else if (value == nullptr) {
    const Member* after = &map.members.back();
    for (const std::string_view key : beside) {
      const Member* found = map.member(key);
      if (found == nullptr) continue;
      after = found;
      break;
    }
    const std::size_t at = after_lines(after->value.end, column(after->begin) + 1);
    const bool parted = at < text_.size() && line_end(text_, at) == at;
    if (parted) lines.insert(lines.begin(), "");
    insert_lines(at, lines);
  } else if (in_block &&
             (is_bare_of_all(*value) || skip_blanks(text_, value->begin + 1) + 1 == value->end)) {
    begin_lines(*value, lines);
  } else if (is_bare_of_all(*value)) {
    replace(value->begin, value->end, (value->begin == value->end ? " " : "") + flow);
  } else {
    insert(value->begin + 1, flow.substr(1, flow.size() - 2));
  }
}

std::string yaml_text(const std::string& text) {
  static constexpr std::array<std::string_view, 9> words{"yes", "no",  "true", "false", "null",
                                                         "on",  "off", "y",    "n"};
  const auto is_first = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || units::is_digit(c) ||
           (static_cast<unsigned char>(c) & 0x80U) != 0;
  };
  const bool is_number =
      !text.empty() && units::is_digit(text.front()) &&
      text.find_first_not_of("0123456789.,:_+-eExXoabcdfABCDF") == std::string::npos;
  const bool is_word =
      std::find(words.begin(), words.end(), units::lower_ascii(text)) != words.end();
  if (!text.empty() && is_first(text.front()) && text.back() != ' ' && !is_number && !is_word &&
      text.find_first_of(":#,[]{}?\"\\\t\n\r") == std::string::npos) {
    return text;
  }
  std::string made = "\"";
  for (const char c : text) {
    const std::size_t escaped = std::string_view("\t\n\r\"\\").find(c);
    made += escaped == std::string_view::npos ? std::string(1, c)
                                              : std::string{'\\', "tnr\"\\"[escaped]};
  }
  return made + "\"";
}

}  // namespace drystage::plan
