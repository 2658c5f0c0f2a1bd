#include "cli/browser.h"

#include <algorithm>
#include <array>
#include <regex>
#include <set>
#include <stdexcept>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using Json = nlohmann::json;

/// A page that has each file in a frame of its width, and writes down what it finds there. The
/// narrowest window of the browser is wider than a telephone; a frame is as narrow as it is told.
/// The next frame is made while the one before it is loaded: so the page itself is not, before all
/// are.
std::string host_page(const std::vector<View>& views, const std::string& script) {
  std::string page =
      "<!doctype html><html><head><meta charset=\"utf-8\"></head><body><pre id=\"found\"></pre>"
      "<script>\nconst views = [\n";
  for (const View& view : views) {
    page += "  {path: " + Json("file://" + view.path).dump() +
            ", width: " + std::to_string(view.width_px) +
            ", scripts: " + (view.scripts ? "true" : "false") + ", look: (document) => {" +
            (view.script.empty() ? script : view.script) + "}},\n";
  }
  return page + R"js(];
const found = [];
const open = (view) => {
  const frame = document.createElement('iframe');
  frame.width = view.width;
  frame.height = 800;
  frame.style.border = 0;
  if (!view.scripts) frame.sandbox = 'allow-same-origin';
  frame.addEventListener('load', () => {
    const root = frame.contentDocument.documentElement;
    found.push({found: view.look(frame.contentDocument),
                scroll: root.scrollWidth, client: root.clientWidth});
    if (found.length < views.length) open(views[found.length]);
  }, {once: true});
  frame.src = view.path;
  document.body.append(frame);
};
open(views[0]);
addEventListener('load', () => {
  // No sign that would be written as an entity.
  document.getElementById('found').textContent = JSON.stringify(found).replace(
      /[^ -~]|[<>&]/g, (c) => '\\u' + c.charCodeAt(0).toString(16).padStart(4, '0'));
});
</script></body></html>
)js";
}

/// Starts Chromium with a profile of its own, without a screen, and without a network: even the
/// names that it looks up by itself are not found.
Outcome chromium(const Workspace& space, const std::vector<std::string>& words) {
  std::vector<std::string> all{"--headless",
                               "--no-sandbox",
                               "--disable-gpu",
                               "--no-first-run",
                               "--disable-background-networking",
                               "--disable-component-update",
                               "--disable-sync",
                               "--disable-dev-shm-usage",
                               "--host-resolver-rules=MAP * ~NOTFOUND",
                               "--user-data-dir=" + space.path("profile")};
  all.insert(all.end(), words.begin(), words.end());
  return program("/usr/bin/chromium", all, {.set = {{"HOME", space.folder()}}});
}

/// What the page wrote down, out of the page as the browser left it.
Json written_down(const Outcome& outcome) {
  const std::string open = "<pre id=\"found\">";
  const std::size_t begin = outcome.out.find(open);
  const std::size_t end = outcome.out.find("</pre>", begin);
  if (outcome.status != 0 || begin == std::string::npos || end == std::string::npos) {
    throw std::runtime_error("the browser ended with " + std::to_string(outcome.status) + ": " +
                             outcome.err);
  }
  const std::size_t from = begin + open.size();
  return Json::parse(outcome.out.substr(from, end - from));
}

std::vector<std::string> console(const std::string& log) {
  std::vector<std::string> out;
  for (const std::string& line : lines(log)) {
    if (line.find(":CONSOLE") != std::string::npos) out.push_back(line);
  }
  return out;
}

/// The requests that a document began. The browser's own have no document for an initiator.
std::vector<std::string> requests(const std::string& net_log) {
  std::set<std::string> out;
  const Json log = Json::parse(net_log);
  for (const Json& event : log.at("events")) {
    const Json params = event.value("params", Json::object());
    const std::string url = params.value("url", "");
    const std::string initiator = params.value("initiator", "");
    if (initiator.empty() || initiator == "not an origin") continue;
    if (!url.starts_with("file:") && !url.starts_with("data:")) out.insert(url);
  }
  return {out.begin(), out.end()};
}

}  // namespace

Visit look(const std::vector<View>& views, const std::string& script) {
  const Workspace space;
  const std::string page = space.write("host.html", host_page(views, script));
  const std::string net_log = space.path("net.json");
  const Outcome outcome = chromium(
      space, {"--hide-scrollbars", "--allow-file-access-from-files", "--enable-logging=stderr",
              "--log-net-log=" + net_log, "--dump-dom", "file://" + page});
  const Json found = written_down(outcome);
  Visit visit{.messages = console(outcome.err), .requests = requests(read_file(net_log))};
  for (const Json& frame : found) {
    visit.shown.push_back({.scroll_width_px = frame.at("scroll").get<int>(),
                           .client_width_px = frame.at("client").get<int>(),
                           .found = frame.at("found")});
  }
  if (visit.shown.size() != views.size()) throw std::runtime_error("a file was not shown");
  return visit;
}

void print(const std::string& path, const std::string& pdf) {
  const Workspace space;
  const Outcome outcome =
      chromium(space, {"--no-pdf-header-footer", "--print-to-pdf=" + pdf, "file://" + path});
  if (outcome.status != 0) throw std::runtime_error("the browser cannot print: " + outcome.err);
}

}  // namespace drystage::testing
