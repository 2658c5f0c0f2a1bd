#include "key_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "plan/keys.h"
#include "plan/utf8.h"
#include "units/list.h"

namespace drystage::support {
namespace {

using plan::Declaration;
using plan::Key;
using plan::Many;
using plan::Sort;
using Row = std::vector<std::string>;

std::string code(std::string_view text) { return fmt::format("`{}`", text); }

std::string units_of(Key key) {
  std::vector<std::string> made;
  for (const plan::Range& range : key.ranges()) {
    made.push_back(range.kind                   ? std::string(range.unit)
                   : range.shown_unit().empty() ? "a number"
                                                : fmt::format("a number ({})", range.unit));
  }
  return units::listed(made, " or ");
}

std::string words_of_key(Key key) {
  constexpr std::size_t most = 4;
  const auto words = key->value.words;
  if (words.data() == plan::keys::texts_of<plan::surface_words>.data()) return "a surface";
  if (words.size() > most) return "a word below";
  std::vector<std::string> made;
  for (const std::string_view word : words) made.push_back(code(word));
  return units::listed(made, " or ");
}

std::string one_value(Key key) {
  const auto& value = key->value;
  switch (value.sort) {
    case Sort::map: {
      const auto alone = value.alone;
      if (alone.empty()) return "map";
      for (const Key other : plan::keys_of(alone.substr(0, alone.rfind('.')))) {
        if (other->path == alone) return units_of(other) + " or map";
      }
      return "amount or map";
    }
    case Sort::amount:
      return units_of(key);
    case Sort::word:
      return words_of_key(key);
    case Sort::reference:
      return fmt::format("{} {}", value.of == "activity" ? "an" : "a", value.of);
    case Sort::yes_no:
      return "`yes` or `no`";
    case Sort::date:
      return "date";
    case Sort::clock:
      return "time of day";
    case Sort::utc_offset:
      return "`\"+01:00\"`";
    case Sort::latitude:
    case Sort::longitude:
      return "an angle";
    case Sort::version:
      return "1";
    case Sort::facing:
      return "`north`, `NE` ... or °";
    case Sort::take:
      return fmt::format("`fill`, `to next`, {}", units_of(key));
    case Sort::surfaces:
      return "a surface, map or list";
    case Sort::dip:
      return "L by cm";
    case Sort::months:
      return "months";
    case Sort::name:
    case Sort::text:
      return "text";
  }
  return {};
}

std::string value_of(Key key) {
  const std::string one = one_value(key);
  switch (key->value.many) {
    case Many::list:
      return one == "map" ? "list" : "list: " + one;
    case Many::one_or_list:
      return one + ", or a list";
    case Many::by_name:
      return one == "map" ? "by name" : one + " by name";
    case Many::list_by_name:
      return "list by name: " + one;
    case Many::one_or_by_name:
      return one + ", or by name";
    case Many::by_surface:
      return one + " by surface";
    case Many::one_or_by_surface:
      return one + ", or by surface";
    default:
      return one;
  }
}

std::string table_of(std::vector<Row> rows) {
  std::vector<std::size_t> widths(rows.front().size(), 0);
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], static_cast<std::size_t>(plan::columns(row[i])));
    }
  }
  Row line;
  for (const std::size_t width : widths) line.emplace_back(width + 2, '-');
  std::string made;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    for (std::size_t i = 0; i < widths.size(); ++i) {
      const auto blanks = widths[i] - static_cast<std::size_t>(plan::columns(rows[r][i]));
      made += fmt::format("| {}{} ", rows[r][i], std::string(blanks, ' '));
    }
    made += "|\n";
    if (r == 0) made += fmt::format("|{}|\n", fmt::join(line, "|"));
  }
  return made;
}

// A path as it is shown in a table that begins with `first`.
std::string shown(std::string_view map, std::string_view first, Key key) {
  std::string before;
  if (map != first && map.starts_with(first)) {
    before = map.substr(first.empty() ? 0 : first.size() + 1);
  } else if (map != first) {
    before = map.substr(map.rfind('.') + 1);
  }
  return before.empty() ? std::string(key.name()) : fmt::format("{}.{}", before, key.name());
}

std::string key_table(std::string_view maps) {
  std::vector<Row> rows{{"key", "what it means", "value", "when left out"}};
  std::string_view first;
  for (std::string_view rest = maps; !rest.empty();) {
    const std::size_t comma = std::min(rest.find(','), rest.size());
    std::string_view map = rest.substr(0, comma);
    if (map == "plan") map = "";
    if (rest.data() == maps.data()) first = map;
    for (const Key key : plan::keys_of(map)) {
      rows.push_back({code(shown(map, first, key)), std::string(key->meaning), value_of(key),
                      std::string(key->absent)});
    }
    rest.remove_prefix(std::min(comma + 2, rest.size()));
  }
  return table_of(std::move(rows));
}

// Where a key stands for whoever writes a plan: in its own map, or in those that include that.
std::vector<std::string> homes_of(std::string_view map, std::string_view name) {
  std::vector<std::string> made;
  for (const plan::Included& one : plan::included) {
    if (one.other != map) continue;
    for (std::string& home : homes_of(one.map, name)) made.push_back(std::move(home));
  }
  const bool abstract = !made.empty() && map.find('.') == std::string_view::npos;
  if (!abstract) made.insert(made.begin(), fmt::format("{}.{}", map, name));
  return made;
}

std::string range_table() {
  std::vector<Row> rows{{"key", "usually", "at all"}};
  for (const auto& some : plan::declarations) {
    for (const Declaration& one : some) {
      std::vector<std::string> names;
      for (const std::string& home : homes_of(one.map(), one.name())) names.push_back(code(home));
      for (const plan::Range& range : one.value.ranges()) {
        rows.push_back(
            {units::listed(names, ", "), plan::usual_words(range), plan::possible_words(range)});
      }
    }
  }
  return table_of(std::move(rows));
}

}  // namespace

std::string with_key_tables(std::string_view page) {
  constexpr std::string_view end = "<!-- end -->\n";
  std::string made;
  while (!page.empty()) {
    const std::size_t line_end = std::min(page.find('\n'), page.size() - 1) + 1;
    const std::string_view line = page.substr(0, line_end);
    made += line;
    page.remove_prefix(line_end);
    std::string table;
    constexpr std::string_view keys = "<!-- keys: ";
    if (line.starts_with(keys)) {
      table = key_table(line.substr(keys.size(), line.find(" -->") - keys.size()));
    } else if (line == "<!-- ranges -->\n") {
      table = range_table();
    }
    if (table.empty()) continue;
    made += "\n" + table + "\n";
    page.remove_prefix(std::min(page.find(end), page.size()));
  }
  return made;
}

}  // namespace drystage::support
