#include "plan/include.h"

#include <fmt/core.h>

#include <algorithm>
#include <system_error>
#include <utility>

#include "plan/merge.h"
#include "plan/sections.h"
#include "plan/values.h"

namespace drystage::plan {
namespace {

constexpr std::string_view path_of_a_file = "a file, by its path from the folder of this one";

class Includer {
 public:
  Includer(Log& log, std::vector<SourceFile>& files) : log_(log), files_(files) {}

  std::optional<Node> read(std::string_view source, const std::filesystem::path& file, int index) {
    bytes_ += source.size();
    auto root = parse_tree(source, {}, log_, index);
    if (!root || (index > 0 && !is_part_of_plan(*root, index))) return std::nullopt;
    const Node* found = root->find("include");
    if (found == nullptr) return root;
    const Node include = *found;
    std::erase_if(root->entries, [](const Entry& entry) { return entry.key == "include"; });
    if (file.empty()) {
      log_.error(include.origin, "include: only a plan in a file can include other files");
      return root;
    }
    Node base;
    base.kind = Node::Kind::map;
    bool whole = true;
    open_.push_back(file);
    for (const Node& name : names(include)) {
      const auto one = read_named(name, file);
      whole = whole && one.has_value();
      if (one) base = laid_over(base, *one);
    }
    open_.pop_back();
    return whole ? std::optional(laid_over(base, *root)) : std::nullopt;
  }

 private:
  bool is_part_of_plan(const Node& root, int index) {
    if (root.kind == Node::Kind::empty) {
      log_.error({{1, 1, index}, {}}, "the included file is empty",
                 "sections of a plan, such as vehicles and water");
    } else if (root.kind != Node::Kind::map) {
      log_wrong_form(log_, root, "an included file", "a map of keys and values");
    } else if (const Node* version = root.find("drystage")) {
      read_version(log_, *version);
    }
    return root.kind == Node::Kind::map;
  }

  static std::vector<Node> names(const Node& include) {
    if (include.kind == Node::Kind::list) return include.items;
    return {include};
  }

  std::optional<Node> read_named(const Node& name, const std::filesystem::path& by) {
    if (name.kind != Node::Kind::text) {
      log_wrong_form(log_, name, "include", path_of_a_file);
      return std::nullopt;
    }
    const std::filesystem::path path = by.parent_path() / name.text;
    const std::string shown = path.string();
    const auto refuse = [&](const std::string& what, std::string_view expected,
                            std::string hint = {}) {
      log_.error(name.origin, "include: " + what, std::string(expected), std::move(hint));
      return std::nullopt;
    };
    if (name.text.empty() || !units::is_printable_utf8(name.text)) {
      return refuse(units::in_quotes(name.text) + " is no path", path_of_a_file);
    }
    std::error_code unknown_file;
    const auto status = std::filesystem::status(path, unknown_file);
    if (!std::filesystem::exists(status)) {
      return refuse("there is no file " + shown, path_of_a_file);
    }
    if (!std::filesystem::is_regular_file(status)) {
      return refuse(shown + " is not a file", path_of_a_file);
    }
    if (is_open(path)) {
      return refuse(shown + " includes itself, at once or by way of others",
                    "files that do not include each other", "take out one of the two includes");
    }
    if (files_.size() >= most_included) {
      return refuse(fmt::format("more than {} files", most_included), "a few files",
                    "put what belongs together into one file");
    }
    FileText read_file = text_of_file(path);
    if (!read_file.fault.empty()) {
      return refuse(fmt::format("{} cannot be read: {}", shown, read_file.fault),
                    "a file that you may read");
    }
    if (bytes_ + read_file.text.size() > most_source_bytes) {
      return refuse(fmt::format("the plan and its files are larger than {} MiB together",
                                most_source_bytes >> 20U),
                    "files of some kilobytes");
    }
    files_.push_back({path.string(), without_byte_order_mark(std::move(read_file.text))});
    const int index = log_.add_file(path.string());
    const std::string text = files_.back().text;  // more are added while it is read
    return read(text, path, index);
  }

  [[nodiscard]] bool is_open(const std::filesystem::path& path) const {
    return std::ranges::any_of(open_, [&](const std::filesystem::path& other) {
      std::error_code unknown_file;
      return std::filesystem::equivalent(path, other, unknown_file);
    });
  }

  Log& log_;
  std::vector<SourceFile>& files_;
  std::vector<std::filesystem::path> open_;  // each included by the one before
  std::size_t bytes_ = 0;
};

}  // namespace

std::optional<Node> read_with_included(std::string_view source, const std::filesystem::path& file,
                                       Log& log, std::vector<SourceFile>& files) {
  return Includer(log, files).read(source, file, 0);
}

}  // namespace drystage::plan
