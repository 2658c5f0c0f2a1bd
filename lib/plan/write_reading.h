#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "plan/readings.h"
#include "plan/text_edit.h"

namespace drystage::plan {

/// Writes a reading into a plan's own text, where it belongs in time, one key a line; one of the
/// same moment it replaces, with the comments inside that. All other comments, blank lines, order,
/// quotes, indents and line ends stay. Where there are no readings yet, they come at the end.
///
/// `file` is where the text stands: from there it may include others. The reading refers to the
/// plan that `read_text(source, {}, file)` gives; its hour is one of whole minutes. Its mark says
/// nothing.
///
/// What comes back has been read again: all else is the same, and the reading too, number for
/// number. Throws std::invalid_argument, which says why, where the plan cannot have this reading:
/// as its reader would refuse it, or because its readings stand in a file that it includes. Throws
/// std::logic_error where the source is not a plan, or the text would read otherwise.
std::string with_reading(std::string_view source, const Reading& reading,
                         const std::filesystem::path& file = {});

/// The same of one item of `changes`, key by key, which comes last: its values as they are to stand
/// in the text.
std::string with_change(std::string_view source, const std::vector<NewMember>& members,
                        const std::filesystem::path& file = {});

}  // namespace drystage::plan
