#include "cli/workspace.h"

#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <cwchar>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <system_error>

namespace drystage::testing {
namespace {

/// The longest common subsequence of lines, as a table of lengths from each pair to the ends.
std::vector<std::vector<int>> common_lengths(const std::vector<std::string>& a,
                                             const std::vector<std::string>& b) {
  std::vector<std::vector<int>> length(a.size() + 1, std::vector<int>(b.size() + 1, 0));
  for (std::size_t i = a.size(); i-- > 0;) {
    for (std::size_t j = b.size(); j-- > 0;) {
      length[i][j] =
          a[i] == b[j] ? length[i + 1][j + 1] + 1 : std::max(length[i + 1][j], length[i][j + 1]);
    }
  }
  return length;
}

std::string marked(char sign, std::size_t index, const std::string& line) {
  return std::string(1, sign) + " " + std::to_string(index + 1) + ": " + line + "\n";
}

/// Switches the calling thread to UTF-8 while it lives.
class Utf8 {
 public:
  Utf8() : made_(::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr)) {
    if (made_ == nullptr) throw std::runtime_error("this machine has no locale C.UTF-8");
    before_ = ::uselocale(made_);
  }
  ~Utf8() {
    ::uselocale(before_);
    ::freelocale(made_);
  }
  Utf8(const Utf8&) = delete;
  Utf8& operator=(const Utf8&) = delete;

 private:
  locale_t made_;
  locale_t before_ = nullptr;
};

}  // namespace

std::string read_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> scenarios() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(DRYSTAGE_SCENARIOS)) {
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  }
  std::ranges::sort(names);
  return names;
}

std::string scenario_path(const std::string& name) {
  return std::string(DRYSTAGE_SCENARIOS) + "/" + name + ".yaml";
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) out.push_back(line);
  return out;
}

int terminal_columns(const std::string& line) {
  const Utf8 utf8;
  std::mbstate_t state{};
  int columns = 0;
  std::size_t at = 0;
  while (at < line.size()) {
    wchar_t character = 0;
    const std::size_t bytes = std::mbrtowc(&character, line.data() + at, line.size() - at, &state);
    if (bytes == 0 || bytes > line.size() - at) throw std::runtime_error("not UTF-8: " + line);
    const int width = ::wcwidth(character);
    if (width < 0) throw std::runtime_error("a character that cannot be shown: " + line);
    columns += width;
    at += bytes;
  }
  return columns;
}

std::string difference(const std::string& expected, const std::string& got) {
  if (expected == got) return {};
  const std::vector<std::string> a = lines(expected);
  const std::vector<std::string> b = lines(got);
  const auto length = common_lengths(a, b);
  std::string out;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.size() || j < b.size()) {
    if (i < a.size() && j < b.size() && a[i] == b[j]) {
      ++i;
      ++j;
    } else if (j == b.size() || (i < a.size() && length[i + 1][j] >= length[i][j + 1])) {
      out += marked('-', i, a[i]);
      ++i;
    } else {
      out += marked('+', j, b[j]);
      ++j;
    }
  }
  return out.empty() ? "the same lines, but one of them lacks its last line end\n" : out;
}

Workspace::Workspace() {
  std::string pattern = (std::filesystem::temp_directory_path() / "drystage-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr) {
    throw std::system_error(errno, std::generic_category(), pattern);
  }
  root_ = pattern;
}

Workspace::~Workspace() {
  std::error_code ignored;
  std::filesystem::remove_all(root_, ignored);
}

std::string Workspace::write(const std::string& name, const std::string& text) const {
  std::ofstream file(path(name), std::ios::binary);
  file << text;
  if (!file.flush()) throw std::runtime_error("cannot write " + path(name));
  return path(name);
}

std::vector<std::string> Workspace::names() const {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(root_)) {
    out.push_back(entry.path().filename().string());
  }
  std::ranges::sort(out);
  return out;
}

}  // namespace drystage::testing
