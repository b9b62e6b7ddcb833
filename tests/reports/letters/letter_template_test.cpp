#include "reports/sample.h"
#include "support/samples/letter_samples.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;

namespace {

/// The English template with one piece of it changed.
std::string changed(const std::string& what, const std::string& to) {
  auto text = test::shippedText("english.txt");
  const auto at = text.find(what);
  INFO(what);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), to);
}

std::string refusal(const std::string& text) {
  const auto made = LetterTemplate::parse("letters/english.txt", text);
  REQUIRE_FALSE(made.has_value());
  CHECK(made.error().code == base::ErrorCode::letterTemplate);
  return made.error().detail;
}

/// Line and column of `what` in the text, as an editor counts them.
std::string placeOf(const std::string& text, const std::string& what) {
  const auto at = text.find(what);
  REQUIRE(at != std::string::npos);
  const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
  const auto start = text.rfind('\n', at) + 1;
  return "letters/english.txt:" + std::to_string(line + 1) + ":" + std::to_string(at - start + 1) +
         ": ";
}

} // namespace

TEST_CASE("the templates that come with the program are whole and drafts") {
  const auto templates = test::shippedLetters();
  REQUIRE(templates.all().size() == 2);
  for (const auto& one : templates.all()) {
    INFO(one.header().language);
    CHECK(one.header().isDraft());
    CHECK_FALSE(one.header().draftMark.empty());
    CHECK_FALSE(one.header().rightToLeft);
  }
}

TEST_CASE("a placeholder that nothing is called is refused with its place") {
  const auto text = changed("{sealed_count} back teeth", "{sealed_cuont} back teeth");
  const auto said = refusal(text);
  CHECK(said.starts_with(placeOf(text, "{sealed_cuont}")));
  CHECK(said.find("no placeholder has this name; there is: sealed_count, sealed_where") !=
        std::string::npos);
}

TEST_CASE("a question that nothing is called is refused with its place") {
  const auto text = changed("{?swelling}", "{?swollen}");
  CHECK(refusal(text).starts_with(placeOf(text, "{?swollen}") + "no question has this name"));
}

TEST_CASE("a part that is not closed is refused where it opens") {
  const auto text = changed("{/replaces}", "");
  CHECK(refusal(text).find("{?replaces} is never closed") != std::string::npos);
  CHECK(refusal(text).starts_with(placeOf(text, "{?replaces}")));
}

TEST_CASE("a part that closes another is refused") {
  const auto text = changed("{?pain}There is a tooth that hurts.{/pain}",
                            "{?pain}There is a tooth that hurts.{/swelling}");
  CHECK(refusal(text).starts_with(placeOf(text, "{/swelling}")));
  CHECK(refusal(changed("{?pain}There", "{/pain}There")).find("comes before") != std::string::npos);
}

TEST_CASE("a brace without its other half is refused") {
  const auto text = changed("Please do not wait.", "Please do not {wait.");
  CHECK(refusal(text).starts_with(placeOf(text, "{wait.") + "a { without its }"));
  const auto closing = changed("Please do not wait.", "Please do not } wait.");
  CHECK(refusal(closing).starts_with(placeOf(closing, "} wait") + "a } without its {"));
}

TEST_CASE("a letter that leaves out what must be said is refused") {
  auto text = test::shippedText("english.txt");
  const std::string legal = "{child}";
  for (auto at = text.find(legal); at != std::string::npos; at = text.find(legal, at))
    text.replace(at, legal.size(), "{name}");
  CHECK(refusal(text).find("the letter never uses {child}") != std::string::npos);
}

TEST_CASE("a placeholder that may have nothing to say needs its question around it") {
  const auto text = changed("We could not finish one tooth today.", "Go soon, by {dentist_by}.");
  const auto said = refusal(text);
  CHECK(said.starts_with(placeOf(text, "{dentist_by}. That")));
  CHECK(said.find("{dentist_by} can be empty; wrap it in {?early} and {/early}") !=
        std::string::npos);
}

TEST_CASE("a header line that is missing or odd or twice is refused") {
  CHECK(refusal(changed("upper left: upper left\n", "")).find("\"upper left: ...\" is missing") !=
        std::string::npos);
  const auto odd = changed("direction: ltr", "direction: up");
  CHECK(refusal(odd).starts_with(placeOf(odd, "direction: up")));
  CHECK(refusal(changed("direction: ltr", "language: X")).find("is here twice") !=
        std::string::npos);
  CHECK(refusal(changed("direction: ltr", "colour: red"))
            .find("no line of the header has this name") != std::string::npos);
  CHECK(refusal(changed("January, ", "")).find("twelve names") != std::string::npos);
  CHECK(refusal(changed("{month} {day}, {year}", "{month} {day}")).find("{year}") !=
        std::string::npos);
  CHECK(refusal(changed("approved: no\ndraft", "approved: yes\ndraft")).find("NAME, 2026-09-01") !=
        std::string::npos);
  CHECK(refusal("language: English\n").find("line of dashes") != std::string::npos);
}

TEST_CASE("a file that is not UTF-8 is refused") {
  CHECK(refusal(changed("Dear parent", "Dear \xff")).find("not UTF-8") != std::string::npos);
}

TEST_CASE("a script that runs from right to left keeps its direction") {
  auto text = changed("direction: ltr", "direction: rtl");
  text.replace(text.find("language: English"), 17, "language: Invented");
  const auto made = LetterTemplate::parse("invented.txt", text);
  REQUIRE(made);
  LetterTemplates templates = test::shippedLetters();
  templates.add(*made);
  const auto letter = test::written(templates, test::sampleCalled("sealed"), "Invented");
  CHECK(letter.rightToLeft);
  CHECK(toHtml(letter).find("<html dir=\"rtl\">") != std::string::npos);
}

TEST_CASE("a program's own template takes the place of ours of the same language") {
  auto templates = test::shippedLetters();
  const auto own = LetterTemplate::parse("mine.txt", changed("Dear parent,", "Dear family,"));
  REQUIRE(own);
  templates.add(*own);
  CHECK(templates.all().size() == 2);
  CHECK(templates.english().source() == own->source());
}

TEST_CASE("dates are long in the words of each language") {
  const auto templates = test::shippedLetters();
  CHECK(templates.english().header().dateWords(test::date("2026-11-05")) == "November 5, 2026");
  CHECK(templates.find("Spanish")->header().dateWords(test::date("2026-01-05")) ==
        "5 de enero de 2026");
  CHECK(templates.english().header().pageWords(1, 2) == "page 1 of 2");
}
