#pragma once

#include <string>
#include <utility>
#include <variant>

namespace drystage::units {

/// Why a text could not be read, in plain words. `what` says what is wrong and is never empty;
/// `expected` says what belongs there and `hint` shows the fix; either may be empty.
/// No part ends in a full stop, so that callers can join them as they like.
struct Problem {
  std::string what;
  std::string expected;
  std::string hint;

  /// The three parts in one line: "what; expected ...; hint".
  [[nodiscard]] std::string line() const {
    std::string all = what;
    if (!expected.empty()) all += "; expected " + expected;
    if (!hint.empty()) all += "; " + hint;
    return all;
  }
};

/// Either a value or the Problem that stood in its way.
template <class T>
class Result {
 public:
  // Conversions from both sides are wanted, so that functions return either plainly.
  Result(T value) : held_(std::move(value)) {}            // NOLINT(google-explicit-constructor)
  Result(Problem problem) : held_(std::move(problem)) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool ok() const { return held_.index() == 0; }
  explicit operator bool() const { return ok(); }

  /// The value; only where ok(). Throws std::bad_variant_access otherwise.
  [[nodiscard]] const T& value() const { return std::get<0>(held_); }
  const T& operator*() const { return value(); }
  const T* operator->() const { return &value(); }

  /// The problem; only where not ok(). Throws std::bad_variant_access otherwise.
  [[nodiscard]] const Problem& problem() const { return std::get<1>(held_); }

 private:
  std::variant<T, Problem> held_;
};

}  // namespace drystage::units
