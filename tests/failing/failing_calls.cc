// Loaded before the system's own library, it makes one call fail: as a full disk would, a disk that
// is taken away, or a lack of memory.
//   FAILING_CALL=KIND:N   the call of that kind which fails, from 1: memory, open, write, mode,
//   sync
//                         or rename
//   FAILING_CALL_MADE=FILE   made once it has failed
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstddef>
#include <cstdlib>
#include <cstring>
#include <new>

namespace {

std::atomic<long> made{0};

/// Whether this call of a kind is the one that fails. Allocates nothing.
bool fails(const char* kind) {
  const char* const wanted = std::getenv("FAILING_CALL");
  const std::size_t length = std::strlen(kind);
  if (wanted == nullptr || std::strncmp(wanted, kind, length) != 0 || wanted[length] != ':') {
    return false;
  }
  if (++made != std::atol(wanted + length + 1)) return false;
  if (const char* const mark = std::getenv("FAILING_CALL_MADE")) {
    const long file = ::syscall(SYS_open, mark, O_CREAT | O_WRONLY, 0600);
    if (file >= 0) ::syscall(SYS_close, file);
  }
  return true;
}

int failed(int reason) {
  errno = reason;
  return -1;
}

}  // namespace

// What C++ asks for; C libraries ask the system itself.
void* operator new(std::size_t size) {
  void* const room = fails("memory") ? nullptr : std::malloc(size == 0 ? 1 : size);
  if (room == nullptr) throw std::bad_alloc();
  return room;
}
void operator delete(void* room) noexcept { std::free(room); }
void operator delete(void* room, std::size_t /*size*/) noexcept { std::free(room); }

extern "C" {

ssize_t write(int file, const void* bytes, std::size_t count) {
  if (fails("write")) return failed(ENOSPC);
  return ::syscall(SYS_write, file, bytes, count);
}

int mkstemp(char* name) {
  if (fails("open")) return failed(EACCES);
  // The last six letters are ours to choose; whoever is tested makes one file at a time.
  std::memcpy(name + std::strlen(name) - 6, "Failin", 6);
  return static_cast<int>(::syscall(SYS_open, name, O_CREAT | O_EXCL | O_RDWR, 0600));
}

int fchmod(int file, mode_t mode) {
  if (fails("mode")) return failed(EPERM);
  return static_cast<int>(::syscall(SYS_fchmod, file, mode));
}

int fsync(int file) {
  if (fails("sync")) return failed(EIO);
  return static_cast<int>(::syscall(SYS_fsync, file));
}

int rename(const char* from, const char* to) {
  if (fails("rename")) return failed(EACCES);
  return static_cast<int>(::syscall(SYS_rename, from, to));
}

}  // extern "C"
