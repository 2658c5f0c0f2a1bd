#pragma once

#include <string>
#include <string_view>

namespace drystage::report::page {

/// The page's style and script (page.css, page.js), whole.
std::string_view style();
std::string_view script();

/// How the page's own policy names them: "sha256-...", by RFC 4648's base 64.
std::string style_hash();
std::string script_hash();

}  // namespace drystage::report::page
