#include "office/call/opening.h"
#include "office/call/verbs.h"
#include "office/call/wanted_day.h"
#include "office/tables/json_writer.h"
#include "office/tables/tables_json.h"

#include "base/files/files.h"
#include "base/text/text.h"
#include "reports/letters/language_table.h"
#include "reports/print/render.h"
#include "session/letters/letters.h"

#include <ostream>

namespace gk::office {

using base::Result;

namespace {

struct Written {
  std::string file;
  std::string number;
  std::string kind;
  std::string language;
  bool isDraft;
};

/// Sorts as the letters are handed out, and names no child: "03-1045-6-spanish.txt".
std::string fileName(std::size_t place, const std::string& number, const std::string& what,
                     const std::string& ending) {
  const auto count = std::to_string(place);
  return std::string(count.size() < 2 ? 1 : 0, '0') + count + "-" + number + "-" + what + ending;
}

std::string oneWord(const std::string& language) {
  auto word = base::folded(language);
  for (char& c : word)
    if (c == ' ') c = '-';
  return word;
}

class Writer {
 public:
  Writer(base::Path folder, bool html) : folder_(std::move(folder)), html_(html) {}

  Result<base::Done> letter(const session::ReadyLetter& ready) {
    const auto what =
        oneWord(ready.text.language) + (ready.letter.ownLanguage ? "" : "-interpreter");
    const auto name =
        fileName(written_.size() + 1, ready.letter.number, what, html_ ? ".html" : ".txt");
    written_.push_back({name, ready.letter.number,
                        std::string(base::nameOf(ready.letter.facts.variant)), ready.text.language,
                        !ready.text.mark.empty()});
    return base::replaceFile(folder_ / name,
                             html_ ? reports::toHtml(ready.text) : reports::toText(ready.text));
  }

  Result<base::Done> form(const reports::UrgentForm& form) {
    const auto name = fileName(written_.size() + 1, form.number, "urgent-form", ".html");
    written_.push_back({name, form.number, "urgent form", "English", false});
    return base::replaceFile(folder_ / name, reports::toHtml(form));
  }

  [[nodiscard]] const std::vector<Written>& written() const { return written_; }

 private:
  base::Path folder_;
  bool html_;
  std::vector<Written> written_;
};

void tell(const Call& call, const std::vector<Written>& written, std::ostream& out) {
  if (!call.wantsJson()) {
    for (const auto& one : written)
      out << one.file << "  " << one.kind << (one.isDraft ? "  DRAFT" : "") << '\n';
    if (written.empty()) out << "No letter is due.\n";
    return;
  }
  JsonWriter json(out);
  json.beginObject();
  json.arrayField("written");
  for (const auto& one : written) {
    json.beginObject();
    json.field("file", one.file);
    json.field("child", one.number);
    json.field("kind", one.kind);
    json.field("language", one.language);
    json.field("draft", one.isDraft);
    json.endObject();
  }
  json.endArray();
  json.endObject();
}

Result<Exit> letters(const Call& call, const Surroundings& around) {
  const base::Path book(call.operand(0));
  const base::Path folder(call.operand(1));
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto day = wantedDay(*session, call);
  if (!day) return day.error();
  const auto templates = session::letterTemplates(book);
  if (!templates) return templates.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  const auto ready =
      session::readyLetters(*session, day->id, *templates, around.clock.now().date());
  if (!ready) return ready.error();
  const auto forms = session::urgentForms(*session, day->id);
  if (!forms) return forms.error();
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  Writer writer(folder, call.has("--html"));
  for (const auto& one : *ready)
    if (call.has("--all") || one.letter.isDue())
      if (const auto kept = writer.letter(one); !kept) return kept.error();
  for (const auto& form : *forms)
    if (const auto kept = writer.form(form); !kept) return kept.error();
  tell(call, writer.written(), around.out);
  return Exit::fine;
}

Result<Exit> templates(const Call& call, const Surroundings& around) {
  const auto written = session::copyTemplates(call.operand(0));
  if (!written) return written.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("written", *written);
    json.endObject();
    return Exit::fine;
  }
  for (const auto& file : *written)
    around.out << file << '\n';
  if (written->empty()) around.out << "Nothing written: the folder already has its own.\n";
  return Exit::fine;
}

Result<Exit> languages(const Call& call, const Surroundings& around) {
  const base::Path book(call.operand(0));
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto templates = session::letterTemplates(book);
  if (!templates) return templates.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  const auto terms = session->terms();
  if (!terms) return terms.error();
  if (terms->empty())
    return base::Error{base::ErrorCode::notFound, "the logbook has no term; add one first"};
  auto term = Result<base::Recorded<roster::Term>>(terms->back());
  if (const auto name = call.textIfAny("--term")) term = termCalled(*session, *name);
  if (!term) return term.error();
  const auto records = session->termRecords(term->id, around.clock.now().date());
  if (!records) return records.error();
  const auto asked = session::languagesAsked(*session, *records);
  if (!asked) return asked.error();
  const auto table = reports::languageTable(*asked, *templates);
  if (call.wantsJson())
    writeTablesJson("Languages: " + term->value.name, {}, std::span(&table, 1), Digits::all,
                    around.out);
  else
    around.out << reports::toText(std::span(&table, 1));
  return Exit::fine;
}

} // namespace

std::vector<Verb> letterVerbs() {
  return {
      {{"letters", "FILE FOLDER",
        "writes a day's letters home, and the nurse's sheets, into a folder; records "
        "nothing",
        choosingDay({{"--html", "", "as pages; plain text when not given"},
                     {"--all", "", "also those that were printed before"},
                     passphraseOption()})},
       letters},
      {{"languages",
        "FILE",
        "languages that guardians asked for, and the letters available",
        {{"--term", "NAME", "which term; the newest when not given"}, passphraseOption()}},
       languages},
      {{"letter-templates",
        "FOLDER",
        "copies the letter templates for editing; put them into letters/ beside the logbook",
        {}},
       templates},
  };
}

} // namespace gk::office
