#include "base/text/text.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <sys/wait.h>

using namespace gk;
namespace fs = std::filesystem;

namespace {

struct Told {
  int code;
  std::string all;
  std::string lastLine;
};

/// tests/run itself, where installing, building, npm and the tests are played by scripts.
class Played {
 public:
  Played() {
    fs::create_directories(folder_ / "tests");
    fs::create_directories(folder_ / ".ci/fhir");
    fs::create_directories(folder_ / "bin");
    fs::copy_file(fs::path(GK_SOURCE_DIR) / "tests/run", folder_ / "tests/run");
    play(".ci/prepare", "echo \"prepare:$*\"");
    play(".ci/compile", "echo \"compile:$*\"");
    play("bin/npm", "echo npm:$1; mkdir -p .ci/fhir/node_modules/fhir");
    play("bin/node", "true");
    play("bin/ctest", "echo \"without=${GK_WITHOUT_OUTSIDE:-} fhir=${GK_FHIR:-} $*\"");
  }

  void play(const std::string& name, const std::string& does) {
    REQUIRE(base::replaceFile(folder_ / name, "#!/bin/bash\n" + does + "\n"));
    fs::permissions(folder_ / name, fs::perms::owner_all);
  }

  Told run(const std::string& words) {
    const auto out = folder_ / "out";
    const auto command = "cd / && unset GK_WITHOUT_OUTSIDE GK_FHIR; PATH='" +
                         (folder_ / "bin").string() + "':$PATH '" +
                         (folder_ / "tests/run").string() + "' " + words + " >'" + out.string() +
                         "' 2>&1";
    const int status = std::system(command.c_str());
    Told told{WEXITSTATUS(status), base::readFile(out).value(), ""};
    const auto lines = base::split(base::trim(told.all), '\n');
    told.lastLine = std::string(lines.back());
    return told;
  }

 private:
  test::Scratch folder_;
};

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("The tests' command installs what checks from outside and requires it", "[case-118]") {
  Played played;
  const auto told = played.run("-R date");
  INFO(told.all);
  CHECK(told.code == 0);
  CHECK(has(told.all, "prepare:outside\n"));
  CHECK(has(told.all, "npm:ci\n"));
  CHECK(told.lastLine.starts_with("without= fhir=required "));
  CHECK(told.lastLine.ends_with("-R date"));
}

TEST_CASE("Without the checks from outside the tests' command says so in its last line",
          "[case-118]") {
  Played played;
  const auto told = played.run("--without-outside -R date");
  INFO(told.all);
  CHECK(told.code == 0);
  CHECK(has(told.all, "prepare:\n"));
  CHECK_FALSE(has(told.all, "npm"));
  CHECK(has(told.all, "without=1 fhir= "));
  CHECK(told.lastLine.starts_with("Not run, as --without-outside was said"));
}

TEST_CASE("Where npm brings nothing the last line says what was left out", "[case-118]") {
  Played played;
  played.play("bin/npm", "exit 1");
  const auto told = played.run("");
  INFO(told.all);
  CHECK(told.code == 0);
  CHECK(has(told.all, "without= fhir= "));
  CHECK(told.lastLine.starts_with("Not run, as npm could not bring them"));
}

TEST_CASE("The tests' command fails with its tests, and where nothing can be installed",
          "[case-118]") {
  Played played;
  played.play("bin/ctest", "exit 8");
  CHECK(played.run("").code == 8);
  CHECK(played.run("--without-outside").code == 8);
  played.play(".ci/prepare", "exit 1");
  const auto told = played.run("");
  CHECK(told.code == 1);
  CHECK(has(told.lastLine, "--without-outside"));
  CHECK_FALSE(has(told.all, "compile"));
}
