#include "draw.h"

#include "report/charts/charts.h"
#include "write_picture.h"

namespace drystage::cli {

void hand_over_to_draw(const std::vector<std::string>& /*words*/) {}

void write_chart(const std::string& path, const report::RunAnswer& answer, units::System system) {
  write_picture(path, report::run_chart(answer, system));
}

void write_chart(const std::string& path, const report::MishapsAnswer& answer,
                 units::System system) {
  write_picture(path, report::mishap_chart(answer, system));
}

void write_chart(const std::string& path, const report::SizeAnswer& answer, units::System system) {
  write_picture(path, report::trade_off_chart(answer, system));
}

void write_chart(const std::string& path, const report::WeighAnswer& answer, units::System system) {
  write_picture(path, report::weigh_chart(answer, system));
}

void write_chart(const std::string& path, const report::OddsAnswer& answer, units::System system) {
  write_picture(path, report::odds_chart(answer, system));
}

}  // namespace drystage::cli
