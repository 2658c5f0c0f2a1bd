#include "answers/size/proof.h"

#include <algorithm>
#include <functional>

namespace drystage::answers {
namespace {

bool no_more(const Choice& a, const Choice& than) {
  if (&a == &than) return true;
  if (a.amount > than.amount) return false;
  // Fewer of the same; or as heavy, of which no more is of use.
  return std::ranges::equal(a.taken, than.taken, std::less_equal{}) ||
         std::ranges::equal(a.load_kg, than.load_kg, std::greater_equal{});
}

bool no_less(const Choice& a, const Choice& than) {
  return &a == &than || (a.amount >= than.amount &&
                         std::ranges::equal(a.load_kg, than.load_kg, std::greater_equal{}));
}

}  // namespace

bool Proof::speaks_of(std::size_t store, const Choice& choice) const {
  const Choice& proven = *stores[store];
  switch (like[store]) {
    case Like::any:
      return true;
    case Like::no_more:
      return no_more(choice, proven) && (!by_loss || choice.largest >= proven.largest);
    case Like::no_less:
      return no_less(choice, proven);
    case Like::same:
      break;
  }
  return &choice == &proven;
}

bool Proof::covers(const std::vector<const Choice*>& others) const {
  for (std::size_t s = 0; s < others.size(); ++s) {
    if (!speaks_of(s, *others[s])) return false;
  }
  return true;
}

}  // namespace drystage::answers
