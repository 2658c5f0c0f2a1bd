#include "cli/process.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <stdexcept>
#include <string_view>
#include <system_error>

namespace drystage::testing {
namespace {

[[noreturn]] void fail(const char* what) {
  throw std::system_error(errno, std::generic_category(), what);
}

/// Two ends of a pipe; the program writes into `write`.
struct Channel {
  int read = -1;
  int write = -1;
};

Channel open_channel() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) fail("pipe2");
  return {.read = ends[0], .write = ends[1]};
}

/// The same, where the program takes its end for a terminal, which leaves line ends as they are.
Channel open_terminal(int columns = 0) {
  Channel out;
  out.read = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
  if (out.read < 0 || ::grantpt(out.read) != 0 || ::unlockpt(out.read) != 0) {
    fail("this test needs a terminal to write to (posix_openpt): mount devpts on /dev/pts");
  }
  std::array<char, 128> name{};
  if (::ptsname_r(out.read, name.data(), name.size()) != 0) fail("ptsname_r");
  out.write = ::open(name.data(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  termios modes{};
  if (out.write < 0 || ::tcgetattr(out.write, &modes) != 0) fail(name.data());
  modes.c_oflag &= ~static_cast<tcflag_t>(OPOST);
  if (::tcsetattr(out.write, TCSANOW, &modes) != 0) fail("tcsetattr");
  struct winsize size {};
  size.ws_col = static_cast<unsigned short>(columns);
  if (columns > 0 && ::ioctl(out.write, TIOCSWINSZ, &size) != 0) fail("ioctl");
  return out;
}

std::vector<std::string> environment(const Surroundings& around) {
  std::vector<std::string> out;
  for (char** entry = environ; *entry != nullptr; ++entry) {
    const std::string_view text = *entry;
    const std::string name(text.substr(0, text.find('=')));
    const bool replaced = std::ranges::any_of(
        around.set, [&](const auto& variable) { return variable.first == name; });
    const bool removed = std::ranges::find(around.unset, name) != around.unset.end();
    if (!replaced && !removed) out.emplace_back(text);
  }
  for (const auto& [name, value] : around.set)
    out.push_back(std::string(name).append("=") += value);
  return out;
}

std::vector<char*> pointers(std::vector<std::string>& words) {
  std::vector<char*> out;
  out.reserve(words.size() + 1);
  for (std::string& word : words) out.push_back(word.data());
  out.push_back(nullptr);
  return out;
}

/// Reads what there is; false once the other end is closed.
bool drain(int descriptor, std::string& into) {
  std::array<char, 65536> buffer{};
  const ssize_t got = ::read(descriptor, buffer.data(), buffer.size());
  if (got < 0 && errno == EINTR) return true;
  if (got <= 0) return false;
  into.append(buffer.data(), static_cast<std::size_t>(got));
  return true;
}

void collect(int out, int err, Outcome& outcome) {
  std::array<pollfd, 2> ends{{{out, POLLIN, 0}, {err, POLLIN, 0}}};
  while (ends[0].fd >= 0 || ends[1].fd >= 0) {
    if (::poll(ends.data(), ends.size(), -1) < 0 && errno != EINTR) fail("poll");
    if (ends[0].revents != 0 && !drain(out, outcome.out)) ends[0].fd = -1;
    if (ends[1].revents != 0 && !drain(err, outcome.err)) ends[1].fd = -1;
  }
}

int wait_for(pid_t child) {
  int status = 0;
  while (::waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) fail("waitpid");
  }
  constexpr int signalled = 128;
  return WIFEXITED(status) ? WEXITSTATUS(status) : signalled + WTERMSIG(status);
}

}  // namespace

std::string tested_program() {
  const char* other = std::getenv("DRYSTAGE_PROGRAM");
  return other != nullptr ? other : DRYSTAGE_BINARY;
}

Outcome drystage(const std::vector<std::string>& words, const Surroundings& around) {
  return program(tested_program(), words, around);
}

Outcome program(const std::string& name, const std::vector<std::string>& words,
                const Surroundings& around) {
  std::vector<std::string> arguments{name};
  arguments.insert(arguments.end(), words.begin(), words.end());
  std::vector<std::string> variables = environment(around);
  const Channel out = around.out_is_terminal ? open_terminal(around.columns) : open_channel();
  const Channel err = open_channel();
  // Of a terminal what is typed goes in where what is shown comes out.
  const Channel in = around.typed.empty() ? Channel{} : open_terminal();
  if (::write(in.read, around.typed.data(), around.typed.size()) < 0 && in.read >= 0) fail("write");

  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  if (around.typed.empty()) {
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  } else {
    posix_spawn_file_actions_adddup2(&actions, in.write, STDIN_FILENO);
  }
  if (around.out_to.empty()) {
    posix_spawn_file_actions_adddup2(&actions, out.write, STDOUT_FILENO);
  } else {
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, around.out_to.c_str(), O_WRONLY, 0);
  }
  posix_spawn_file_actions_adddup2(&actions, err.write, STDERR_FILENO);
  if (!around.folder.empty()) {
    posix_spawn_file_actions_addchdir_np(&actions, around.folder.c_str());
  }
  pid_t child = -1;
  const int problem = ::posix_spawnp(&child, name.c_str(), &actions, nullptr,
                                     pointers(arguments).data(), pointers(variables).data());
  posix_spawn_file_actions_destroy(&actions);
  ::close(out.write);
  ::close(err.write);
  if (problem != 0) {
    errno = problem;
    fail(("posix_spawnp " + name).c_str());
  }
  Outcome outcome;
  collect(out.read, err.read, outcome);
  ::close(out.read);
  ::close(err.read);
  outcome.status = wait_for(child);
  if (in.read >= 0) {
    ::close(in.write);
    ::close(in.read);
  }
  return outcome;
}

}  // namespace drystage::testing
