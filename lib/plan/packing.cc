#include "plan/packing.h"

#include "units/index.h"

namespace drystage::plan {

double packed_kg(const Plan& plan, int cabinet) {
  double sum_kg = plan.cold[at(cabinet)].ice_kg;
  for (const FoodItem& food : plan.food) {
    if (food.cabinet == cabinet) sum_kg += food.mass_kg;
  }
  return sum_kg;
}

}  // namespace drystage::plan
