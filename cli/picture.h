#pragma once

#include <optional>
#include <string>

namespace drystage::cli {

/// What a drawing can be written as.
enum class PictureForm { pdf, svg, png, html };

/// The endings that say so, for a sentence.
inline constexpr const char* picture_endings = ".pdf, .svg, .png or .html";

/// The form that the ending of a file's name asks for, in small letters or capitals; none where it
/// is another, or where there is no name before it.
std::optional<PictureForm> picture_form(const std::string& path);

}  // namespace drystage::cli
