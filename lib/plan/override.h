#pragma once

#include <string>

#include "plan/log.h"
#include "plan/tree.h"

namespace drystage::plan {

/// One `--set path=value`: a value of the plan changed for this run. The path has dots between its
/// parts; an item of a list is given by its place from 0 (`people[0].mass`) or by its name
/// (`water.containers.can 1.filled`). `[+]` is a new item at the end of a list. Quotes around a
/// part let it hold dots.
struct Override {
  std::string path;
  std::string value;
  std::string option{};  ///< as it was given, where that was by another option than --set
};

/// Changes the tree; logs a path that leads nowhere or a value that is not YAML. A key that is
/// absent is added, so that the reader judges it as if it stood in the file.
void apply(const Override& set, Node& root, Log& log);

}  // namespace drystage::plan
