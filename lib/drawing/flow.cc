#include "drawing/flow.h"

#include <fmt/core.h>

#include <cmath>
#include <numeric>
#include <utility>

namespace drystage::drawing {
namespace {

constexpr Font foot_font{.size_pt = 9};
constexpr double foot_height_pt = 16;  ///< a line and the space above it
constexpr double hair_pt = 0.01;       ///< what is taken for rounding

double height_of(const std::vector<Block>& blocks) {
  return std::accumulate(blocks.begin(), blocks.end(), 0.0,
                         [](double sum, const Block& block) { return sum + block.height_pt; });
}

}  // namespace

Block space(double height_pt) { return {.height_pt = height_pt}; }

std::vector<Block> paragraph(const Typesetter& typesetter, const std::string& words,
                             const Font& font, double width_pt, double indent_pt) {
  std::vector<Block> out;
  for (const std::string& line : typesetter.lines(words, font, width_pt - indent_pt)) {
    Text text = typesetter.text(line, font, {.x = indent_pt, .y = 0}, width_pt - indent_pt);
    const double height = text.box.height;
    out.push_back({.height_pt = height, .marks = {std::move(text)}});
  }
  return out;
}

double Flow::bottom() const { return paper_.height_pt - paper_.margin_pt - foot_height_pt; }

double Flow::room_pt() const {
  return bottom() - (pages_.empty() ? paper_.margin_pt : y_) - height_of(held_);
}

bool Flow::fits(double height_pt) const { return y_ + height_pt <= bottom() + hair_pt; }

void Flow::start_page() {
  pages_.push_back({.width_pt = paper_.width_pt, .height_pt = paper_.height_pt});
  y_ = paper_.margin_pt;
  heading_due_ = !heading_.empty();
  fresh_ = true;
}

void Flow::place(const Block& block) {
  for (const Mark& mark : block.marks) {
    pages_.back().marks.push_back(moved(mark, paper_.margin_pt, y_));
  }
  y_ += block.height_pt;
}

void Flow::place_heading() {
  if (!heading_due_) return;
  for (const Block& block : heading_) place(block);
  heading_due_ = false;
}

void Flow::place_held() {
  if (held_.empty()) return;
  if (pages_.empty()) start_page();
  const auto due = [this] { return heading_due_ ? height_of(heading_) : 0.0; };
  if (!fresh_ && !fits(due() + height_of(held_))) start_page();
  for (const Block& block : std::exchange(held_, {})) {
    if (!fresh_ && !fits(due() + block.height_pt)) start_page();
    place_heading();
    place(block);
    fresh_ = false;
  }
}

void Flow::add(Block block) {
  const bool wait = block.with_next;
  held_.push_back(std::move(block));
  if (!wait) place_held();
}

void Flow::add(std::vector<Block> blocks) {
  for (Block& block : blocks) add(std::move(block));
}

void Flow::repeat(std::vector<Block> heading) {
  // What waits for the next block waits for the heading and some of what it heads.
  constexpr double some_pt = 40;
  const double all_pt = height_of(held_) + height_of(heading) + some_pt;
  if (!held_.empty() && !pages_.empty() && !fresh_ && !fits(all_pt)) {
    repeat_nothing();
    start_page();
  }
  place_held();
  heading_ = std::move(heading);
  heading_due_ = true;
}

void Flow::repeat_nothing() {
  heading_.clear();
  heading_due_ = false;
}

void Flow::new_page() {
  place_held();
  if (!pages_.empty() && !fresh_) start_page();
}

std::vector<Page> Flow::pages(const Typesetter& typesetter, const std::string& foot) const {
  Flow all = *this;
  all.place_held();
  if (all.pages_.size() > 1 && all.fresh_) all.pages_.pop_back();
  std::vector<Page> out = std::move(all.pages_);
  if (std::isinf(paper_.height_pt)) {
    if (!out.empty()) out.back().height_pt = all.y_ + paper_.margin_pt;
    return out;
  }
  constexpr double gap_pt = 12;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const std::string number = fmt::format("page {} of {}", i + 1, out.size());
    const double width = typesetter.width(number, foot_font);
    const double room = paper_.column_pt() - width - gap_pt;
    const double y = paper_.height_pt - paper_.margin_pt -
                     typesetter.size(number, foot_font, paper_.column_pt()).height_pt;
    out[i].marks.emplace_back(typesetter.text(typesetter.shortened(foot, foot_font, room),
                                              foot_font, {.x = paper_.margin_pt, .y = y}, room));
    out[i].marks.emplace_back(typesetter.text(
        number, foot_font, {.x = paper_.margin_pt + paper_.column_pt() - width, .y = y}, width));
  }
  return out;
}

}  // namespace drystage::drawing
