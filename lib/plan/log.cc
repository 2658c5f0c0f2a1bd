#include "plan/log.h"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace drystage::plan {
namespace {

constexpr std::size_t most_kept = 500;

}  // namespace

void Log::error(const Origin& origin, std::string what, std::string expected, std::string hint) {
  ++errors_;
  add(Severity::error, origin, std::move(what), std::move(expected), std::move(hint));
}

void Log::warning(const Origin& origin, std::string what, std::string expected, std::string hint) {
  add(Severity::warning, origin, std::move(what), std::move(expected), std::move(hint));
}

void Log::add(Severity severity, const Origin& origin, std::string what, std::string expected,
              std::string hint) {
  if (diagnostics_.size() >= most_kept) {
    ++dropped_;
    return;
  }
  Diagnostic& made = diagnostics_.emplace_back();
  made.severity = severity;
  if (!origin.set.empty()) {
    made.where_text = origin.set;
  } else {
    made.mark = origin.mark;
  }
  made.what = std::move(what);
  made.expected = std::move(expected);
  made.hint = std::move(hint);
}

int Log::add_file(std::string name) {
  included_files_.push_back(std::move(name));
  return static_cast<int>(included_files_.size());
}

std::string Log::line_of(const Mark& mark, const Origin& near) const {
  if (mark.line <= 0 || mark.file < 0) return {};
  std::string made = fmt::format("line {}", mark.line);
  if (mark.file == near.mark.file && near.set.empty()) return made;
  if (mark.file > 0) made += " of " + included_files_.at(static_cast<std::size_t>(mark.file) - 1);
  return made + (mark.file == 0 && near.mark.file > 0 ? " of the plan" : "");
}

std::vector<Diagnostic> Log::take() {
  std::stable_sort(diagnostics_.begin(), diagnostics_.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::tie(a.mark.file, a.mark.line, a.mark.column) <
                            std::tie(b.mark.file, b.mark.line, b.mark.column);
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
