#include <gtest/gtest.h>

#include <sstream>

#include "plan/diagnostic.h"
#include "plan/utf8.h"

namespace drystage::plan {
namespace {

Diagnostic at(int line, int column) {
  Diagnostic made;
  made.mark = {line, column};
  made.what = "odd";
  return made;
}

TEST(Render, ShowsTheLinesAroundWithACaretUnderTheWord) {
  Diagnostic found = at(3, 4);
  found.expected = "a mass, such as 62 kg";
  found.hint = "write 3 kg";
  EXPECT_EQ(render(found, "p.yaml", "one\ntwo\na: 3 # remark\nfour\nfive\nsix\n", false),
            "p.yaml:3:4: error: odd\n"
            "  1 | one\n"
            "  2 | two\n"
            "> 3 | a: 3 # remark\n"
            "    |    ^\n"
            "  4 | four\n"
            "  5 | five\n"
            "  expected: a mass, such as 62 kg\n"
            "  hint: write 3 kg\n");
}

TEST(Render, PutsTheCaretRightAfterTabsAccentsAndWideLetters) {
  EXPECT_EQ(render(at(1, 5), "p", "\tü: word\n", false),
            "p:1:5: error: odd\n> 1 |  ü: word\n    |     ^~~~\n");
  EXPECT_EQ(render(at(1, 5), "p", "日本: word, x\n", false),
            "p:1:5: error: odd\n> 1 | 日本: word, x\n    |       ^~~~\n");
}

TEST(Render, CutsALongLineAroundTheCaret) {
  const std::string source = std::string(500, 'a') + ", word, " + std::string(500, 'b') + "\n";
  std::istringstream shown(render(at(1, 503), "p", source, false));
  std::string line;
  std::getline(shown, line);
  std::getline(shown, line);
  EXPECT_LE(columns(line), 80);
  const std::size_t word = line.find("word");
  ASSERT_NE(word, std::string::npos) << line;
  EXPECT_EQ(line.substr(line.size() - 3), "...");
  std::getline(shown, line);
  EXPECT_EQ(line.find('^'), word);
  EXPECT_EQ(line.substr(word), "^~~~");
}

TEST(Render, WrapsProseAtEightyColumns) {
  Diagnostic found = at(0, 0);
  found.what =
      "a word and then another and then a few more of them, so many that they need more "
      "than one line";
  found.expected = found.what;
  std::istringstream shown(render(found, "plan.yaml", "", false));
  int lines = 0;
  for (std::string line; std::getline(shown, line); ++lines) EXPECT_LE(columns(line), 80) << line;
  EXPECT_EQ(lines, 4);
}

TEST(Render, PassesNoControlCharactersOn) {
  Diagnostic found = at(1, 1);
  found.where_text = "--set a=\x1b[31m";
  found.what = "\x1b]0;title\x07";
  std::string shown = render(found, "p\x1b", "\x1b[31m\n", false);
  EXPECT_EQ(shown.find('\x1b'), std::string::npos);
  EXPECT_EQ(shown.find('\x07'), std::string::npos);
  found.where_text.clear();
  shown = render(found, "p\x1b", "\x1b[31m\n", false);
  EXPECT_EQ(shown.find('\x1b'), std::string::npos);
}

TEST(Render, ColoursOnlyWhenAsked) {
  const std::string plain = render(at(1, 1), "p", "a\n", false);
  std::string colored = render(at(1, 1), "p", "a\n", true);
  EXPECT_EQ(plain.find('\x1b'), std::string::npos);
  EXPECT_NE(colored.find('\x1b'), std::string::npos);
  // The same text once the colours are taken away.
  for (std::size_t code = colored.find('\x1b'); code != std::string::npos;
       code = colored.find('\x1b')) {
    colored.erase(code, colored.find('m', code) - code + 1);
  }
  EXPECT_EQ(colored, plain);
}

TEST(Render, SurvivesAMarkOutsideTheSource) {
  EXPECT_EQ(render(at(9, 9), "p", "a\n", false), "p:9:9: error: odd\n");
  EXPECT_EQ(render(at(1, 9), "p", "a\n", false), "p:1:9: error: odd\n> 1 | a\n    |  ^\n");
  EXPECT_EQ(render(at(1, 1), "p", "", false), "p:1:1: error: odd\n");
}

TEST(Render, NamesAWarning) {
  Diagnostic found = at(0, 0);
  found.severity = Severity::warning;
  EXPECT_EQ(render(found, "p.yaml", "", false), "p.yaml: warning: odd\n");
  EXPECT_FALSE(has_error({found}));
  found.severity = Severity::error;
  EXPECT_TRUE(has_error({found}));
}

}  // namespace
}  // namespace drystage::plan
