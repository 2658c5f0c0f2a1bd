#include <fmt/core.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/utf8.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

using units::shown;

constexpr int page_width = 80;
constexpr int lines_around = 2;
constexpr std::string_view dots = "...";  // where a line is cut

// The terminal's codes for the parts of a message; empty without colour.
struct Style {
  std::string_view bold, red, yellow, dim, plain;
};

constexpr Style colored{"\x1b[1m", "\x1b[1;31m", "\x1b[1;33m", "\x1b[2m", "\x1b[0m"};
constexpr Style black_and_white{};

// Bytes of the first `count` characters.
std::size_t bytes_of(std::string_view text, int count) {
  std::size_t at = 0;
  for (int i = 0; i < count && at < text.size(); ++i) at += first_character(text.substr(at)).bytes;
  return at;
}

// Bytes of the word at the start of `text`: a quoted text, or up to what ends a plain one.
std::size_t word_length(std::string_view text) {
  if (text.empty()) return 0;
  if (text[0] == '"' || text[0] == '\'') {
    const std::size_t end = text.find(text[0], 1);
    return end == std::string_view::npos ? text.size() : end + 1;
  }
  if (std::string_view("{}[],:#").find(text[0]) != std::string_view::npos) return 1;
  std::size_t end = 0;
  while (end < text.size()) {
    const char c = text[end];
    const char next = end + 1 < text.size() ? text[end + 1] : ' ';
    if (std::string_view(",{}[]").find(c) != std::string_view::npos) break;
    if (c == ':' && (next == ' ' || next == '\t')) break;
    if (c == ' ' && next == '#') break;
    ++end;
  }
  while (end > 1 && (text[end - 1] == ' ' || text[end - 1] == '\t')) --end;
  return end;
}

// What of a line is shown in `room` columns when its first `from` columns are left out.
std::string cut(std::string_view line, int from, int room) {
  const int most = columns(line) - from <= room ? room : room - static_cast<int>(dots.size());
  std::string made;
  int column = 0;
  while (!line.empty()) {
    const Character character = first_character(line);
    const int begins = column;
    column += character.columns;
    if (column > from + most) return made + std::string(dots);
    if (begins >= from) made += line.substr(0, character.bytes);
    line.remove_prefix(character.bytes);
  }
  return made;
}

struct Excerpt {
  std::vector<std::string_view> lines;
  int first = 1;
};

// The lines of the source from `first` to `last`, as far as they exist.
Excerpt excerpt(std::string_view source, int first, int last) {
  Excerpt made;
  made.first = std::max(first, 1);
  std::size_t at = 0;
  for (int line = 1; line <= last && at <= source.size(); ++line) {
    const std::size_t end = std::min(source.find('\n', at), source.size());
    if (line >= made.first) {
      std::string_view text = source.substr(at, end - at);
      if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
      // The empty text after the last line end is no line.
      if (end < source.size() || !text.empty()) made.lines.push_back(text);
    }
    at = end + 1;
  }
  return made;
}

// Words of `text` in lines of at most `page_width` columns; the first line begins after `used`
// columns, the others after `indent`.
std::string wrapped(std::string_view text, int used, int indent) {
  std::string made;
  int column = used;
  bool first = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string word = shown(text.substr(0, end));
    const int word_columns = columns(word);
    if (!first && column + 1 + word_columns > page_width) {
      made += "\n" + std::string(static_cast<std::size_t>(indent), ' ');
      column = indent;
    } else if (!first) {
      made += ' ';
      ++column;
    }
    made += word;
    column += word_columns;
    first = false;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return made;
}

std::string labelled(std::string_view label, std::string_view text, const Style& style) {
  if (text.empty()) return {};
  const std::string head = fmt::format("  {}: ", label);
  const int used = static_cast<int>(head.size());
  return fmt::format("  {}{}:{} {}\n", style.bold, label, style.plain, wrapped(text, used, used));
}

std::string source_lines(const Mark& mark, std::string_view source, const Style& style) {
  const Excerpt part = excerpt(source, mark.line - lines_around, mark.line + lines_around);
  const int number_width =
      static_cast<int>(std::to_string(part.first + static_cast<int>(part.lines.size())).size());
  const int gutter = number_width + 5;  // "> ", the number, " | "
  const int room = page_width - gutter;
  const auto marked = static_cast<std::size_t>(mark.line - part.first);
  if (part.lines.size() <= marked) return {};

  const std::string_view line = part.lines[marked];
  const std::size_t before_bytes = bytes_of(line, mark.column - 1);
  const int caret = columns(shown(line.substr(0, before_bytes)));
  const std::string_view rest = line.substr(before_bytes);
  const int word = std::max(1, columns(shown(rest.substr(0, word_length(rest)))));
  // The whole line if it fits, else a window that has the caret near its middle, moved so that
  // it shows as much of the line as it can.
  const auto cut_columns = static_cast<int>(dots.size());
  const int line_columns = columns(shown(line));
  const int from = line_columns <= room
                       ? 0
                       : std::clamp(caret - (room - 2 * cut_columns) / 2, 0,
                                    std::max(0, line_columns - (room - cut_columns)));
  const std::string_view cut_left = from > 0 ? dots : "";

  std::string made;
  for (std::size_t i = 0; i < part.lines.size(); ++i) {
    const bool is_marked = i == marked;
    const std::string text =
        cut(shown(part.lines[i]), from, room - static_cast<int>(cut_left.size()));
    made +=
        fmt::format("{}{} {:>{}} |{}", is_marked ? style.bold : style.dim, is_marked ? ">" : " ",
                    part.first + static_cast<int>(i), number_width, style.plain);
    if (!text.empty()) made += fmt::format(" {}{}", cut_left, text);
    made += '\n';
    if (!is_marked) continue;
    const int lead = caret - from + static_cast<int>(cut_left.size());
    const int tail = std::clamp(word, 1, std::max(1, page_width - gutter - lead));
    made += fmt::format("{}{:{}} |{} {:{}}{}^{:~<{}}{}\n", style.dim, "", number_width + 2,
                        style.plain, "", lead, style.red, "", tail - 1, style.plain);
  }
  return made;
}

}  // namespace

std::string render(const Diagnostic& diagnostic, std::string_view file_name,
                   std::string_view source, bool color) {
  const Style& style = color ? colored : black_and_white;
  std::string where = shown(diagnostic.where_text);
  if (where.empty()) {
    where = shown(file_name);
    if (diagnostic.mark.line > 0) {
      where += fmt::format(":{}:{}", diagnostic.mark.line, diagnostic.mark.column);
    }
  }
  const bool is_error = diagnostic.severity == Severity::error;
  const std::string_view label = is_error ? "error" : "warning";
  const int used = columns(where) + 2 + static_cast<int>(label.size()) + 2;
  std::string made = fmt::format("{}{}:{} {}{}:{} {}\n", style.bold, where, style.plain,
                                 is_error ? style.red : style.yellow, label, style.plain,
                                 wrapped(diagnostic.what, used, 2));
  if (diagnostic.where_text.empty() && diagnostic.mark.line > 0) {
    made += source_lines(diagnostic.mark, source, style);
  }
  made += labelled("expected", diagnostic.expected, style);
  made += labelled("hint", diagnostic.hint, style);
  return made;
}

}  // namespace drystage::plan
