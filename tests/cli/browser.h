#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace drystage::testing {

/// A file to look at in a window of some width, in CSS pixels.
struct View {
  std::string path;
  int width_px = 0;
  bool scripts = true;   ///< the file may run its own
  std::string script{};  ///< in place of that of look()
};

/// What a browser shows of a file.
struct Shown {
  int scroll_width_px = 0;  ///< of what there is; above the other it runs over the edge
  int client_width_px = 0;
  /// What a script finds in it, with `document` for the document: see look().
  nlohmann::json found{};
};

/// What happened while some files were looked at.
struct Visit {
  std::vector<Shown> shown{};           ///< in the order of the views
  std::vector<std::string> messages{};  ///< of the console: errors of scripts, what was refused
  std::vector<std::string> requests{};  ///< URLs that the files asked for, beyond file: and data:
};

/// Opens all files in one start of Chromium, for it takes long, without a screen or a network. They
/// are opened one after the other, and what one keeps the next finds. `script` is the body of a
/// JavaScript function of `document`; what it answers is `found`. Throws when Chromium is not
/// installed (Debian's package of that name), or fails.
Visit look(const std::vector<View>& views, const std::string& script = "return null;");

/// Prints a file as Chromium would, on the paper that the file asks for, into a PDF. Throws when
/// Chromium fails.
void print(const std::string& path, const std::string& pdf);

}  // namespace drystage::testing
