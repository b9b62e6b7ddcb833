#include "layout/drawing.h"

#include "base/text/text.h"

#include <algorithm>
#include <cctype>

namespace gk::layout {

namespace {

constexpr std::string_view drawingBegins =
    "<!-- made from src/CMakeLists.txt by tests/layout; do not edit -->\n";
constexpr std::string_view drawingEnds = "<!-- end of what is made -->\n";

/// Every module below, through whichever others.
std::set<std::string> below(const Uses& uses, const std::string& module) {
  std::set<std::string> all;
  const auto mine = uses.find(module);
  if (mine == uses.end()) return all;
  for (const auto& used : mine->second) {
    all.insert(used);
    all.merge(below(uses, used));
  }
  return all;
}

std::size_t floorOf(const Uses& uses, const std::string& module) {
  std::size_t floor = 0;
  const auto mine = uses.find(module);
  if (mine == uses.end()) return floor;
  for (const auto& used : mine->second)
    floor = std::max(floor, floorOf(uses, used) + 1);
  return floor;
}

/// A name that Mermaid takes: a room of a module has a slash in its own.
std::string nodeOf(std::string module) {
  std::ranges::replace(module, '/', '_');
  return module;
}

/// What stands in backticks, in order.
std::vector<std::string> quotedIn(std::string_view text) {
  std::vector<std::string> found;
  const auto parts = base::split(text, '`');
  for (std::size_t i = 1; i + 1 < parts.size(); i += 2)
    found.emplace_back(parts[i]);
  return found;
}

bool isNumbered(std::string_view line) {
  const auto digits = line.find_first_not_of("0123456789");
  return digits > 0 && digits != std::string_view::npos && line.substr(digits).starts_with(". ");
}

/// Numbered steps, each with the lines that are indented below it.
std::vector<std::string> stepsOf(std::string_view page) {
  std::vector<std::string> steps;
  bool inStep = false;
  for (const auto line : base::split(page, '\n')) {
    if (isNumbered(line))
      steps.emplace_back(line);
    else if (inStep && line.starts_with("  "))
      steps.back() += ' ' + std::string(base::trim(line));
    else {
      inStep = false;
      continue;
    }
    inStep = true;
  }
  return steps;
}

/// "Session::work()" is looked for as "work", "Rows<T>" as "Rows".
std::string lastName(std::string_view name) {
  const auto colons = name.rfind("::");
  if (colons != std::string_view::npos) name.remove_prefix(colons + 2);
  return std::string(name.substr(0, name.find_first_of("(<")));
}

} // namespace

std::string drawingOf(const Uses& uses) {
  std::map<std::size_t, std::vector<std::string>, std::greater<>> floors;
  for (const auto& [module, used] : uses)
    floors[floorOf(uses, module)].push_back(module);
  std::string out = "```mermaid\nflowchart TD\n";
  for (const auto& [floor, modules] : floors) {
    const auto number = std::to_string(floor);
    out += "  subgraph floor" + number + "[\"" + number + "\"]\n";
    for (const auto& module : modules)
      out += "    " + nodeOf(module) + "[\"" + module + "\"]\n";
    out += "  end\n";
  }
  for (const auto& [floor, modules] : floors)
    for (const auto& module : modules) {
      const auto& used = uses.at(module);
      std::vector<std::string> direct;
      for (const auto& one : used)
        if (std::ranges::none_of(
                used, [&](const auto& other) { return below(uses, other).contains(one); }))
          direct.push_back(nodeOf(one));
      if (!direct.empty())
        out += "  " + nodeOf(module) + " --> " + base::join(direct, " & ") + "\n";
    }
  return out + "```\n";
}

std::optional<std::string> withDrawing(std::string_view page, std::string_view drawing) {
  const auto begins = page.find(drawingBegins);
  if (begins == std::string_view::npos) return std::nullopt;
  const auto from = begins + drawingBegins.size();
  const auto until = page.find(drawingEnds, from);
  if (until == std::string_view::npos) return std::nullopt;
  return std::string(page.substr(0, from)) + std::string(drawing) + std::string(page.substr(until));
}

Findings checkModuleLines(std::string_view page, const Uses& uses) {
  std::map<std::string, int> lines;
  for (const auto line : base::split(page, '\n')) {
    if (!line.starts_with("| `")) continue;
    const auto name = line.substr(3, line.find('`', 3) - 3);
    ++lines[std::string(name)];
  }
  Findings findings;
  for (const auto& [module, used] : uses)
    if (lines[module] != 1)
      findings.push_back("docs/architecture.md: " + module + " has " +
                         std::to_string(lines[module]) + " lines that say what it is for");
  for (const auto& [name, count] : lines)
    if (!uses.contains(name))
      findings.push_back("docs/architecture.md: a line for " + name + ", which is no module");
  return findings;
}

Findings checkLinks(std::string_view page, const TextOf& textOf) {
  Findings findings;
  for (auto at = page.find("]("); at != std::string_view::npos; at = page.find("](", at)) {
    at += 2;
    const auto target = page.substr(at, page.find_first_of(")#", at) - at);
    if (target.empty() || target.starts_with("http")) continue;
    const auto path =
        target.starts_with("../") ? std::string(target.substr(3)) : "docs/" + std::string(target);
    if (!textOf(path)) findings.push_back("docs/architecture.md: a link to no file: " + path);
  }
  return findings;
}

Findings checkSteps(std::string_view page, const TextOf& textOf) {
  Findings findings;
  for (const auto& step : stepsOf(page)) {
    std::string texts;
    std::vector<std::string> names;
    const auto where = "docs/architecture.md: \"" + step.substr(0, 40) + "...\": ";
    for (const auto& quoted : quotedIn(step)) {
      if (quoted.find(' ') != std::string::npos) continue;
      if (quoted.find('/') == std::string::npos) {
        names.push_back(quoted);
        continue;
      }
      if (const auto text = textOf(quoted))
        texts += *text;
      else
        findings.push_back(where + "no file " + quoted);
    }
    for (const auto& name : names)
      if (texts.find(lastName(name)) == std::string::npos)
        findings.push_back(where + name + " is in no file that the step names");
  }
  return findings;
}

} // namespace gk::layout
