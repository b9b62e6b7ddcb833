#include "session/letters/letters.h"

#include "base/files/files.h"
#include "base/text/text.h"
#include "crypto/digest.h"
#include "reports/records/inputs.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::session {

namespace {

using base::Error;
using base::ErrorCode;
using reports::LetterTemplate;

/// The age from which a student signs alone where the law says no other.
constexpr int ofAge = 18;

// Some languages and kinds of letter, each of some kilobytes (ours). A folder of another kind is
// not read to its end before letters can be printed.
constexpr int mostInFolder = 1000;
constexpr std::size_t mostTemplates = 200;
constexpr std::uintmax_t mostBytes = std::uintmax_t{64} * 1024U;

Result<std::vector<base::Path>> textFilesIn(const base::Path& folder) {
  std::vector<base::Path> files;
  std::error_code trouble; // a folder that is not there holds no file
  int looked = 0;
  for (std::filesystem::directory_iterator at(folder, trouble), end; !trouble && at != end;
       at.increment(trouble)) {
    if (at->path().extension() == ".txt") files.push_back(at->path());
    if (++looked > mostInFolder || files.size() > mostTemplates)
      return Error{ErrorCode::letterTemplate,
                   folder.string() + ": more files than letters need (200 templates); keep only "
                                     "letter templates in this folder"};
  }
  std::ranges::sort(files);
  return files;
}

bool signsAlone(const Identity& identity, const std::vector<Recorded<roster::Consent>>& forms,
                base::Date on) {
  return base::ageInYears(identity.birth, on) >= ofAge ||
         std::ranges::any_of(forms, [](const auto& form) {
           return form.value.signer == roster::Relation::selfOfAge &&
                  (form.value.state == roster::ConsentState::yes ||
                   form.value.state == roster::ConsentState::yesWithLimits ||
                   form.value.state == roster::ConsentState::withdrawn);
         });
}

/// What a day's letters and forms are made from.
struct Sources {
  reports::DayRecords records;
  reports::LetterFrame frame;
  reports::LetterCards cards{};
  reports::CallPeople people{};
};

Result<Sources> sourcesOf(Reader& book, roster::DayId day) {
  if (!book.isUnlocked())
    return Error{ErrorCode::vaultLocked, "letters carry names; unlock the logbook first"};
  auto records = book.dayRecords(day);
  if (!records) return records.error();
  const auto program = book.program();
  if (!program) return program.error();
  const reports::LetterFrame frame{program->value.name, program->value.phone, records->school.name,
                                   records->day.date};
  Sources sources{*std::move(records), frame};
  for (const auto& child : sources.records.children) {
    const auto identity = book.identity(child.id);
    // No one can be written to; the findings say why.
    if (!identity && identity.error().code == ErrorCode::vaultDamaged) continue;
    if (!identity) return identity.error();
    std::vector<Recorded<roster::Consent>> forms;
    for (const auto& form : sources.records.consents)
      if (form.value.child == child.id) forms.push_back(form);
    sources.cards.emplace(child.id, letterCard(*identity, forms, sources.frame.date));
    for (const auto& one : identity->guardians)
      sources.people[child.id].push_back({one.name, one.relation, one.phone, one.language});
  }
  return sources;
}

followup::Letter recordOf(const reports::DayLetter& letter, const reports::LetterText& text,
                          const LetterTemplate& used, roster::DayId day, base::Date today) {
  followup::Letter record{.child = letter.child,
                          .day = day,
                          .guardian = letter.reader.guardian,
                          .language = text.language,
                          .interpreter = !letter.ownLanguage,
                          .variant = letter.facts.variant,
                          .facts = reports::toLines(letter.facts),
                          .templateDigest = crypto::digest(used.source()),
                          .textDigest = crypto::digest(reports::toText(text)),
                          .written = today};
  if (letter.replaces) record.replaces = letter.written->id;
  return record;
}

} // namespace

Result<reports::LetterTemplates> letterTemplates(const base::Path& book) {
  reports::LetterTemplates templates;
  for (const auto& shipped : reports::shippedTemplates()) {
    auto made = LetterTemplate::parse(std::string(shipped.file), shipped.text);
    if (!made) return made.error();
    templates.add(*std::move(made));
  }
  const auto files = textFilesIn(book.parent_path() / "letters");
  if (!files) return files.error();
  for (const auto& file : *files) {
    std::error_code unread;
    if (const auto size = std::filesystem::file_size(file, unread); !unread && size > mostBytes)
      return Error{ErrorCode::letterTemplate,
                   file.string() + ": larger than a letter's template can be (64 KiB); take it out "
                                   "of this folder"};
    const auto text = base::readFile(file);
    if (!text) return text.error();
    auto made = LetterTemplate::parse(file.string(), *text);
    if (!made) return made.error();
    templates.add(*std::move(made));
  }
  return templates;
}

Result<std::vector<std::string>> copyTemplates(const base::Path& folder) {
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  std::vector<std::string> written;
  for (const auto& shipped : reports::shippedTemplates()) {
    const auto to = folder / shipped.file;
    std::error_code trouble;
    if (std::filesystem::exists(to, trouble)) continue;
    if (const auto kept = base::replaceFile(to, shipped.text); !kept) return kept.error();
    written.emplace_back(shipped.file);
  }
  return written;
}

Result<std::map<std::string, int>> languagesAsked(Reader& book, const reports::TermRecords& term) {
  if (!book.isUnlocked())
    return Error{ErrorCode::vaultLocked, "languages are with the names; unlock the logbook first"};
  std::map<roster::ChildId, std::vector<Recorded<roster::Consent>>> forms;
  for (const auto& form : term.consents)
    if (form.value.term == term.id && (form.value.state == roster::ConsentState::yes ||
                                       form.value.state == roster::ConsentState::yesWithLimits))
      forms[form.value.child].push_back(form);
  std::map<std::string, int> asked;
  for (const auto& [child, own] : forms) {
    const auto identity = book.identity(child);
    // No one can be written to; the findings say why.
    if (!identity && identity.error().code == ErrorCode::vaultDamaged) continue;
    if (!identity) return identity.error();
    std::set<std::string> languages;
    for (const auto& reader : letterCard(*identity, own, term.asOf).readers)
      languages.insert(reader.language.empty() ? "English" : reader.language);
    for (const auto& language : languages)
      ++asked[language];
  }
  return asked;
}

reports::LetterCard letterCard(const Identity& identity,
                               const std::vector<Recorded<roster::Consent>>& forms, base::Date on) {
  reports::LetterCard card{identity.legalName(),
                           identity.nameUsed.empty() ? identity.first : identity.nameUsed,
                           identity.room,
                           {}};
  if (card.nameUsed.empty()) card.nameUsed = card.legalName;
  if (signsAlone(identity, forms, on)) {
    const auto own = std::ranges::find_if(identity.guardians, [](const Guardian& one) {
      return base::folded(one.relation) == "self";
    });
    card.readers.push_back(
        {followup::toStudent, card.nameUsed, own == identity.guardians.end() ? "" : own->language});
    return card;
  }
  for (std::size_t i = 0; i < identity.guardians.size(); ++i) {
    const auto& one = identity.guardians[i];
    const auto language = base::folded(one.language.empty() ? "English" : one.language);
    const auto same = std::ranges::find_if(card.readers, [&](const auto& reader) {
      return base::folded(reader.language) == language;
    });
    if (same == card.readers.end())
      card.readers.push_back(
          {static_cast<int>(i), one.name, one.language.empty() ? "English" : one.language});
    else if (!one.name.empty())
      same->names += (same->names.empty() ? "" : ", ") + one.name;
  }
  if (card.readers.empty()) card.readers.push_back({0, "", "English"});
  return card;
}

Result<std::vector<ReadyLetter>> readyLetters(Reader& book, roster::DayId day,
                                              const reports::LetterTemplates& templates,
                                              base::Date today) {
  const auto sources = sourcesOf(book, day);
  if (!sources) return sources.error();
  std::vector<ReadyLetter> ready;
  for (auto& letter : reports::dayLetters(sources->records, sources->cards, templates)) {
    auto text = reports::writeLetter(templates, sources->frame, letter.card, letter.reader,
                                     letter.facts, letter.replaces);
    auto record = recordOf(letter, text, *templates.find(text.language), day, today);
    ready.push_back({std::move(letter), std::move(text), std::move(record)});
  }
  return ready;
}

Result<std::vector<reports::UrgentForm>> urgentForms(Reader& book, roster::DayId day) {
  const auto sources = sourcesOf(book, day);
  if (!sources) return sources.error();
  return reports::urgentForms(sources->records, sources->frame, sources->cards, sources->people);
}

} // namespace gk::session
