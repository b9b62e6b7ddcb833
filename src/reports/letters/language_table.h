#pragma once

#include "reports/letters/letter.h"
#include "reports/print/table.h"

#include <map>

namespace gk::reports {

/// Languages that guardians asked for, with the children whose letters they are, beside the
/// templates that there are: what is to be translated, by someone qualified, most wanted first.
Table languageTable(const std::map<std::string, int>& asked, const LetterTemplates& templates);

} // namespace gk::reports
