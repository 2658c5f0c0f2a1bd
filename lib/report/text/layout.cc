#include "report/text/layout.h"

#include <algorithm>

#include "plan/utf8.h"

namespace drystage::report {
namespace {

constexpr std::string_view cut_sign = "~";

/// The longest beginning of `text` that fits in `width` columns.
std::string_view head(std::string_view text, int width) {
  std::size_t end = 0;
  int used = 0;
  while (end < text.size()) {
    const plan::Character next = plan::first_character(text.substr(end));
    if (used + next.columns > width) break;
    used += next.columns;
    end += next.bytes;
  }
  return text.substr(0, end);
}

std::string fit(std::string_view text, int width) {
  if (plan::columns(text) <= width) return std::string(text);
  return std::string(head(text, width - 1)) + std::string(cut_sign);
}

/// Where the first word ends. A sign of percent stays with its number.
std::size_t word_end(std::string_view text) {
  const std::size_t end = std::min(text.find(' '), text.size());
  const bool percent = text.substr(end).starts_with(" %");
  return percent ? std::min(text.find(' ', end + 1), text.size()) : end;
}

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(count > 0 ? count : 0), ' ');
}

}  // namespace

std::string left(std::string_view text, int width) {
  std::string out = fit(text, width);
  return out + blanks(width - plan::columns(out));
}

std::string right(std::string_view text, int width) {
  const std::string out = fit(text, width);
  return blanks(width - plan::columns(out)) + out;
}

std::string place_cell(const std::string& name, bool in_bush, int width) {
  return left(in_bush && plan::columns(name) > width ? "bush" : name, width);
}

std::string wrap(std::string_view text, int width, int indent) {
  std::string out;
  int used = 0;
  while (!text.empty()) {
    const std::size_t end = word_end(text);
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const int columns = plan::columns(word);
    if (used > 0 && used + 1 + columns > width) {
      out += '\n' + blanks(indent);
      used = indent;
    } else if (used > 0) {
      out += ' ';
      ++used;
    }
    out += word;
    used += columns;
  }
  return out;
}

std::string wrap_after(std::string_view label, std::string_view text, int width) {
  const int indent = plan::columns(label);
  // The label stands where the first line's indent would be.
  std::string out(label);
  for (const char each : wrap(text, width - indent)) {
    out += each;
    if (each == '\n') out += blanks(indent);
  }
  return out + "\n";
}

}  // namespace drystage::report
