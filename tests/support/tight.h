#pragma once

#include <cstddef>
#include <limits>
#include <optional>

#include "engine/engine.h"

namespace drystage::support {

/// What tops a reserve up: a commodity; of a bank mains, where there is a charger for it.
std::optional<plan::Commodity> tops_up(const plan::Plan& plan, const engine::ReserveInfo& reserve);

/// Whether a supply of a reserve is to be counted on at a place, on a day: confirmed, open, and
/// without a limit.
bool supplies(const plan::Plan& plan, const engine::ReserveInfo& reserve, int place,
              plan::Date date);

plan::Date date_of(const engine::Timeline& timeline, std::size_t step);

/// The step at whose beginning a reserve can be topped up, from a step on: on arrival, or in the
/// morning. None: the number of steps. Calling at a place in the morning for a limited supply, at
/// stops from itinerary item `added` on, is no occasion.
std::size_t supplied_at(const plan::Plan& plan, const engine::Timeline& timeline, std::size_t from,
                        const engine::ReserveInfo& reserve,
                        int added = std::numeric_limits<int>::max());

/// How tight a reserve gets, by the levels and uses of a run alone.
struct Tight {
  double slack = -std::numeric_limits<double>::infinity();  ///< less all that was short
  bool dry = false;                                         ///< it has run out
  std::size_t until = 0;
};

/// Goes on step by step until one, or until a bank that has been used is full, which is at 99.5 %.
/// The record is the one into which it runs.
Tight go_on_watching(const engine::Course& course, engine::Engine::Standing& standing,
                     const engine::Record& record, std::size_t until, int reserve);

}  // namespace drystage::support
