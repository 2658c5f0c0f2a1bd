#include "draw.h"

#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <stdexcept>

#include "commands.h"
#include "output.h"

namespace drystage::cli {
namespace {

[[noreturn]] void not_here() {
  throw std::logic_error("what is to be drawn was not handed over to drystage-draw");
}

}  // namespace

void hand_over_to_draw(const std::vector<std::string>& words) {
  std::error_code unknown_place;
  const std::filesystem::path here = std::filesystem::read_symlink("/proc/self/exe", unknown_place);
  const std::string program = here.parent_path() / "drystage-draw";
  std::vector<std::string> all{program};
  all.insert(all.end(), words.begin(), words.end());
  std::vector<char*> arguments;
  arguments.reserve(all.size() + 1);
  for (std::string& word : all) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  ::execv(program.c_str(), arguments.data());
  throw FileError(
      fmt::format("{}: {}; cards and charts are drawn by that program, which belongs "
                  "beside drystage",
                  program, std::strerror(errno)));
}

ExitStatus card_command(const CommonOptions& /*options*/) { not_here(); }

void write_chart(const std::string& /*path*/, const report::RunAnswer& /*answer*/,
                 units::System /*system*/) {
  not_here();
}

void write_chart(const std::string& /*path*/, const report::MishapsAnswer& /*answer*/,
                 units::System /*system*/) {
  not_here();
}

void write_chart(const std::string& /*path*/, const report::SizeAnswer& /*answer*/,
                 units::System /*system*/) {
  not_here();
}

void write_chart(const std::string& /*path*/, const report::WeighAnswer& /*answer*/,
                 units::System /*system*/) {
  not_here();
}

void write_chart(const std::string& /*path*/, const report::OddsAnswer& /*answer*/,
                 units::System /*system*/) {
  not_here();
}

}  // namespace drystage::cli
