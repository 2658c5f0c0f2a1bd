#include "report/charts/picture.h"

#include <algorithm>
#include <utility>

#include "report/text/page.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

constexpr double words_gap_pt = 4;
constexpr double item_gap_pt = 12;

/// Where the words of an item begin.
double words_x(const KeyItem& item) {
  return item.sample_pt > 0 ? item.sample_pt + words_gap_pt : 0;
}

double item_width(const drawing::Typesetter& typesetter, const KeyItem& item) {
  // A little more than the words, lest they be broken.
  return words_x(item) + typesetter.width(item.words, body_font) + 1;
}

}  // namespace

void write(drawing::Flow& flow, const drawing::Typesetter& typesetter, const std::string& words,
           const drawing::Font& font, double gap_pt) {
  if (words.empty()) return;
  flow.add(drawing::paragraph(typesetter, words, font, flow.paper().column_pt()));
  flow.add(drawing::space(gap_pt));
}

void write_trip(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const answers::PlanRun& planned) {
  write(flow, typesetter, planned.plan.trip.title, title_font, 2);
  const std::vector<engine::DayInfo>& days = planned.course.timeline->days;
  std::string when = long_date(days.front().schedule.date);
  if (days.size() > 1) when += " to " + long_date(days.back().schedule.date);
  write(flow, typesetter, party_words(planned) + ": " + when, body_font);
}

void write_warnings(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const std::vector<std::string>& warnings) {
  for (const std::string& warning : warnings) {
    write(flow, typesetter, "Warning: " + warning + ".", body_font, 2);
  }
}

void write_remarks(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const std::vector<std::string>& remarks) {
  for (const std::string& remark : remarks) {
    write(flow, typesetter, capital(remark_sentence(remark)), body_font, 2);
  }
}

void write_cautions(drawing::Flow& flow, const drawing::Typesetter& typesetter) {
  constexpr double gap_pt = 6;
  flow.add(drawing::space(gap_pt));
  write(flow, typesetter, std::string(cautions), body_font, 0);
}

double key_line_pt(const drawing::Typesetter& typesetter) {
  constexpr double any_width_pt = 100;
  return typesetter.size("0", body_font, any_width_pt).height_pt;
}

KeyItem line_item(const drawing::Typesetter& typesetter, const drawing::Stroke& stroke,
                  std::string words) {
  KeyItem out{.words = std::move(words)};
  const double y = key_line_pt(typesetter) / 2;
  out.sample.emplace_back(drawing::line({.x = 0, .y = y}, {.x = out.sample_pt, .y = y}, stroke));
  return out;
}

double key_width(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items) {
  double width = 0;
  for (const KeyItem& item : items) {
    width += (width > 0 ? item_gap_pt : 0) + item_width(typesetter, item);
  }
  return width;
}

drawing::Block key(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items,
                   double width_pt) {
  drawing::Block out;
  const double line_pt = key_line_pt(typesetter);
  double x = 0;
  double y = 0;
  double height = 0;  // of the line under way
  for (const KeyItem& item : items) {
    const double width = std::min(item_width(typesetter, item), width_pt);
    if (x > 0 && x + width > width_pt) {
      x = 0;
      y += height;
      height = 0;
    }
    for (const drawing::Mark& mark : item.sample) out.marks.push_back(moved(mark, x, y));
    const double left = x + words_x(item);
    const drawing::Text words =
        typesetter.text(item.words, body_font, {.x = left, .y = y}, x + width - left);
    height = std::max({height, line_pt, words.box.height});
    out.marks.emplace_back(words);
    x += width + item_gap_pt;
  }
  out.height_pt = y + height;
  return out;
}

}  // namespace drystage::report
