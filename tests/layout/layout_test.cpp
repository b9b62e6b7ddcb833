#include "base/error.h"
#include "base/files/files.h"
#include "base/text/text.h"
#include "layout/checker.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

using namespace gk;
using namespace gk::layout;
namespace fs = std::filesystem;

namespace {

const fs::path top = GK_SOURCE_DIR;

std::string textOf(const std::string& path) {
  auto text = base::readFile(top / path);
  INFO(path);
  REQUIRE(text);
  return std::move(text).value();
}

/// Every .h and .cpp below the folders, in the order of their paths.
std::vector<SourceFile> sourcesIn(const std::vector<std::string>& folders) {
  std::vector<SourceFile> files;
  for (const auto& folder : folders)
    for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
      const auto extension = entry.path().extension();
      if (!entry.is_regular_file() || (extension != ".h" && extension != ".cpp")) continue;
      const auto path = fs::relative(entry.path(), top).generic_string();
      files.push_back({path, textOf(path)});
    }
  std::ranges::sort(files, {}, &SourceFile::path);
  return files;
}

void report(const Findings& findings) {
  for (const auto& finding : findings)
    FAIL_CHECK(finding);
}

} // namespace

TEST_CASE("The modules use one another as the architecture says") {
  report(checkModules(modulesOf(textOf("src/CMakeLists.txt")), architecture()));
}

TEST_CASE("No include crosses a wall between modules") {
  const auto files = sourcesIn({"src", "ui"});
  REQUIRE(files.size() > 20); // else the test looks in the wrong place
  for (const auto& file : files) {
    report(checkWalls(file, architecture()));
    report(checkFaceWalls(file));
    report(checkNames(file, architecture()));
  }
}

TEST_CASE("No room includes one that stands over it") {
  const auto rooms = roomsOf(textOf("src/CMakeLists.txt"));
  REQUIRE(rooms.size() > 5); // else the test looks in the wrong place
  for (const auto& file : sourcesIn({"src"}))
    report(checkRooms(file, rooms));
}

TEST_CASE("No folder of sources holds more than twenty files") {
  std::vector<std::string> paths;
  for (const auto* folder : {"src", "ui", "demo-data", "tests"})
    for (const auto& entry : fs::recursive_directory_iterator(top / folder))
      if (entry.is_regular_file())
        paths.push_back(fs::relative(entry.path(), top).generic_string());
  REQUIRE(paths.size() > 1000); // else the test looks in the wrong place
  report(checkCrowds(paths));
}

TEST_CASE("Names go to a file that anyone can read by one way, and where that cannot seal it is "
          "said by name here",
          "[case-313]") {
  // saveNamed offers to seal; the others write what is of no use sealed: rows to be put right in a
  // spreadsheet, and sealed papers that are opened.
  const std::set<std::string> wanted{"ui/files/named_file.cpp", "ui/files/office_pack.cpp",
                                     "ui/desk/list_page.cpp", "ui/desk/list_page_missing.cpp"};
  std::set<std::string> found;
  for (const auto& file : sourcesIn({"ui"})) {
    if (file.path.starts_with("ui/asking/")) continue; // who asks says it
    // The reports and pages that have them hand them to saveNamed.
    const bool asksItself = file.text.find("prompter.saveFile(") != std::string::npos ||
                            file.text.find("prompter.newFile(") != std::string::npos ||
                            file.text.find("prompter.folder(") != std::string::npos;
    const bool mayHold = file.text.find("FileHolds::names)") != std::string::npos ||
                         file.text.find("FileHolds::names;") != std::string::npos ||
                         file.path == "ui/files/named_file.cpp";
    if (asksItself && mayHold) found.insert(file.path);
  }
  CHECK(found == wanted);
}

TEST_CASE("Each library stays in its one home") {
  for (const auto& file : sourcesIn({"src", "ui", "demo-data"}))
    report(checkHomes(file));
}

TEST_CASE("Every count is written so that one of it reads right", "[case-124]") {
  // Refusals of the estimates speak of tables, never of one.
  for (const auto& file : sourcesIn({"src", "ui"}))
    if (!file.path.starts_with("src/estimates/")) report(checkCounts(file));
}

TEST_CASE("Headers are guarded and no file is too long") {
  for (const auto& file : sourcesIn({"src", "ui", "demo-data", "tests"}))
    report(checkShape(file));
}

TEST_CASE("Every error code has its paragraph and every paragraph its code") {
  std::vector<std::string_view> codes;
  for (const auto code : base::allErrorCodes())
    codes.push_back(base::errorName(code));
  report(checkErrorPage(textOf("docs/errors.md"), codes));
}

TEST_CASE("Each term of known truth in the methods names a test that there is", "[case-394]") {
  std::map<std::string, std::string> tests; // from its name on, up to the next
  for (const auto& file : sourcesIn({"tests"})) {
    for (std::size_t at = file.text.find("TEST_CASE("); at != std::string::npos;) {
      // A name over several lines is several texts in a row.
      std::string name;
      bool isInside = false;
      for (auto letter = file.text.begin() + static_cast<std::ptrdiff_t>(at);
           letter != file.text.end() && (isInside || (*letter != ',' && *letter != ')'));
           ++letter) {
        if (*letter == '"')
          isInside = !isInside;
        else if (isInside)
          name += *letter;
      }
      const auto next = file.text.find("TEST_CASE(", at + 1);
      tests.emplace(name, file.text.substr(at, next - at));
      at = next;
    }
  }
  REQUIRE(tests.size() > 1000); // else the test looks in the wrong place
  const auto methods = textOf("docs/methods.md");
  const auto from = methods.find("## 12. Terms of known truth");
  REQUIRE(from != std::string::npos);
  const auto section = methods.substr(from, methods.find("\n## ", from + 1) - from);
  int named = 0;
  int compared = 0;
  std::set<std::string> points;
  for (const auto line : base::split(section, '\n')) {
    if (!line.starts_with("| ") || line.starts_with("| Point |")) continue;
    const auto cell = line.substr(line.rfind("| \"", line.size()) + 2);
    const auto name = std::string(cell.substr(1, cell.rfind('"') - 1));
    INFO(name);
    CHECK(tests.contains(name));
    ++named;
    const auto cells = base::split(line, '|');
    REQUIRE(cells.size() == 8); // two of them before the first and after the last line
    points.emplace(base::trim(cells[1]));
    // What is printed as a figure is compared with the test's own, or was printed by a longer run.
    const std::string now(cells[5]);
    if (now.find_first_of("0123456789") == std::string::npos || now.find("†") != std::string::npos)
      continue;
    CHECK(tests[name].find("methodsSay(") != std::string::npos);
    ++compared;
  }
  CHECK(named > 10);
  CHECK(compared > 9);
  for (int point = 1; point <= 12; ++point)
    CHECK(points.contains(std::to_string(point)));
}

TEST_CASE("Each file of the tests that a page names is there") {
  std::vector<std::string> pages{"README.md", "DEVELOPERS.md"};
  for (const auto& entry : fs::recursive_directory_iterator(top / "docs"))
    if (entry.path().extension() == ".md")
      pages.push_back(fs::relative(entry.path(), top).generic_string());
  int named = 0;
  for (const auto& page : pages) {
    const auto text = textOf(page);
    for (auto at = text.find("tests/"); at != std::string::npos; at = text.find("tests/", at + 1)) {
      constexpr auto letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_./-";
      auto path = text.substr(at, text.find_first_not_of(letters, at) - at);
      while (path.back() == '.')
        path.pop_back(); // of the sentence
      INFO(page << " names " << path);
      CHECK(fs::exists(top / path));
      ++named;
    }
  }
  CHECK(named > 100); // else the test looks in the wrong place
}

TEST_CASE("The top of the repository holds only what belongs there") {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(top))
    names.push_back(entry.path().filename().string());
  report(checkTopLevel(names));
}
