#include "start/every_key.h"

#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <set>
#include <utility>

#include "plan/keys.h"

namespace drystage::start {
namespace {

using plan::Key;
using plan::Many;
using plan::Sort;

constexpr std::size_t indent_step = 2;

/// Lines under each other, each behind "# ", so that an editor can take that away from a block.
/// What several maps have in common is listed once.
class Listing {
 public:
  void map(std::string_view path, std::size_t indent) {
    auto keys = plan::keys_of(path);
    std::stable_partition(keys.begin(), keys.end(), std::not_fn(is_nested));
    for (const Key key : keys) {
      if (listed_.insert(key->path).second) one(key, indent);
    }
  }

  [[nodiscard]] std::string text() && { return std::move(text_); }

 private:
  void line(std::size_t indent, const std::string& what, const std::string& remark = {}) {
    std::string made = std::string(indent, ' ') + what;
    if (item_) made[indent - indent_step] = '-';
    item_ = false;
    text_ += "# " + made + (remark.empty() ? "" : "    # " + remark) + '\n';
  }

  void one(Key key, std::size_t indent) {
    const std::string name(key.name());
    const std::string_view below = key->value.of.empty() ? key->path : key->value.of;
    std::string remark = fmt::format("{}; {}", key->meaning, if_left_out(key));
    if (!is_nested(key)) {
      line(indent, fmt::format("{}: {}", name, value(key)), remark);
      return;
    }
    const auto keys = plan::keys_of(below);
    const auto is_new = [&](Key each) { return !listed_.contains(each->path); };
    const auto fresh = std::ranges::count_if(keys, is_new);
    const bool repeats = fresh < std::ssize(keys);
    if (repeats) remark += fresh == 0 ? "; keys as above" : "; other keys as above";
    const Many many = key->value.many;
    const bool items =
        many == Many::list || many == Many::list_by_name || key->value.sort == Sort::surfaces;
    if (repeats && fresh == 0) {
      line(indent, fmt::format("{}: {}", name, many == Many::list ? "[]" : "{}"), remark);
      return;
    }
    line(indent, name + ":", remark);
    indent += indent_step;
    const Sort sort = key->value.sort;
    if (many == Many::by_surface) {
      line(indent, fmt::format("gravel: {}", value(key)));
      return;
    }
    if (many == Many::by_name || many == Many::list_by_name) {
      line(indent, "NAME:");
      indent += indent_step;
    }
    if (sort == Sort::months) {
      line(indent, "january:");
      indent += indent_step;
    }
    if (items) indent += indent_step;
    item_ = items;
    map(below, indent);
  }

  static bool is_nested(Key key) {
    const Sort sort = key->value.sort;
    return sort == Sort::map || sort == Sort::months || sort == Sort::surfaces ||
           (sort == Sort::date && !key->value.of.empty()) || key->value.many == Many::by_surface;
  }

  static std::string value(Key key) {
    const std::string made = one_value(key);
    return key->value.many == Many::list ? fmt::format("[{}]", made) : made;
  }

  static std::string one_value(Key key) {
    switch (key->value.sort) {
      case Sort::word:
        return std::string(key->value.words.front());
      case Sort::name:
      case Sort::reference:
        return "NAME";
      default:
        return plan::example_of(key);
    }
  }

  static std::string if_left_out(Key key) {
    return key->required() ? "required" : fmt::format("left out: {}", key->absent);
  }

  std::set<std::string_view> listed_;
  std::string text_;
  bool item_ = false;  ///< the next line begins an item of a list
};

}  // namespace

std::string every_key() {
  Listing listing;
  listing.map("", 0);
  return "\n# Every key of a plan. Copy what you need to its place above, without the \"# \" "
         "before "
         "it.\n# NAME stands for a name. Some keys go together or not: docs/format.md says which.\n"
         "#\n" +
         std::move(listing).text();
}

}  // namespace drystage::start
