#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "start/questions.h"

namespace drystage::start {

/// An answer to a question.
struct Answer {
  std::string text;   ///< as it was given
  double number = 0;  ///< of an amount, in its canonical unit; of an angle, in degrees
};

/// By the question's option. Questions that do not arise have none.
using Answers = std::map<std::string_view, Answer>;

/// What came of reading an answer.
struct Heard {
  std::optional<Answer> answer{};      ///< none where the text is wrong
  std::vector<std::string> remarks{};  ///< why it is wrong, or odd
};

/// Reads an answer as the plan reads the same thing.
Heard hear(const Question& question, std::string_view text);

/// What trips include, and so need not be asked.
struct Kit {
  std::string include{};                ///< its path, as the plan says it; empty: there is no kit
  std::filesystem::path plan_file{};    ///< where the plan is to stand
  std::vector<std::string> sections{};  ///< of a plan, which it has
  std::vector<std::string> fuels{};     ///< what its vehicles burn
  Answers known{};                      ///< the answers that it gives and that others depend on

  [[nodiscard]] bool has(std::string_view section) const;
};

/// Whether the question arises after the answers so far.
bool arises(const Question& question, const Answers& answers, const Kit& kit = {});

/// The question, with the words that may be answered after these answers.
std::string wording(const Question& question, const Answers& answers = {});

/// The default of a question: it may depend on the answers so far.
std::string fallback_of(const Question& question, const Answers& answers);

/// Why the answers so far do not go together; empty where they do.
std::vector<std::string> contradictions(const Answers& answers);

/// What the user said before anything is asked: texts by option.
using Given = std::map<std::string, std::string>;

/// The answers that are given, and the default of each other question. `remarks` says what is wrong
/// or odd; where something is wrong, nothing is answered.
struct Taken {
  std::optional<Answers> answers{};
  std::vector<std::string> remarks{};
};
Taken take_defaults(const Given& given, const Kit& kit = {});

}  // namespace drystage::start
