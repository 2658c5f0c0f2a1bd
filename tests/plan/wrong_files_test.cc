#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "plan/read.h"
#include "plan/utf8.h"

namespace drystage::plan::wrong_files_test {
namespace {

const std::filesystem::path folder = std::filesystem::path(DRYSTAGE_TEST_DATA) / "wrong";

std::string content(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  EXPECT_TRUE(file.good()) << path;
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::filesystem::path> wrong_files() {
  std::vector<std::filesystem::path> found;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml") found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

// The folder as the place where the user is, for as long as this lives.
class InFolder {
 public:
  InFolder() { std::filesystem::current_path(folder); }
  ~InFolder() { std::filesystem::current_path(before_); }
  InFolder(const InFolder&) = delete;
  InFolder& operator=(const InFolder&) = delete;

 private:
  std::filesystem::path before_ = std::filesystem::current_path();
};

TEST(WrongFiles, GiveExactlyTheOutputBesideThem) {
  const InFolder here;
  const auto files = wrong_files();
  EXPECT_GE(files.size(), 10U);
  for (const auto& path : files) {
    const ReadPlan reading = read_file(path.filename());
    EXPECT_FALSE(reading.io_error.has_value()) << path;
    std::string shown;
    for (const Diagnostic& d : reading.diagnostics) {
      shown += render(d, reading, path.filename().string(), false);
    }
    auto beside = path;
    beside.replace_extension(".expected");
    EXPECT_EQ(shown, content(beside)) << path;
    EXPECT_EQ(reading.plan.has_value(), !has_error(reading.diagnostics)) << path;
    EXPECT_FALSE(reading.diagnostics.empty()) << path;
  }
}

TEST(WrongFiles, AreReportedWithinEightyColumns) {
  for (const auto& path : wrong_files()) {
    auto beside = path;
    beside.replace_extension(".expected");
    std::ifstream file(beside);
    for (std::string line; std::getline(file, line);) EXPECT_LE(columns(line), 80) << line;
  }
}

}  // namespace
}  // namespace drystage::plan::wrong_files_test
