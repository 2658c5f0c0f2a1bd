#include "start/dialogue.h"

#include <istream>
#include <ostream>

#include "start/first_plan.h"
#include "units/text.h"

namespace drystage::start {
namespace {

std::optional<std::string> line_from(std::istream& in, std::ostream& out) {
  out.flush();
  std::string line;
  if (!std::getline(in, line)) {
    out << '\n';
    return std::nullopt;
  }
  return units::tidy_blanks(line);
}

void tell(const std::vector<std::string>& remarks, std::ostream& out) {
  for (const std::string& remark : remarks) out << "  " << remark << '\n';
}

// The answer to a question, if it is right and goes with those before; else says why not.
std::optional<Answer> accept(const Question& question, const std::string& text, Answers answers,
                             std::ostream& out) {
  Heard heard = hear(question, text);
  tell(heard.remarks, out);
  if (!heard.answer) return std::nullopt;
  answers[question.option()] = *heard.answer;
  const auto found = contradictions(answers);
  tell(found, out);
  return found.empty() ? heard.answer : std::nullopt;
}

}  // namespace

std::optional<std::string> ask(const Given& given, std::istream& in, std::ostream& out,
                               const Kit& kit) {
  out << "A first plan from a few questions. Enter takes what stands in brackets.\n"
         "Write the unit of every quantity: 20 L, 5 US gal, 150 mi. Ctrl-D ends it.\n";
  Given before;
  while (true) {
    const bool again = !before.empty();
    Answers answers = kit.known;
    std::string_view part;
    for (const Question& question : questions) {
      if (!arises(question, answers, kit)) continue;
      const std::string option(question.option());
      const auto said = given.find(option);
      std::optional<Answer> answer;
      if (said != given.end() && !again) answer = accept(question, said->second, answers, out);
      if (!answer && part != question.part) out << '\n' << question.part << '\n';
      const auto earlier = before.find(option);
      const std::string fallback =
          earlier == before.end() ? fallback_of(question, answers) : earlier->second;
      while (!answer) {
        part = question.part;
        out << wording(question, answers) << " [" << fallback << "] ";
        const auto line = line_from(in, out);
        if (!line) return std::nullopt;
        answer = accept(question, line->empty() ? fallback : *line, answers, out);
      }
      before[option] = answer->text;
      answers[question.option()] = *answer;
    }
    FirstPlan plan = first_plan(answers, kit);
    if (plan.problems.empty()) return plan.text;
    out << "\nThese answers do not go together:\n";
    tell(plan.problems, out);
    out << "Once more, with your answers in brackets.\n";
  }
}

bool ask_yes(std::string_view question, std::istream& in, std::ostream& out) {
  while (true) {
    out << question << " yes or no [no] ";
    const auto line = line_from(in, out);
    if (!line || line->empty() || *line == "no") return false;
    if (*line == "yes") return true;
  }
}

}  // namespace drystage::start
