#include "report/page/page.h"

#include <fmt/core.h>

#include <array>

#include "report/card/advice.h"
#include "report/card/evening_figures.h"
#include "report/card/isolated.h"
#include "report/card/rules.h"
#include "report/needs/words.h"
#include "report/page/figures.h"
#include "report/page/html.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"
#include "report/text/margin_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report::page {
namespace {

// Made of page.css and page.js while this is built (embed.cmake).
#include "page_source.inc"
#include "report/card/day_facts.h"

unsigned hex_digit(char c) { return static_cast<unsigned>(c <= '9' ? c - '0' : c - 'a' + 10); }

/// How the page's own policy names a text of which this is the hash: "sha256-...", by RFC 4648's
/// base 64: six bits a letter, in groups of four.
std::string sha256_name(std::string_view hex) {
  constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  unsigned bits = 0;
  unsigned count = 0;
  for (const char c : hex) {
    bits = bits << 4U | hex_digit(c);
    count += 4;
    if (count < 6) continue;
    count -= 6;
    out += letters[bits >> count & 0x3FU];
    bits &= (1U << count) - 1;
  }
  if (count > 0) out += letters[bits << (6 - count) & 0x3FU];
  while (out.size() % 4 != 0) out += '=';
  return "sha256-" + out;
}

/// All that the script compares readings with, as it may stand in a `<script>` element.
std::string script_data(const CardAnswer& answer, const std::vector<Shown>& reserves) {
  const answers::PlanRun& planned = answer.needs.planned;
  Json out{{"title", planned.plan.trip.title}, {"start", iso_date(planned.plan.trip.start)},
           {"share", far_off_share},           {"steps", least_steps},
           {"first", first_evening(planned)},  {"evenings", Json::array()},
           {"reserves", Json::array()}};
  for (std::size_t evening = 0; evening <= planned.record.days(); ++evening) {
    out["evenings"].push_back(
        {{"words", evening_words(planned, evening)}, {"ways", has_way_out(answer, evening)}});
  }
  for (const Shown& shown : reserves) {
    Json reserve{{"name", shown.name},
                 {"unit", shown.unit},
                 {"digits", shown.digits},
                 {"ways", shown.way.has_value()}};
    reserve.update(json_reserve(shown.rules));
    out["reserves"].push_back(std::move(reserve));
  }
  std::string safe;
  // A "<" could end the element or begin a comment in it.
  for (const char c : out.dump(-1, ' ', false, Json::error_handler_t::replace)) {
    if (c == '<') {
      safe += "\\u003c";
    } else {
      safe += c;
    }
  }
  return safe;
}

}  // namespace

}  // namespace drystage::report::page

namespace drystage::report {
namespace {

using page::element;

/// The same answer with every name set apart, for sentences.
CardAnswer with_names_apart(const CardAnswer& answer) {
  CardAnswer out = with_isolated_names(answer);
  for (engine::ReserveInfo& reserve : out.needs.planned.course.reserves) {
    reserve.owner = isolated(reserve.owner);
  }
  return out;
}

class Page {
 public:
  Page(const CardAnswer& answer, units::System system)
      : answer_(answer),
        apart_(with_names_apart(answer)),
        planned_(apart_.needs.planned),
        system_(system),
        reserves_(page::shown_reserves(apart_, system)) {}

  [[nodiscard]] std::string whole() const {
    return head() + "<body>\n" + top() + "<main>\n" + tonight() + use() + evenings() + low() +
           who() + "</main>\n<footer>\n" + element("p", cautions) + "</footer>\n" +
           "<script id=\"data\" type=\"application/json\">" + page::script_data(apart_, reserves_) +
           "</script>\n<script>" + std::string(page::js) + "</script>\n</body>\n</html>\n";
  }

 private:
  [[nodiscard]] std::string head() const {
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
        "style-src '{}'; script-src '{}'; base-uri 'none'; form-action 'none'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"generator\" content=\"drystage\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n"
        "<style>{}</style>\n</head>\n",
        page::sha256_name(page::css_sha256), page::sha256_name(page::js_sha256),
        page::plain_html(planned_.plan.trip.title), page::css);
  }

  [[nodiscard]] std::string top() const {
    const bool good = planned_.verdict.holds;
    std::string out = "<header>\n" + element("h1 dir=\"auto\"", planned_.plan.trip.title);
    out += element("p",
                   trip_words(planned_, false) +
                       (answer_.source.empty() ? "" : " Plan: " + isolated(answer_.source) + "."));
    out += element("p", reading_words(planned_));
    out += element(good ? "p class=\"verdict\"" : "p class=\"verdict grave\"",
                   verdict_words(planned_, apart_.without_unconfirmed, system_, apart_.spells));
    if (!good) out += element("p", others_words(planned_, system_));
    out += element("p class=\"grave\"",
                   without_unconfirmed_words(planned_, apart_.without_unconfirmed, system_));
    if (apart_.without_unconfirmed) out += element("p class=\"grave\"", below_must_words(apart_));
    out += element("p", not_judged_words(planned_));
    for (const std::string& warning : apart_.needs.warnings) {
      out += element("p", "Warning: " + warning + ".");
    }
    return out +
           "<noscript><p class=\"grave\">Fields for readings need a script. All figures are here "
           "without one.</p></noscript>\n"
           "</header>\n"
           "<nav aria-label=\"On this page\"><ul class=\"chips\">\n"
           "<li class=\"live\"><a href=\"#tonight\">Tonight</a></li>\n"
           "<li><a href=\"#evenings\">Evenings</a></li>\n"
           "<li><a href=\"#low\">If too low</a></li>\n"
           "<li><a href=\"#who\">Whom to call</a></li>\n"
           "<li class=\"live\"><button type=\"button\" id=\"theme\">Dark screen</button></li>\n"
           "</ul></nav>\n"
           "<div class=\"banner\" id=\"banner\" role=\"alert\" hidden><span id=\"again\"></span>"
           "<a class=\"button\" href=\"#low\">What first?</a></div>\n";
  }

  /// What the script says of the last readings.
  static std::string tonight() {
    return "<section class=\"live\" id=\"tonight\">\n<h2>Tonight</h2>\n"
           "<p><a class=\"button\" id=\"next\" href=\"#day-0\">Type a reading</a></p>\n"
           "<p class=\"grave\" id=\"why\"></p>\n"
           "<p id=\"state\" role=\"status\"></p>\n<div id=\"after\" hidden>\n"
           "<label>Line to send home <textarea id=\"send\" rows=\"5\" "
           "readonly></textarea></label>\n"
           "<p><button type=\"button\" data-copies=\"send\">Copy this line</button></p>\n"
           "<details><summary>All readings as text</summary>\n"
           "<label>All readings <textarea id=\"all\" rows=\"8\" readonly></textarea></label>\n"
           "<p><button type=\"button\" data-copies=\"all\">Copy all readings</button></p>\n"
           "</details>\n</div>\n<p id=\"kept\"></p>\n</section>\n";
  }

  [[nodiscard]] std::string use() const {
    std::string out = "<section id=\"use\">\n<h2>How to use this page</h2>\n<ul>\n";
    for (const char* words :
         {"Each evening dip the tanks and count the cans. Write down what is really there.",
          "Must have: the least that reaches the next confirmed supply with the margin intact.",
          "Below must have? Do not go on as planned. See \"If a reading is too low\".",
          "Figures are for midnight. Take off what you will still use tonight.",
          "Of drinking water count the drinking containers alone."}) {
      out += element("li", words);
    }
    const std::string on_trips = on_trips_words(apart_.needs);
    if (!on_trips.empty()) out += element("li", on_trips);
    const std::string undrawable = undrawable_words(planned_, system_);
    if (!undrawable.empty()) {
      out += element("li",
                     "Of fuel leave out what cannot be drawn from the tanks: " + undrawable + ".");
    }
    out += element(
        "li", fmt::format("Use more than {:.0f} % off the plan, or a reading below must have? Run "
                          "the plan again from what is there.",
                          page::far_off_share * 100));
    std::string margins;
    for (const std::string& line : margin_lines(planned_, system_)) {
      units::add_to(margins, line, "; ");
    }
    if (!margins.empty()) out += element("li", "Margins to keep: " + margins + ".");
    out += element("li", turn_back_words(apart_.needs));
    return out + "</ul>\n</section>\n";
  }

  [[nodiscard]] std::string evenings() const {
    std::string chips;
    for (std::size_t evening = first_evening(planned_); evening <= planned_.record.days();
         ++evening) {
      chips += fmt::format("<li><a href=\"#day-{0}\">{1}</a></li>\n", evening,
                           evening == 0 ? std::string("Start") : fmt::format("Day {}", evening));
    }
    return "<section id=\"evenings\">\n<h2>Evening by evening</h2>\n"
           "<nav aria-label=\"Evenings\"><ul class=\"chips\">\n" +
           chips + "</ul></nav>\n" + page::evening_sections(apart_, reserves_, system_) +
           "</section>\n";
  }

  [[nodiscard]] std::string low() const {
    std::string out = "<section id=\"low\">\n<h2>If a reading is too low</h2>\n";
    for (const Advice& advice : first_steps(answer_, system_)) {
      out += element("h3", advice.title) + "<ol>\n";
      for (const std::string& step : advice.steps) out += element("li", step);
      out += "</ol>\n";
    }
    return out + "</section>\n";
  }

  /// Blanks: no number is printed here.
  static std::string who() {
    constexpr std::array<std::pair<const char*, const char*>, 5> blanks{
        {{"told", "Who at home is told"},
         {"call", "How to reach them"},
         {"overdue", "Overdue: they raise the alarm on (day, hour)"},
         {"emergency", "Emergency number of the region"},
         {"reach", "How you can be reached (telephone, radio, beacon)"}}};
    std::string out =
        "<section id=\"who\">\n<h2>Whom to call</h2>\n"
        "<p>Fill in before you leave. This page knows no number.</p>\n<div class=\"blanks\">\n";
    for (const auto& [name, words] : blanks) {
      out +=
          fmt::format("<label>{} <input name=\"{}\" type=\"text\" autocomplete=\"off\"></label>\n",
                      page::html(words), name);
    }
    return out + "</div>\n</section>\n";
  }

  const CardAnswer& answer_;
  const CardAnswer apart_;
  const answers::PlanRun& planned_;
  units::System system_;
  std::vector<page::Shown> reserves_;
};

}  // namespace

std::string card_page(const CardAnswer& answer, units::System system) {
  return Page(answer, system).whole();
}

}  // namespace drystage::report
