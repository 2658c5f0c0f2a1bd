#pragma once

#include <string>
#include <string_view>

#include "options.h"

namespace drystage::cli {

/// The text of a sized plan with a remark before it, once. The remark has a checksum of all below
/// it.
std::string with_sized_plan_mark(std::string text);

/// Whether the text of a file is a sized plan as it was written: who has changed it since, be it by
/// a reading alone, has made it their own.
bool is_own_sized_plan(std::string_view text);

/// Whether the text of a file is an answer that drystage wrote: in JSON, in CSV, as a picture or as
/// text. By what it holds: its name says nothing.
bool is_own_answer(std::string_view text);

/// So that nothing of the user's is written over by mistake. A file that is there may be replaced
/// by an answer where it is an answer, and by a sized plan where it is an unchanged one, unless it
/// may only be read. With --force all may. Throws FileError. What is no plain file, such as a
/// terminal, is never refused.
void spare_files_of_the_user(const CommonOptions& options);

/// So that a file that may only be read is not written over. Throws FileError.
void spare_read_only(const std::string& option, const std::string& path);

}  // namespace drystage::cli
