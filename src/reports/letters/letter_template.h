#pragma once

#include "reports/letters/letter_header.h"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace gk::reports {

/// What one letter puts into its template. Empty words are those that the letter has no use for.
struct LetterValues {
  std::map<std::string, std::string, std::less<>> words;
  std::set<std::string, std::less<>> facts;
};

/// A letter in one language as a program writes it, checked whole when it is read:
///
///     language: English        lines "key: value", then a line of dashes
///     -----
///     ## A heading
///     We put sealants on {sealed_count} teeth.
///     {?varnish}Eat soft food today.{/varnish}{!varnish}Eat as usual.{/varnish}
///
/// Lines that start with # are remarks. What a placeholder or a question may be called is fixed.
class LetterTemplate {
 public:
  /// Fails with `letterTemplate`, naming file, line and column: a header line that is missing or
  /// not understood, a name that nothing is called, a part that is not closed or closes another, a
  /// placeholder where it may have nothing to say, and what every letter must say left out.
  static base::Result<LetterTemplate> parse(const std::string& file, std::string_view text);

  [[nodiscard]] const LetterHeader& header() const { return header_; }
  /// The whole file, for its digest.
  [[nodiscard]] const std::string& source() const { return source_; }
  /// Precondition: every placeholder that the facts let through has words.
  [[nodiscard]] std::string fill(const LetterValues& values) const;

 private:
  enum class Kind { text, word, ifTrue, ifFalse, end };
  struct Part {
    Kind kind;
    std::string text; ///< the words themselves, or a name
    int line;
    int column;
  };
  class Parser;

  LetterTemplate() = default;

  LetterHeader header_;
  std::string source_;
  std::vector<Part> parts_;
};

} // namespace gk::reports
