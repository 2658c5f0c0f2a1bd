#include <algorithm>
#include <optional>
#include <utility>

#include "plan/text_edit.h"
#include "plan/utf8.h"
#include "units/list.h"

namespace drystage::plan {

// The items or members between a pair of brackets, and the commas between them.
class TextEdit::FlowChange {
 public:
  FlowChange(TextEdit& edit, const std::vector<Slot>& slots, const std::vector<bool>& removed,
             const std::vector<NewSlot>& added)
      : edit_(edit), text_(edit.text_), slots_(slots), removed_(removed), added_(added) {
    for (const Slot& slot : slots) {
      const std::size_t next = skip_gap(text_, slot.end);
      commas_.push_back(next < text_.size() && text_[next] == ',' ? std::optional(next)
                                                                  : std::nullopt);
    }
    own_lines_ = std::all_of(slots.begin() + (slots.size() > 1 ? 1 : 0), slots.end(),
                             [&](const Slot& slot) { return edit.begins_line(slot.begin); });
    for (std::size_t i = 0; i < slots.size(); ++i) {
      if (!removed[i]) last_kept_ = static_cast<int>(i);
    }
  }

  void carry_out() {
    add_after(-1);
    for (std::size_t i = 0; i < slots_.size(); ++i) {
      if (removed_[i]) {
        remove(i);
      } else {
        add_after(static_cast<int>(i));
      }
    }
    drop_last_comma();
  }

 private:
  [[nodiscard]] bool rest_is_comment(std::size_t at) const {
    const std::size_t next = skip_blanks(text_, at);
    return next >= line_end(text_, at) || text_[next] == '#';
  }

  void remove(std::size_t i) {
    const std::size_t begin = slots_[i].begin;
    std::size_t end = commas_[i] ? *commas_[i] + 1 : slots_[i].end;
    if (own_lines_ && edit_.begins_line(begin) && rest_is_comment(end)) {
      edit_.replace(line_start(text_, begin), edit_.after_comment(end), "");
      return;
    }
    // The gap after it goes with it, or, where nothing follows on the line, the one before it.
    if (commas_[i] && !rest_is_comment(end)) end = skip_blanks(text_, end);
    const bool is_tail = static_cast<int>(i) == last_kept_ + 1 && !commas_.back();
    const bool ends_line = skip_blanks(text_, end) == line_end(text_, end);
    const bool gap_before = i > 0 && !removed_[i - 1] && !edit_.begins_line(begin);
    // The bracket behind the last one moves up to what stays, if no comment stands between.
    const bool line_before = i > 0 && is_tail && i + 1 == slots_.size() && commas_[i - 1] &&
                             edit_.begins_line(begin) &&
                             text_.find_last_not_of(" \t\r\n", begin - 1) == *commas_[i - 1];
    if (line_before) {
      edit_.replace(*commas_[i - 1] + 1, end, "");
      return;
    }
    edit_.replace(
        gap_before && (is_tail || ends_line) ? text_.find_last_not_of(" \t", begin - 1) + 1 : begin,
        end, "");
  }

  // Without what follows it, the last one that stays needs no comma, if the last one had none.
  void drop_last_comma() {
    const int last = static_cast<int>(slots_.size()) - 1;
    if (last_kept_ < 0 || last_kept_ == last || commas_.back()) return;
    const bool followed = std::any_of(added_.begin(), added_.end(),
                                      [&](const NewSlot& one) { return one.after == last_kept_; });
    const auto comma = commas_[static_cast<std::size_t>(last_kept_)];
    if (!followed && comma) edit_.replace(*comma, *comma + 1, "");
  }

  void add_after(int place) {
    std::vector<std::string> texts;
    for (const NewSlot& one : added_) {
      if (one.after == place) texts.push_back(one.text + ",");
    }
    if (texts.empty()) return;
    const bool is_last = place >= 0 && place + 1 == static_cast<int>(slots_.size());
    const bool comma_after = last_kept_ > place || (is_last && commas_.back());
    if (!comma_after) texts.back().pop_back();
    if (place < 0) {
      add_before_all(texts, comma_after);
      return;
    }
    const auto i = static_cast<std::size_t>(place);
    if (!commas_[i]) edit_.insert(slots_[i].end, ",");
    const std::size_t at = commas_[i] ? *commas_[i] + 1 : slots_[i].end;
    const bool on_lines = own_lines_ && rest_is_comment(at);
    edit_.insert(on_lines ? line_end(text_, at) : at, joined(texts, at));
  }

  void add_before_all(const std::vector<std::string>& texts, bool comma_after) {
    const std::size_t first = slots_.front().begin;
    const bool on_lines = own_lines_ && edit_.begins_line(first);
    std::string made;
    for (std::size_t t = 0; t < texts.size(); ++t) {
      const bool blank_after = comma_after || t + 1 < texts.size();
      made +=
          on_lines ? indent() + texts[t] + edit_.line_end_ : texts[t] + (blank_after ? " " : "");
    }
    edit_.insert(on_lines ? line_start(text_, first) : first, made);
  }

  // Each on a line of its own where all are, else on the line of what stands before, up to a width.
  [[nodiscard]] std::string joined(const std::vector<std::string>& texts, std::size_t at) const {
    constexpr std::size_t widest = 100;
    std::string made;
    std::size_t column = edit_.column(at);
    for (const std::string& text : texts) {
      const auto width = static_cast<std::size_t>(columns(text));
      if (own_lines_ || column + 1 + width > widest) {
        made += edit_.line_end_ + indent() + text;
        column = indent().size() + width;
      } else {
        made += " " + text;
        column += 1 + width;
      }
    }
    return made;
  }

  [[nodiscard]] std::string indent() const {
    const Slot& model = own_lines_ ? slots_.back() : slots_.front();
    return std::string(edit_.column(model.begin), ' ');
  }

  TextEdit& edit_;
  std::string_view text_;
  const std::vector<Slot>& slots_;
  const std::vector<bool>& removed_;
  const std::vector<NewSlot>& added_;
  std::vector<std::optional<std::size_t>> commas_;
  bool own_lines_ = false;
  int last_kept_ = -1;
};

void TextEdit::change_flow(std::size_t open, const std::vector<Slot>& slots,
                           const std::vector<bool>& removed, const std::vector<NewSlot>& added) {
  if (!slots.empty()) {
    FlowChange(*this, slots, removed, added).carry_out();
    return;
  }
  std::string made;
  for (const NewSlot& one : added) units::add_to(made, one.text);
  insert(open, made);
}

}  // namespace drystage::plan
