// The browser that other tests look through sees what is wrong with a page.
#include "cli/browser.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

TEST(Browser, SeesWhatRunsOverTheEdgeFailsOrAsksForSomething) {
  const Workspace space;
  const std::string plain =
      space.write("plain.html",
                  "<!doctype html><meta charset=\"utf-8\"><title>plain</title><p>\"quiet\" "
                  "&lt;b&gt;&nbsp;&amp;amp; 水 🚙");
  const std::string bad = space.write(
      "bad.html",
      "<!doctype html><img src=\"http://127.0.0.1:9/far.png\"><div style=\"width: 700px\">wide"
      "</div><script>throw new Error('spilt');</script>");
  const std::string script = "return document.body.textContent.trim();";
  const Visit quiet = look({{plain, 360}, {plain, 1280}}, script);
  ASSERT_EQ(quiet.shown.size(), 2U);
  EXPECT_EQ(quiet.shown[0].client_width_px, 360);
  EXPECT_EQ(quiet.shown[1].client_width_px, 1280);
  for (const Shown& shown : quiet.shown) {
    EXPECT_EQ(shown.scroll_width_px, shown.client_width_px);
    EXPECT_EQ(shown.found, "\"quiet\" <b>\u00a0&amp; 水 🚙");
  }
  EXPECT_THAT(quiet.messages, IsEmpty());
  EXPECT_THAT(quiet.requests, IsEmpty());

  const Visit loud = look({{bad, 360}}, script);
  ASSERT_EQ(loud.shown.size(), 1U);
  EXPECT_GT(loud.shown[0].scroll_width_px, loud.shown[0].client_width_px);
  EXPECT_THAT(loud.messages, ElementsAre(HasSubstr("spilt")));
  EXPECT_THAT(loud.requests, ElementsAre("http://127.0.0.1:9/far.png"));
}

}  // namespace
}  // namespace drystage::testing
