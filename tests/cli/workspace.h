#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace drystage::testing {

/// The whole of a file; throws if it cannot be read.
std::string read_file(const std::filesystem::path& path);

/// Names of the shipped scenarios, without their ending, in order.
std::vector<std::string> scenarios();

/// Makes of a scenario's name the name of a test.
struct AsTestName {
  template <class Info>
  std::string operator()(const Info& info) const {
    std::string name = info.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
  }
};

/// The path of a shipped scenario.
std::string scenario_path(const std::string& name);

/// Text cut at its line ends; what follows the last one counts if it is not empty.
std::vector<std::string> lines(const std::string& text);

/// Columns that a line takes on a terminal, by the system's own tables of characters.
int terminal_columns(const std::string& line);

/// Where two texts differ: each line that is only in one of them, "-" expected and "+" got, with
/// the line number. Empty if they are the same.
std::string difference(const std::string& expected, const std::string& got);

/// A folder of its own that goes away with it.
class Workspace {
 public:
  Workspace();
  ~Workspace();
  Workspace(const Workspace&) = delete;
  Workspace& operator=(const Workspace&) = delete;

  [[nodiscard]] std::string path(const std::string& name) const { return (root_ / name).string(); }
  [[nodiscard]] std::string folder() const { return root_.string(); }

  /// Writes a file and answers its path.
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const;

  /// Names of everything in it, in order.
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::filesystem::path root_;
};

}  // namespace drystage::testing
