#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::drawing {

/// A column of a table. It is as wide as its longest word at the least, and shares all the room
/// there is with the others by what they would like to have.
struct Column {
  std::string heading;
  Align align = Align::left;
  std::string group{};         ///< stands once above neighbours that have the same; may be empty
  std::optional<Font> font{};  ///< of its cells, else that of the table
};

/// Rows of words in columns, with lines between, for a Flow. All rows are needed before the first
/// can be drawn, for the widths depend on them.
class Table {
 public:
  Table(const Typesetter& typesetter, double width_pt, std::vector<Column> columns, Font font = {});

  /// One word list for each column.
  void add(std::vector<std::string> cells);

  /// The head, to be repeated, and a block for each row.
  [[nodiscard]] std::vector<Block> heading() const;
  [[nodiscard]] std::vector<Block> rows() const;

 private:
  struct Row {
    std::vector<std::string> cells;
    bool heading = false;
  };
  [[nodiscard]] Row head() const;
  [[nodiscard]] Font font_of(const Row& row, std::size_t column) const;
  [[nodiscard]] std::vector<double> widths() const;
  [[nodiscard]] Block groups(const std::vector<double>& widths) const;
  [[nodiscard]] Block block(const Row& row, const std::vector<double>& widths) const;

  const Typesetter& typesetter_;
  double width_pt_;
  std::vector<Column> columns_;
  Font font_;
  std::vector<Row> rows_;
};

}  // namespace drystage::drawing
