#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/resume/resume.h"
#include "report/text/page.h"

namespace drystage::report {

/// All that `drystage resume` has to say of one plan.
struct ResumeAnswer {
  answers::Resumed resumed;
  std::optional<answers::Verdict> without_unconfirmed;  ///< when the rest leans on such supplies
  std::vector<std::string> warnings{};                  ///< of the plan, to go with the answer
};

/// For people, on one screen: whether the rest holds, what was found, what must be there tomorrow
/// evening, until when to turn back, what helps most, a line to send. At most 80 columns.
std::string resume_text(const ResumeAnswer& answer, const TextOptions& options);

/// What the trip taught, for the next plan: each rate of use with its range, and the plan's.
std::string lessons_text(const ResumeAnswer& answer, const TextOptions& options);

/// For programs: "drystage.resume/1", as that of `run` with readings and rates. Metric.
std::string resume_json(const ResumeAnswer& answer);

/// One row per reading and reserve, for spreadsheets. Metric.
std::string resume_csv(const ResumeAnswer& answer);

}  // namespace drystage::report
