#include "base/text.h"
#include "session/letter_files.h"
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

AreaForm replacing(Context& context) {
  return {.name = u"Replace"_s,
          .words = u"Use my own file"_s,
          .key = Qt::Key_N,
          .isOfThing = false,
          .save = u"Choose the file"_s,
          .note = u"A text file made from a shown one. It is checked whole first; a mistake is "
                  "named by line and nothing changes."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Letters of its language printed from now on. Printed letters keep "
                               "a record of the text they were made from."_s};
          },
          .fields = noTemplateFields,
          .values = noTemplateValues,
          .act = [&context](By, const Thing&, const Values&) -> Result<QString> {
            const auto file = context.prompter.openFile(u"A letter's template"_s,
                                                        u"Text files (*.txt);;All files (*)"_s);
            if (!file) return QString();
            const auto language = session::replaceTemplate(context.session.path(), toStd(*file));
            if (!language) return language.error();
            return u"Letters in %1 use this file from now on. The one before is kept in the folder "
                   "\"letters\"."_s.arg(toQt(*language));
          }};
}

AreaForm showing(Context& context) {
  return {.name = u"Show"_s,
          .words = u"Show the text"_s,
          .key = Qt::Key_E,
          .save = u"Show the text"_s,
          .note = u"What the letter says, with {names} where the program fills in. Save it as a "
                  "file to write your own."_s,
          .fields = noTemplateFields,
          .values = noTemplateValues,
          .act = [&context](By, const Thing& id, const Values&) -> Result<QString> {
            const auto one = templateAt(context.session, id);
            if (!one) return one.error();
            reports::Table text{"Letter in " + one->language, {{"Text"}}, {}, {}};
            for (const auto line : base::split(one->text, '\n'))
              text.rows.push_back({std::string(line)});
            const auto how =
                context.prompter.decideBy(text, u"Letter in %1"_s.arg(toQt(one->language)),
                                          {u"Close"_s, u"Save as a file to change"_s});
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
          .save = u"Use the built-in letter"_s,
          .note = u"Your file is kept under another name in the folder \"letters\"."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Letters of this language printed from now on. Printed ones do not "
                               "change."_s};
          },
          .fields = noTemplateFields,
          .values = noTemplateValues,
          .act = [&context](By, const Thing& id, const Values&) -> Result<QString> {
            const auto one = templateAt(context.session, id);
            if (!one) return one.error();
            return saidIf(session::backToShipped(context.session.path(), one->language),
                          u"Letters in %1 use the built-in text."_s.arg(toQt(one->language)));
          }};
}

} // namespace

AreaSpec templatesArea(Context& context) {
  auto& book = context.session;
  return {.name = u"Letters"_s,
          .title = u"Letters home"_s,
          .station = base::Station::desk,
          .columns = {{"Language"}, {"Text"}, {"Approved by"}, {"File"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto files = session::templateFiles(book.path());
            if (!files) return files.error();
            std::vector<AreaRow> rows;
            for (std::size_t i = 0; i < files->size(); ++i) {
              const auto& one = (*files)[i];
              rows.push_back(
                  {rowOf(i),
                   {one.language, one.isOwn ? "your own" : "built-in",
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
