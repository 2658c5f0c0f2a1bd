// Names on the card stand as they are written, in every form, and are never markup.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/odd_names.h"
#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"
#include "support/answer.h"

namespace drystage::testing {
namespace {

using ::testing::HasSubstr;

class CardNames : public ::testing::Test {
 protected:
  /// Draws the card and answers where it is.
  [[nodiscard]] std::string card(const std::string& name) const {
    const Outcome outcome =
        drystage({"card", plan_, "--with", "all", "--output", workspace_.path(name)});
    EXPECT_LE(outcome.status, 1) << outcome.err;
    return workspace_.path(name);
  }

  OddNames names_;
  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_with_odd_names(names_));
};

TEST_F(CardNames, AreTextInAPdf) {
  const std::string path = card("card.pdf");
  const std::string text = plain_words(pdf_text(path));
  for (const std::string& name : names_.all()) {
    // A letter that is a picture in colours is drawn as one, and is no text.
    const std::string written = name == names_.vehicle ? name.substr(name.find(" &")) : name;
    EXPECT_THAT(text, HasSubstr(written));
  }
  EXPECT_THAT(pdf_info(path), HasSubstr(names_.title));
  // What stands beside a name that runs from right to left is not turned round with it: the
  // positions of all four places.
  EXPECT_EQ(support::times(text, "0° N, 0° E)"), 4) << text;
  for (const PdfFont& font : pdf_fonts(path)) {
    EXPECT_TRUE(font.embedded) << font.name;
    EXPECT_TRUE(font.to_unicode) << font.name;
  }
}

TEST_F(CardNames, AreTextInAnSvg) {
  const std::string path = card("card.svg");
  ASSERT_EQ(xml_faults(path), "");
  const std::string text = plain_words(xpath(path, "string(/)"));
  for (const std::string& name : names_.all()) EXPECT_THAT(text, HasSubstr(name));
  EXPECT_EQ(xpath(path, "string(/*/*[local-name()='title'])"), names_.title + "\n");
  EXPECT_EQ(xpath(path, "count(//*[local-name()='b' or local-name()='script'])"), "0\n");
  EXPECT_EQ(xpath(path, "count(//comment())"), "0\n");
  // Nothing is run, and nothing comes from elsewhere: a link is to something within the file.
  EXPECT_EQ(xpath(path, "count(//@*[starts-with(local-name(), 'on')])"), "0\n");
  EXPECT_EQ(xpath(path,
                  "count(//@*[local-name()='href'][not(starts-with(., '#'))]"
                  "[not(starts-with(., 'data:'))])"),
            "0\n");
}

}  // namespace
}  // namespace drystage::testing
