#include "plan/source_file.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "plan/tree.h"
#include "plan/utf8.h"

namespace drystage::plan {

FileText text_of_file(const std::filesystem::path& path) {
  std::error_code unknown_file;
  if (std::filesystem::is_directory(path, unknown_file)) return {.fault = "it is a folder"};
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  if (!file) return {.fault = errno != 0 ? std::strerror(errno) : "it cannot be opened"};
  // A part at a time: room for the longest file there may be would be a megabyte made blank.
  std::string text;
  std::array<char, 16384> part;
  while (text.size() <= most_source_bytes && file) {
    file.read(part.data(), static_cast<std::streamsize>(part.size()));
    text.append(part.data(), static_cast<std::size_t>(file.gcount()));
  }
  if (file.bad()) return {.fault = "reading it failed"};
  return {.text = std::move(text)};
}

std::string without_byte_order_mark(std::string text) {
  if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
  return text;
}

}  // namespace drystage::plan
