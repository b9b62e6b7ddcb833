#include "base/files/files.h"
#include "base/text/text.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>

using namespace gk;
namespace fs = std::filesystem;

namespace {

const fs::path repository = GK_SOURCE_DIR;

std::string sourceAt(const fs::path& path) {
  auto text = base::readFile(path);
  INFO(path);
  REQUIRE(text);
  return std::move(text).value();
}

/// All sources of the folders, one after another.
std::string sourcesBelow(const std::vector<std::string>& folders) {
  std::string all;
  for (const auto& folder : folders)
    for (const auto& entry : fs::recursive_directory_iterator(repository / folder))
      if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h")
        all += sourceAt(entry.path());
  return all;
}

/// The names that a class declares in public: what stands before the first bracket of each
/// declaration.
std::set<std::string> publicVerbs(const std::string& header, const std::string& className) {
  const auto begins = header.find("class " + className + " ");
  REQUIRE(begins != std::string::npos);
  const auto from = header.find("public:", begins) + std::string_view("public:").size();
  const auto until = std::min(header.find(" private:", from), header.find(" protected:", from));
  REQUIRE(until != std::string::npos);
  const auto code =
      std::regex_replace(header.substr(from, until - from), std::regex("//[^\n]*"), "");
  std::set<std::string> names;
  for (const auto declaration : base::split(code, ';')) {
    const auto bracket = declaration.find('(');
    if (bracket == std::string_view::npos) continue;
    const auto before = declaration.substr(0, bracket);
    names.emplace(before.substr(before.find_last_of(" *&\n") + 1));
  }
  return names;
}

bool calls(const std::string& sources, const std::string& verb) {
  return std::ranges::any_of(std::array{".", "->", "::"}, [&](const char* how) {
    return sources.find(how + verb + "(") != std::string::npos;
  });
}

} // namespace

TEST_CASE("Whatever the session can do, a person can do in the window or by the command",
          "[case-116]") {
  std::set<std::string> verbs;
  for (const auto& [file, name] : {std::pair{"session.h", "Session"},
                                   {"people_verbs.h", "PeopleVerbs"},
                                   {"day_verbs.h", "DayVerbs"},
                                   {"desk_verbs.h", "DeskVerbs"},
                                   {"form_verbs.h", "FormVerbs"},
                                   {"key_verbs.h", "KeyVerbs"}})
    verbs.merge(publicVerbs(sourceAt(repository / "src/session" / file), name));
  CHECK(verbs.contains("enterProgram"));
  CHECK(verbs.contains("resolveFlag"));
  CHECK(verbs.size() > 60); // else the test reads the wrong place
  const auto faces = sourcesBelow({"src/office", "ui"});
  // One row of what another verb writes as a whole; the faces say the whole.
  const std::map<std::string, std::string> wholes{{"startTimer", "work"},
                                                  {"enterStep", "work"},
                                                  {"wet", "work"},
                                                  {"stopTeeth", "work"},
                                                  {"enterFlag", "enterConsent"},
                                                  {"signedSheet", "inspectSheet"},
                                                  {"importRoster", "write"},
                                                  {"enrollRoster", "write"},
                                                  {"admitMerge", "absorb"}}; // RosterDraft::write
  for (const auto& verb : verbs) {
    // Ends a book that was built in bulk, which only the demo and the tests do; looks over an open
    // book, where the command looks over the file; asks what `unlock` asks itself.
    if (verb == "finish" || verb == "findings" || verb == "whoOpens") continue;
    const auto whole = wholes.find(verb);
    INFO(verb);
    CHECK(calls(faces, whole == wholes.end() ? verb : whole->second));
  }
}

TEST_CASE("No test passes over what a program from outside was to check", "[case-118]") {
  for (const auto& entry : fs::recursive_directory_iterator(repository / "tests")) {
    if (entry.path().extension() != ".cpp") continue;
    const auto source = sourceAt(entry.path());
    if (source.find("std::"
                    "system(") == std::string::npos)
      continue;
    INFO(fs::relative(entry.path(), repository));
    // tests/support/outside.h alone decides what may be left out, and who hears of it.
    CHECK(source.find("WARN"
                      "(") == std::string::npos);
  }
}

TEST_CASE("The checks from outside are installed by the command that runs them", "[case-118]") {
  const auto packages = sourceAt(repository / ".ci/packages");
  for (const char* package : {"r-base-core", "r-cran-survival", "r-cran-survey", "r-cran-sandwich",
                              "python3-jsonschema"}) {
    INFO(package);
    CHECK(packages.find(std::string("\noutside ") + package + "\n") != std::string::npos);
  }
  const auto command = sourceAt(repository / "tests/run");
  CHECK(command.find(".ci/prepare outside") != std::string::npos);
  CHECK(command.find("--without-outside") != std::string::npos);
}
