#pragma once

#include <string>

#include "report/card/answer.h"

namespace drystage::report {

/// Words that, where some of them are written right to left, are set apart (Unicode's first strong
/// isolate), so that they do not turn round the numbers and commas beside them.
std::string isolated(std::string words);

/// The same answer with every name set apart: whoever writes words need not think of it.
CardAnswer with_isolated_names(CardAnswer answer);

}  // namespace drystage::report
