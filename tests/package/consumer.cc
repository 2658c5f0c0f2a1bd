// Uses an installed drystage as any program would: reads a quantity and asks a model.
#include <cmath>
#include <cstdio>

#include "models/atmosphere.h"
#include "units/parse.h"

int main() {
  using drystage::units::Kind;
  const auto volume = drystage::units::parse("5 US gal", Kind::volume);
  const double density = drystage::models::standard_density_kg_m3(1000.0);
  if (!volume || std::abs(*volume - 18.927) > 0.001 || std::abs(density - 1.1117) > 0.0001) {
    std::fputs("the installed library gives wrong answers\n", stderr);
    return 1;
  }
  std::printf("5 US gal is %.3f L; air at 1000 m weighs %.4f kg/m3\n", *volume, density);
  return 0;
}
