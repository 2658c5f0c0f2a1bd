#pragma once

#include <string>

namespace drystage::start {

/// Every key of a plan as it may be written, with what it means: remarks, to be put after a plan.
/// It is made of the declared keys (plan/keys.h), and so it has all of them.
std::string every_key();

}  // namespace drystage::start
