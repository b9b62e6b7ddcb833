#pragma once

#include <string>
#include <string_view>

namespace gk::test {

/// Spoken syllables of one English word, from its spelling: groups of vowels, less the silent ones,
/// with a list of words that spelling misleads. A number counts as it is read out.
int syllables(std::string_view word);

struct Reading {
  int sentences = 0;
  int words = 0;
  int syllables = 0;

  /// Flesch-Kincaid grade: Kincaid, Fishburne, Rogers and Chissom (1975), Derivation of New
  /// Readability Formulas for Navy Enlisted Personnel, Research Branch Report 8-75.
  [[nodiscard]] double grade() const;
};

/// A sentence ends with . ! ? or : before a space or the end, or with its line.
Reading measure(std::string_view text);

} // namespace gk::test
