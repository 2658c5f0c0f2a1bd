// The card as a page for a telephone, in a browser: as wide as a telephone and as a desk.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/browser.h"
#include "cli/odd_names.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/answer.h"

namespace drystage::testing::card_page_test {
namespace {

using nlohmann::json;
using ::testing::AllOf;
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

constexpr int telephone_px = 360;
constexpr int desk_px = 1280;

/// What is asked of every page: its parts; what is too small for a finger; what names made of it;
/// what it points to; in light and dark the least contrast of any words with their ground, by the
/// relative luminance of the Web Content Accessibility Guidelines 2.1.
const std::string script = R"js(
  const all = (what) => [...document.querySelectorAll(what)];
  const isSeen = (e) => e.getClientRects().length > 0;
  const style = (e) => document.defaultView.getComputedStyle(e);
  const rgba = (text) => text.match(/[\d.]+/g).map(Number);
  const luminance = (c) => {
    const [r, g, b] = c.slice(0, 3).map((part) => {
      const share = part / 255;
      return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ground = (e) => {
    for (; e; e = e.parentElement) {
      const color = rgba(style(e).backgroundColor);
      if (color.length < 4 || color[3] === 1) return color;
    }
    return [255, 255, 255];
  };
  const contrast = (e) => {
    const both = [luminance(rgba(style(e).color)), luminance(ground(e))];
    return (Math.max(...both) + 0.05) / (Math.min(...both) + 0.05);
  };
  const hasWords = (e) => isSeen(e) &&
    [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim() !== '');
  const leastContrast = () => Math.min(...all('body *').filter(hasWords).map(contrast));
  all('details').forEach((e) => { e.open = true; });
  const banner = document.getElementById('banner');
  banner.hidden = false;
  document.getElementById('again').textContent = 'words';
  const contrasts = [leastContrast()];
  document.getElementById('theme').click();
  contrasts.push(leastContrast());
  document.getElementById('theme').click();
  banner.hidden = true;
  const small = all('a, button, input, textarea, summary').filter(isSeen).filter((e) => {
    const box = e.getBoundingClientRect();
    return box.width < 44 || box.height < 44;
  }).map((e) => e.outerHTML);
  const ids = all('[id]').map((e) => e.id);
  return {
    text: document.body.innerText, title: document.title, lang: document.documentElement.lang,
    viewport: document.querySelector('meta[name=viewport]').content,
    policy: document.querySelector('meta[http-equiv="Content-Security-Policy"]').content,
    parts: ['header', 'nav', 'main', 'footer', 'h1'].map((what) => all(what).length),
    levels: all('h1, h2, h3, h4').map((e) => Number(e.tagName[1])),
    small, contrasts, doubled: ids.filter((id, i) => ids.indexOf(id) !== i),
    labelled: all('input, textarea').every((e) => e.labels.length === 1 &&
                                                  e.labels[0].innerText.trim() !== ''),
    listens: all('output').length > 0 && banner.getAttribute('role') === 'alert',
    targets: all('[src], [href]').map((e) => e.getAttribute('src') || e.getAttribute('href')),
    missing: all('a').filter((e) => document.querySelector(e.getAttribute('href')) === null).length,
    scripts: all('script').length, foreign: all('b, iframe, object, embed, link, img').length,
    font: parseFloat(style(document.body).fontSize),
    least: Math.min(...all('body *').filter(hasWords).map((e) => parseFloat(style(e).fontSize)))};
)js";

/// Types into a field as a finger does, and what the page says then.
const std::string typing = R"js(
  const at = (id) => document.getElementById(id);
  const type = (id, text) => {
    at(id).value = text;
    for (const what of ['input', 'change']) {
      at(id).dispatchEvent(new document.defaultView.Event(what, {bubbles: true}));
    }
  };
  const says = (...ids) => ({
    banner: at('banner').hidden ? '' : at('again').textContent,
    why: at('why').textContent, state: at('state').innerText,
    kept: at('kept').textContent, send: at('send').value, all: at('all').value,
    next: at('next').getAttribute('href'),
    answers: ids.map((id) => at(id).innerText)});
)js";

class CardPageInABrowser : public ::testing::Test {
 protected:
  /// Writes the page and answers where it is.
  [[nodiscard]] std::string page(const std::string& plan, const std::string& name,
                                 const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words{"card", plan, "--output", workspace_.path(name)};
    words.insert(words.end(), more.begin(), more.end());
    const Outcome outcome = drystage(words);
    EXPECT_LE(outcome.status, 1) << outcome.err;
    EXPECT_THAT(outcome.out, HasSubstr(name + ": page for a telephone; the plan "));
    return workspace_.path(name);
  }

  OddNames names_;
  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_with_odd_names(names_));
};

void expect_well_made(const Shown& shown, int width_px) {
  EXPECT_EQ(shown.client_width_px, width_px);
  EXPECT_LE(shown.scroll_width_px, shown.client_width_px);
  const json& found = shown.found;
  EXPECT_EQ(found.at("lang"), "en");
  EXPECT_EQ(found.at("viewport"), "width=device-width, initial-scale=1");
  EXPECT_THAT(
      found.at("policy").get<std::string>(),
      AllOf(StartsWith("default-src 'none'; "), Not(HasSubstr("unsafe")), Not(HasSubstr("http"))));
  EXPECT_THAT(found.at("parts"), ElementsAre(1, 2, 1, 1, 1));
  EXPECT_THAT(found.at("small"), IsEmpty());
  EXPECT_THAT(found.at("doubled"), IsEmpty());
  EXPECT_EQ(found.at("labelled"), true);
  EXPECT_EQ(found.at("listens"), true);
  EXPECT_EQ(found.at("missing"), 0);
  EXPECT_EQ(found.at("scripts"), 2);
  EXPECT_EQ(found.at("foreign"), 0);
  for (const json& target : found.at("targets")) {
    EXPECT_THAT(target.get<std::string>(), StartsWith("#"));
  }
  constexpr double least_contrast = 4.5;
  for (const json& contrast : found.at("contrasts")) {
    EXPECT_GE(contrast.get<double>(), least_contrast);
  }
  EXPECT_NE(found.at("contrasts")[0], found.at("contrasts")[1]) << "dark is like light";
  constexpr double large_px = 18;
  EXPECT_GE(found.at("font").get<double>(), large_px);
  EXPECT_GE(found.at("least").get<double>(), large_px);
  int level = 0;
  for (const json& next : found.at("levels")) {
    EXPECT_LE(next.get<int>(), level + 1);
    level = next.get<int>();
  }
}

TEST_F(CardPageInABrowser, SuitsATelephoneAndADeskAndAsksForNothing) {
  std::vector<std::string> files{page(plan_, "names.html")};
  for (const std::string& name : scenarios()) {
    files.push_back(page(scenario_path(name), name + ".html"));
  }
  files.push_back(page(scenario_path("family-two-vehicles"), "us.html", {"--units", "us"}));
  std::vector<View> views;
  for (const std::string& file : files) {
    views.push_back({.path = file, .width_px = telephone_px});
    views.push_back({.path = file, .width_px = desk_px});
  }
  const Visit visit = look(views, script);
  EXPECT_THAT(visit.messages, IsEmpty());
  EXPECT_THAT(visit.requests, IsEmpty());
  for (std::size_t i = 0; i < views.size(); ++i) {
    SCOPED_TRACE(views[i].path + " " + std::to_string(views[i].width_px));
    expect_well_made(visit.shown[i], views[i].width_px);
  }
  const json& odd = visit.shown[0].found;
  const std::string text = plain_words(odd.at("text").get<std::string>());
  for (const std::string& name : names_.all()) {
    if (name != names_.container) EXPECT_THAT(text, HasSubstr(name));
  }
  EXPECT_EQ(odd.at("title"), names_.title);
}

TEST_F(CardPageInABrowser, ItsPolicyLetsNoRequestOut) {
  const std::string file = page(scenario_path("last-camp"), "card.html");
  const Visit visit = look({{file, telephone_px}}, R"js(
    const picture = document.createElement('img');
    picture.src = 'http://127.0.0.1:9/far.png';
    document.body.append(picture);
    const script = document.createElement('script');
    script.textContent = 'window.hasRun = true;';
    document.body.append(script);
    return document.defaultView.hasRun === true;
  )js");
  EXPECT_THAT(visit.requests, IsEmpty());
  EXPECT_EQ(visit.shown[0].found, false);
  EXPECT_THAT(visit.messages, Each(HasSubstr("Content Security Policy")));
  EXPECT_EQ(visit.messages.size(), 2U);
}

TEST_F(CardPageInABrowser, WithoutAScriptAllFiguresAreThere) {
  const std::string file = page(scenario_path("desert-crossing-mended"), "card.html");
  const std::string words = R"js(
    const all = (what) => [...document.querySelectorAll(what)];
    all('details').forEach((e) => { e.open = true; });
    return {fields: all('input, textarea, button').filter((e) => e.getClientRects().length).length,
            figures: all('.figures, td, li, h3')
                .filter((e) => e.getClientRects().length && !e.closest('.live'))
                .map((e) => e.innerText).join('|'),
            text: document.body.innerText};
  )js";
  const Visit visit = look({{.path = file, .width_px = telephone_px, .scripts = false},
                            {.path = file, .width_px = telephone_px}},
                           words);
  const json& without = visit.shown[0].found;
  const json& with = visit.shown[1].found;
  EXPECT_EQ(without.at("fields"), 0);
  EXPECT_GT(with.at("fields"), 0);
  EXPECT_LE(visit.shown[0].scroll_width_px, telephone_px);
  EXPECT_THAT(without.at("text").get<std::string>(),
              HasSubstr("Fields for readings need a script"));
  EXPECT_THAT(with.at("text").get<std::string>(),
              Not(HasSubstr("Fields for readings need a script")));
  const std::string figures = without.at("figures").get<std::string>();
  EXPECT_THAT(figures, HasSubstr("Must have"));
  EXPECT_TRUE(figures == with.at("figures").get<std::string>());
}

// As on the road: three evenings, the page closed in between, on the third too little water.
TEST_F(CardPageInABrowser, AnswersThreeEveningsOfReadingsAndKeepsThem) {
  const std::string file = page(scenario_path("desert-crossing-mended"), "card.html");
  const auto view = [&](const std::string& what) {
    return View{.path = file, .width_px = telephone_px, .script = typing + what};
  };
  const Visit visit = look({
      view("type('e0r0', '190'); type('e0r1', '181'); type('e1r0', '180');"
           "return says('e1r0a', 'e1w');"),
      view("type('e1r1', '150'); return says('e1r0a', 'e1w');"),
      view("type('e2r0', '168,5'); type('e2r1', 'full'); return says('e2r0a', 'e2r1a');"),
      view("type('e2r1', '150'); type('e3r0', '140'); type('e3r1', '131');"
           "return says('e3r0a', 'e3r1a');"),
      view("return says('e3r0a');"),
  });
  EXPECT_THAT(visit.messages, IsEmpty());
  const auto says = [&](std::size_t i, const char* what) {
    return visit.shown[i].found.at(what).get<std::string>();
  };
  const auto answer = [&](std::size_t i, std::size_t which) {
    return visit.shown[i].found.at("answers").at(which).get<std::string>();
  };
  EXPECT_THAT(answer(0, 0), HasSubstr("Above must have by 8 L."));
  EXPECT_THAT(answer(0, 0), HasSubstr("times the plan (10 L used since the start, plan 8.1 L)."));
  EXPECT_THAT(answer(0, 1), HasSubstr("Back: not known, type these (fuel of truck)"));
  EXPECT_EQ(says(0, "kept"), "Readings are kept on this telephone.");
  EXPECT_EQ(says(0, "next"), "#day-2");

  EXPECT_THAT(answer(1, 0), HasSubstr("Above must have by 8 L."));
  EXPECT_THAT(answer(1, 1), HasSubstr("Back: open"));
  EXPECT_EQ(says(1, "banner"), "");

  EXPECT_THAT(answer(2, 0), HasSubstr("Above must have by 3.5 L."));
  EXPECT_EQ(answer(2, 1), "That is not a number. Type digits, such as 84.");

  EXPECT_THAT(answer(3, 0), StartsWith("BELOW MUST HAVE by 15 L. Do not go on as planned."));
  EXPECT_THAT(answer(3, 0), HasSubstr("at your rate (plan 140 L)."));
  EXPECT_EQ(says(3, "banner"), "RUN THE PLAN AGAIN: drinking water");
  EXPECT_EQ(
      says(3, "why"),
      "Run the plan again from these readings. Day 3: drinking water, below must have, 28.5 L "
      "used since day 2, plan 9.7 L.");
  EXPECT_THAT(says(3, "state"), HasSubstr("On as planned: NOT OPEN (drinking water)"));
  EXPECT_THAT(says(3, "state"), HasSubstr("Back: open"));
  EXPECT_THAT(
      says(3, "send"),
      HasSubstr("Day 3, Wed 10 Mar, Shell Pan. Drinking water 140 L (must have 155 L), fuel "
                "of truck 131 L (must have 116 L). On as planned: NOT OPEN"));
  EXPECT_THAT(says(3, "send"), Not(HasSubstr("\n")));
  EXPECT_THAT(says(3, "all"), HasSubstr("Day 1, Mon 08 Mar, Imrel Bore; drinking water 180 L; fuel "
                                        "of truck 150 L\nDay 2,"));
  EXPECT_EQ(visit.shown[4].found.at("answers").at(0), visit.shown[3].found.at("answers").at(0));
  EXPECT_EQ(says(4, "all"), says(3, "all"));
}

TEST_F(CardPageInABrowser, AsksWhatWasTakenOnAtAStop) {
  const std::string file = page(scenario_path("family-two-vehicles"), "card.html");
  const Visit visit = look({{file, telephone_px}}, typing + R"js(
    const data = JSON.parse(at('data').textContent);
    const reserve = data.reserves.findIndex((one) => one.name === 'drinking water');
    const evenings = data.reserves[reserve].evenings;
    const stop = evenings.findIndex((one) => one.takes);
    const id = 'e' + stop + 'r' + reserve;
    const seen = (e) => e.getClientRects().length > 0;
    const quiet = 'e' + evenings.findIndex((one, i) => i > 0 && !one.takes) + 'r' + reserve + 't';
    type('e' + (stop - 1) + 'r' + reserve, String(evenings[stop - 1].plan));
    type(id, String(evenings[stop].plan));
    const asked = at(id + 'a').innerText;
    const rise = evenings[stop].plan - evenings[stop - 1].plan;
    type(id + 't', String(Math.round(rise + evenings[stop - 1].use)));
    return {seen: seen(at(id + 't')), quiet: seen(at(quiet)), asked, told: at(id + 'a').innerText};
  )js");
  const json& found = visit.shown[0].found;
  EXPECT_EQ(found.at("seen"), true);
  EXPECT_EQ(found.at("quiet"), false);
  EXPECT_THAT(found.at("asked").get<std::string>(), HasSubstr("Type what you took on"));
  EXPECT_THAT(found.at("told").get<std::string>(), HasSubstr("times the plan ("));
}

TEST_F(CardPageInABrowser, SaysSoWhereNothingCanBeKept) {
  const std::string file = page(scenario_path("last-camp"), "card.html");
  const Visit visit = look({{file, telephone_px}}, typing + R"js(
    document.defaultView.Storage.prototype.setItem = () => { throw new Error('full'); };
    type('e0r0', '20');
    return says();
  )js");
  EXPECT_THAT(visit.messages, IsEmpty());
  const json& found = visit.shown[0].found;
  EXPECT_THAT(found.at("kept").get<std::string>(), HasSubstr("they are lost when it is closed"));
  EXPECT_THAT(found.at("all").get<std::string>(),
              HasSubstr("Before setting out; drinking water 20 L"));
}

TEST_F(CardPageInABrowser, DarkIsKept) {
  const std::string file = page(scenario_path("last-camp"), "card.html");
  const std::string ground =
      "return document.defaultView.getComputedStyle(document.body)"
      ".backgroundColor;";
  const Visit visit = look({{file, telephone_px},
                            {.path = file,
                             .width_px = telephone_px,
                             .script = "document.getElementById('theme').click();" + ground},
                            {file, telephone_px}},
                           ground);
  EXPECT_EQ(visit.shown[0].found, "rgb(255, 255, 255)");
  EXPECT_EQ(visit.shown[1].found, "rgb(16, 16, 16)");
  EXPECT_EQ(visit.shown[2].found, "rgb(16, 16, 16)");
}

}  // namespace
}  // namespace drystage::testing::card_page_test
