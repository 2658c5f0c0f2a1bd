#pragma once

// Work on many threads. oneTBB, as it is packaged, does not tell the thread sanitizer what happens
// before what, which then takes all that threads hand to each other for a fault. Under it the same
// is done with threads of the standard library, so that what our own code shares is looked at.

#if defined(__SANITIZE_THREAD__)
#define DRYSTAGE_PLAIN_THREADS
#elif defined(__has_feature)
#if __has_feature(thread_sanitizer)
#define DRYSTAGE_PLAIN_THREADS
#endif
#endif

#include <cstddef>

#ifdef DRYSTAGE_PLAIN_THREADS
#include <atomic>
#include <exception>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <thread>
#include <utility>
#include <vector>
#else
#include <oneapi/tbb/enumerable_thread_specific.h>
#include <oneapi/tbb/parallel_for.h>
#endif

namespace drystage::answers {

#ifdef DRYSTAGE_PLAIN_THREADS

template <class Body>
void in_parallel(std::size_t count, const Body& body) {
  constexpr int threads = 4;
  std::atomic<std::size_t> next{0};
  std::mutex mutex;
  std::exception_ptr fault;
  std::vector<std::thread> all;
  for (int t = 0; t < threads; ++t) {
    all.emplace_back([&] {
      try {
        for (std::size_t i = next++; i < count; i = next++) body(i);
      } catch (...) {
        const std::scoped_lock lock(mutex);
        fault = std::current_exception();
      }
    });
  }
  for (std::thread& thread : all) thread.join();
  if (fault) std::rethrow_exception(fault);
}

template <class T>
class PerThread {
 public:
  PerThread() : make_([] { return std::make_unique<T>(); }) {}
  template <class Make>
  explicit PerThread(Make make)
      : make_([make = std::move(make)] { return std::unique_ptr<T>(new T(make())); }) {}

  T& local() {
    const std::scoped_lock lock(mutex_);
    std::unique_ptr<T>& its = all_[std::this_thread::get_id()];
    if (!its) its = make_();
    return *its;
  }
  template <class Visit>
  void for_each(const Visit& visit) {
    for (const auto& [thread, its] : all_) visit(*its);
  }

 private:
  std::function<std::unique_ptr<T>()> make_;
  std::mutex mutex_;
  std::map<std::thread::id, std::unique_ptr<T>> all_;
};

#else

/// Calls body(i) for each number from 0 to `count`, which is not included, on as many threads as
/// there may be, in any order. Comes back when all have been called. What one throws is thrown.
template <class Body>
void in_parallel(std::size_t count, const Body& body) {
  oneapi::tbb::parallel_for(std::size_t{0}, count, body);
}

/// One T for each thread that asks for it, made by default or by `make()`.
template <class T>
class PerThread {
 public:
  PerThread() = default;
  template <class Make>
  explicit PerThread(Make make) : all_(std::move(make)) {}

  T& local() { return all_.local(); }
  /// All that were made; while no thread asks.
  template <class Visit>
  void for_each(const Visit& visit) {
    for (T& its : all_) visit(its);
  }

 private:
  oneapi::tbb::enumerable_thread_specific<T> all_;
};

#endif

}  // namespace drystage::answers
