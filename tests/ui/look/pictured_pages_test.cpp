#include "base/files/files.h"
#include "support/clinic.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <regex>
#include <set>

using namespace gk;
using namespace gk::test;

namespace {

/// What a page, a form, a panel or a dialog of the window is saved as, in every look.
const std::map<std::string, std::string>& picturesOf() {
  static const std::map<std::string, std::string> all{{"AnswerPanel", "form-desk-student"},
                                                      {"AreaPage", "desk-area"},
                                                      {"AuthorizationForm", "dentist-exam"},
                                                      {"BrandPanel", "first-start"},
                                                      {"CalendarPage", "calendar"},
                                                      {"CautionsPage", "safety"},
                                                      {"ChairPage", "chair-empty"},
                                                      {"CloseOutPage", "close-out"},
                                                      {"CoverPage", "cover"},
                                                      {"DayBoardPage", "board"},
                                                      {"DecideDialog", "restore-question"},
                                                      {"DeskPage", "desk"},
                                                      {"FieldForm", "desk-area"},
                                                      {"FieldPanel", "keep-dry"},
                                                      {"FinishPanel", "finish"},
                                                      {"FirstDayPage", "first-check-list"},
                                                      {"FormCountPage", "form-count"},
                                                      {"FormDeskPage", "form-desk"},
                                                      {"HandoutsPage", "handouts"},
                                                      {"HelpOverlay", "keys"},
                                                      {"IdentityPanel", "identity"},
                                                      {"IncidentPage", "incident"},
                                                      {"LaptopPage", "settings"},
                                                      {"LateForm", "late-form"},
                                                      {"ListPage", "list"},
                                                      {"OpenDayForm", "open-day"},
                                                      {"PinPad", "pin-pad"},
                                                      {"PrintsPage", "prints"},
                                                      {"ProgramPage", "first-program"},
                                                      {"ReadinessPage", "check"},
                                                      {"RecheckPanel", "recheck"},
                                                      {"RunnersPage", "runners"},
                                                      {"ScreeningPanel", "screening"},
                                                      {"StartPage", "first-start"},
                                                      {"TodayPage", "team"},
                                                      {"TotalsPage", "totals"},
                                                      {"WhatIfPanel", "totals"}};
  return all;
}

/// And each question that the window's own prompter asks; files, folders and printers are the
/// system's.
const std::map<std::string, std::string>& picturesOfQuestions() {
  static const std::map<std::string, std::string> all{
      {"confirm", "question-confirm"}, {"text", "question-text"},
      {"fill", "question-fill"},       {"choose", "other-day"},
      {"decide", "question-decide"},   {"decideBy", "restore-question"},
      {"passphrase", "day-envelope"},  {"pin", "pin-question"}};
  return all;
}

std::vector<base::Path> filesBelow(const char* folder, const std::string& ending) {
  std::vector<base::Path> files;
  for (const auto& file :
       std::filesystem::recursive_directory_iterator(base::Path(GK_SOURCE_DIR) / folder))
    if (file.path().string().ends_with(ending)) files.push_back(file.path());
  return files;
}

/// The sources of all pictures that are taken in every look.
std::string pictureTests() {
  std::string all;
  for (const auto& file : filesBelow("tests/ui/look", "_test.cpp")) {
    const auto text = must(base::readFile(file));
    if (text.find("in every look as pictures\", \"[.pictures]\"") != std::string::npos) all += text;
  }
  return all;
}

bool isSaved(const std::string& picture, const std::string& tests) {
  return std::regex_search(tests, std::regex("(u\"|%1-)" + picture + "[\"-]"));
}

} // namespace

TEST_CASE("Every page, form, panel and dialog of the window has its picture in every look") {
  const auto tests = pictureTests();
  REQUIRE_FALSE(tests.empty());
  const std::regex shown("class (\\w+(?:Page|Form|Panel|Dialog|Overlay|Pad)) final : public");
  std::set<std::string> found;
  for (const auto& file : filesBelow("ui", ".h")) {
    const auto text = must(base::readFile(file));
    for (auto at = std::sregex_iterator(text.begin(), text.end(), shown);
         at != std::sregex_iterator(); ++at) {
      const auto name = (*at)[1].str();
      INFO(name);
      found.insert(name);
      const auto picture = picturesOf().find(name);
      REQUIRE(picture != picturesOf().end());
      INFO(picture->second);
      CHECK(isSaved(picture->second, tests));
    }
  }
  for (const auto& [name, picture] : picturesOf()) {
    INFO(name);
    CHECK(found.contains(name));
  }
}

TEST_CASE("Every question that the window asks by itself has its picture in every look") {
  const auto tests = pictureTests();
  const auto asked = must(base::readFile(base::Path(GK_SOURCE_DIR) / "ui/asking/prompter.h"));
  const std::regex question("virtual [^;=]* (\\w+)\\(");
  const std::set<std::string> ofTheSystem{"openFile", "saveFile", "newFile", "folder", "printer"};
  std::set<std::string> found;
  for (auto at = std::sregex_iterator(asked.begin(), asked.end(), question);
       at != std::sregex_iterator(); ++at) {
    const auto name = (*at)[1].str();
    if (ofTheSystem.contains(name)) continue;
    INFO(name);
    found.insert(name);
    const auto picture = picturesOfQuestions().find(name);
    REQUIRE(picture != picturesOfQuestions().end());
    INFO(picture->second);
    CHECK(isSaved(picture->second, tests));
  }
  CHECK(found.size() == picturesOfQuestions().size());
}
