#include "layout/checker.h"

#include "base/text/text.h"

#include <algorithm>
#include <optional>
#include <regex>

namespace gk::layout {

namespace {

struct Include {
  std::size_t line;
  bool isQuoted;
  std::string path;
};

std::vector<Include> includesOf(std::string_view text) {
  std::vector<Include> found;
  std::size_t number = 0;
  for (auto line : base::split(text, '\n')) {
    ++number;
    line = base::trim(line);
    if (!line.starts_with('#')) continue;
    line = base::trim(line.substr(1));
    if (!line.starts_with("include")) continue;
    line = base::trim(line.substr(7));
    const auto end = line.find_first_of(">\"", 1);
    if (end == std::string_view::npos) continue;
    found.push_back({number, line.front() == '"', std::string(line.substr(1, end - 1))});
  }
  return found;
}

std::string firstPart(std::string_view path) {
  const auto slash = path.find('/');
  return slash == std::string_view::npos ? "" : std::string(path.substr(0, slash));
}

bool isHeader(const SourceFile& file) {
  return file.path.ends_with(".h");
}

std::string at(const SourceFile& file, std::size_t line) {
  return file.path + ":" + std::to_string(line) + ": ";
}

/// The module that a path lies in: "reports/day" for a room of one, else "reports".
std::string moduleIn(std::string_view path, const Uses& uses) {
  const auto room = std::string(path.substr(0, path.rfind('/')));
  return uses.contains(room) ? room : firstPart(path);
}

/// "store" for src/store/..., "ui" for ui/...; nothing for files without walls.
std::optional<std::string> moduleOf(const SourceFile& file, const Uses& uses) {
  const auto top = firstPart(file.path);
  if (top == "ui") return top;
  if (top == "src") return moduleIn(std::string_view(file.path).substr(4), uses);
  return std::nullopt;
}

/// What each gk_module(name ...) line lists under that word.
std::map<std::string, std::vector<std::string>> listsOf(std::string_view cmakeLists,
                                                        std::string_view wanted) {
  constexpr std::string_view call = "gk_module(";
  std::string code;
  for (const auto line : base::split(cmakeLists, '\n'))
    code += std::string(line.substr(0, line.find('#'))) + ' ';
  std::ranges::replace(code, '\t', ' ');

  std::map<std::string, std::vector<std::string>> lists;
  for (auto from = code.find(call); from != std::string::npos; from = code.find(call, from)) {
    from += call.size();
    const auto words =
        base::split(std::string_view(code).substr(from, code.find(')', from) - from), ' ');
    std::string name;
    bool isWanted = false;
    for (const auto word : words) {
      if (word.empty()) continue;
      if (name.empty())
        name = word;
      else if (word == "ROOMS" || word == "USES" || word == "LINKS")
        isWanted = word == wanted;
      else if (isWanted)
        lists[name].emplace_back(word);
    }
    lists.try_emplace(name);
  }
  return lists;
}

/// "chair" for session/chair/work.h, "session" for session/session.h.
std::string roomIn(std::string_view path) {
  const auto module = firstPart(path);
  const auto room = firstPart(path.substr(module.size() + 1));
  return room.empty() ? module : room;
}

bool isFace(const std::string& module) {
  return module == "office" || module == "ui";
}

std::string listed(const std::set<std::string>& names) {
  return base::join({names.begin(), names.end()}, " ");
}

} // namespace

const Uses& architecture() {
  static const Uses table = [] {
    const std::set<std::string> records{"base", "dentition", "roster",
                                        "kit",  "chairside", "followup"};
    const auto recordsAnd = [&](std::set<std::string> more) {
      more.insert(records.begin(), records.end());
      return more;
    };
    return Uses{
        {"base", {}},
        {"wiping", {}},
        {"crypto", {"base"}},
        {"dentition", {"base"}},
        {"estimates", {"base"}},
        {"roster", {"base", "dentition"}},
        {"kit", {"base", "dentition"}},
        {"chairside", {"base", "dentition", "roster", "kit"}},
        {"followup", {"base", "dentition", "roster", "kit", "chairside"}},
        {"store", recordsAnd({"crypto"})},
        {"vault", {"base", "crypto"}},
        {"reports/records", recordsAnd({"estimates"})},
        {"reports/print", {"base", "estimates", "reports/records"}},
        {"reports/workbook", {"base", "reports/print"}},
        {"reports/retention",
         {"base", "estimates", "followup", "reports/records", "reports/print"}},
        {"reports/decay",
         {"base", "dentition", "estimates", "roster", "reports/records", "reports/print",
          "reports/retention"}},
        {"reports/compare",
         {"base", "estimates", "reports/records", "reports/print", "reports/retention",
          "reports/decay"}},
        {"reports/term",
         {"base", "reports/records", "reports/print", "reports/retention", "reports/decay"}},
        {"reports/quality",
         {"base", "estimates", "reports/records", "reports/print", "reports/compare"}},
        {"reports/services", {"roster", "reports/records", "reports/print", "reports/term"}},
        {"reports/letters", {"base", "followup", "reports/records", "reports/print"}},
        {"reports/merges", {"base", "followup", "reports/records", "reports/print"}},
        {"reports/day",
         {"base", "roster", "followup", "reports/records", "reports/print", "reports/letters",
          "reports/merges"}},
        {"reports/calls",
         {"base", "reports/records", "reports/print", "reports/letters", "reports/day"}},
        {"reports/sheets", {"base", "estimates", "reports/print", "reports/term"}},
        {"reports/publish",
         {"base", "roster", "followup", "reports/records", "reports/print", "reports/term"}},
        {"reports/funder",
         {"base", "roster", "reports/records", "reports/print", "reports/term", "reports/services",
          "reports/day", "reports/decay", "reports/publish"}},
        {"reports",
         {"base", "reports/records", "reports/print", "reports/retention", "reports/decay",
          "reports/compare", "reports/term", "reports/quality", "reports/services",
          "reports/letters", "reports/day", "reports/publish", "reports/funder"}},
        {"exchange", recordsAnd({"crypto"})},
        {"session", recordsAnd({"crypto", "estimates", "store", "vault", "exchange", "reports",
                                "reports/records", "reports/print", "reports/term",
                                "reports/letters", "reports/merges", "reports/day", "reports/calls",
                                "reports/sheets", "reports/publish"})},
        {"office",
         recordsAnd({"estimates", "session", "reports", "reports/records", "reports/print",
                     "reports/workbook", "reports/term", "reports/letters", "reports/day",
                     "reports/calls", "reports/publish"})},
        {"ui", recordsAnd({"estimates", "session", "reports", "reports/records", "reports/print",
                           "reports/workbook", "reports/retention", "reports/decay",
                           "reports/compare", "reports/term", "reports/quality", "reports/services",
                           "reports/letters", "reports/merges", "reports/day", "reports/calls",
                           "reports/sheets", "reports/publish", "reports/funder"})},
    };
  }();
  return table;
}

Uses modulesOf(std::string_view cmakeLists) {
  Uses modules;
  for (const auto& [module, used] : listsOf(cmakeLists, "USES"))
    modules[module] = {used.begin(), used.end()};
  return modules;
}

Rooms roomsOf(std::string_view cmakeLists) {
  auto rooms = listsOf(cmakeLists, "ROOMS");
  std::erase_if(rooms, [](const auto& module) { return module.second.empty(); });
  return rooms;
}

Findings checkModules(const Uses& declared, const Uses& decided) {
  Findings findings;
  for (const auto& [module, uses] : declared) {
    const auto known = decided.find(module);
    if (known == decided.end())
      findings.push_back("src/CMakeLists.txt: the architecture knows no module " + module);
    else if (known->second != uses)
      findings.push_back("src/CMakeLists.txt: " + module + " uses \"" + listed(uses) +
                         "\" where the architecture says \"" + listed(known->second) + "\"");
  }
  for (const auto& [module, uses] : decided)
    if (!declared.contains(module) && !isFace(module))
      findings.push_back("src/CMakeLists.txt: no gk_module line for " + module);
  return findings;
}

Findings checkWalls(const SourceFile& file, const Uses& uses) {
  const auto module = moduleOf(file, uses);
  if (!module) return {};
  const auto mine = uses.find(*module);
  if (mine == uses.end()) return {file.path + ": lies in no module"};
  Findings findings;
  for (const auto& [line, isQuoted, path] : includesOf(file.text)) {
    const auto other = moduleIn(path, uses);
    const bool isModule = uses.contains(other);
    if (isModule && other != *module && !mine->second.contains(other))
      findings.push_back(at(file, line) + *module + " may not include " + other);
    if (isQuoted && (other == "." || other == ".."))
      findings.push_back(at(file, line) + "a relative include hides the module");
    else if (isQuoted && !isModule && *module != "ui")
      findings.push_back(at(file, line) + "\"" + path + "\" names no module");
  }
  return findings;
}

Findings checkRooms(const SourceFile& file, const Rooms& rooms) {
  if (!file.path.starts_with("src/")) return {};
  const auto path = std::string_view(file.path).substr(4);
  const auto module = firstPart(path);
  const auto mine = rooms.find(module);
  if (mine == rooms.end() || roomIn(path) == "app") return {};
  const auto floorOf = [&](const std::string& room) {
    return std::ranges::find(mine->second, room) - mine->second.begin();
  };
  const auto none = std::ssize(mine->second);
  const auto floor = floorOf(roomIn(path));
  if (floor == none) return {file.path + ": lies in no room"};
  Findings findings;
  for (const auto& [line, isQuoted, included] : includesOf(file.text))
    if (firstPart(included) == module && floorOf(roomIn(included)) > floor)
      findings.push_back(at(file, line) + roomIn(path) + " may not include " + roomIn(included));
  return findings;
}

Findings checkCrowds(const std::vector<std::string>& paths) {
  std::map<std::string, int> files;
  std::set<std::string> withSources;
  for (const auto& path : paths) {
    const auto folder = path.substr(0, path.rfind('/'));
    ++files[folder];
    if (path.ends_with(".h") || path.ends_with(".cpp")) withSources.insert(folder);
  }
  Findings findings;
  for (const auto& folder : withSources)
    if (files[folder] > 20)
      findings.push_back(folder + ": " + std::to_string(files[folder]) + " files, at most 20");
  return findings;
}

Findings checkHomes(const SourceFile& file) {
  Findings findings;
  const std::string_view path = file.path;
  const bool inCore = path.starts_with("src/");
  for (const auto& [line, isQuoted, included] : includesOf(file.text)) {
    const auto library = [&](std::string_view name) {
      return included == name || included.ends_with("/" + std::string(name));
    };
    if (library("sqlite3.h") && !path.starts_with("src/store/"))
      findings.push_back(at(file, line) + "SQLite is for src/store alone");
    if ((library("sodium.h") || included.starts_with("sodium/")) &&
        !path.starts_with("src/crypto/"))
      findings.push_back(at(file, line) + "sodium is for src/crypto alone");
    if (library("glpk.h") && path != "src/reports/publish/cheapest_move.cpp")
      findings.push_back(at(file, line) +
                         "GLPK is for src/reports/publish/cheapest_move.cpp alone");
    if (library("qrencode.h") && path != "src/reports/sheets/qr_code.cpp")
      findings.push_back(at(file, line) +
                         "printed codes are for src/reports/sheets/qr_code.cpp alone");
    if ((library("json.hpp") || included.starts_with("nlohmann/")) &&
        !(path.starts_with("src/exchange/") && path.ends_with(".cpp")))
      findings.push_back(at(file, line) + "JSON is for the sources of src/exchange alone");
    // One reads what others packed, one packs.
    const bool isPacker = path == "src/reports/workbook/zip_writer.cpp" && library("zip.h");
    if (inCore && (library("zip.h") || library("expat.h")) &&
        path != "src/exchange/lists/package.cpp" && !isPacker)
      findings.push_back(at(file, line) +
                         "packed files are read in src/exchange/lists/package.cpp alone");
    if (inCore && !isQuoted && included.starts_with("Q"))
      findings.push_back(at(file, line) + "the core knows no Qt");
  }
  if (!inCore || path.starts_with("src/base/")) return findings;
  for (const std::string_view world : {"system_clock::now", "steady_clock::now", "random_device"})
    if (file.text.find(world) != std::string::npos)
      findings.push_back(file.path + ": " + std::string(world) +
                         " is for src/base alone; time and randomness are passed in");
  return findings;
}

Findings checkCounts(const SourceFile& file) {
  static const std::string many =
      "(?:children|teeth|sealants|letters|sheets|entries|days|years|months|things|figures|checks|"
      "questions|laptops|forms|readings|molars|clusters|strata|units|rows|cells|problems|minutes|"
      "pages|people|students|pupils|schools|records|lots|lights|incidents|copies|calls|cavities|"
      "visits|cards|tips|packages)";
  // A number, a plus, and a noun of many; what stands before the plus is told in \\1.
  static const std::regex joined("([^\\s\"]+)\\s*(?:\\+|<<)\\s*\" " + many + "\\b");
  static const std::regex placed("%L?[0-9]+ (?:[a-z]+ )?" + many + "\\b");
  // Never 1: limits set in the code, and figures with decimals.
  static const std::regex never(
      "longOpen|soon|fewest|wantedReadings|mostPeople|untilMonths|base::fixed|lastCheck|shortest|, "
      "[0-9]\\)$|^[0-9]\\)$|shown\\(|earliest|^few$");
  Findings findings;
  const auto take = [&](const std::regex& what, bool mayBeNever) {
    for (std::sregex_iterator hit(file.text.begin(), file.text.end(), what), end; hit != end;
         ++hit) {
      if (mayBeNever && std::regex_search(hit->str(1), never)) continue;
      const auto until = file.text.begin() + hit->position();
      findings.push_back(
          at(file, 1 + static_cast<std::size_t>(std::count(file.text.begin(), until, '\n'))) +
          "a count with a noun of many: base::counted says one of it too");
    }
  };
  take(joined, true);
  take(placed, false);
  return findings;
}

Findings checkShape(const SourceFile& file) {
  Findings findings;
  if (isHeader(file) && !file.text.starts_with("#pragma once\n"))
    findings.push_back(file.path + ": does not start with #pragma once");
  const auto lines = std::ranges::count(file.text, '\n');
  const auto most = isHeader(file) ? 200 : 400;
  if (lines > most)
    findings.push_back(file.path + ": " + std::to_string(lines) + " lines, at most " +
                       std::to_string(most));
  return findings;
}

Findings checkErrorPage(std::string_view page, const std::vector<std::string_view>& codes) {
  std::map<std::string, std::size_t> lengths;
  Findings findings;
  std::string heading;
  for (const auto line : base::split(page, '\n')) {
    if (line.starts_with("## ")) {
      heading = base::trim(line.substr(3));
      if (!lengths.try_emplace(heading, 0).second)
        findings.push_back("docs/errors.md: " + heading + " has two paragraphs");
    } else if (!heading.empty()) {
      lengths[heading] += base::trim(line).size();
    }
  }
  constexpr std::size_t shortest = 80; // characters; less cannot say what, what is lost, what now
  for (const auto code : codes) {
    const auto found = lengths.find(std::string(code));
    if (found == lengths.end())
      findings.push_back("docs/errors.md: no paragraph for " + std::string(code));
    else if (found->second < shortest)
      findings.push_back("docs/errors.md: too little said under " + std::string(code));
  }
  for (const auto& [name, length] : lengths)
    if (std::ranges::find(codes, name) == codes.end())
      findings.push_back("docs/errors.md: no error has the code " + name);
  return findings;
}

Findings checkTopLevel(const std::vector<std::string>& names) {
  static const std::set<std::string>
      allowed{"CMakeLists.txt",
              "CMakePresets.json",
              "README.md",
              "DEVELOPERS.md",
              "LICENSE",
              "src",
              "ui",
              "schema",
              "demo-data",
              "tests",
              "docs",
              "build",
              "out"}; // the last two are made by the build and are not in the repository
  Findings findings;
  for (const auto& name : names)
    if (!name.starts_with('.') && !allowed.contains(name))
      findings.push_back(name + ": has no place at the top of the repository");
  return findings;
}

} // namespace gk::layout
