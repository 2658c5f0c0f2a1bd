#pragma once

#include <functional>
#include <optional>
#include <string>

#include "drawing/page.h"

namespace drystage::cli {

/// What a drawing can be written as.
enum class PictureForm { pdf, svg, png, html };

/// The endings that say so, for a sentence.
inline constexpr const char* picture_endings = ".pdf, .svg, .png or .html";

/// The form that the ending of a file's name asks for, in small letters or capitals; none where it
/// is another, or where there is no name before it.
std::optional<PictureForm> picture_form(const std::string& path);

/// Writes a drawing into a file, in the form that its name asks for, whole or not at all. `narrow`
/// draws the same for a small screen and is called for HTML alone. Throws UsageError where the form
/// has no room for it, FileError where the file cannot be written.
void write_picture(const std::string& path, const drawing::Drawing& pages,
                   const std::function<drawing::Drawing()>& narrow);

/// The same for a drawing that suits every screen.
void write_picture(const std::string& path, const drawing::Drawing& pages);

}  // namespace drystage::cli
