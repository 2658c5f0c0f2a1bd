#pragma once

#include "report/card/answer.h"

namespace drystage::report {

/// The same answer with names of places, people, vehicles and reserves that turn nothing round
/// beside them (see `isolated`): for sentences made elsewhere.
CardAnswer with_isolated_names(CardAnswer answer);

}  // namespace drystage::report
