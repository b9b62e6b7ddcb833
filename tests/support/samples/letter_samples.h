#pragma once

#include "reports/letters/letter.h"

namespace gk::test {

/// What a child's day may come to, one for each kind of letter and a few that mix.
struct LetterSample {
  std::string name;
  reports::LetterFacts facts;
  bool replaces = false;
  bool student = false;
  std::string language{};
};
std::vector<LetterSample> letterSamples();

/// The templates that come with the program.
reports::LetterTemplates shippedLetters();
/// Any one of them, as text.
std::string shippedText(std::string_view file);

reports::LetterText written(const reports::LetterTemplates& templates, const LetterSample& sample,
                            const std::string& language);
/// As toText.
std::string letterText(const LetterSample& sample, const std::string& language);
const LetterSample& sampleCalled(const std::string& name);

} // namespace gk::test
