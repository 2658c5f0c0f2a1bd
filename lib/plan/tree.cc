#include "plan/tree.h"

#include <fmt/core.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <map>
#include <sstream>
#include <string>
#include <utility>

#include "plan/limits.h"
#include "plan/log.h"
#include "plan/utf8.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

// Thrown by the event handler below to leave the YAML parser, and caught in this file.
struct Unreadable {
  Origin origin;
  std::string what;
  std::string expected = {};
  std::string hint = {};
};

// Turns the parser's marks (from 0, in bytes) into ours (from 1, in characters).
class Marks {
 public:
  Marks(std::string_view source, int file) : source_(source), file_(file) {
    starts_.push_back(0);
    for (std::size_t i = 0; i < source.size(); ++i) {
      if (source[i] == '\n') starts_.push_back(i + 1);
    }
  }

  [[nodiscard]] Mark of(const YAML::Mark& mark) const {
    if (mark.is_null()) return {1, 1, file_};
    const auto line = std::clamp<std::size_t>(static_cast<std::size_t>(std::max(mark.line, 0)), 0,
                                              starts_.size() - 1);
    const std::size_t start = starts_[line];
    const std::size_t until = start + std::min(static_cast<std::size_t>(std::max(mark.column, 0)),
                                               source_.size() - start);
    // Marks come one after the other: a long line is counted once, and not anew for each.
    if (last_.line != line || last_.until > until) last_ = {.line = line, .until = start};
    const std::string_view more = source_.substr(last_.until, until - last_.until);
    last_.characters += std::count_if(more.begin(), more.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
    last_.until = until;
    return {static_cast<int>(line) + 1, static_cast<int>(last_.characters) + 1, file_};
  }

 private:
  std::string_view source_;
  int file_;
  std::vector<std::size_t> starts_;
  /// How far the characters of a line have been counted.
  struct Counted {
    std::size_t line = 0;
    std::size_t until = 0;  ///< byte of the source
    std::ptrdiff_t characters = 0;
  };
  mutable Counted last_{};
};

class Builder : public YAML::EventHandler {
 public:
  Builder(const Marks& marks, const std::string& set, Log& log)
      : marks_(marks), set_(set), log_(log) {}

  void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    place(begin(mark, Node::Kind::empty));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    throw Unreadable{origin(mark), "a plan has no aliases", "the value itself",
                     "write out what the alias (*name) stands for"};
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                const std::string& value) override {
    refuse_tag(mark, tag);
    Node node = begin(mark, Node::Kind::text);
    node.text = value;
    // "~" and "null" are YAML's words for nothing; a quoted one is an ordinary text.
    if (tag == "?" && (value.empty() || value == "~" || value == "null")) {
      node.kind = Node::Kind::empty;
    }
    place(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                       YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    open(begin(mark, Node::Kind::list));
  }

  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                  YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    open(begin(mark, Node::Kind::map));
  }

  void OnMapEnd() override { close(); }

  Node root;

 private:
  // A list or map that is not closed yet.
  struct Frame {
    Node node;
    bool key_waits = false;  // a key was read, its value comes next
    std::string key;
    Origin key_spot;
    std::map<std::string, Mark, std::less<>> seen;
  };

  [[nodiscard]] Origin origin(const YAML::Mark& mark) const {
    return set_.empty() ? Origin{marks_.of(mark), {}} : Origin{{}, set_};
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) const {
    if (tag.empty() || tag == "?" || tag == "!") return;
    throw Unreadable{origin(mark), "a plan has no tags", "the value alone",
                     "take away the word that begins with \"!\""};
  }

  Node begin(const YAML::Mark& mark, Node::Kind kind) {
    if (++count_ > most_nodes) {
      throw Unreadable{origin(mark), fmt::format("more than {} values in one plan", most_nodes)};
    }
    Node node;
    node.kind = kind;
    node.origin = origin(mark);
    return node;
  }

  void open(Node node) {
    if (!frames_.empty() && frames_.back().node.kind == Node::Kind::map &&
        !frames_.back().key_waits) {
      throw Unreadable{node.origin, "a list or a map where a key belongs", "a word and a colon",
                       "look for a bracket or brace that is not closed"};
    }
    if (frames_.size() >= most_depth) {
      throw Unreadable{node.origin,
                       fmt::format("more than {} levels inside each other", most_depth),
                       "a plan needs about six"};
    }
    Frame& frame = frames_.emplace_back();
    frame.node = std::move(node);
  }

  void close() {
    Node node = std::move(frames_.back().node);
    frames_.pop_back();
    place(std::move(node));
  }

  // Puts a finished node where it belongs: the root, the next of a list, a key, or its value.
  void place(Node node) {
    if (frames_.empty()) {
      root = std::move(node);
      return;
    }
    Frame& frame = frames_.back();
    if (std::max(frame.node.items.size(), frame.node.entries.size()) >= most_in_one) {
      throw Unreadable{node.origin,
                       fmt::format("more than {} items in one list or map", most_in_one)};
    }
    if (frame.node.kind == Node::Kind::list) {
      frame.node.items.push_back(std::move(node));
    } else if (!frame.key_waits) {
      frame.key = node.kind == Node::Kind::text ? node.text : std::string("null");
      frame.key_spot = node.origin;
      frame.key_waits = true;
    } else {
      frame.key_waits = false;
      const auto [first, is_new] = frame.seen.emplace(frame.key, frame.key_spot.mark);
      if (is_new) {
        frame.node.entries.push_back({frame.key, frame.key_spot, std::move(node)});
      } else {
        log_.error(frame.key_spot, units::in_quotes(frame.key) + " is given twice", "each key once",
                   set_.empty() ? fmt::format("the first one is on line {}", first->second.line)
                                : std::string());
      }
    }
  }

  const Marks& marks_;
  const std::string& set_;
  Log& log_;
  std::vector<Frame> frames_;
  std::size_t count_ = 0;
};

// What to try for the faults of YAML that people meet.
std::string yaml_hint(std::string_view source, const Mark& mark, std::string_view message) {
  std::size_t start = 0;
  for (int line = 1; line < mark.line && start != std::string_view::npos; ++line) {
    start = source.find('\n', start);
    if (start != std::string_view::npos) ++start;
  }
  if (start != std::string_view::npos) {
    const std::string_view line = source.substr(start, source.find('\n', start) - start);
    const std::size_t text = line.find_first_not_of(" \t");
    if (text != std::string_view::npos &&
        line.substr(0, text).find('\t') != std::string_view::npos) {
      return "indent with spaces, YAML does not allow tabs there";
    }
  }
  if (message.find("end of map") != std::string_view::npos ||
      message.find("end of sequence") != std::string_view::npos) {
    return "look for a bracket or brace that is not closed, a missing comma, or a line whose "
           "indent differs from its neighbours";
  }
  if (message.find("EOF in scalar") != std::string_view::npos) {
    return "look for a quote that is not closed";
  }
  if (message.find("illegal map value") != std::string_view::npos) {
    return "a text that has a colon and a blank inside needs quotes around it; or the line before "
           "lacks its colon or the end of a quote";
  }
  return "or the line before lacks a colon, a quote or a bracket";
}

}  // namespace

const Node* Node::find(std::string_view key) const {
  for (const Entry& entry : entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

Node* Node::find(std::string_view key) {
  for (Entry& entry : entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

std::optional<Node> parse_tree(std::string_view source, const std::string& set, Log& log,
                               int file) {
  const auto spot_of = [&set, file](Mark mark) {
    mark.file = file;
    return set.empty() ? Origin{mark, {}} : Origin{{}, set};
  };
  if (source.size() > most_source_bytes) {
    log.error(spot_of({1, 1}),
              fmt::format("the plan is larger than {} MiB", most_source_bytes >> 20U),
              "a plan of some kilobytes");
    return std::nullopt;
  }
  if (const auto bad = first_unreadable(source)) {
    const Character found = first_character(source.substr(*bad));
    const Origin at = spot_of(mark_at(source, *bad));
    if (found.valid) {
      log.error(at, fmt::format("a character that no text may hold (U+{:04X})", found.code),
                "text without control characters and marks that turn the writing direction",
                "delete it: it is not seen, or not as it stands");
    } else {
      log.error(at,
                fmt::format("a byte that is not text (hexadecimal {:02x})",
                            static_cast<unsigned char>(source[*bad])),
                "text in UTF-8", "save the file as UTF-8 from a text editor");
    }
    return std::nullopt;
  }
  const Marks marks(source, file);
  Builder builder(marks, set, log);
  try {
    std::istringstream stream{std::string(source)};
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) return Node{};
    Node root = std::move(builder.root);
    Builder rest(marks, set, log);
    if (parser.HandleNextDocument(rest)) {
      log.error(rest.root.origin, "a second YAML document", "one plan in one file",
                "take away the line \"---\" before it");
      return std::nullopt;
    }
    return root;
  } catch (const Unreadable& fault) {
    log.error(fault.origin, fault.what, fault.expected, fault.hint);
  } catch (const YAML::Exception& fault) {
    const Mark mark = marks.of(fault.mark);
    log.error(spot_of(mark), "not well-formed YAML: " + fault.msg, {},
              yaml_hint(source, mark, fault.msg));
  }
  return std::nullopt;
}

}  // namespace drystage::plan
