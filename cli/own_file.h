#pragma once

#include <string>
#include <string_view>

#include "options.h"

namespace drystage::cli {

/// The remark that a sized plan begins with. By that it is known again.
inline constexpr std::string_view sized_plan_mark =
    "# Written by drystage size, which may write over this file.\n";

/// The text of a sized plan with that remark, once.
std::string with_sized_plan_mark(std::string text);

/// Whether the text of a file is an answer that drystage wrote: in JSON, in CSV, as a picture or as
/// text. By what it holds: its name says nothing.
bool is_own_answer(std::string_view text);

/// So that nothing of the user's is written over by mistake. A file that is there may be replaced
/// by an answer where it is an answer, and by a sized plan where it is a sized plan, unless it may
/// only be read. With --force all may. Throws FileError. What is no plain file, such as a terminal,
/// is never refused.
void spare_files_of_the_user(const CommonOptions& options);

/// So that a file that may only be read is not written over. Throws FileError.
void spare_read_only(const std::string& option, const std::string& path);

}  // namespace drystage::cli
