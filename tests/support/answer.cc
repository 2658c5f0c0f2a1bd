#include "support/answer.h"

#include <utility>

#include "support/trip.h"

namespace drystage::support {

report::RunAnswer answer(const plan::Plan& plan) {
  report::RunAnswer out;
  out.planned = travel(plan);
  out.without_unconfirmed = answers::without_unconfirmed(out.planned);
  out.mend = answers::smallest_mend(out.planned);
  return out;
}

report::RunAnswer answer(const PlanText& text) { return answer(text.plan()); }

std::string run_text(const plan::Plan& plan) { return report::run_text(answer(plan), {}); }

std::string run_text(const PlanText& text) { return run_text(text.plan()); }

std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  return out;
}

int times(const std::string& text, const std::string& piece) {
  int count = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos;
       at = text.find(piece, at + piece.size())) {
    ++count;
  }
  return count;
}

}  // namespace drystage::support
