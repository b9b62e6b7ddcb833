#pragma once

#include "base/files.h"

#include <string>
#include <vector>

namespace gk::session {

/// A letter's template as it is used now.
struct TemplateFile {
  std::string language;
  bool isOwn = false;   ///< of the program, from the folder `letters` beside the logbook
  base::Path file{};    ///< of one's own
  std::string approved; ///< by whom and when; empty for a draft
  std::string text;
};

/// Fails as letterTemplates.
base::Result<std::vector<TemplateFile>> templateFiles(const base::Path& book);

/// Checks the file whole, then takes a copy of it for its language, which is given back. What was
/// used before is kept beside it under another name. Fails as LetterTemplate::parse; nothing is
/// changed then.
base::Result<std::string> replaceTemplate(const base::Path& book, const base::Path& file);

/// The program's own file of this language is kept under another name, and the one that comes with
/// Groovekeeper is used; `notFound` where it is used already.
base::Result<base::Done> backToShipped(const base::Path& book, const std::string& language);

} // namespace gk::session
