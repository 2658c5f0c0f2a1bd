#include "own_file.h"

#include <fmt/core.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <boost/crc.hpp>
#include <fstream>
#include <functional>
#include <iterator>

#include "output.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

// How far the head and the foot of a file go in which its marks are looked for.
constexpr std::size_t head_bytes = 4096;
constexpr std::size_t foot_bytes = 512;
// Nothing that drystage writes is larger.
constexpr std::size_t most_bytes = 64U << 20U;

/// How a file begins, and what its head must have besides.
struct Mark {
  std::string_view begins;
  std::string_view has;
};

constexpr std::array marks{
    Mark{"{\n  \"format\": \"drystage.", ""},
    Mark{"{\n \"$schema\"", "\"A plan of drystage\""},
    Mark{"<?xml", "\n<metadata>drystage</metadata>\n"},
    Mark{"<!DOCTYPE html>", "<meta name=\"generator\" content=\"drystage\">"},
    Mark{"\x89PNG", std::string_view("Software\0drystage", 17)},
    Mark{"_drystage() {", ""},
    Mark{"#compdef drystage", ""},
    Mark{"complete -c drystage ", ""},
};

/// The first columns of tables in CSV.
constexpr std::array<std::string_view, 5> csv_heads{
    "day,date,reserve,unit,", "day,date,hour,reserve,unit,", "day,date,vehicle,what,",
    "failure,kind,day,date,", "set,name,counted,of,each,"};

/// What a sized plan begins with.
constexpr std::string_view sized_plan_head = "# Written by drystage size";

std::size_t after_first_line(std::string_view text) {
  return std::min(text.find('\n'), text.size() - 1) + 1;
}

/// The line before the text of a sized plan.
std::string sized_plan_remark(std::string_view text) {
  boost::crc_32_type sum;
  sum.process_bytes(text.data(), text.size());
  return fmt::format("{}, which writes over it as long as it is unchanged ({:08x}).\n",
                     sized_plan_head, sum.checksum());
}

bool has(std::string_view text, std::string_view words) {
  return text.find(words) != std::string_view::npos;
}

bool is_csv(std::string_view text) {
  const std::string_view first = text.substr(0, text.find('\n'));
  return first.ends_with('\r') && std::ranges::any_of(csv_heads, [&](std::string_view head) {
           return first.starts_with(head);
         });
}

bool is_plain(const struct stat& status) { return S_ISREG(status.st_mode); }

/// The whole of a file; nothing of one that cannot be read or is larger than any of drystage's.
std::string text_of(const std::string& path, const struct stat& status) {
  if (static_cast<std::size_t>(status.st_size) > most_bytes) return {};
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

[[noreturn]] void refuse(const std::string& option, const std::string& path, const char* why) {
  throw FileError(fmt::format("--{} {}: {}; choose another name, or write over it with --force",
                              option, units::shown(path), why));
}

void spare(const std::string& option, const std::string& path,
           const std::function<bool(std::string_view)>& is_own) {
  struct stat status {};
  if (path.empty() || path == "-" || ::stat(path.c_str(), &status) != 0) return;
  if (!is_plain(status)) return;
  spare_read_only(option, path);
  if (status.st_size == 0 || is_own(text_of(path, status))) return;
  refuse(option, path, "that file is there, and drystage did not write what it holds");
}

}  // namespace

std::string with_sized_plan_mark(std::string text) {
  if (text.starts_with(sized_plan_head)) text.erase(0, after_first_line(text));
  return sized_plan_remark(text) + text;
}

bool is_own_sized_plan(std::string_view text) {
  if (!text.starts_with(sized_plan_head)) return false;
  return text.starts_with(sized_plan_remark(text.substr(after_first_line(text))));
}

bool is_own_answer(std::string_view text) {
  const std::string_view head = text.substr(0, head_bytes);
  for (const Mark& mark : marks) {
    if (head.starts_with(mark.begins) && has(head, mark.has)) return true;
  }
  if (is_csv(head)) return true;
  if (head.starts_with("%PDF-")) return has(text, "/Creator (drystage)");
  // Every answer in words ends with its caution.
  const std::string_view foot = text.substr(text.size() - std::min(text.size(), foot_bytes));
  return has(foot, "\nA planning aid") && !head.starts_with(sized_plan_head);
}

void spare_read_only(const std::string& option, const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0 || !is_plain(status)) return;
  // The bits: whoever is root could write it all the same.
  if ((status.st_mode & S_IWUSR) == 0) refuse(option, path, "that file may only be read");
}

void spare_files_of_the_user(const CommonOptions& options) {
  if (options.force) return;
  spare("output", options.output, is_own_answer);
  spare("chart", options.chart, is_own_answer);
  spare("write", options.write, is_own_sized_plan);
  if (options.write_plan) spare_read_only("write", options.plan_path);
}

}  // namespace drystage::cli
