#include "progress.h"

#include <unistd.h>

#include <cstdio>
#include <cstdlib>

namespace drystage::cli {
namespace {

void write(const std::string& text) {
  if (text.empty()) return;
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

}  // namespace

ProgressLine::ProgressLine(std::string what)
    : wanted_(wants_progress(isatty(STDERR_FILENO) == 1, std::getenv("TERM"))),
      progress_(std::move(what), 0) {}

ProgressLine::~ProgressLine() {
  if (wanted_) write(progress_.wipe());
}

void ProgressLine::show(std::size_t done, std::size_t total) {
  if (wanted_) write(progress_.draw(done, total, now_s()));
}

double ProgressLine::now_s() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count();
}

}  // namespace drystage::cli
