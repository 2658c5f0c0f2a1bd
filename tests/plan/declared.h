#pragma once

#include <fmt/core.h>

#include <functional>
#include <string>

#include "plan/keys.h"
#include "plan/tree.h"

namespace drystage::plan {

/// Told of each value of a plan that has a declared key: the key, where it is as --set wants it,
/// and what stands there.
using Visit = std::function<void(Key key, const std::string& path, const Node& value)>;

/// Goes through a map by its declaration.
class Walk {
 public:
  explicit Walk(Visit visit) : visit_(std::move(visit)) {}

  void map(const Node& node, std::string_view map_path, const std::string& path = {}) {
    for (const Key key : keys_of(map_path)) {
      const std::string below = path.empty() ? std::string() : path + ".";
      if (const Node* value = node.find(key.name())) {
        values(*value, key, fmt::format("{}{}", below, key.name()));
      }
    }
  }

 private:
  void values(const Node& node, Key key, const std::string& path) {
    const Many many = key->value.many;
    const bool plain = key->value.sort != Sort::map && key->value.sort != Sort::months;
    if (node.kind == Node::Kind::list && many != Many::one) {
      for (std::size_t i = 0; i < node.items.size(); ++i) {
        value(node.items[i], key, fmt::format("{}[{}]", path, i));
      }
    } else if (many == Many::by_name || many == Many::list_by_name || many == Many::by_surface ||
               ((many == Many::one_or_by_name || many == Many::one_or_by_surface) && plain &&
                node.kind == Node::Kind::map)) {
      for (const Entry& entry : node.entries) {
        const std::string below = fmt::format("{}.{}", path, entry.key);
        if (many == Many::list_by_name) {
          values(entry.value, key, below);
        } else {
          value(entry.value, key, below);
        }
      }
    } else {
      value(node, key, path);
    }
  }

  void value(const Node& node, Key key, const std::string& path) {
    visit_(key, path, node);
    const Value& declared = key->value;
    if (declared.sort == Sort::map && node.kind == Node::Kind::map) {
      map(node, declared.of.empty() ? key->path : declared.of, path);
    } else if (declared.sort == Sort::map && node.kind == Node::Kind::text) {
      visit_(named(declared.alone), path, node);
    } else if (declared.sort == Sort::date && node.kind == Node::Kind::map) {
      map(node, declared.of, path);
    }
    for (std::size_t i = 0; declared.sort == Sort::surfaces && i < node.items.size(); ++i) {
      map(node.items[i], key->path, fmt::format("{}[{}]", path, i));
    }
    for (const Entry& entry : node.entries) {
      const std::string below = fmt::format("{}.{}", path, entry.key);
      if (declared.sort == Sort::surfaces) visit_("road.surfaces.distance", below, entry.value);
      if (declared.sort == Sort::dip) visit_("dip.*", below, entry.value);
      if (declared.sort == Sort::months) map(entry.value, key->path, below);
    }
  }

  static Key named(std::string_view path) {
    for (const auto& some : declarations) {
      for (const Declaration& one : some) {
        if (one.path == path) return Key(one);
      }
    }
    throw std::logic_error("no key " + std::string(path));
  }

  Visit visit_;
};

}  // namespace drystage::plan
