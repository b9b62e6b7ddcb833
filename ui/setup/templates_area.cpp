#include "base/text/text.h"
#include "session/letters/letter_files.h"
#include "ui/asking/context.h"
#include "ui/forms/area.h"

#include <algorithm>

namespace gk::ui {

namespace {

using base::ErrorCode;

std::vector<Field> noTemplateFields(const Thing&) {
  return {};
}
Result<Values> noTemplateValues(const Thing&) {
  return Values();
}

/// Its place among the templates, as an identity for its row.
base::Uuid rowOf(std::size_t place) {
  base::Uuid id{};
  id.bytes.back() = static_cast<std::uint8_t>(place + 1);
  return id;
}

Result<session::TemplateFile> templateAt(session::Session& book, const Thing& id) {
  auto files = session::templateFiles(book.path());
  if (!files) return files.error();
  for (std::size_t i = 0; id && i < files->size(); ++i)
    if (rowOf(i) == *id) return std::move((*files)[i]);
  return base::Error{ErrorCode::notFound, "this template is no longer there"};
}

QString nameOf(session::Worded of, const std::string& language) {
  return (of == session::Worded::letter ? u"Letters in %1"_s : u"Consent forms in %1"_s)
      .arg(toQt(language));
}

const QString wordedKey = u"Worded"_s;

AreaForm replacing(Context& context) {
  return {.name = u"Replace"_s,
          .words = u"Use my own file"_s,
          .key = Qt::Key_N,
          .isOfThing = false,
          .save = u"Choose the file"_s,
          .note = u"A text file made from a shown one. It is checked whole first; a mistake is "
                  "named by line and nothing changes."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Letters or consent forms of its language printed from now on. "
                               "Printed letters keep a record of the text they were made from."_s};
          },
          .fields =
              [](const Thing&) {
                return std::vector<Field>{{.key = wordedKey,
                                           .words = u"What it words"_s,
                                           .kind = FieldKind::choice,
                                           .options = {u"Letters home"_s, u"Consent forms"_s}}};
              },
          .values = [](const Thing&) -> Result<Values> {
            Values values;
            values.set(wordedKey, session::Worded::letter);
            return values;
          },
          .act = [&context](By, const Thing&, const Values& values) -> Result<QString> {
            const auto of = values.choice<session::Worded>(wordedKey);
            const auto file = context.prompter.openFile(of == session::Worded::letter
                                                            ? u"A letter's template"_s
                                                            : u"A consent form's template"_s,
                                                        u"Text files (*.txt);;All files (*)"_s);
            if (!file) return QString();
            const auto language =
                session::replaceTemplate(context.session.path(), of, toStd(*file));
            if (!language) return language.error();
            return u"%1 use this file from now on. One used before is kept beside it."_s.arg(
                nameOf(of, *language));
          }};
}

AreaForm showing(Context& context) {
  return {.name = u"Show"_s,
          .words = u"Show the text"_s,
          .key = Qt::Key_E,
          .save = u"Show the text"_s,
          .note = u"What it says, with {names} where the program fills in. Save it as a "
                  "file to write your own."_s,
          .fields = noTemplateFields,
          .values = noTemplateValues,
          .act = [&context](By, const Thing& id, const Values&) -> Result<QString> {
            const auto one = templateAt(context.session, id);
            if (!one) return one.error();
            const auto name = nameOf(one->of, one->language);
            reports::Table text{toStd(name), {{"Text"}}, {}, {}};
            for (const auto line : base::split(one->text, '\n'))
              text.rows.push_back({std::string(line)});
            const auto how =
                context.prompter.decideBy(text, name, {u"Close"_s, u"Save as a file to change"_s});
            if (how != 1) return QString();
            const auto to = context.prompter.newFile(u"Where to save the text"_s,
                                                     toQt(base::folded(one->language) + ".txt"),
                                                     u"Text files (*.txt)"_s, FileHolds::noNames);
            if (!to) return QString();
            const auto target = base::freeName(toStd(*to));
            return saidIf(base::replaceFile(target, one->text),
                          u"Saved as %1. Change it, then \"Use my own file\"."_s.arg(
                              toQt(target.filename().string())));
          }};
}

AreaForm backToBuiltIn(Context& context) {
  return {.name = u"Back"_s,
          .words = u"Back to built-in"_s,
          .key = Qt::Key_B,
          .save = u"Use the built-in text"_s,
          .note = u"Your file is kept beside it under another name."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"What is printed of it from now on. Printed ones do not change."_s};
          },
          .fields = noTemplateFields,
          .values = noTemplateValues,
          .act = [&context](By, const Thing& id, const Values&) -> Result<QString> {
            const auto one = templateAt(context.session, id);
            if (!one) return one.error();
            return saidIf(session::backToShipped(context.session.path(), one->of, one->language),
                          u"%1 use the built-in text."_s.arg(nameOf(one->of, one->language)));
          }};
}

} // namespace

AreaSpec templatesArea(Context& context) {
  auto& book = context.session;
  return {.name = u"Letters"_s,
          .title = u"Letters and forms"_s,
          .station = base::Station::desk,
          .columns = {{"For"}, {"Language"}, {"Text"}, {"Approved by"}, {"File"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto files = session::templateFiles(book.path());
            if (!files) return files.error();
            std::vector<AreaRow> rows;
            for (std::size_t i = 0; i < files->size(); ++i) {
              const auto& one = (*files)[i];
              rows.push_back(
                  {rowOf(i),
                   {one.of == session::Worded::letter ? "letters home" : "consent forms",
                    one.language, one.isOwn ? "your own" : "built-in",
                    one.approved.empty() ? "DRAFT: not approved" : one.approved,
                    one.isOwn ? one.file.filename().string() : "comes with the program"}});
            }
            return rows;
          },
          .history = [](const base::Uuid&) -> Result<std::vector<Revision>> {
            return std::vector<Revision>();
          },
          .forms = {replacing(context), showing(context), backToBuiltIn(context)}};
}

} // namespace gk::ui
