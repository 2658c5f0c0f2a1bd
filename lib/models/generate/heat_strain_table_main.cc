// Writes the nodes of the heat strain table, one `{required, possible},` a line, to the file named
// on the command line. Run by the build; the order of the loops is the order of the table.

#include <fstream>
#include <iostream>
#include <locale>

#include "models/heat_strain.h"
#include "models/heat_strain_table_axes.h"

namespace {

namespace table = drystage::models::heat_strain_table;
using drystage::models::HeatStrainInputs;
using drystage::models::HeatStrainResult;

// Lags of the body (10 minutes at most) have settled; the core has not yet run away.
constexpr int settled_min = 45;

void write_nodes(std::ostream& out) {
  HeatStrainInputs inputs;
  inputs.duration_min = settled_min;
  for (const double metabolic_w_m2 : drystage::models::class_metabolic_w_m2) {
    inputs.metabolic_w_m2 = metabolic_w_m2;
    for (const double air_c : table::air_c) {
      inputs.air_c = air_c;
      for (const double vapour_kpa : table::vapour_kpa) {
        inputs.vapour_pressure_kpa = vapour_kpa;
        for (const double excess_k : table::excess_k) {
          inputs.radiant_c = air_c + excess_k;
          for (const double air_m_s : table::air_m_s) {
            inputs.air_speed_m_s = air_m_s;
            const HeatStrainResult result = drystage::models::predicted_heat_strain(inputs);
            out << '{' << result.required_w_m2 << "F, " << result.possible_w_m2 << "F},\n";
          }
        }
      }
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: heat_strain_table_generator OUTPUT\n";
    return 2;
  }
  std::ofstream out(argv[1]);
  out.imbue(std::locale::classic());
  out << std::fixed;
  out.precision(3);
  write_nodes(out);
  out.close();
  if (!out) {
    std::cerr << "cannot write " << argv[1] << '\n';
    return 3;
  }
  return 0;
}
