#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace drystage::cli {

/// A file that could not be read or written.
class FileError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Lines as they may be shown in a terminal, whatever the names of files in them hold.
std::string shown_lines(std::string_view text);

/// Writes a result to standard output, or whole into a file: into one beside it first, which then
/// takes its place, so that the file is never half written. Throws FileError.
void write_result(std::string_view text, const std::string& given);

}  // namespace drystage::cli
