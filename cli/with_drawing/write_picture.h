#pragma once

#include <string>

#include "drawing/page.h"

namespace drystage::cli {

/// Writes a drawing into a file, in the form that its name asks for, whole or not at all. Throws
/// UsageError where the form has no room for it, FileError where the file cannot be written.
void write_picture(const std::string& path, const drawing::Drawing& pages);

}  // namespace drystage::cli
