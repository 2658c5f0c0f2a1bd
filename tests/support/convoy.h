#pragma once

#include <string>
#include <vector>

namespace drystage::support {

/// So many lorries, each with one full tank, for a PlanText: "NAME 1", "NAME 2" and so on. They
/// burn these fuels by turns.
std::vector<std::string> lorries(const std::string& name, int count,
                                 const std::vector<std::string>& fuels = {"diesel"});

/// So many people who ride in one of them: "Traveller number 1" and so on.
std::vector<std::string> travellers(int count, const std::string& lorry);

}  // namespace drystage::support
