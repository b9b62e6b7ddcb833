#include "reports/letters/reading_level.h"

#include "base/files/files.h"
#include "base/text/text.h"

#include <catch2/catch.hpp>

#include <map>

using namespace gk;
using gk::test::measure;
using gk::test::syllables;

namespace {

struct Word {
  std::string text;
  int spoken;
};

/// By what they were taken from: "letter" is every word of the English template, "page" the words
/// of this project's own plain pages. Counts: CMU Pronouncing Dictionary 0.4 as packed in Debian's
/// festlex-cmu 2.4, one vowel phone a syllable.
std::map<std::string, std::vector<Word>> dictionary() {
  const auto file =
      base::readFile(base::Path(GK_SOURCE_DIR) / "tests/reference/data/syllables.csv");
  REQUIRE(file);
  std::map<std::string, std::vector<Word>> words;
  for (const auto line : base::split(*file, '\n')) {
    const auto cells = base::split(line, ',');
    if (cells.size() != 3 || cells[0] == "word") continue;
    words[std::string(cells[2])].push_back(
        {std::string(cells[0]), static_cast<int>(*base::parseInt(cells[1]))});
  }
  return words;
}

} // namespace

TEST_CASE("the syllables of every word of the English letter are those of a dictionary") {
  const auto words = dictionary().at("letter");
  REQUIRE(words.size() > 150);
  for (const auto& word : words) {
    INFO(word.text);
    CHECK(syllables(word.text) == word.spoken);
  }
}

TEST_CASE("the syllables of other plain words are right nine times in ten and not too few") {
  const auto words = dictionary().at("page");
  REQUIRE(words.size() > 500);
  int right = 0;
  int counted = 0;
  int spoken = 0;
  for (const auto& word : words) {
    right += syllables(word.text) == word.spoken ? 1 : 0;
    counted += syllables(word.text);
    spoken += word.spoken;
  }
  CHECK(right * 10 >= static_cast<int>(words.size()) * 9);
  CHECK(std::abs(counted - spoken) * 50 <= spoken); // within two in a hundred
}

TEST_CASE("numbers have the syllables with which they are read out") {
  CHECK(syllables("4") == 1);
  CHECK(syllables("7") == 2);
  CHECK(syllables("48") == 3); // forty-eight
  CHECK(syllables("911") == 3);
  CHECK(syllables("2026") == 5);          // twenty twenty-six
  CHECK(syllables("000-555-0142") == 14); // digit by digit
}

TEST_CASE("the grade of a published sentence is the published one") {
  // Wikipedia, "Flesch-Kincaid readability tests": 1 sentence, 13 words, 26 syllables. The grade by
  // the formula of Kincaid and others (1975) is 13.08.
  const auto platypus =
      measure("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.");
  CHECK(platypus.sentences == 1);
  CHECK(platypus.words == 13);
  CHECK(platypus.syllables == 26);
  CHECK(platypus.grade() == Approx(13.08).margin(0.005));
}

TEST_CASE("sentences end at their marks and with their line") {
  const auto text = measure("## Find a dentist\nCall us at 000-555-0142. We will help! Now?");
  CHECK(text.sentences == 4);
  CHECK(text.words == 11);
}
