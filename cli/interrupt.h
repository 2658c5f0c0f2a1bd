#pragma once

#include <atomic>
#include <csignal>

namespace drystage::cli {

/// While it lives, the first Ctrl-C (SIGINT) only raises a flag, so that a search can end with what
/// it knows; a second one ends the program as it always does. Where SIGINT is ignored it stays so.
/// What was there before comes back when it goes out of scope. One at a time.
class Interrupt {
 public:
  Interrupt() {
    raised.store(false);
    if (::sigaction(SIGINT, nullptr, &before_) != 0 || before_.sa_handler == SIG_IGN) return;
    struct sigaction once {};
    once.sa_handler = raise_flag;
    // SA_RESETHAND: the next one meets the default action.
    once.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
    ::sigemptyset(&once.sa_mask);
    watching_ = ::sigaction(SIGINT, &once, nullptr) == 0;
  }
  ~Interrupt() {
    if (watching_) ::sigaction(SIGINT, &before_, nullptr);
  }
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;

  /// True from the first Ctrl-C on.
  [[nodiscard]] static const std::atomic<bool>* flag() { return &raised; }

 private:
  // A handler reaches nothing but what is there for the whole run of the program, and may write
  // only to what needs no lock.
  static inline std::atomic<bool> raised{false};
  static_assert(std::atomic<bool>::is_always_lock_free);

  static void raise_flag(int /*signal*/) { raised.store(true); }

  struct sigaction before_ {};
  bool watching_ = false;
};

}  // namespace drystage::cli
