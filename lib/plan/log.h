#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/origin.h"

namespace drystage::plan {

/// Collects what is found wrong while a plan is read.
class Log {
 public:
  void error(const Origin& origin, std::string what, std::string expected = {},
             std::string hint = {});
  void warning(const Origin& origin, std::string what, std::string expected = {},
               std::string hint = {});

  /// How many errors so far. A reader compares before and after to see if its part is sound.
  [[nodiscard]] std::size_t errors() const { return errors_; }

  /// Makes an included file known by its name. Gives the number that its marks have.
  int add_file(std::string name);

  /// "line 7", for the hints of what is wrong at `near`; "line 7 of my-truck.yaml" where that is in
  /// another file. Empty for what stands in no file.
  [[nodiscard]] std::string line_of(const Mark& mark, const Origin& near) const;

  /// All of them, those of the command line first, then by file and their place in it. Of a great
  /// many only the first are kept, and a last one says so.
  std::vector<Diagnostic> take();

 private:
  void add(Severity severity, const Origin& origin, std::string what, std::string expected,
           std::string hint);

  std::vector<Diagnostic> diagnostics_;
  std::vector<std::string> included_files_;
  std::size_t errors_ = 0;
  std::size_t dropped_ = 0;
};

}  // namespace drystage::plan
