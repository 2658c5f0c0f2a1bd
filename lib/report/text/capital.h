#pragma once

#include <string>

namespace drystage::report {

/// Words as they stand at the head of a line or a sentence: what begins with a small letter from a
/// to z begins with a capital. Names in other scripts stay as they are.
inline std::string capital(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z') {
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  }
  return words;
}

}  // namespace drystage::report
