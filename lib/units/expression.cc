#include "units/expression.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

#include "units/number.h"
#include "units/spelling.h"
#include "units/text.h"

namespace drystage::units {
namespace {

constexpr std::size_t most_terms = 8;

// Blanks around brackets and slashes carry no meaning: "mpg ( US )" is "mpg(US)".
std::string drop_idle_blanks(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ' && i + 1 < text.size()) {
      const char next = text[i + 1];
      const char last = out.empty() ? '/' : out.back();
      const bool idle = next == '(' || next == ')' || next == '/' || last == '(' || last == '/';
      if (idle) continue;
    }
    out += text[i];
  }
  return out;
}

bool starts(std::string_view text, std::string_view with) {
  return text.substr(0, with.size()) == with;
}

class Reader {
 public:
  Reader(std::string_view text, std::string_view number,
         std::function<bool(const Expression&)> fits)
      : whole_(drop_idle_blanks(text)), rest_(whole_), number_(number), fits_(std::move(fits)) {}

  Result<Expression> read() {
    Expression out;
    bool below = take_division(true);
    while (true) {
      Term term;
      term.below = below;
      if (below && !out.terms.empty()) take_number(term);
      if (auto problem = read_term(term)) return *problem;
      out.terms.push_back(std::move(term));
      if (rest_.empty()) return out;
      if (out.terms.size() == most_terms) return unknown();
      const bool was_below = below;
      below = take_division(false);
      if (below) continue;
      if (!take_product()) return unknown();
      if (was_below) {
        return Problem{fmt::format("{} can be read in two ways", in_quotes(whole_)), "",
                       "write a / before each unit that divides"};
      }
    }
  }

 private:
  bool take(std::string_view what) {
    if (!starts(rest_, what)) return false;
    rest_.remove_prefix(what.size());
    return true;
  }

  bool take_division(bool at_start) {
    if (take("/")) return true;
    if (at_start) return !starts(rest_, "per cent") && take("per ");
    return take(" per ");
  }

  // "·" is U+00B7, or the operator U+22C5.
  bool take_product() {
    for (const std::string_view sign : {"\xC2\xB7", "\xE2\x8B\x85", "*", " "}) {
      if (take(sign)) return true;
    }
    return false;
  }

  void take_number(Term& term) {
    int value = 0;
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
    if (error != std::errc() || value < 1 || value > 9999 || rest_[0] == '-') return;
    term.number = value;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    take(" ");
  }

  std::optional<Problem> read_term(Term& term) {
    if (!rest_.empty() && is_digit(rest_[0])) return two_numbers();
    const Spelling* const spelling = longest_spelling(rest_);
    if (spelling == nullptr) return unknown();
    const std::string_view before = rest_;
    rest_.remove_prefix(spelling->text.size());
    take_exponent(term);
    if (!at_boundary()) {
      rest_ = before;
      return unknown();
    }
    term.symbol = spelling->symbol;
    term.is_time = spelling->is_time;
    return std::nullopt;
  }

  void take_exponent(Term& term) {
    constexpr std::array<std::pair<std::string_view, int>, 6> powers{
        {{"^2", 2}, {"\xC2\xB2", 2}, {"2", 2}, {"^3", 3}, {"\xC2\xB3", 3}, {"3", 3}}};
    for (const auto& [text, power] : powers) {
      if (take(text)) {
        term.exponent = power;
        return;
      }
    }
  }

  [[nodiscard]] bool at_boundary() const {
    return rest_.empty() || rest_[0] == '/' || rest_[0] == ' ' || rest_[0] == '*' ||
           starts(rest_, "\xC2\xB7") || starts(rest_, "\xE2\x8B\x85");
  }

  [[nodiscard]] Problem two_numbers() const {
    if (starts(whole_, "/")) {
      const std::string_view below = std::string_view(whole_).substr(1);
      const std::size_t end = std::min(below.find_first_not_of("0123456789."), below.size());
      const auto over = read_number(number_);
      const auto under = read_number(below.substr(0, end));
      return {fmt::format("{}{} is a fraction", number_, whole_), "",
              over && under && under->value > 0
                  ? fmt::format("write {:.4g}{}", over->value / under->value, below.substr(end))
                  : "write it with a point"};
    }
    return {fmt::format("{} {} has a second number", number_, whole_), "",
            "write one number and one unit, such as 3.5 h"};
  }

  // Says what is wrong with the word at which reading stopped.
  [[nodiscard]] Problem unknown() const {
    if (rest_.empty()) return {fmt::format("{} ends in a sign", in_quotes(whole_)), "", ""};
    const std::string_view word = rest_.substr(0, rest_.find_first_of(" /(*"));
    const std::string_view phrase = rest_.substr(0, rest_.find('/'));
    const bool only_case = is_spelling_but_for_case(phrase);
    const Ambiguity* const found = only_case ? nullptr : ambiguity(word);
    if (found != nullptr) return ambiguous(*found, word);
    Problem problem{fmt::format("{} is not a unit known here", in_quotes(phrase)), "", ""};
    if (!fits_) return problem;
    auto near = nearest_spelling(phrase, may_be(phrase));
    if (!near && word != phrase) near = nearest_spelling(word, may_be(word));
    if (near) problem.hint = fmt::format("did you mean {}?", *near);
    return problem;
  }

  // Whether a unit in place of a text, which `rest_` begins with, makes the whole fit.
  [[nodiscard]] std::function<bool(std::string_view)> may_be(std::string_view text) const {
    return [this, text](std::string_view unit) {
      std::string whole = whole_.substr(0, whole_.size() - rest_.size());
      whole.append(unit).append(rest_.substr(text.size()));
      const auto read = Reader(whole, number_, {}).read();
      return read && fits_(*read);
    };
  }

  // The hint repeats the whole amount, with the sure units in place of the word.
  [[nodiscard]] Problem ambiguous(const Ambiguity& found, std::string_view word) const {
    const std::string_view before =
        std::string_view(whole_).substr(0, whole_.size() - rest_.size());
    const std::string_view after = rest_.substr(word.size());
    const std::string what = fmt::format("{} {}", in_quotes(word), found.trouble);
    const auto fixed = [&](std::string_view unit) {
      return fmt::format("{} {}{}{}", number_, before, unit, starts(after, "/") ? after : "");
    };
    if (found.rescale) return {what, "", either(found.write_1, found.write_2, "give it in ")};
    return {what, "", either(fixed(found.write_1), fixed(found.write_2), "write ")};
  }

  static std::string either(std::string_view a, std::string_view b, std::string_view verb) {
    return b.empty() ? fmt::format("{}{}", verb, a) : fmt::format("{}{} or {}", verb, a, b);
  }

  std::string whole_;
  std::string_view rest_;
  std::string_view number_;
  std::function<bool(const Expression&)> fits_;
};

}  // namespace

bool Expression::per_time() const {
  return std::any_of(terms.begin(), terms.end(),
                     [](const Term& t) { return t.below && t.is_time; });
}

bool Expression::is_thermometer() const {
  if (terms.size() != 1 || terms[0].below || terms[0].exponent != 1) return false;
  const std::string& symbol = terms[0].symbol;
  return symbol == "degC" || symbol == "degF" || symbol == "K";
}

std::string Expression::udunits(bool as_thermometer) const {
  std::string out = "1";
  for (const Term& term : terms) {
    std::string symbol = term.symbol;
    if (!as_thermometer && symbol == "degC") symbol = "K";
    if (!as_thermometer && symbol == "degF") symbol = "degR";
    if (as_thermometer && is_thermometer()) return symbol;
    const std::string power = term.exponent == 1 ? "" : fmt::format("^{}", term.exponent);
    if (term.number == 1) {
      out += fmt::format("{}{}{}", term.below ? "/" : ".", symbol, power);
    } else {
      // In UDUNITS grammar "L/100 km" is (L/100) km, so the bracket is needed.
      out += fmt::format("/({}.{}{})", term.number, symbol, power);
    }
  }
  return out;
}

Result<Expression> read_expression(std::string_view text, std::string_view number,
                                   const std::function<bool(const Expression&)>& fits) {
  return Reader(text, number, fits).read();
}

}  // namespace drystage::units
