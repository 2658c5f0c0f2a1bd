#include "plan/log.h"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace drystage::plan {
namespace {

constexpr std::size_t most_kept = 500;

}  // namespace

void Log::error(const Spot& spot, std::string what, std::string expected, std::string hint) {
  ++errors_;
  add(Severity::error, spot, std::move(what), std::move(expected), std::move(hint));
}

void Log::warning(const Spot& spot, std::string what, std::string expected, std::string hint) {
  add(Severity::warning, spot, std::move(what), std::move(expected), std::move(hint));
}

void Log::add(Severity severity, const Spot& spot, std::string what, std::string expected,
              std::string hint) {
  if (diagnostics_.size() >= most_kept) {
    ++dropped_;
    return;
  }
  Diagnostic& made = diagnostics_.emplace_back();
  made.severity = severity;
  if (!spot.set.empty()) {
    made.where_text = "--set " + spot.set;
  } else {
    made.mark = spot.mark;
  }
  made.what = std::move(what);
  made.expected = std::move(expected);
  made.hint = std::move(hint);
}

std::vector<Diagnostic> Log::take() {
  std::stable_sort(
      diagnostics_.begin(), diagnostics_.end(), [](const Diagnostic& a, const Diagnostic& b) {
        return std::tie(a.mark.line, a.mark.column) < std::tie(b.mark.line, b.mark.column);
      });
  if (dropped_ > 0) {
    Diagnostic& last = diagnostics_.emplace_back();
    // An error that was dropped must not let the plan pass as sound.
    last.severity = errors_ > 0 ? Severity::error : Severity::warning;
    last.mark = diagnostics_[diagnostics_.size() - 2].mark;
    last.what = fmt::format("{} more are not shown", dropped_);
  }
  return std::exchange(diagnostics_, {});
}

}  // namespace drystage::plan
