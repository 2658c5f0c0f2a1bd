#pragma once

#include <string>
#include <vector>

#include "answers/size/size.h"
#include "support/plan_text.h"

namespace drystage::support {

/// The plan's text with more sections behind it, such as "size: {...}", read.
plan::Plan with_sections(const PlanText& plan, const std::string& sections);

/// What `size` answers for a plan, with more sections behind it.
answers::Sizing size_of(const PlanText& plan, const std::string& sections = "",
                        const answers::SizeOptions& options = {});
answers::Sizing size_of(const plan::Plan& plan, const answers::SizeOptions& options = {});

/// The set that was found; throws where nothing was.
const answers::SizedPlan& found(const answers::Sizing& sizing);

/// The line of this name ("20 L container of drinking water", "camp battery"); throws when there
/// is none.
const answers::SizedLine& line_of(const answers::SizedPlan& set, const std::string& one);

/// How many of a thing there are, or in which size; 0 where it has no line.
double taken(const answers::Sizing& sizing, const std::string& one);

/// Names of containers, or of a vehicle's tanks, in the order of the plan.
std::vector<std::string> container_names(const plan::Plan& plan);
std::vector<std::string> tank_names(const plan::Plan& plan, int vehicle = 0);

}  // namespace drystage::support
