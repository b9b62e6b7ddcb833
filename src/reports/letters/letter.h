#pragma once

#include "reports/letters/letter_facts.h"
#include "reports/letters/letter_template.h"

#include <span>

namespace gk::reports {

/// To whom one letter goes. Handed over by whoever may know.
struct LetterReader {
  int guardian = 0;    ///< place on the child's card; followup::toStudent for a student of age
  std::string names{}; ///< "Rosa Saltmarsh"; empty when the card has none
  std::string language{};
};

/// Who a letter is about and who reads it. The legal name heads the letter, the name used is what
/// the child is called in it.
struct LetterCard {
  std::string legalName{};
  std::string nameUsed{};
  std::string room{};
  std::vector<LetterReader> readers{};
};
using LetterCards = std::map<roster::ChildId, LetterCard>;

/// Who sends it and about which day.
struct LetterFrame {
  std::string program;
  std::string phone;
  std::string school;
  base::Date date;
};

enum class LetterBlock { heading, paragraph, item };

/// A letter ready to be shown, printed or written out.
struct LetterText {
  struct Part {
    LetterBlock kind;
    std::string text;
    bool operator==(const Part&) const = default;
  };
  std::string language;
  bool rightToLeft = false;
  std::string child; ///< for the address and the foot of each page
  std::string room;
  std::string mark{}; ///< that it is a draft; empty when approved
  std::vector<Part> parts{};
  LetterHeader header{}; ///< words of the address and of the page number
  std::string dateWords{};
};

/// Those of one program, one for each language.
class LetterTemplates {
 public:
  /// A language that is there already is replaced.
  void add(LetterTemplate made);
  /// By any name of the language, whatever its case and accents; none when there is none.
  [[nodiscard]] const LetterTemplate* find(std::string_view language) const;
  /// The one in English. Precondition: there is one.
  [[nodiscard]] const LetterTemplate& english() const;
  [[nodiscard]] const std::vector<LetterTemplate>& all() const { return all_; }

 private:
  std::vector<LetterTemplate> all_;
};

struct ShippedTemplate {
  std::string_view file; ///< "english.txt"
  std::string_view text;
};
/// Those that come with the program: drafts until someone qualified approves them.
const std::vector<ShippedTemplate>& shippedTemplates();

/// In the reader's language, or in English with the line that an interpreter can be called. Never
/// translated by a machine.
LetterText writeLetter(const LetterTemplates& templates, const LetterFrame& frame,
                       const LetterCard& card, const LetterReader& reader, const LetterFacts& facts,
                       std::optional<base::Date> replaces);

/// Whether the reader's own language has a template.
bool speaks(const LetterTemplates& templates, const LetterReader& reader);

/// One paragraph a line, headings after "## " as in the template: also what the digest is taken of.
std::string toText(const LetterText& letter);
/// Inner HTML of the letter alone, without its head and foot; everything from people is escaped.
std::string toHtmlBody(const LetterText& letter);
/// A page by itself.
std::string toHtml(const LetterText& letter);

} // namespace gk::reports
