#pragma once

#include <iosfwd>
#include <optional>

#include "start/answers.h"

namespace drystage::start {

/// Asks each question that is not given, that arises and that the kit does not answer, with its
/// default beside it, until the answer is right. Then checks the whole, and asks again, with the
/// answers as defaults, while they do not go together. Gives the plan; nothing where the input ends
/// first.
std::optional<std::string> ask(const Given& given, std::istream& in, std::ostream& out,
                               const Kit& kit = {});

/// Asks for yes or no; an empty line and the end of the input are no.
bool ask_yes(std::string_view question, std::istream& in, std::ostream& out);

}  // namespace drystage::start
