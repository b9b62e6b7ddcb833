#include "ui/close_out/letters_desk.h"

#include "reports/display_names.h"
#include "reports/records/inputs.h"
#include "ui/files/named_file.h"
#include "ui/paper/print_letters.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

using base::Result;
using followup::LetterState;

namespace {

/// In the order of the options of `work`.
enum Act { dueToFile, dueToPaper, again, handed, returned, formsToFile, formsToPaper };

std::vector<reports::LetterText> textsOf(const std::vector<session::ReadyLetter>& letters) {
  std::vector<reports::LetterText> texts;
  for (const auto& one : letters)
    texts.push_back(one.text);
  return texts;
}

/// A file is not paper yet.
QString outWords(const QString& what, bool onPaper) {
  return onPaper ? what + u" printed."_s : what + u" in the file: print it."_s;
}

/// What came out stays out, also when the logbook could not note it.
base::Error notNoted(const QString& what, const base::Error& why) {
  return {why.code, toStd(what) + " But not recorded in the logbook: " + why.detail};
}

bool anyDraft(const std::vector<session::ReadyLetter>& letters) {
  return std::ranges::any_of(letters, [](const auto& one) { return !one.text.mark.empty(); });
}

} // namespace

LettersDesk::Letters LettersDesk::due() const {
  Letters found;
  for (const auto& one : all_)
    if (one.letter.isDue()) found.push_back(one);
  return found;
}

LettersDesk::Letters LettersDesk::of(std::optional<roster::ChildId> child) const {
  Letters found;
  for (const auto& one : all_)
    if (child && one.letter.child == *child && !one.letter.isDue()) found.push_back(one);
  return found;
}

void LettersDesk::work(std::optional<roster::ChildId> chosen, const Done& done) {
  const auto templates = session::letterTemplates(context_.session.path());
  if (!templates) return done(templates.error());
  auto letters =
      session::readyLetters(context_.session, day_, *templates, context_.clock.now().date());
  if (!letters) return done(letters.error());
  auto forms = session::urgentForms(context_.session, day_);
  if (!forms) return done(forms.error());
  all_ = std::move(*letters);
  forms_ = std::move(*forms);
  const auto waiting = due().size();
  const auto chosenOnes = of(chosen);
  const auto act = context_.prompter.choose(
      u"Letters"_s,
      {u"Letters due to one PDF: %1"_s.arg(waiting), u"Print letters due: %1"_s.arg(waiting),
       u"Reprint for selected student: %1"_s.arg(chosenOnes.size()),
       u"Mark all printed as handed out"_s, u"Letter came back"_s,
       u"Nurse's urgent sheets to PDF: %1"_s.arg(forms_.size()),
       u"Print nurse's urgent sheets: %1"_s.arg(forms_.size())});
  if (!act) return done(QString());
  switch (*act) {
  case dueToFile:
  case dueToPaper:
    return printDue(*act == dueToPaper, done);
  case again:
    return printAgain(chosenOnes, done);
  case handed:
    return done(note(all_, LetterState::handed));
  case returned:
    return done(noteReturned(chosen));
  default:
    return printForms(*act == formsToPaper, done);
  }
}

void LettersDesk::putOut(const QString& name, bool onPaper, const Paint& paint,
                         const QString& backedOut, Out out, const Done& done) {
  const auto finish = [self = shared_from_this(), out = std::move(out), done](const auto& drawn) {
    if (!drawn) return done(drawn.error());
    done(out());
  };
  if (!onPaper) {
    const auto bytes = [name, paint](const QString&, const base::Progress& progress) {
      return asPdf(name, [&](QPagedPaintDevice& device) { paint(device, progress); }).toStdString();
    };
    if (!saveNamed(context_, LongKind::letters, owner_,
                   {.name = name,
                    .filter = u"Pages to print (*.pdf)"_s,
                    .title = u"Save the pages to print"_s},
                   bytes, finish))
      done(backedOut);
    return;
  }
  const auto printer = context_.prompter.printer();
  if (!printer) return done(backedOut);
  context_.work.run(
      LongKind::letters, owner_,
      [printer, paint](const base::Progress& progress) -> Result<base::Done> {
        paint(*printer, progress);
        if (progress.isStopped())
          return base::Error{base::ErrorCode::workCanceled, "no page came out"};
        return base::Done{};
      },
      finish);
}

void LettersDesk::printDue(bool onPaper, const Done& done) {
  const auto letters = due();
  if (letters.empty())
    return done(all_.empty() ? u"No letter is due: no child has been seen or marked absent yet."_s
                             : u"No letter is due: every child seen or absent has one."_s);
  putOut(
      u"letters-"_s + toQt(letters.front().record.written.iso()), onPaper,
      [texts = textsOf(letters), paper = paper()](QPagedPaintDevice& device,
                                                  const base::Progress& progress) {
        printLetters(device, texts, paper, progress);
      },
      u"Not printed; the letters are still due."_s,
      [this, letters, onPaper]() -> Result<QString> {
        std::vector<followup::Letter> records;
        for (const auto& one : letters)
          records.push_back(one.record);
        const auto words = outWords(counted(std::ssize(letters), "letter", "letters"), onPaper);
        if (const auto noted = context_.session.enterLetters(context_.acting.by(), records); !noted)
          return notNoted(words, noted.error());
        return u"%1 Fold each along its marks; only the address shows.%2"_s.arg(words).arg(
            anyDraft(letters) ? u" They are DRAFTS: no template is approved yet."_s : QString());
      },
      done);
}

void LettersDesk::printAgain(const Letters& letters, const Done& done) {
  if (letters.empty()) return done(u"Select a student whose letter was printed."_s);
  putOut(
      u"letter-"_s + toQt(letters.front().letter.number), false,
      [texts = textsOf(letters), paper = paper()](QPagedPaintDevice& device,
                                                  const base::Progress& progress) {
        printLetters(device, texts, paper, progress);
      },
      u"Not printed."_s,
      [this, letters]() -> Result<QString> {
        const auto words = outWords(counted(std::ssize(letters), "letter", "letters"), false);
        const auto noted = note(letters, LetterState::printed);
        if (!noted) return notNoted(words, noted.error());
        return words;
      },
      done);
}

Result<QString> LettersDesk::note(const Letters& letters, LetterState to) {
  std::vector<base::Recorded<followup::Letter>> moved;
  for (const auto& one : letters) {
    if (!one.letter.written || one.letter.replaces) continue;
    const auto now = one.letter.written->value.state;
    const bool fits =
        to != LetterState::handed || now == LetterState::printed || now == LetterState::queued;
    if (fits) moved.push_back(*one.letter.written);
  }
  return move(moved, to);
}

Result<QString> LettersDesk::noteReturned(std::optional<roster::ChildId> child) {
  const auto records = context_.session.dayRecords(day_);
  if (!records) return records.error();
  auto inError = reports::lettersInError(*records);
  std::erase_if(inError, [&](const auto& letter) { return letter.value.child != child; });
  if (inError.empty()) return note(of(child), LetterState::returned);
  return move(inError, LetterState::returned);
}

Result<QString> LettersDesk::move(const std::vector<base::Recorded<followup::Letter>>& letters,
                                  LetterState to) {
  if (letters.empty()) return u"There is no letter for that."_s;
  const auto noted = context_.session.moveLetters(context_.acting.by(), letters, to);
  if (!noted) return noted.error();
  return u"Marked as %1: %2."_s.arg(toQt(base::displayName(to)),
                                    counted(std::ssize(letters), "letter", "letters"));
}

void LettersDesk::printForms(bool onPaper, const Done& done) {
  if (forms_.empty()) return done(u"No child is urgent today."_s);
  putOut(
      u"urgent-"_s + toQt(forms_.front().frame.date.iso()), onPaper,
      [forms = forms_, paper = paper()](QPagedPaintDevice& device, const base::Progress& progress) {
        ui::printForms(device, forms, paper, progress);
      },
      u"Not printed."_s,
      [this, onPaper]() -> Result<QString> {
        const auto words =
            outWords(ui::counted(std::ssize(forms_), "urgent sheet", "urgent sheets"), onPaper);
        if (const auto counted =
                context_.session.countOut(context_.acting.by(), day_, followup::Paper::nurseSheets,
                                          static_cast<int>(forms_.size()));
            !counted)
          return notNoted(words, counted.error());
        return words + (forms_.size() == 1 ? u" Hand it to the nurse yourself."_s
                                           : u" Hand them to the nurse yourself."_s);
      },
      done);
}

} // namespace gk::ui
