#include "units/list.h"

#include <algorithm>

namespace drystage::units {

void add_to(std::string& list, std::string_view item, std::string_view between) {
  if (!list.empty()) list += between;
  list += item;
}

std::string listed(const std::vector<std::string>& items, std::string_view last,
                   std::string_view between) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() && !last.empty() ? last : between;
    out += items[i];
  }
  return out;
}

std::vector<std::string> each_once(std::vector<std::string> items) {
  auto end = items.begin();
  for (std::string& item : items) {
    if (std::find(items.begin(), end, item) != end) continue;
    if (&*end != &item) *end = std::move(item);
    ++end;
  }
  items.erase(end, items.end());
  return items;
}

}  // namespace drystage::units
