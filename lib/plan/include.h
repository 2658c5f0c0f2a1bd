#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include "plan/log.h"
#include "plan/source_file.h"
#include "plan/tree.h"

namespace drystage::plan {

/// How many files a plan may include, those that they include among them.
inline constexpr std::size_t most_included = 16;

/// Reads a plan's text and all files that it includes, and lays each over those that it includes:
/// one tree, without the key `include`. `file` is where the text stands: paths begin at its folder.
/// Without one nothing is included, and it is an error to ask for it. Only regular files are read.
/// The files are added to `files`, where marks look for them. Nothing comes back, and `log` says
/// why, if one of them cannot be had.
std::optional<Node> read_with_included(std::string_view source, const std::filesystem::path& file,
                                       Log& log, std::vector<SourceFile>& files);

}  // namespace drystage::plan
