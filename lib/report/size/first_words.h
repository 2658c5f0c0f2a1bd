#pragma once

#include <string>

#include "report/size/report.h"
#include "units/format.h"

namespace drystage::report {

// What `size` says first, without line breaks.

/// The set that was found keeps every margin only if what nobody has confirmed is there.
bool size_hopes(const SizeAnswer& answer);

/// "LOAD 412 kg: the lightest set on offer that keeps every margin."; "NOT ENOUGH ON OFFER: ..."
/// with what the nearest set lacks; or that nothing is known.
std::string size_first_words(const SizeAnswer& answer, units::System system);

/// That the search was stopped before it was done; empty where it was not.
std::string size_partial_words(const SizeAnswer& answer);

}  // namespace drystage::report
