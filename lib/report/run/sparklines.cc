#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "plan/utf8.h"
#include "report/run/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

constexpr std::array<const char*, 8> blocks{"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};

// A longer name stands on a line of its own.
constexpr int most_name_columns = 24;
constexpr int space = 2;

// What is only the rounding of a double moves nothing to another block.
constexpr double tiny_share = 1e-9;

/// One reserve's line: for each day how high its block stands, and whether its margin was broken.
struct Line {
  std::string name;
  std::vector<std::size_t> blocks;  ///< by day
  std::vector<bool> breached;       ///< by day
  std::vector<bool> judged;         ///< by day: whose it is was with the party
  bool worst_is_high = false;
  std::string first;
  std::string worst;
};

/// The eighth of the scale in which a share of it lies; on the edge of two, the worse.
std::size_t block_of(double share, bool worst_is_high) {
  constexpr double highest = static_cast<double>(blocks.size()) - 1;
  const double eighths = share * static_cast<double>(blocks.size());
  const double block =
      worst_is_high ? std::floor(eighths + tiny_share) : std::ceil(eighths - tiny_share) - 1;
  return static_cast<std::size_t>(std::clamp(block, 0.0, highest));
}

Line line_of(const answers::PlanRun& planned, std::size_t reserve, units::System system) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  std::vector<double> levels;
  Line out{.name = reserve_words(info),
           .blocks = {},
           .breached = {},
           .judged = {},
           .worst_is_high = info.sense == engine::Sense::keep_below,
           .first = {},
           .worst = {}};
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    const engine::ReserveDay& row = planned.record.reserve(day, reserve);
    out.breached.push_back(row.breach_h >= 0);
    out.judged.push_back(row.judged);
    if (row.judged) levels.push_back(row.lowest);
  }
  if (levels.empty()) return out;
  const auto [least, most] = std::ranges::minmax(levels);
  const double bottom = out.worst_is_high ? least : 0;
  const double height = (out.worst_is_high ? most : info.capacity) - bottom;
  // Temperatures that are the same as far as is shown are drawn so.
  const bool flat = out.worst_is_high && amount(info, least, system) == amount(info, most, system);
  auto level_now = levels.begin();
  for (const bool judged : out.judged) {
    const double level = judged ? *level_now++ : 0;
    const double share = height > tiny_share && !flat ? (level - bottom) / height : 0;
    out.blocks.push_back(block_of(share, out.worst_is_high));
  }
  out.first = amount(info, levels.front(), system);
  out.worst = amount_with_unit(info, out.worst_is_high ? most : least, system);
  return out;
}

class Sparklines {
 public:
  Sparklines(const answers::PlanRun& planned, const TextOptions& options) : options_(options) {
    for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
      lines_.push_back(line_of(planned, r, options.system));
    }
    for (const Line& line : lines_) {
      const int columns = plan::columns(line.name);
      if (columns <= most_name_columns) name_ = std::max(name_, columns);
      first_ = std::max(first_, plan::columns(line.first));
      worst_ = std::max(worst_, plan::columns(line.worst));
      has_cold_ = has_cold_ || line.worst_is_high;
    }
    const auto room =
        static_cast<std::size_t>(table_columns() - name_ - space - space - first_ - space - worst_);
    days_ = planned.record.days();
    each_ = std::max<std::size_t>(1, (days_ + room - 1) / room);
  }

  [[nodiscard]] std::string text() const {
    std::string out = head();
    for (const Line& line : lines_) out += text_of(line);
    return out + foot();
  }

 private:
  [[nodiscard]] std::size_t count() const { return (days_ + each_ - 1) / each_; }

  /// From where the blocks begin.
  [[nodiscard]] std::string indent() const {
    return std::string(static_cast<std::size_t>(name_ + space), ' ');
  }

  [[nodiscard]] std::string head() const {
    const std::string columns = left("", name_ + space + static_cast<int>(count()) + space) +
                                right("first", first_) + std::string(space, ' ') +
                                right("worst", worst_);
    return strong(columns, options_.color) + "\n";
  }

  [[nodiscard]] std::string text_of(const Line& line) const {
    std::string bars;
    std::string marks;
    for (std::size_t from = 0; from < days_; from += each_) {
      const std::size_t to = std::min(from + each_, days_);
      std::optional<std::size_t> worst;
      bool breached = false;
      for (std::size_t day = from; day < to; ++day) {
        if (!line.judged[day]) continue;
        const std::size_t block = line.blocks[day];
        const std::size_t so_far = worst.value_or(block);
        worst = line.worst_is_high ? std::max(so_far, block) : std::min(so_far, block);
        breached = breached || line.breached[day];
      }
      bars += worst ? blocks.at(*worst) : " ";
      marks += breached ? '!' : ' ';
    }
    marks.erase(marks.find_last_not_of(' ') + 1);
    const bool own_line = plan::columns(line.name) > name_;
    std::string out = own_line ? left_to_edge(line.name) + "\n" + indent()
                               : left(line.name, name_) + std::string(space, ' ');
    out += bars + std::string(space, ' ') + right(line.first, first_) + std::string(space, ' ') +
           right(line.worst, worst_) + "\n";
    if (!marks.empty()) out += indent() + alarming(marks, options_.color) + "\n";
    return out;
  }

  /// A name on a line of its own: only one that is wider than the page is cut.
  static std::string left_to_edge(const std::string& name) {
    return left(name, std::min(plan::columns(name), page_columns()));
  }

  [[nodiscard]] std::string foot() const {
    std::string words = each_ == 1 ? std::string("The low point of each day")
                                   : fmt::format("The lowest point of each {} days", each_);
    words += ", from empty to full";
    if (has_cold_) words += " (cold: the warmest, from the coldest day to the warmest)";
    words += ". ! below margin.";
    return paragraph(words);
  }

  const TextOptions& options_;
  std::vector<Line> lines_;
  int name_ = 0;
  int first_ = 5;  ///< room for the word over the figures too
  int worst_ = 5;  ///< here as well
  bool has_cold_ = false;
  std::size_t days_ = 0;
  std::size_t each_ = 1;  ///< days to a block
};

}  // namespace

std::string sparklines(const answers::PlanRun& planned, const TextOptions& options) {
  return Sparklines(planned, options).text();
}

}  // namespace drystage::report
