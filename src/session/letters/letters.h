#pragma once

#include "reports/calls/urgent_form.h"
#include "reports/letters/letters_due.h"
#include "session/reader.h"

namespace gk::session {

/// The templates that come with the program, and over them every .txt in the folder `letters`
/// beside the logbook. Fails with `letterTemplate` naming the place in the file, and as readFile.
Result<reports::LetterTemplates> letterTemplates(const base::Path& book);

/// Writes a copy of each shipped template that is not in the folder yet; gives the names written.
Result<std::vector<std::string>> copyTemplates(const base::Path& folder);

/// One letter to print, and the record that it was.
struct ReadyLetter {
  reports::DayLetter letter;
  reports::LetterText text;
  followup::Letter record;
};

/// Every letter of the day, due or printed before, by room and name. Fails with `vaultLocked`.
Result<std::vector<ReadyLetter>> readyLetters(Reader& book, roster::DayId day,
                                              const reports::LetterTemplates& templates,
                                              base::Date today);

/// The sheets for the school nurse, by room and name. Fails with `vaultLocked`.
Result<std::vector<reports::UrgentForm>> urgentForms(Reader& book, roster::DayId day);

/// How many children of a term, whose form says yes, get letters in which language, as their
/// guardians asked. Fails with `vaultLocked`.
Result<std::map<std::string, int>> languagesAsked(Reader& book, const reports::TermRecords& term);

/// To whom a child's letters go. A student who signs alone or is 18 gets the letter; else every
/// guardian on the card, those who read one language together. `forms` are the child's consents.
reports::LetterCard letterCard(const Identity& identity,
                               const std::vector<Recorded<roster::Consent>>& forms, base::Date on);

} // namespace gk::session
