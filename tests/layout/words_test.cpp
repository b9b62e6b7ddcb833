#include "layout/words.h"

#include "base/files/files.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::layout;
namespace fs = std::filesystem;

namespace {

SourceFile fileAt(const fs::path& path) {
  const fs::path root = GK_SOURCE_DIR;
  auto text = base::readFile(path);
  REQUIRE(text);
  return {fs::relative(path, root).generic_string(), std::move(text).value()};
}

std::vector<SourceFile> filesBelow(const std::vector<std::string>& folders,
                                   std::initializer_list<std::string_view> endings) {
  std::vector<SourceFile> files;
  for (const auto& folder : folders)
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(GK_SOURCE_DIR) / folder))
      if (entry.is_regular_file() &&
          std::ranges::find(endings, entry.path().extension().string()) != endings.end())
        files.push_back(fileAt(entry.path()));
  std::ranges::sort(files, {}, &SourceFile::path);
  REQUIRE_FALSE(files.empty());
  return files;
}

void fail(const Findings& findings) {
  for (const auto& finding : findings)
    FAIL_CHECK(finding);
}

} // namespace

TEST_CASE("Every word that a person reads is plain American English") {
  for (const auto& file : filesBelow({"ui", "src"}, {".h", ".cpp"}))
    fail(checkWords(file));
  for (const auto& file : filesBelow({"src/reports/letters/templates"}, {".txt"}))
    fail(checkPage(file));
}

TEST_CASE("The pages of docs say it as the program does") {
  const fs::path root = GK_SOURCE_DIR;
  for (const auto* page : {"README.md", "DEVELOPERS.md", "docs/errors.md", "docs/privacy.md",
                           "docs/signed-days.md", "docs/verbs.md", "docs/architecture.md"})
    fail(checkPage(fileAt(root / page)));
}

TEST_CASE("What tests are called and what is said beside code is plain American English too") {
  for (const auto& file : filesBelow({"ui", "src", "tests", "demo-data"}, {".h", ".cpp"}))
    if (!file.path.starts_with("tests/layout/words")) fail(checkOwnWords(file)); // names them
}

TEST_CASE("A report speaks of students, and only what is said to a family of a child") {
  for (const auto& file : filesBelow({"src/reports"}, {".h", ".cpp"}))
    fail(checkReportWords(file));
  CHECK_FALSE(checkReportWords({"src/reports/x.cpp", "counts(\"Children seen\")"}).empty());
  CHECK(checkReportWords({"src/reports/x.cpp", "counts(\"Seen\", \"children_seen\")"}).empty());
}

TEST_CASE("Remarks and the names of tests are found, and nothing else of a source") {
  const SourceFile file{"tests/a_test.cpp",
                        "// asks anew\n"
                        "TEST_CASE(\"What a pupil \"\n          \"says\", \"[tag]\") {\n"
                        "  const char quote = '\"'; // of nobody\n"
                        "  CHECK(f(\"somebody // colour\") == 1'000);\n"
                        "  SECTION(\"what mends it\") {} // `work.cancelled` is stored\n"};
  CHECK(remarksOf(file.text).size() == 3);
  CHECK(testNamesOf(file.text).size() == 2);
  CHECK(testNamesOf(file.text).front().text == "What a pupil says");
  // Where what is looked at is cut off within a letter or a string, it ends there.
  CHECK(literalsOf("f(\"a\", '\\").size() == 1);
  CHECK(literalsOf("f(\"a\") + R\"(b").size() == 2);
  CHECK(checkOwnWords(file) == Findings{"tests/a_test.cpp:1: \"anew\" in \"// asks anew\"",
                                        "tests/a_test.cpp:4: \"nobody\" in \"// of nobody\"",
                                        "tests/a_test.cpp:2: \"pupil*\" in \"What a pupil says\"",
                                        "tests/a_test.cpp:6: \"mends\" in \"what mends it\""});
}

TEST_CASE("No label is a stored name") {
  for (const auto& file : filesBelow({"ui", "src"}, {".h", ".cpp"}))
    fail(checkShownNames(file));
}

TEST_CASE("Dates, times and percents have one function each") {
  for (const auto& file : filesBelow({"ui", "src"}, {".h", ".cpp"}))
    fail(checkOneWay(file));
}

TEST_CASE("The words are found where they would be read, and only there") {
  const auto wrong = [](const std::string& text) {
    return !checkWords({"ui/pages/x.cpp", text}).empty();
  };
  CHECK(wrong("say(u\"Mend the \"\n    \"file\"_s);"));
  CHECK(wrong("say(\"at 95 \" \"%\");"));
  CHECK(wrong("say(\"Nobody is here\");"));
  CHECK_FALSE(wrong("field(\"licence_until\");"));
  CHECK_FALSE(wrong("// mend it anew\nsay(\"recommended\");"));
  CHECK_FALSE(wrong("inline constexpr auto gk::base::enumNames<X> = to_array({\"sensory or "
                    "behaviour\"});"));

  const auto found = literalsOf("a('\"', \"one\" u\" two\"_s, \"th\\\"ree\");");
  REQUIRE(found.size() == 2);
  CHECK(found[0].text == "one two");
  CHECK(found[1].text == "th\\\"ree");

  CHECK_FALSE(checkShownNames({"ui/pages/x.cpp", "toQt(base::nameOf(role))"}).empty());
  CHECK(checkShownNames({"ui/pages/x.cpp", "toQt(base::displayName(role))"}).empty());
  CHECK_FALSE(checkOneWay({"ui/pages/x.cpp", "toQt(day.date.iso())"}).empty());
  CHECK_FALSE(checkOneWay({"src/reports/x.cpp", "base::fixed(100 * share, 1)"}).empty());
}
