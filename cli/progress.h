#pragma once

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <stop_token>
#include <string>
#include <string_view>
#include <thread>
#include <utility>

namespace drystage::cli {

/// Whether to draw how far a search is: only on a terminal, and not on a dumb one. `term` is the
/// variable TERM, null when it is not set.
inline bool wants_progress(bool terminal, const char* term) {
  return terminal && term != nullptr && std::string_view(term) != "dumb";
}

/// A line that is drawn over and over, with a bar, how much is done and how long the rest will take
/// at the pace so far. It knows no clock: it is told the time. Never wider than 79 columns, so that
/// no terminal of 80 breaks it.
class Progress {
 public:
  /// `what` is done, a word or two; the work begins at `now_s` seconds of any clock.
  Progress(std::string what, double now_s)
      : what_(std::move(what)), began_s_(now_s), drawn_s_(now_s) {}

  /// The text to write now that so much is done, of so much (0: nobody knows); empty when a line
  /// was drawn less than a tenth of a second ago, or when there is nothing to do.
  std::string draw(std::size_t done, std::size_t total, double now_s) {
    if ((total == 0 && done == 0) || now_s - drawn_s_ < least_interval_s) return {};
    drawn_s_ = now_s;
    if (total == 0) {
      return over_the_last(
          fmt::format("{}: {} tried. Ctrl-C stops and shows what was found", what_, done));
    }
    done = std::min(done, total);
    const double share = static_cast<double>(done) / static_cast<double>(total);
    const auto full = static_cast<std::size_t>(share * bar_columns);
    std::string line =
        fmt::format("{} [{}{}] {:.0f} %, {} of {}", what_, std::string(full, '#'),
                    std::string(bar_columns - full, '.'), std::floor(share * 100), done, total);
    if (done > 0) {
      const double pace_s = (now_s - began_s_) / static_cast<double>(done);
      line += ", about " + duration(pace_s * static_cast<double>(total - done)) + " left";
    }
    return over_the_last(std::move(line));
  }

  /// The text to write while nobody knows how much is done: how long it has been going on.
  std::string wait(double now_s) {
    return over_the_last(
        fmt::format("{}: {} so far. Ctrl-C ends it", what_, duration(now_s - began_s_)));
  }

  /// The text that takes the line away again; empty when none stands there.
  std::string wipe() {
    const std::string blanks(std::exchange(width_, 0), ' ');
    return blanks.empty() ? blanks : "\r" + blanks + "\r";
  }

 private:
  static constexpr double least_interval_s = 0.1;
  static constexpr std::size_t bar_columns = 20;
  static constexpr std::size_t most_columns = 79;

  std::string over_the_last(std::string line) {
    line.resize(std::min(line.size(), most_columns));
    const std::size_t width = line.size();
    // Blanks over what is left of a longer line before.
    line.resize(std::max(width, width_), ' ');
    width_ = width;
    return "\r" + line;
  }

  /// "8 s", "3 min", "2 h 05 min": rounded up.
  static std::string duration(double seconds) {
    constexpr double longest_s = 1e6;
    if (seconds > longest_s) return "very long";
    const long s = std::lround(std::ceil(seconds));
    if (s < 100) return fmt::format("{} s", s);
    const long min = (s + 59) / 60;
    return min < 100 ? fmt::format("{} min", min)
                     : fmt::format("{} h {:02} min", min / 60, min % 60);
  }

  std::string what_;
  double began_s_;
  double drawn_s_;
  std::size_t width_ = 0;  ///< of the line that stands there
};

/// The same on standard error, where that is a terminal; gone when it goes out of scope. Told from
/// any thread, one at a time.
class ProgressLine {
 public:
  explicit ProgressLine(std::string what);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void show(std::size_t done, std::size_t total);

 private:
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
  bool wanted_;
  Progress progress_;
};

/// On standard error, where that is a terminal, what is being done and for how long, from half a
/// second on; gone when it goes out of scope. For work that does not say how far it is.
class WaitingLine {
 public:
  explicit WaitingLine(std::string what);
  ~WaitingLine();
  WaitingLine(const WaitingLine&) = delete;
  WaitingLine& operator=(const WaitingLine&) = delete;

 private:
  void draw_until(const std::stop_token& done);

  std::string what_;
  std::jthread drawing_;
};

}  // namespace drystage::cli
