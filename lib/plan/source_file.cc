#include "plan/source_file.h"

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
  std::string text(most_source_bytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) return {.fault = "reading it failed"};
  text.resize(static_cast<std::size_t>(file.gcount()));
  return {.text = std::move(text)};
}

std::string without_byte_order_mark(std::string text) {
  if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
  return text;
}

}  // namespace drystage::plan
