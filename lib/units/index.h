#pragma once

#include <cstddef>

namespace drystage {

/// An index that is not negative, as containers take it: `reserves[at(r)]`.
constexpr std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace drystage
