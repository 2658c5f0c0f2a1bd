#pragma once

#include <stdexcept>

namespace drystage::drawing {

/// This machine has no font to write letters and digits with; the text says what to install.
class NoFonts : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace drystage::drawing
