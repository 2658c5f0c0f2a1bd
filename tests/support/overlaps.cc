#include "support/overlaps.h"

#include <fmt/core.h>

#include <algorithm>
#include <variant>

namespace drystage::support {
namespace {

using drawing::Mark;
using drawing::Point;
using drawing::Rect;
using drawing::Shape;
using drawing::Text;
using drawing::Typesetter;

constexpr double touching_pt = 0.01;
constexpr double edge_pt = 0.5;

struct Inked {
  const Text* text = nullptr;
  Rect ink;
};

std::vector<Inked> inked(const Typesetter& typesetter, const std::vector<Mark>& marks) {
  std::vector<Inked> out;
  for (const Mark& mark : marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr || text->words.empty()) continue;
    out.push_back({.text = text, .ink = ink_box(typesetter, *text)});
  }
  return out;
}

bool meet(const Rect& a, const Rect& b) {
  return std::min(a.right(), b.right()) - std::max(a.x, b.x) > touching_pt &&
         std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y) > touching_pt;
}

std::string where(const Rect& rect) {
  return fmt::format("({:.1f}, {:.1f}) to ({:.1f}, {:.1f})", rect.x, rect.y, rect.right(),
                     rect.bottom());
}

bool outside(const Rect& rect, const Rect& within) {
  // Not: is it inside? So that a figure that is no number is outside.
  return !(rect.x >= within.x - edge_pt && rect.right() <= within.right() + edge_pt &&
           rect.y >= within.y - edge_pt && rect.bottom() <= within.bottom() + edge_pt);
}

void add(std::vector<std::string>& to, const std::vector<std::string>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

std::vector<std::string> all(const Typesetter& typesetter, const std::vector<Mark>& marks,
                             const Rect& within, double least_pt) {
  std::vector<std::string> out = overlaps(typesetter, marks);
  add(out, strays(typesetter, marks, within));
  add(out, small_print(marks, least_pt));
  return out;
}

}  // namespace

std::vector<std::string> overlaps(const Typesetter& typesetter, const std::vector<Mark>& marks) {
  std::vector<Inked> texts = inked(typesetter, marks);
  std::ranges::stable_sort(texts, {}, [](const Inked& one) { return one.ink.y; });
  std::vector<std::string> out;
  for (std::size_t a = 0; a < texts.size(); ++a) {
    for (std::size_t b = a + 1; b < texts.size(); ++b) {
      if (texts[b].ink.y > texts[a].ink.bottom()) break;
      if (!meet(texts[a].ink, texts[b].ink)) continue;
      out.push_back(fmt::format("\"{}\" at {} meets \"{}\" at {}", texts[a].text->words,
                                where(texts[a].ink), texts[b].text->words, where(texts[b].ink)));
    }
  }
  return out;
}

std::vector<std::string> strays(const Typesetter& typesetter, const std::vector<Mark>& marks,
                                const Rect& within) {
  std::vector<std::string> out;
  for (const Inked& text : inked(typesetter, marks)) {
    if (!outside(text.ink, within)) continue;
    out.push_back(
        fmt::format("\"{}\" at {} leaves {}", text.text->words, where(text.ink), where(within)));
  }
  for (const Mark& mark : marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr) continue;
    const auto away = std::ranges::find_if(shape->points, [&within](const Point& point) {
      return outside({.x = point.x, .y = point.y}, within);
    });
    if (away == shape->points.end()) continue;
    out.push_back(
        fmt::format("a shape leaves {} at ({:.1f}, {:.1f})", where(within), away->x, away->y));
  }
  return out;
}

std::vector<std::string> small_print(const std::vector<Mark>& marks, double least_pt) {
  std::vector<std::string> out;
  for (const Mark& mark : marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr || text->font.size_pt >= least_pt) continue;
    out.push_back(fmt::format("\"{}\" is of {} pt", text->words, text->font.size_pt));
  }
  return out;
}

std::vector<std::string> faults(const Typesetter& typesetter, const drawing::Page& page,
                                double margin_pt, double least_pt) {
  return all(typesetter, page.marks,
             {.x = margin_pt,
              .y = margin_pt,
              .width = page.width_pt - 2 * margin_pt,
              .height = page.height_pt - 2 * margin_pt},
             least_pt);
}

std::vector<std::string> faults(const Typesetter& typesetter, const drawing::Block& block,
                                double width_pt) {
  return all(typesetter, block.marks,
             {.x = 0, .y = 0, .width = width_pt, .height = block.height_pt}, usual_least_pt);
}

std::vector<std::string> faults(const std::vector<drawing::Page>& pages, double margin_pt,
                                double least_pt) {
  const Typesetter typesetter;
  std::vector<std::string> out;
  for (const drawing::Page& page : pages) add(out, faults(typesetter, page, margin_pt, least_pt));
  return out;
}

std::string words_of(const std::vector<Mark>& marks) {
  std::string out;
  for (const Mark& mark : marks) {
    if (const auto* text = std::get_if<Text>(&mark)) out += text->words + "\n";
  }
  return out;
}

}  // namespace drystage::support
