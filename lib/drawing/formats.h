#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "drawing/page.h"

namespace drystage::drawing {

/// A drawing that a form has no room for; the text says what to do instead.
class TooLarge : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// The same drawing in each form, as the bytes of a file. The same drawing with the same fonts comes
// to the same bytes: no clock and no name of a machine is in them.

/// A page each, with the fonts that it needs embedded and its text as text.
std::string as_pdf(const Drawing& drawing);

/// Pages one below the other in one picture. Letters are outlines, so that they look the same
/// everywhere; the words lie over them unseen, to be searched for, copied and read aloud.
std::string as_svg(const Drawing& drawing);

/// Pages one below the other in one picture, in greys. Throws TooLarge where a picture cannot have
/// so many dots.
std::string as_png(const Drawing& drawing);

/// One file with all in it, as wide as the screen; it prints a page each. It runs nothing and asks
/// for nothing from elsewhere.
std::string as_html(const Drawing& drawing);

/// Text as it may stand in XML and HTML, between tags or in a quoted attribute. What XML cannot
/// hold at all (control characters) becomes U+FFFD.
std::string escaped(std::string_view text);

}  // namespace drystage::drawing
