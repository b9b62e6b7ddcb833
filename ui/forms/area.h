#pragma once

#include "reports/print/table.h"
#include "session/session.h"
#include "ui/forms/field.h"

#include <QKeySequence>

#include <functional>
#include <map>

namespace gk::ui {

struct Context;
struct ChosenList;
struct Telling;
using ShowList = std::function<void(ChosenList)>;

using base::By;
using base::Result;

/// The thing of an area that a row of its list stands for, by its identity.
using Thing = std::optional<base::Uuid>;

struct AreaRow {
  base::Uuid id;
  std::vector<std::string> cells;
};

/// One revision of a thing, as its form would show it.
struct Revision {
  base::Stamp stamp;
  Values values;
};

/// Whom what was done is told, unless that page is gone by then.
struct FormAnswer {
  QObject* page;
  std::function<void(const Result<QString>&)> give;
};

/// One thing that can be done in an area: what is asked, and the verb it becomes.
struct AreaForm {
  QString name;            ///< "Add": of its button, for tests
  QString words;           ///< on its button
  Qt::Key key;             ///< with Alt
  bool isOfThing = true;   ///< needs a row; else it adds one
  int columns = 3;         ///< of fields side by side
  bool asksReason = false; ///< a line for it is put at the end
  QString save{};          ///< on the key that saves
  QString note{};          ///< above the form: what it is for
  /// What saving it changes elsewhere, a sentence each; said before.
  std::function<Result<QStringList>(const Thing&)> changes{};
  std::function<std::vector<Field>(const Thing&)> fields{};
  /// What the form begins with.
  std::function<Result<Values>(const Thing&)> values{};
  /// What was done, in a sentence; empty where the person backed out of a question.
  std::function<Result<QString>(By, const Thing&, const Values&)> act{};
  /// In its place where it takes long: done aside, and then told.
  std::function<void(By, const Thing&, const Values&, const FormAnswer&)> actAside{};
  /// Beside which field a refusal is said; else below the form.
  std::map<base::ErrorCode, QString> refusedAt{};
};

/// A page of the desk, described: its list, its forms and where its acts are done.
struct AreaSpec {
  QString name;  ///< "Lights": of its widgets
  QString title; ///< "Curing lights"
  base::Station station;
  std::optional<session::Area> area{}; ///< none of what a first day does not wait for
  QString search{}; ///< what the line above the list asks; empty where the list is whole
  std::vector<reports::Column> columns{};
  std::function<Result<std::vector<AreaRow>>(const QString& search)> rows{};
  /// Oldest first.
  std::function<Result<std::vector<Revision>>(const base::Uuid&)> history{};
  std::vector<AreaForm> forms{}; ///< the first of a thing opens with it
};

/// Of these, the key of the line for a reason.
inline const QString reasonKey = u"Reason"_s;
Field reasonField();

/// A choice among the schools, by their place in Reader::schools; closed ones are not offered.
Field schoolField(Context& context, const QString& key, const QString& words);

/// As the core counts it.
std::function<Result<QStringList>(const Thing&)> changesSaid(session::Session& book,
                                                             session::Area area);

/// Of what was entered by mistake: asks the reason alone.
AreaForm removalForm(const QString& save, const QString& note,
                     std::function<Result<QString>(By, const Thing&, const std::string&)> act);

/// Each thing of a list as a row, by what makes its cells.
template <class T, class Cells>
std::vector<AreaRow> rowsOf(const std::vector<base::Recorded<T>>& things, Cells cells) {
  std::vector<AreaRow> rows;
  for (const auto& thing : things)
    rows.push_back({thing.id.uuid(), cells(thing.value)});
  return rows;
}

/// `notFound` where the list no longer has it, such as after an undo on another page.
template <class T>
Result<base::Recorded<T>> thingOf(const Result<std::vector<base::Recorded<T>>>& things,
                                  const Thing& id) {
  if (!things) return things.error();
  for (const auto& thing : *things)
    if (id && thing.id.uuid() == *id) return thing;
  return base::Error{base::ErrorCode::notFound, "it is no longer in the logbook"};
}

template <class T, class ValuesOf>
Result<std::vector<Revision>> revisionsOf(const Result<std::vector<base::Recorded<T>>>& history,
                                          ValuesOf valuesOf) {
  if (!history) return history.error();
  std::vector<Revision> revisions;
  for (const auto& row : *history)
    revisions.push_back({row.stamp, valuesOf(row.value)});
  return revisions;
}

/// "Cobble Lantern Elementary is saved.", or why not.
template <class T>
Result<QString> saidIf(const Result<T>& done, const QString& sentence) {
  if (!done) return done.error();
  return sentence;
}

// Each in a file of its own. The context outlives what is made here.
AreaSpec programArea(Context& context);
AreaSpec schoolsArea(Context& context);
AreaSpec termsArea(Context& context);
AreaSpec teamArea(Context& context);
AreaSpec lightsArea(Context& context);
AreaSpec lotsArea(Context& context);
/// `show` shows a list that was chosen for import.
AreaSpec studentsArea(Context& context, const ShowList& show);
/// `telling` says what came of long work.
AreaSpec yearsArea(Context& context, const Telling& telling);
AreaSpec laptopArea(Context& context, const Telling& telling);
AreaSpec templatesArea(Context& context);

/// Of the program's page and of a new logbook's.
std::vector<Field> programFields();
Values valuesOfProgram(const roster::Program& program);
roster::Program programFrom(const Values& values, roster::Program program = {});

} // namespace gk::ui
