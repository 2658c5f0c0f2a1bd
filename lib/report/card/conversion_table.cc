#include "report/card/conversion_table.h"

#include <array>

#include "drawing/table.h"
#include "report/card/pieces.h"
#include "report/text/rounding.h"
#include "units/format.h"

namespace drystage::report {
namespace {

using units::Kind;
using units::System;

/// A number of one unit in another.
double from_to(double number, Kind kind, System from, System to) {
  const double canonical = number / units::display(kind, from).number(1);
  return units::display(kind, to).number(canonical);
}

/// Two digits after the point below ten, one from there on.
std::string shown(double number, Toward toward) {
  const int digits = number < 10 ? 2 : 1;
  return units::format_number(rounded(number, digits, toward), units::decimals(digits));
}

struct Way {
  const char* head;
  Kind kind;
  System from;
  System to;
};
constexpr std::array<Way, 8> ways{
    {{.head = "L in US gal", .kind = Kind::volume, .from = System::metric, .to = System::us},
     {.head = "L in imp gal", .kind = Kind::volume, .from = System::metric, .to = System::imperial},
     {.head = "US gal in L", .kind = Kind::volume, .from = System::us, .to = System::metric},
     {.head = "US gal in imp gal",
      .kind = Kind::volume,
      .from = System::us,
      .to = System::imperial},
     {.head = "imp gal in L", .kind = Kind::volume, .from = System::imperial, .to = System::metric},
     {.head = "imp gal in US gal",
      .kind = Kind::volume,
      .from = System::imperial,
      .to = System::us},
     {.head = "km in mi", .kind = Kind::distance, .from = System::metric, .to = System::us},
     {.head = "mi in km", .kind = Kind::distance, .from = System::us, .to = System::metric}}};

constexpr std::array<int, 13> numbers{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 20, 50, 100};

}  // namespace

std::vector<std::string> conversion_heads() {
  std::vector<std::string> out{""};
  for (const Way& way : ways) out.emplace_back(way.head);
  return out;
}

std::vector<std::vector<std::string>> conversion_rows() {
  std::vector<std::vector<std::string>> out;
  for (const int number : numbers) {
    std::vector<std::string> row{std::to_string(number)};
    for (const Way& way : ways) {
      row.push_back(shown(from_to(number, way.kind, way.from, way.to),
                          way.kind == Kind::volume ? Toward::down : Toward::up));
    }
    out.push_back(std::move(row));
  }
  return out;
}

void write_conversion_table(drawing::Flow& flow, const drawing::Typesetter& typesetter) {
  const double width = flow.paper().column_pt();
  std::vector<drawing::Column> columns;
  for (const std::string& head : conversion_heads()) {
    columns.push_back({.heading = head, .align = drawing::Align::right});
  }
  drawing::Table table(typesetter, width, std::move(columns), body_font);
  for (std::vector<std::string>& row : conversion_rows()) table.add(std::move(row));
  std::vector<drawing::Block> all{
      small_title(typesetter, "Volumes are rounded down, distances up", width)};
  for (const std::vector<drawing::Block>& part : {table.heading(), table.rows()}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  flow.add(stacked(all));
}

}  // namespace drystage::report
