#pragma once

#include "layout/checker.h"

#include <string>
#include <vector>

namespace gk::layout {

/// A string of a source as the compiler joins it, and the line on which it begins.
struct Literal {
  int line;
  std::string text;
};

/// Every string of a source but the names of included files and those of a table of stored names.
std::vector<Literal> literalsOf(std::string_view text);

/// What is said beside the code of a source, and what its tests are called.
std::vector<Literal> remarksOf(std::string_view text);
std::vector<Literal> testNamesOf(const std::string& text);
/// Words that plain American English does not have, in either.
Findings checkOwnWords(const SourceFile& file);

/// A report is read by managers, who have students; families are written to of their children.
Findings checkReportWords(const SourceFile& file);

/// Words that a person reads here and that plain American English does not say so.
Findings checkWords(const SourceFile& file);
/// The same of a page or a template, where every word is read.
Findings checkPage(const SourceFile& file);

/// Stored names of an enumeration where a person reads: `displayName` has those.
Findings checkShownNames(const SourceFile& file);
/// Dates, times and percents that are written anywhere but in their one function.
Findings checkOneWay(const SourceFile& file);

} // namespace gk::layout
