#include <fmt/core.h>

#include "drawing/formats.h"
#include "drawing/svg.h"

namespace drystage::drawing {
namespace {

// The policy lets the page run nothing and load nothing, whatever somebody may have written into a
// name.
constexpr std::string_view head = R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy"
 content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{}</title>
<style>
body {{ margin: 0; background: #fff; }}
svg {{ display: block; width: 100%; max-width: 60rem; height: auto; margin: 0 auto 1rem; }}
@media print {{
  svg {{ max-width: none; max-height: 100vh; margin: 0; break-after: page; }}
  svg:last-child {{ break-after: auto; }}
}}
@page {{ size: {:.2f}pt {:.2f}pt; margin: 0; }}
</style>
</head>
<body>
)";

}  // namespace

std::string as_html(const Drawing& drawing) {
  const Page sheet = drawing.pages.empty() ? Page{} : drawing.pages.front();
  std::string out =
      fmt::format(fmt::runtime(head), escaped(drawing.title), sheet.width_pt, sheet.height_pt);
  // Each page as an element of its own, so that each is printed on a sheet of its own.
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    out +=
        svg_element({.title = drawing.title, .pages = {drawing.pages[i]}}, fmt::format("p{}-", i));
  }
  return out + "</body>\n</html>\n";
}

}  // namespace drystage::drawing
