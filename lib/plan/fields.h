#pragma once

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
  [[nodiscard]] const Spot& spot() const { return node_.spot; }
  [[nodiscard]] const std::string& what() const { return what_; }

  /// The value of a key, or null. The key counts as known from now on.
  const Node* get(std::string_view key);

  /// The same, and logs that it is missing. `example` is how it could be written.
  const Node* need(std::string_view key, std::string_view example);

  /// Logs that a key does not belong here together with what else is said, if it is there.
  void refuse(std::string_view key, std::string_view reason);

  /// The required name of the thing, under `key`. From then on messages name the thing by it.
  std::string name(std::string_view key = "name");

  // Values by key: the plain form gives nothing if the key is absent or wrong, `_or` gives the
  // default then, and `need_` logs an absent key.
  // The key of a quantity is the last part of its path, unless a name says otherwise.
  std::optional<double> quantity(Key key, std::string_view name = {});
  double quantity_or(Key key, double absent, std::string_view name = {});
  std::optional<double> need_quantity(Key key, std::string_view name = {});
  std::optional<int> whole_number(Key key);
  bool yes_no_or(std::string_view key, bool absent);

  template <class E, std::size_t n>
  E word_or(std::string_view key, E absent, const std::array<Word<E>, n>& words) {
    const Node* value = get(key);
    return value == nullptr ? absent : read_word(log_, *value, key, words).value_or(absent);
  }

  template <class E, std::size_t n>
  std::optional<E> need_word(std::string_view key, const std::array<Word<E>, n>& words) {
    const Node* value = need(key, one_of(texts(words)));
    return value == nullptr ? std::nullopt : read_word(log_, *value, key, words);
  }

  /// A reference by name; absent or wrong gives `absent`.
  int reference_or(std::string_view key, int absent, std::string_view thing,
                   const std::vector<std::string>& names, std::string_view defined_under);

  /// Logs the keys that nobody asked for.
  void finish();

 private:
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
void ask_if_alike(Log& log, const Spot& spot, std::string_view thing, std::string_view name,
                  std::string_view other);

/// Logs an error if `name` is already among `things`, each of which has a name and a mark, and a
/// question if one looks like it.
template <class Things>
void refuse_same_name(Log& log, const Spot& spot, std::string_view thing, const std::string& name,
                      const Things& things) {
  if (name.empty()) return;
  for (const auto& other : things) {
    if (other.name != name) {
      if (look_alike(other.name, name)) ask_if_alike(log, spot, thing, name, other.name);
      continue;
    }
    log.error(spot, fmt::format("there are two {} called {}", thing, units::in_quotes(name)),
              "another name for one of them",
              other.mark.line > 0 ? fmt::format("the first one is on line {}", other.mark.line)
                                  : std::string());
    return;
  }
}

}  // namespace drystage::plan
