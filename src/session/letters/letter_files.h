#pragma once

#include "base/files/files.h"
#include "reports/sheets/consent_form.h"

#include <string>
#include <vector>

namespace gk::session {

/// What a program may word itself, in text files beside the logbook.
enum class Worded {
  letter,     ///< that goes home, in the folder `letters`
  consentForm ///< that is printed and signed, in the folder `forms`
};

/// A template as it is used now.
struct TemplateFile {
  Worded of;
  std::string language;
  bool isOwn = false;   ///< of the program, from the folder beside the logbook
  base::Path file{};    ///< of one's own
  std::string approved; ///< by whom and when; empty for a draft
  std::string text;
};

/// Letters, then consent forms. Fails as letterTemplates and consentTemplates.
base::Result<std::vector<TemplateFile>> templateFiles(const base::Path& book);

/// The consent forms as they are printed, one a language: the program's own from the folder
/// `forms`, named as its language, or else the one that comes with Groovekeeper. Fails as
/// ConsentTemplate::parse, and as readFile.
base::Result<std::vector<reports::ConsentTemplate>> consentTemplates(const base::Path& book);

/// Checks the file whole, then takes a copy of it for its language, which is given back. What was
/// used before is kept beside it under another name. Fails as LetterTemplate::parse or
/// ConsentTemplate::parse, and for a consent form in a language that none is printed in; nothing is
/// changed then.
base::Result<std::string> replaceTemplate(const base::Path& book, Worded of,
                                          const base::Path& file);

/// The program's own file of this language is kept under another name, and the one that comes with
/// Groovekeeper is used; `notFound` where it is used already.
base::Result<base::Done> backToShipped(const base::Path& book, Worded of,
                                       const std::string& language);

} // namespace gk::session
