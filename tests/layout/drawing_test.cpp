#include "layout/drawing.h"

#include "base/files/files.h"

#include <catch2/catch.hpp>
#include <cstdlib>

using namespace gk;
using namespace gk::layout;

namespace {

const base::Path treeTop = GK_SOURCE_DIR;

std::optional<std::string> fileText(const std::string& path) {
  auto text = base::readFile(treeTop / path);
  if (!text) return std::nullopt;
  return std::move(text).value();
}

/// The modules as they are declared, with the face that is no module of src.
Uses modulesAndFaces() {
  auto modules = modulesOf(fileText("src/CMakeLists.txt").value());
  modules["ui"] = architecture().at("ui");
  return modules;
}

void listAll(const Findings& findings) {
  for (const auto& finding : findings)
    FAIL_CHECK(finding);
}

const Uses house{{"base", {}},
                 {"store", {"base"}},
                 {"reports/retention", {"base"}},
                 {"session", {"base", "store", "reports/retention"}}};

} // namespace

TEST_CASE("A drawing has a floor for each height and only the arrows that do not follow") {
  CHECK(drawingOf(house) == "```mermaid\nflowchart TD\n"
                            "  subgraph floor2[\"2\"]\n    session[\"session\"]\n  end\n"
                            "  subgraph floor1[\"1\"]\n"
                            "    reports_retention[\"reports/retention\"]\n"
                            "    store[\"store\"]\n  end\n"
                            "  subgraph floor0[\"0\"]\n    base[\"base\"]\n  end\n"
                            "  session --> reports_retention & store\n"
                            "  reports_retention --> base\n"
                            "  store --> base\n```\n");
}

TEST_CASE("A drawing takes the place of the one before, and of nothing else") {
  const std::string before = "top\n<!-- made from src/CMakeLists.txt by tests/layout; do not edit "
                             "-->\n";
  const std::string after = "<!-- end of what is made -->\nbottom\n";
  CHECK(withDrawing(before + "old\n" + after, "new\n") == before + "new\n" + after);
  CHECK_FALSE(withDrawing("old\n" + after, "new\n"));
  CHECK_FALSE(withDrawing(before + "old\n", "new\n"));
}

TEST_CASE("A module without its line, with two, and a line of no module are found") {
  const std::string line = "| `base` | what all use |\n| `store` | the file |\n";
  const std::string rest = "| `session` | the door |\n| `reports/retention` | what held |\n";
  CHECK(checkModuleLines(line + rest, house).empty());
  CHECK(checkModuleLines(line, house).size() == 2);
  CHECK(checkModuleLines(line + line + rest, house).size() == 2);
  CHECK(checkModuleLines(line + rest + "| `attic` | things |\n", house).size() == 1);
}

TEST_CASE("A step that names a file or a function that is not there is found") {
  const TextOf texts = [](const std::string& path) -> std::optional<std::string> {
    if (path == "src/store/book.h") return "Result<Done> act(const Work& work);";
    return std::nullopt;
  };
  CHECK(checkSteps("1. `Book::act()` of\n   `src/store/book.h`, by `make all`\n", texts).empty());
  CHECK(checkSteps("10. `Book::gone` of `src/store/book.h`\n", texts).size() == 1);
  CHECK(checkSteps("1. `src/store/gone.h`\n", texts).size() == 1);
  CHECK(checkSteps("1. `act`, and no file\n", texts).size() == 1);
  CHECK(checkSteps("`Book::gone` in no step\n", texts).empty());
  CHECK(checkLinks("[it](../src/store/book.h), [up](#top)", texts).empty());
  CHECK(checkLinks("[it](gone.md)", texts).size() == 1);
}

TEST_CASE("The page of the architecture draws the modules as they are", "[architecture]") {
  const std::string path = "docs/architecture.md";
  const auto drawing = drawingOf(modulesAndFaces());
  const auto page = withDrawing(fileText(path).value(), drawing);
  REQUIRE(page); // both markers are there
  if (std::getenv("GK_WRITE_ARCHITECTURE")) REQUIRE(base::replaceFile(treeTop / path, *page));
  INFO("Made by GK_WRITE_ARCHITECTURE=1 build/release/bin/test_layout \"[architecture]\"");
  CHECK(fileText(path).value() == *page);
}

TEST_CASE(
    "The page of the architecture says what each module and room is for, and names what is there",
    "[architecture]") {
  const auto page = fileText("docs/architecture.md").value();
  auto said = modulesAndFaces();
  for (const auto& [module, rooms] : roomsOf(fileText("src/CMakeLists.txt").value()))
    for (const auto& room : rooms)
      said.try_emplace(room == module ? module : module + "/" + room);
  listAll(checkModuleLines(page, said));
  listAll(checkSteps(page, fileText));
  listAll(checkLinks(page, fileText));
}
