#include "plan/keys.h"

namespace drystage::plan {

std::string example_of(Key key) {
  if (!key->example.empty()) return std::string(key->example);
  switch (key->value.sort) {
    case Sort::name:
      return "its name";
    case Sort::date:
      return "2027-02-08";
    case Sort::clock:
      return "\"08:00\"";
    case Sort::utc_offset:
      return "\"+01:00\"";
    case Sort::yes_no:
      return "yes";
    default:
      return key.ranges().empty() ? one_of(key->value.words) : example(key.ranges().front());
  }
}

std::string_view default_of(Key key, std::string_view when) {
  const std::string_view text = key->absent;
  const std::size_t comma = std::min(text.find(','), text.size());
  const std::string_view other = text.substr(std::min(comma + 2, text.size()));
  return !when.empty() && other.starts_with(when) ? other.substr(when.size() + 1)
                                                  : text.substr(0, comma);
}

std::vector<Key> keys_of(std::string_view map) {
  std::vector<Key> made;
  for (const auto& some : declarations) {
    for (const Declaration& one : some) {
      if (one.map() == map && one.name() != "*") made.emplace_back(one);
    }
  }
  for (const Included& one : included) {
    if (one.map != map) continue;
    const auto more = keys_of(one.other);
    made.insert(made.end(), more.begin(), more.end());
  }
  std::stable_partition(made.begin(), made.end(), [&](Key key) {
    return key->required() && !is_conditional(map, key.name());
  });
  return made;
}

bool is_conditional(std::string_view map, std::string_view name) {
  return std::ranges::any_of(rules, [&](const Rule& rule) {
    const auto named = words_of(rule.keys);
    return rule.map == map && std::ranges::find(named, name) != named.end();
  });
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> made;
  while (!text.empty()) {
    const std::size_t blank = std::min(text.find(' '), text.size());
    made.push_back(text.substr(0, blank));
    text.remove_prefix(std::min(blank + 1, text.size()));
  }
  return made;
}

}  // namespace drystage::plan
