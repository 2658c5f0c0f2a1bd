#pragma once

#include <string>

namespace drystage::plan {

/// A JSON Schema of a plan file, for editors: they complete and explain keys by it and underline
/// what is wrong. A plan that the reader takes is always valid. The reader refuses more: names that
/// nothing has, amounts that are not possible, what does not add up.
///
/// It is of draft 7, which is what the language servers for YAML in use take in whole; of later
/// drafts they take a part at best, and nothing of those is needed here. They read files as YAML
/// 1.2 has it, where `yes` is a text and 08:00 no number.
std::string editor_schema();

}  // namespace drystage::plan
