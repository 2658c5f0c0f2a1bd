#pragma once

#include <string>
#include <vector>

#include "report/card/answer.h"
#include "report/page/figures.h"
#include "report/text/json.h"

namespace drystage::report::page {

/// A reserve as the script takes it. What is infinite is null.
Json json_reserve(const Reserve& reserve);

/// All that the script compares readings with, as it may stand in a `<script>` element.
std::string script_data(const CardAnswer& answer, const std::vector<Shown>& reserves);

}  // namespace drystage::report::page
