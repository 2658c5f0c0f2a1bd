#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/look_alike.h"
#include "plan/values.h"

namespace drystage::plan {

/// A map of the plan being read. It remembers which keys were asked for; `finish()` logs the
/// others as unknown, with the nearest that would have been known.
class Fields {
 public:
  /// `what` is what the map describes, for messages: "a container". A node that is neither a map
  /// nor empty is logged, and read as empty.
  Fields(Log& log, const Node& node, std::string what);

  /// True if the node is a map (or empty).
  [[nodiscard]] bool usable() const { return usable_; }
  [[nodiscard]] Log& log() const { return log_; }
  [[nodiscard]] const Node& node() const { return node_; }
  [[nodiscard]] const Origin& origin() const { return node_.origin; }
  [[nodiscard]] const std::string& what() const { return what_; }

  /// The value of a key, or null. The key counts as known from now on. Logs, at the first asking,
  /// that a required one is missing.
  const Node* get(Key key);

  /// The same for a key that is required here.
  const Node* need(Key key);

  /// Logs that a key does not belong here together with what else is said, if it is there.
  void refuse(Key key, std::string_view reason);

  /// The same for a name that is no key, and may be taken for one.
  void refuse_name(std::string_view name, const std::string& hint);

  /// The name of the thing. From then on messages name the thing by it.
  std::string name(Key key);

  // Values by key: the `_if` forms give nothing where the key is absent or wrong, the others its
  // default then, and 0, the first word or the first thing where there is none.
  std::optional<double> number_if(Key key);
  /// `when` is the word of another key that the default depends on.
  double number(Key key, std::string_view when = {});
  std::optional<int> whole_number_if(Key key);
  std::optional<bool> yes_no_if(Key key);
  bool yes_no(Key key);
  double clock_h(Key key);
  std::optional<int> reference_if(Key key, const std::vector<std::string>& names);
  int reference(Key key, const std::vector<std::string>& names);
  /// The items of a list; none where it is absent.
  const std::vector<Node>& items(Key key);

  template <class E, std::size_t n>
  std::optional<E> word_if(Key key, const std::array<Word<E>, n>& words) {
    const Node* value = get(key);
    return value == nullptr ? std::nullopt : read_word(log_, *value, key.name(), words);
  }

  template <class E, std::size_t n>
  E word(Key key, const std::array<Word<E>, n>& words) {
    if (const auto read = word_if(key, words)) return *read;
    const auto usual = std::ranges::find(words, key->absent, &Word<E>::text);
    return usual == words.end() ? words.front().value : usual->value;
  }

  /// Logs the keys that nobody asked for.
  void finish();

 private:
  const Node* look_up(Key key, bool required);

  Log& log_;
  const Node& node_;
  std::string what_;
  std::vector<std::string_view> known_;
  bool usable_ = true;
};

/// The items of a list; logs a node that is neither a list nor empty.
const std::vector<Node>& list_items(Log& log, const Node& node, std::string_view name);

/// The entries of a map; logs a node that is neither a map nor empty.
const std::vector<Entry>& map_entries(Log& log, const Node& node, std::string_view name);

/// Asks whether two names that look alike are of two things.
void ask_if_alike(Log& log, const Origin& origin, std::string_view thing, std::string_view name,
                  std::string_view other);

/// Logs an error if `name` is already among `things`, each of which has a name and a mark, and a
/// question if one looks like it.
template <class Things>
void refuse_same_name(Log& log, const Origin& origin, std::string_view thing,
                      const std::string& name, const Things& things) {
  if (name.empty()) return;
  for (const auto& other : things) {
    if (other.name != name) {
      if (look_alike(other.name, name)) ask_if_alike(log, origin, thing, name, other.name);
      continue;
    }
    const std::string line = log.line_of(other.mark, origin);
    log.error(origin, fmt::format("there are two {} called {}", thing, units::in_quotes(name)),
              "another name for one of them", line.empty() ? line : "the first one is on " + line);
    return;
  }
}

}  // namespace drystage::plan
