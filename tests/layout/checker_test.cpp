#include "layout/checker.h"

#include <catch2/catch.hpp>

using namespace gk::layout;

// Each rule is shown to catch a violation that was planted on purpose.

namespace {

Findings walls(const std::string& path, const std::string& text) {
  return checkWalls({path, text}, architecture());
}

std::string lines(int count) {
  std::string text = "#pragma once\n";
  for (int i = 1; i < count; ++i)
    text += "\n";
  return text;
}

} // namespace

TEST_CASE("The module list is read from its lines over comments and line breaks") {
  const auto modules =
      modulesOf("# gk_module(old USES base)\n"
                "function(gk_module name)\nendfunction()\n"
                "gk_module(base)\n"
                "gk_module(store USES base kit # why\n  roster LINKS SQLite::SQLite3)\n");
  const Uses expected{{"base", {}}, {"store", {"base", "kit", "roster"}}};
  CHECK(modules == expected);
}

TEST_CASE("The rooms of a module are read in their order") {
  const auto rooms =
      roomsOf("gk_module(base)\n"
              "gk_module(store\n  ROOMS sqlite store\n    merge\n  USES base kit)\n");
  CHECK(rooms == Rooms{{"store", {"sqlite", "store", "merge"}}});
}

TEST_CASE("A room that includes one over it is caught, and a file in no room") {
  const Rooms rooms{{"store", {"sqlite", "store", "merge"}}};
  const auto found = [&](const std::string& path, const std::string& included) {
    return checkRooms({path, "#include \"" + included + "\"\n"}, rooms).size();
  };
  CHECK(found("src/store/sqlite/a.cpp", "store/merge/b.h") == 1);
  CHECK(found("src/store/sqlite/a.cpp", "store/book.h") == 1);
  CHECK(found("src/store/book.cpp", "store/attic/b.h") == 1);
  CHECK(found("src/store/attic/a.cpp", "base/text/text.h") == 1);
  CHECK(found("src/store/book.cpp", "store/sqlite/b.h") == 0);
  CHECK(found("src/store/merge/a.cpp", "store/merge/b.h") == 0);
  CHECK(found("src/store/sqlite/a.cpp", "base/merge/b.h") == 0);
  CHECK(found("src/store/app/main.cpp", "store/merge/b.h") == 0);
  CHECK(found("src/kit/a.cpp", "store/attic/b.h") == 0);
}

TEST_CASE("A folder of more than twenty files is caught, unless it only holds data") {
  std::vector<std::string> paths;
  for (int i = 0; i < 20; ++i) {
    paths.push_back("src/kit/" + std::to_string(i) + ".h");
    paths.push_back("tests/data/" + std::to_string(i) + ".csv");
  }
  paths.push_back("tests/data/more.csv");
  CHECK(checkCrowds(paths).empty());
  paths.push_back("src/kit/embed.cmake");
  CHECK(checkCrowds(paths).size() == 1);
}

TEST_CASE("A module list that moves a wall is caught") {
  Uses declared = architecture();
  declared.erase("ui");
  declared.erase("office");
  REQUIRE(checkModules(declared, architecture()).empty());

  SECTION("by a use too many") {
    declared["reports"].insert("vault");
    const auto findings = checkModules(declared, architecture());
    REQUIRE(findings.size() == 1);
    CHECK(findings.front().find("reports uses") != std::string::npos);
  }
  SECTION("by a module no one decided") {
    declared["shortcuts"] = {"store", "vault"};
    CHECK(checkModules(declared, architecture()).size() == 1);
  }
  SECTION("by a module left out") {
    declared.erase("vault");
    CHECK(checkModules(declared, architecture()).size() == 1);
  }
}

TEST_CASE("A report that includes the vault is caught") {
  const auto findings = walls("src/reports/letters.cpp", "#include \"base/time/date.h\"\n"
                                                         "#include \"vault/person.h\"\n");
  REQUIRE(findings.size() == 1);
  CHECK(findings.front() == "src/reports/letters.cpp:2: reports may not include vault");
}

TEST_CASE("No spelling of an include hides a crossed wall") {
  CHECK(walls("src/exchange/pack.cpp", "  #  include \"store/book.h\"\n").size() == 1);
  CHECK(walls("src/exchange/pack.cpp", "#include <store/book.h>\n").size() == 1);
  CHECK(walls("src/exchange/pack.cpp", "#include \"../store/book.h\"\n").size() == 1);
  CHECK(walls("src/exchange/pack.cpp", "#include \"book.h\"\n").size() == 1);
  CHECK(walls("src/exchange/pack.cpp", "#include\"store/book.h\"\r\n").size() == 1);
}

TEST_CASE("A face that goes round the session is caught") {
  CHECK(walls("ui/pages/totals.cpp", "#include \"store/book.h\"\n").size() == 1);
  CHECK(walls("ui/pages/totals.cpp", "#include \"vault/people.h\"\n").size() == 1);
  CHECK(walls("src/office/main.cpp", "#include \"exchange/pack.h\"\n").size() == 1);
  CHECK(walls("ui/app.cpp", "#include \"session/session.h\"\n#include \"widgets/chart.h\"\n"
                            "#include <QWidget>\n")
            .empty());
}

TEST_CASE("A page that knows another's or the window's inside is caught") {
  const auto found = [](const std::string& path, const std::string& included) {
    return checkFaceWalls({path, "#include \"" + included + "\"\n"}).size();
  };
  CHECK(found("ui/desk/a.cpp", "ui/board/late_form.h") == 1);
  CHECK(found("ui/board/a.cpp", "ui/windows/book_view.h") == 1);
  CHECK(found("ui/widgets/a.h", "ui/forms/field.h") == 1);
  CHECK(found("ui/support/a.h", "ui/models/board_model.h") == 1);
  CHECK(found("ui/attic/a.h", "ui/support/text.h") == 1);
  CHECK(found("ui/board/a.h", "ui/attic/text.h") == 1);
  CHECK(found("ui/desk/a.cpp", "ui/widgets/page.h") == 0);
  CHECK(found("ui/windows/a.cpp", "ui/desk/desk_page.h") == 0);
}

TEST_CASE("A face that names what it may not include is caught, whichever header brought it") {
  const auto found = [](const std::string& path, const std::string& text) {
    return checkNames({path, text}, architecture()).size();
  };
  CHECK(found("ui/board/a.h", "void take(store::Fault fault);\n") == 1);
  CHECK(found("src/office/a.cpp", "vault::Person person;\n") == 1);
  CHECK(found("ui/board/a.h", "void take(session::Fault fault);\n") == 0);
  CHECK(found("src/session/a.h", "void take(store::Fault fault);\n") == 0);
}

TEST_CASE("A core that reaches up to a face is caught") {
  CHECK(walls("src/session/session.cpp", "#include \"ui/app.h\"\n").size() == 1);
  CHECK(walls("src/session/session.cpp", "#include \"office/say.h\"\n").size() == 1);
}

TEST_CASE("A file in no module is caught and files outside have no walls") {
  CHECK(walls("src/helpers/misc.cpp", "").size() == 1);
  CHECK(walls("src/misc.cpp", "").size() == 1);
  CHECK(walls("tests/store/book_test.cpp", "#include \"vault/people.h\"\n").empty());
}

TEST_CASE("A library away from its home is caught") {
  CHECK(checkHomes({"src/session/session.cpp", "#include <sqlite3.h>\n"}).size() == 1);
  CHECK(checkHomes({"src/vault/seal.cpp", "#include <sodium.h>\n"}).size() == 1);
  CHECK(checkHomes({"src/reports/published.cpp", "#include <glpk.h>\n"}).size() == 1);
  CHECK(checkHomes({"src/store/rows/rows.cpp", "#include <nlohmann/json.hpp>\n"}).size() == 1);
  CHECK(checkHomes({"src/exchange/pack.h", "#include <nlohmann/json_fwd.hpp>\n"}).size() == 1);
  CHECK(checkHomes({"src/exchange/lists/sheets.cpp", "#include <zip.h>\n"}).size() == 1);
  CHECK(checkHomes({"src/roster/child/child.cpp", "#include <expat.h>\n"}).size() == 1);
  CHECK(checkHomes({"src/session/session.h", "#include <QString>\n"}).size() == 1);
  CHECK(checkHomes({"src/kit/light.cpp", "auto t = std::chrono::system_clock::now();\n"}).size() ==
        1);
}

TEST_CASE("A library in its home is left alone") {
  CHECK(checkHomes({"src/store/rows/rows.cpp", "#include <sqlite3.h>\n"}).empty());
  CHECK(checkHomes({"src/crypto/seal.cpp", "#include <sodium.h>\n"}).empty());
  CHECK(checkHomes({"src/reports/publish/cheapest_move.cpp", "#include <glpk.h>\n"}).empty());
  CHECK(checkHomes({"src/exchange/pack.cpp", "#include <nlohmann/json.hpp>\n"}).empty());
  CHECK(checkHomes({"ui/app.h", "#include <QString>\n"}).empty());
  CHECK(checkHomes({"src/base/time/clock.cpp", "std::chrono::steady_clock::now();\n"}).empty());
}

TEST_CASE("A count that would read \"1 letters\" is caught") {
  CHECK(checkCounts({"src/a.cpp", "out << \"Took in \" << n << \" forms.\";"}).size() == 1);
  CHECK(checkCounts({"src/a.cpp", "std::to_string(n) +\n  \" days ago\""}).size() == 1);
  CHECK(checkCounts({"ui/a.cpp", "u\"%1 urgent sheets printed\"_s.arg(n)"}).size() == 1);
  CHECK(checkCounts({"ui/a.cpp", "counted(n, \"letter\", \"letters\") + u\" printed\"_s"}).empty());
  CHECK(checkCounts({"src/a.cpp", "\"over \" + number(longOpen) + \" days\""}).empty());
}

TEST_CASE("A header without its guard and files too long are caught") {
  CHECK(checkShape({"src/kit/light.h", "// a light\n#pragma once\n"}).size() == 1);
  CHECK(checkShape({"src/kit/light.h", lines(200)}).empty());
  CHECK(checkShape({"src/kit/light.h", lines(201)}).size() == 1);
  CHECK(checkShape({"src/kit/light.cpp", lines(400)}).empty());
  CHECK(checkShape({"src/kit/light.cpp", lines(401)}).size() == 1);
}

TEST_CASE("An error page that disagrees with the codes is caught") {
  const std::string enough(100, 'x');
  const std::string page = "# Errors\n\n## a.one\n\n" + enough + "\n\n## a.two\n\n" + enough + "\n";
  CHECK(checkErrorPage(page, {"a.one", "a.two"}).empty());
  CHECK(checkErrorPage(page, {"a.one", "a.two", "a.three"}).size() == 1);
  CHECK(checkErrorPage(page, {"a.one"}).size() == 1);
  CHECK(checkErrorPage(page + "## a.one\n" + enough, {"a.one", "a.two"}).size() == 1);
  CHECK(checkErrorPage("## a.one\nSorry.\n", {"a.one"}).size() == 1);
}

TEST_CASE("A stray file at the top is caught") {
  CHECK(checkTopLevel({"src", "README.md", ".ci", "build", "out"}).empty());
  CHECK(checkTopLevel({"src", "notes.txt"}).size() == 1);
}
