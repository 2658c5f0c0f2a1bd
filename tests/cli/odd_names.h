#pragma once

#include <string>
#include <vector>

namespace drystage::testing {

/// Names of the kinds that go wrong: markup, entities and quotes, right to left, without blanks, as
/// a picture.
struct OddNames {
  std::string title = "<script>alert(1)</script>";
  std::string people = "<b>Ann</b> &amp; \"Bo\" 'n'";
  std::string start = "]]> <!-- -->";
  std::string oasis = "واحة النخيل";
  std::string lake = "מעיין";
  std::string spring = "砂漠の泉";
  std::string vehicle = "🚙 & 100 %";
  std::string container = "\\ {can} $1 `x`";

  [[nodiscard]] std::vector<std::string> all() const {
    return {title, people, start, oasis, lake, spring, vehicle, container};
  }
};

/// A trip of a few days in which everything is called so.
std::string plan_with_odd_names(const OddNames& names = {});

/// Text without the marks of Unicode that tell which way it runs, and with one blank for all blanks
/// and line ends that follow on each other.
std::string plain_words(const std::string& text);

}  // namespace drystage::testing
