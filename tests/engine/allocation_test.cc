// Stepping allocates nothing. The counting replaces the plain forms of operator new for the whole
// test program; memory still comes from malloc, so sanitizers go on seeing it.
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <random>
#include <tuple>

#include "engine/engine.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace {

std::atomic<std::size_t> allocations{0};

void* counted(std::size_t size) {
  allocations.fetch_add(1, std::memory_order_relaxed);
  return std::malloc(size == 0 ? 1 : size);
}

void* counted_or_throw(std::size_t size) {
  void* memory = counted(size);
  if (memory == nullptr) throw std::bad_alloc();
  return memory;
}

}  // namespace

void* operator new(std::size_t size) { return counted_or_throw(size); }
void* operator new[](std::size_t size) { return counted_or_throw(size); }
void* operator new(std::size_t size, const std::nothrow_t& /*tag*/) noexcept {
  return counted(size);
}
void* operator new[](std::size_t size, const std::nothrow_t& /*tag*/) noexcept {
  return counted(size);
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete[](void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t /*size*/) noexcept { std::free(memory); }
void operator delete[](void* memory, std::size_t /*size*/) noexcept { std::free(memory); }
void operator delete(void* memory, const std::nothrow_t& /*tag*/) noexcept { std::free(memory); }
void operator delete[](void* memory, const std::nothrow_t& /*tag*/) noexcept { std::free(memory); }

namespace drystage {
namespace {

/// Allocations made by all the steps of one trip.
std::size_t allocations_of_the_steps(const engine::Course& course, engine::Keep keep) {
  engine::Record record = engine::blank_record(course, keep);
  engine::Engine::Standing standing = engine::Engine::begin(course, record);
  const std::size_t before = allocations.load();
  engine::Engine::go_on(course, standing, course.timeline->steps.size());
  return allocations.load() - before;
}

TEST(Allocation, IsSeenByTheCounter) {
  const std::size_t before = allocations.load();
  const auto* one = new std::vector<int>(3);
  EXPECT_EQ(allocations.load() - before, 2U);
  delete one;
}

TEST(Allocation, NeverHappensInAStep) {
  std::mt19937 chance(1);  // NOLINT(cert-msc51-cpp): the same plans each time
  const support::Pick pick = [&chance](int low, int high) {
    return low + static_cast<int>(chance() % static_cast<unsigned>(high - low + 1));
  };
  std::size_t steps = 0;
  for (int i = 0; i < 100; ++i) {
    const support::PlanText text = support::random_plan(pick);
    const support::Trip trip = support::travel(text);
    EXPECT_EQ(allocations_of_the_steps(trip.course, engine::Keep::ledgers), 0U) << text.text();
    EXPECT_EQ(allocations_of_the_steps(trip.course, engine::Keep::least), 0U) << text.text();
    steps += trip.course.timeline->steps.size();
  }
  EXPECT_GT(steps, 10000U);
}

}  // namespace
}  // namespace drystage
