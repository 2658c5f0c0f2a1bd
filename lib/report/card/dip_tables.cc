#include <vector>

#include "answers/base/dip_table.h"
#include "report/card/conversion_table.h"
#include "report/card/dip_grid.h"
#include "report/card/pieces.h"
#include "report/card/writers.h"

namespace drystage::report {

void write_dip_tables(const Sheet& sheet) {
  drawing::Flow& flow = sheet.flow;
  const drawing::Typesetter& typesetter = sheet.typesetter;
  const units::System system = sheet.system;
  const std::vector<answers::DipTable> tables =
      answers::dip_tables(sheet.plan(), stick_marks(system));
  const bool converts = system != units::System::metric;
  if (tables.empty() && !converts) return;
  const double width = flow.paper().column_pt();
  flow.add(part_title(typesetter, tables.empty() ? "To convert" : "Reading the tanks", width));
  if (!tables.empty()) {
    flow.add(sentences(typesetter,
                       "Dip on level ground, when the tank has come to rest. A reading between two "
                       "depths counts as the lesser one. Volumes are rounded down.",
                       width));
  }
  for (const answers::DipTable& table : tables) {
    flow.add(dip_block(typesetter, table, width, system));
  }
  if (converts) write_conversion_table(flow, typesetter);
}

}  // namespace drystage::report
