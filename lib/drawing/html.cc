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
svg {{ display: block; width: 100%; height: auto; margin: 0 auto; }}
.narrow svg {{ max-width: 30rem; }}
.pages svg {{ max-width: 60rem; margin-bottom: 1rem; }}
@media screen and (max-width: 40rem) {{ .pages {{ display: none; }} }}
@media screen and (min-width: 40.01rem) {{ .narrow {{ display: none; }} }}
@media print {{
  .narrow {{ display: none; }}
  .pages svg {{ max-width: none; margin: 0; break-after: page; }}
  .pages svg:last-child {{ break-after: auto; }}
}}
@page {{ size: {:.2f}pt {:.2f}pt; margin: 0; }}
</style>
</head>
<body>
)";

/// Each page as an element of its own, so that each is printed on a sheet of its own.
std::string elements(const Drawing& drawing, std::string_view kind) {
  std::string out = fmt::format("<div class=\"{}\">\n", kind);
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    out += svg_element({.title = drawing.title, .pages = {drawing.pages[i]}},
                       fmt::format("{}{}-", kind.front(), i));
  }
  return out + "</div>\n";
}

}  // namespace

std::string as_html(const Drawing& pages, const Drawing& narrow) {
  const Page sheet = pages.pages.empty() ? Page{} : pages.pages.front();
  return fmt::format(fmt::runtime(head), escaped(pages.title), sheet.width_pt, sheet.height_pt) +
         elements(narrow, "narrow") + elements(pages, "pages") + "</body>\n</html>\n";
}

}  // namespace drystage::drawing
