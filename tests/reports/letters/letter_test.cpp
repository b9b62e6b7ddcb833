#include "reports/letters/reading_level.h"
#include "support/samples/letter_samples.h"

#include "base/text/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <iomanip>
#include <iostream>

using namespace gk;
using namespace gk::reports;
using gk::test::LetterSample;
using gk::test::letterSamples;
using gk::test::letterText;
using gk::test::sampleCalled;

namespace {

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

std::string english(const std::string& sample) {
  return letterText(sampleCalled(sample), "English");
}

} // namespace

TEST_CASE("every English letter is written for fourth grade and none above sixth") {
  std::ostringstream table;
  double sum = 0;
  for (const auto& sample : letterSamples()) {
    const auto reading = test::measure(letterText(sample, "English"));
    table << std::left << std::setw(28) << sample.name << std::right << std::setw(5)
          << reading.words << " words" << std::setw(4) << reading.sentences << " sentences  grade "
          << base::fixed(reading.grade(), 1) << '\n';
    INFO(sample.name << ": " << reading.grade());
    CHECK(reading.grade() <= 6.0);
    sum += reading.grade();
  }
  const auto mean = sum / static_cast<double>(letterSamples().size());
  table << "mean " << base::fixed(mean, 1) << '\n';
  INFO(table.str());
  CHECK(mean <= 4.0);
  if (std::getenv("GK_SHOW_GRADES") != nullptr) std::cout << table.str();
}

TEST_CASE("every letter says what every letter must say in both languages", "[case-16]") {
  for (const auto& sample : letterSamples()) {
    if (!sample.language.empty()) continue;
    INFO(sample.name);
    const auto text = letterText(sample, "English");
    for (const auto* words :
         {"Wilhelmina Tolliver-Reed", "November 17, 2026", "Cobble Lantern Elementary",
          "Larkmere County School Sealant Team", "000-555-0142", "interpreter", "private"})
      CHECK(has(text, words));
    const auto spanish = letterText(sample, "Spanish");
    for (const auto* words :
         {"Wilhelmina Tolliver-Reed", "17 de noviembre de 2026", "Cobble Lantern Elementary",
          "Larkmere County School Sealant Team", "000-555-0142", "intérprete", "privada"})
      CHECK(has(spanish, words));
    if (sample.name == "absent") continue;
    for (const auto* words :
         {"not a full dental exam", "no x-rays", "keep going to the dentist",
          "pain, swelling, a fever or a rash", "911", "breathe", "need a dentist", "cost"})
      CHECK(has(text, words));
    for (const auto* words :
         {"No fue un examen dental completo", "No tomamos radiografías", "visitas al dentista",
          "dolor, hinchazón, fiebre o sarpullido", "911", "respirar", "costo"})
      CHECK(has(spanish, words));
  }
}

TEST_CASE("no letter blames or names a disease or holds a license or a number of the child") {
  for (const auto& sample : letterSamples()) {
    for (const auto* language : {"English", "Spanish"}) {
      INFO(sample.name << " " << language);
      const auto text = letterText(sample, language);
      for (const auto* words :
           {"1043", "HY-", "Medicaid", "caries activa", "decay", "abscess", "infection", "refused",
            "should have", "fault", "culpa", "etch", "molar", "Oriel", "{", "}"})
        CHECK_FALSE(has(text, words));
    }
  }
}

TEST_CASE("teeth are told by number and side in plain words") {
  const auto text = english("sealed");
  CHECK(has(text, "We put sealants on 4 back teeth (upper right, upper left, lower left, lower "
                  "right)."));
  CHECK(has(text, "should eat soft food today"));
  CHECK(has(text, "in a year. To say no"));
  CHECK(has(english("sealed, one"), "We put a sealant on one back tooth (lower left)."));
  CHECK(has(letterText(sampleCalled("sealed"), "Spanish"),
            "Pusimos selladores en 4 muelas (arriba a la derecha,"));
}

TEST_CASE("a letter speaks of a dentist within six weeks or within 48 hours with the day") {
  const auto early = english("referral, early");
  CHECK(has(early, "may have a cavity. Please take Mina to a dentist in the next 6 weeks. Go by "
                   "December 29, 2026."));
  CHECK_FALSE(has(early, "48 hours"));
  const auto urgent = english("referral, urgent");
  CHECK(has(urgent, "Go to a dentist now"));
  CHECK(has(urgent, "Go by November 19, 2026."));
  CHECK(has(urgent, "in the next 48 hours"));
  CHECK(has(urgent, "We told you this by phone too."));
  CHECK_FALSE(has(urgent, "We saw no problem"));
}

TEST_CASE("an urgent letter asks for a call when no one was reached", "[case-81]") {
  CHECK(has(english("referral, urgent, tried"), "We tried to call you. Please call us now"));
  CHECK(has(english("referral, urgent, no call"), "Please call us at 000-555-0142."));
}

TEST_CASE("a child who stopped in the middle hears of it as nothing to fear",
          "[case-42][case-43]") {
  const auto text = english("sealed, unfinished");
  CHECK(has(text, "We put sealants on 2 back teeth"));
  CHECK(has(text, "We could not finish 2 teeth today. That is OK. We can try again."));
  CHECK(has(english("not treated"), "We could not put on sealants today. That is OK."));
}

TEST_CASE("consent withdrawn in the middle says what was done and offers no more", "[case-2]") {
  const auto text = english("stopped");
  CHECK(has(text, "Then we were told to stop, so we stopped."));
  CHECK(has(text, "We put sealants on 2 back teeth"));
  CHECK(has(text, "We could not finish 2 teeth today. That is OK."));
  CHECK_FALSE(has(text, "We can try again"));
  CHECK_FALSE(has(text, "fluoride"));
}

TEST_CASE("a recheck says what held and what was fixed or put on again", "[case-59]") {
  CHECK(has(english("recheck, whole"), "We looked at old sealants. 4 are still good."));
  const auto text = english("recheck, repaired");
  CHECK(has(text, "We fixed an old sealant on one back tooth (lower left)."));
  CHECK(has(text, "We put a new sealant on one back tooth that had lost some of the old one"));
}

TEST_CASE("the letter to an absent child gives no reason", "[case-85]") {
  const auto text = english("absent");
  CHECK(has(text, "Mina was not at school. So we did not check any teeth."));
  for (const auto* words : {"sick", "ill", "lice", "sealant on", "What we did", "numb"}) {
    INFO(words);
    CHECK_FALSE(has(text, std::string(" ") + words));
  }
}

TEST_CASE("a corrected letter says which letter it replaces", "[case-72]") {
  CHECK(has(english("replaces"), "This letter replaces our letter of November 17, 2026."));
  CHECK(has(letterText(sampleCalled("replaces"), "Spanish"),
            "Esta carta reemplaza nuestra carta del 17 de noviembre de 2026."));
}

TEST_CASE("a student of age is the one who is spoken to", "[case-9]") {
  const auto text = english("to a pupil");
  CHECK(has(text, "Dear Mina,"));
  CHECK(has(text, "We looked at your teeth."));
  CHECK(has(text, "Please go to a dentist"));
  CHECK_FALSE(has(text, "Mina's"));
}

TEST_CASE("the legal name heads the letter and the name used is spoken within", "[case-16]") {
  const auto text = english("sealed");
  CHECK(has(text, "This is about Wilhelmina Tolliver-Reed."));
  CHECK(has(text, "We looked at Mina's teeth."));
  CHECK_FALSE(has(text, "Wilhelmina's"));
}

TEST_CASE("a language without a template gets English and the interpreter line", "[case-80]") {
  const auto text = english("interpreter");
  CHECK(has(text, "You asked for Tagalog. We do not have this letter in Tagalog yet. Call "
                  "000-555-0142"));
  CHECK(has(text, "We looked at Mina's teeth."));
  const auto templates = test::shippedLetters();
  CHECK(templates.find(" ESPAÑOL ") == templates.find("Spanish"));
  CHECK(templates.find("Tagalog") == nullptr);
  CHECK_FALSE(speaks(templates, {0, "", "Tagalog"}));
}

TEST_CASE("a letter is a draft until its template names who approved it") {
  CHECK(has(english("sealed"), "DRAFT."));
  CHECK(has(letterText(sampleCalled("sealed"), "Spanish"), "BORRADOR."));
  auto text = test::shippedText("english.txt");
  text.replace(text.find("approved: no\ndraft"), 12, "approved: Dr. Wen Alder, 2026-09-01");
  const auto approved = LetterTemplate::parse("english.txt", text);
  REQUIRE(approved);
  CHECK_FALSE(approved->header().isDraft());
  LetterTemplates templates;
  templates.add(*approved);
  CHECK_FALSE(has(toText(test::written(templates, sampleCalled("sealed"), "English")), "DRAFT"));
}

TEST_CASE("what people typed cannot become part of a page") {
  const auto templates = test::shippedLetters();
  auto letter = test::written(templates, sampleCalled("sealed"), "English");
  letter.parts.push_back({LetterBlock::paragraph, "<b>Ann & Bob</b>"});
  letter.child = "A <i>B</i>";
  const auto html = toHtml(letter);
  CHECK(has(html, "&lt;b&gt;Ann &amp; Bob&lt;/b&gt;"));
  CHECK(has(html, "<title>A &lt;i&gt;B&lt;/i&gt;</title>"));
}
