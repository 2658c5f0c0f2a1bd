#pragma once

#include <cstddef>
#include <optional>
#include <queue>
#include <utility>
#include <vector>

#include "answers/offers/decision.h"

namespace drystage::answers {

/// Goes through every combination of one entry from each of several sorted lists, the least sum
/// first: a heap holds the next candidates, and a combination is reached by one step from another
/// in one way alone, so that none comes twice and few are made that are not asked for. Of equal
/// sums the one that is first by its places in the lists comes first.
class BestFirst {
 public:
  /// Every list must be sorted and have an entry.
  explicit BestFirst(std::vector<std::vector<Objective>> lists) : lists_(std::move(lists)) {
    Entry first{.sum = {}, .places = std::vector<std::size_t>(lists_.size(), 0)};
    for (const std::vector<Objective>& list : lists_) first.sum = first.sum + list.front();
    heap_.push(std::move(first));
  }

  struct Entry {
    Objective sum;
    std::vector<std::size_t> places;
    std::size_t moved = 0;  ///< only this list and those after it are stepped on from here
  };

  /// The next one, or nothing when all have been seen.
  std::optional<Entry> next() {
    if (heap_.empty()) return std::nullopt;
    Entry out = heap_.top();
    heap_.pop();
    for (std::size_t list = out.moved; list < lists_.size(); ++list) {
      const std::size_t place = out.places[list];
      if (place + 1 == lists_[list].size()) continue;
      Entry more{.sum = out.sum, .places = out.places, .moved = list};
      const Objective now = lists_[list][place];
      const Objective then = lists_[list][place + 1];
      more.sum = {out.sum.first - now.first + then.first,
                  out.sum.second - now.second + then.second};
      more.places[list] = place + 1;
      heap_.push(std::move(more));
    }
    return out;
  }

 private:
  struct Later {
    bool operator()(const Entry& a, const Entry& b) const {
      return a.sum == b.sum ? b.places < a.places : b.sum < a.sum;
    }
  };

  std::vector<std::vector<Objective>> lists_;
  std::priority_queue<Entry, std::vector<Entry>, Later> heap_;
};

}  // namespace drystage::answers
