#pragma once

#include <string>
#include <string_view>

namespace drystage::report::page {

/// Text as it may stand between tags: nothing in it is markup. What is set apart in it (Unicode's
/// isolates) becomes `<bdi>`; other marks that turn text round are left out. Control characters
/// become U+FFFD.
std::string html(std::string_view text);

/// The same where no element may stand: in a title or a quoted attribute.
std::string plain_html(std::string_view text);

/// An element with such text in it: `<p class="grave">...</p>`. `open` is the tag with its
/// attributes. Of no text, nothing.
std::string element(std::string_view open, std::string_view text);

}  // namespace drystage::report::page
