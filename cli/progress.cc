#include "progress.h"

#include <unistd.h>

#include <condition_variable>
#include <cstdio>
#include <cstdlib>
#include <mutex>

namespace drystage::cli {
namespace {

void write(const std::string& text) {
  if (text.empty()) return;
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

bool wanted_here() { return wants_progress(isatty(STDERR_FILENO) == 1, std::getenv("TERM")); }

double seconds_since(std::chrono::steady_clock::time_point began) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

}  // namespace

ProgressLine::ProgressLine(std::string what)
    : wanted_(wanted_here()), progress_(std::move(what), 0) {}

ProgressLine::~ProgressLine() {
  if (wanted_) write(progress_.wipe());
}

void ProgressLine::show(std::size_t done, std::size_t total) {
  if (wanted_) write(progress_.draw(done, total, seconds_since(began_)));
}

WaitingLine::WaitingLine(std::string what) : what_(std::move(what)) {
  if (wanted_here()) {
    drawing_ = std::jthread([this](const std::stop_token& done) { draw_until(done); });
  }
}

WaitingLine::~WaitingLine() = default;

void WaitingLine::draw_until(const std::stop_token& done) {
  constexpr std::chrono::milliseconds interval{500};
  const auto began = std::chrono::steady_clock::now();
  Progress progress(what_, 0);
  std::mutex alone;
  std::unique_lock lock(alone);
  std::condition_variable_any never;
  while (!never.wait_for(lock, done, interval, [&done] { return done.stop_requested(); })) {
    write(progress.wait(seconds_since(began)));
  }
  write(progress.wipe());
}

}  // namespace drystage::cli
