#include "report/page/html.h"

#include <algorithm>
#include <array>
#include <string>

#include "drawing/formats.h"

namespace drystage::report::page {
namespace {

/// Every mark that turns text round has three bytes.
constexpr std::size_t mark_bytes = 3;
constexpr std::array<std::string_view, 3> begins_isolate{"\u2066", "\u2067", "\u2068"};
constexpr std::string_view ends_isolate = "\u2069";
constexpr std::array<std::string_view, 5> turns{"\u202a", "\u202b", "\u202c", "\u202d", "\u202e"};

template <class List>
bool is_one_of(const List& list, std::string_view what) {
  return std::ranges::find(list, what) != list.end();
}

std::string written(std::string_view text, bool elements) {
  std::string out;
  int open = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view mark = text.substr(i, mark_bytes);
    const bool begins = is_one_of(begins_isolate, mark);
    const bool ends = mark == ends_isolate;
    if (begins || ends || is_one_of(turns, mark)) {
      i += mark_bytes - 1;
      if (!elements || (ends && open == 0)) continue;
      open += static_cast<int>(begins) - static_cast<int>(ends);
      if (begins || ends) out += begins ? "<bdi>" : "</bdi>";
    } else {
      out += drawing::escaped(text.substr(i, 1));
    }
  }
  for (; open > 0; --open) out += "</bdi>";
  return out;
}

}  // namespace

std::string html(std::string_view text) { return written(text, true); }

std::string plain_html(std::string_view text) { return written(text, false); }

std::string element(std::string_view open, std::string_view text) {
  if (text.empty()) return {};
  const std::string_view name = open.substr(0, open.find(' '));
  std::string out = "<";
  out.append(open).append(">").append(html(text)).append("</").append(name).append(">\n");
  return out;
}

}  // namespace drystage::report::page
