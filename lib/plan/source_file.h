#pragma once

#include <filesystem>
#include <string>

namespace drystage::plan {

/// A file that has been read.
struct SourceFile {
  std::string name;  ///< its path, as it is told to the user
  std::string text;  ///< without a byte order mark
};

/// The text of a file, or why it could not be read. Of a file larger than a plan may be there is
/// one byte more than that, so that parse_tree sees that there is too much.
struct FileText {
  std::string text{};
  std::string fault{};  ///< empty: there is a text
};
FileText text_of_file(const std::filesystem::path& path);

/// Takes away a byte order mark.
std::string without_byte_order_mark(std::string text);

}  // namespace drystage::plan
