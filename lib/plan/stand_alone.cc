#include "plan/stand_alone.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "plan/log.h"
#include "plan/same_plan.h"
#include "plan/text_edit.h"
#include "plan/text_layout.h"
#include "plan/utf8.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

using Lines = std::vector<std::string>;

// Counts, which are all that is bare, need no quotes in a plan.
std::string written(const std::string& text) {
  const bool is_count = !text.empty() && std::ranges::all_of(text, units::is_digit);
  return is_count ? text : yaml_text(text);
}

std::string in_brackets(const Node& node) {
  std::string made;
  const auto add = [&made](const std::string& text) { made += (made.empty() ? "" : ", ") + text; };
  switch (node.kind) {
    case Node::Kind::empty:
      return "~";
    case Node::Kind::text:
      return written(node.text);
    case Node::Kind::list:
      for (const Node& item : node.items) add(in_brackets(item));
      return "[" + made + "]";
    case Node::Kind::map:
      break;
  }
  for (const Entry& entry : node.entries) {
    add(yaml_text(entry.key) + ": " + in_brackets(entry.value));
  }
  return "{" + made + "}";
}

void add_inside(Lines& lines, std::size_t indent, const Node& node);

// A value after its key or its dash: on the same line where there is room, else below.
void add_value(Lines& lines, std::size_t indent, const std::string& lead, const Node& node) {
  constexpr int most_columns = 100;
  const std::string head = std::string(indent, ' ') + lead;
  std::string line = head + " " + in_brackets(node);
  if (columns(line) <= most_columns || (node.items.empty() && node.entries.empty())) {
    lines.push_back(std::move(line));
    return;
  }
  const std::size_t first = lines.size();
  if (lead != "-") lines.push_back(head);
  add_inside(lines, indent + 2, node);
  if (lead == "-") lines[first][indent] = '-';
}

void add_inside(Lines& lines, std::size_t indent, const Node& node) {
  for (const Entry& entry : node.entries) {
    add_value(lines, indent, yaml_text(entry.key) + ":", entry.value);
  }
  for (const Node& item : node.items) add_value(lines, indent, "-", item);
}

std::string whole_text(const Node& root) {
  Lines lines;
  add_inside(lines, 0, root);
  std::string made;
  for (const std::string& line : lines) made += line + '\n';
  return made;
}

std::string names_of_included(const ReadPlan& reading) {
  std::vector<std::string> names;
  for (const SourceFile& file : reading.included) names.push_back(file.name);
  return units::listed(units::each_once(std::move(names)), " and ");
}

// The own text, in which each section that is another one in `merged` is written anew, and others
// are added or taken out.
std::string filled(const ReadPlan& reading, const TextPart& layout, const Node& own,
                   const Node& merged) {
  TextEdit edit(reading.source);
  std::vector<std::string_view> removed;
  for (const Entry& entry : own.entries) {
    if (merged.find(entry.key) == nullptr) removed.push_back(entry.key);
  }
  edit.change_map(layout, removed, {});
  const std::size_t begin = layout.members.front().begin;
  const std::size_t indent = begin - line_start(reading.source, begin);
  Lines added;
  for (const Entry& entry : merged.entries) {
    const Node* said = own.find(entry.key);
    if (said == nullptr) {
      added.emplace_back();
      if (added.size() == 1) {
        added.push_back(std::string(indent, ' ') + "# Taken over from " +
                        names_of_included(reading));
      }
      add_value(added, indent, yaml_text(entry.key) + ":", entry.value);
    } else if (!same_node(*said, entry.value)) {
      Lines lines;
      add_inside(lines, indent + 2, entry.value);
      edit.set_lines(*layout.find(entry.key), lines);
    }
  }
  if (!added.empty()) edit.add_lines(layout, added);
  return edit.result();
}

// The order of sections says nothing.
Node in_order(Node root) {
  std::ranges::sort(root.entries, {}, &Entry::key);
  return root;
}

bool says(const std::string& text, const Node& merged) {
  Log log;
  const auto root = parse_tree(text, {}, log);
  return root && log.errors() == 0 && same_node(in_order(*root), in_order(merged));
}

}  // namespace

std::string stand_alone(const ReadPlan& reading) {
  if (!reading.merged) return reading.source;
  Log log;
  const Node own = parse_tree(reading.source, {}, log).value();
  const TextPart layout = lay_out(reading.source, own);
  if (layout.form == TextPart::Form::block_map) {
    std::string text = filled(reading, layout, own, *reading.merged);
    if (says(text, *reading.merged)) return text;
  }
  std::string text = whole_text(*reading.merged);
  if (says(text, *reading.merged)) return text;
  throw std::logic_error("the plan cannot be written with what it includes");
}

}  // namespace drystage::plan
