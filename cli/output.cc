#include "output.h"

#include <fcntl.h>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "units/text.h"

namespace drystage::cli {
namespace {

/// Writes all of it, however often the system takes only a part. False on an error.
bool write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

[[noreturn]] void fail(const std::string& path) {
  const int why = errno;
  throw FileError(fmt::format("{}: {}", units::shown(path), std::strerror(why)));
}

/// A file that exists and is not a plain one (a terminal, a pipe) is written as it stands.
bool is_special(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode);
}

void write_special(std::string_view text, const std::string& path) {
  std::FILE* file = std::fopen(path.c_str(), "w");
  if (file == nullptr) fail(path);
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  if (std::fclose(file) != 0 || !written) fail(path);
}

/// Where a link leads, at the end: a link stays a link, and what it leads to is written, be it
/// there or not.
std::string followed(const std::string& given) {
  constexpr int most_links = 40;
  std::filesystem::path path = given;
  std::error_code trouble;
  for (int link = 0; std::filesystem::is_symlink(path, trouble); ++link) {
    if (link == most_links) {
      errno = ELOOP;
      fail(given);
    }
    path = path.parent_path() / std::filesystem::read_symlink(path, trouble);
  }
  return path.string();
}

/// Waits until the name of a file is on the disk too: without that the file that was there before
/// may be there again after a loss of power.
void sync_folder_of(const std::string& path) {
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  const int descriptor =
      ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  // Some folders may be written to and not read, and some file systems do not know of this.
  if (descriptor < 0) return;
  const bool synced = ::fsync(descriptor) == 0 || errno == EINVAL || errno == ENOTSUP;
  const int reason = errno;
  ::close(descriptor);
  errno = reason;
  if (!synced) fail(path + " may be lost again");
}

/// Permissions of the file that is replaced, or those that a new file gets.
mode_t permissions(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) return status.st_mode & 07777U;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666U & ~mask;
}

}  // namespace

std::string shown_lines(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    out += units::shown(text.substr(0, end));
    if (end < text.size()) out += '\n';
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

void write_result(std::string_view text, const std::string& given) {
  if (given.empty() || given == "-") {
    if (!write_all(STDOUT_FILENO, text)) fail("standard output");
    return;
  }
  const std::string path = followed(given);
  if (is_special(path)) {
    write_special(text, path);
    return;
  }
  std::string beside = path + ".XXXXXX";
  const int descriptor = ::mkstemp(beside.data());
  if (descriptor < 0) fail(path);
  const bool written = write_all(descriptor, text) &&
                       ::fchmod(descriptor, permissions(path)) == 0 && ::fsync(descriptor) == 0;
  const int reason = errno;
  const bool closed = ::close(descriptor) == 0;
  if (!written || !closed || ::rename(beside.c_str(), path.c_str()) != 0) {
    const int why = written ? errno : reason;
    ::unlink(beside.c_str());
    errno = why;
    fail(path);
  }
  sync_folder_of(path);
}

}  // namespace drystage::cli
