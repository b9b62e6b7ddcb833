#include "ui/asking/context.h"
#include "ui/desk/roster_forms.h"
#include "ui/setup/card_forms.h"
#include "ui/setup/erasure_form.h"
#include "ui/setup/siblings_question.h"

#include <algorithm>

namespace gk::ui {

namespace {

using base::ErrorCode;
using session::Confirmed;

/// Two adults of a child are asked; more that a merge or an import brought stay as they are.
constexpr std::size_t guardiansAsked = 2;
constexpr std::size_t mostFound = 50;
constexpr int ofPerson = 9; ///< fields before those of the guardians

std::vector<Field> personFields() {
  std::vector<Field> fields{
      {.key = u"First"_s, .words = u"First name"_s, .hint = u"As on the form"_s},
      {.key = u"Middle"_s, .words = u"Middle name"_s},
      {.key = u"Last"_s, .words = u"Last name or names"_s},
      {.key = u"Used"_s, .words = u"Goes by"_s, .hint = u"Blank if same as first name"_s},
      {.key = u"Birth"_s,
       .words = u"Birth date"_s,
       .hint = u"3/14/2019"_s,
       .kind = FieldKind::date,
       .isNeeded = true,
       .gradeKey = u"Grade"_s},
      {.key = u"Sex"_s,
       .words = u"Sex"_s,
       .hint = u"As on the form"_s,
       .kind = FieldKind::choice,
       .options = optionsOf<dentition::Sex>()},
      {.key = u"Teacher"_s, .words = u"Teacher"_s},
      {.key = u"Note"_s,
       .words = u"Identifying note"_s,
       .hint = u"Such as: twin sister in room 7"_s},
      {.key = u"StudentId"_s, .words = u"Student ID"_s, .hint = u"The school's own number"_s}};
  for (std::size_t i = 0; i < guardiansAsked; ++i) {
    const auto which = i == 0 ? u"Guardian"_s : u"Second guardian"_s;
    const auto end = QString::number(i + 1);
    fields.push_back({.key = u"Guardian"_s + end, .words = which});
    fields.push_back({.key = u"Relation"_s + end,
                      .words = u"Relation"_s,
                      .hint = i == 0 ? u"Such as mother"_s : QString()});
    fields.push_back({.key = u"Phone"_s + end, .words = u"Phone"_s});
    fields.push_back({.key = u"Language"_s + end,
                      .words = u"Language for letters"_s,
                      .hint = i == 0 ? u"Blank for English"_s : QString()});
  }
  return fields;
}

Values valuesOfPerson(const session::Identity& identity, dentition::Sex sex) {
  Values values;
  values.set(u"First"_s, identity.first);
  values.set(u"Middle"_s, identity.middle);
  values.set(u"Last"_s, identity.last);
  values.set(u"Used"_s, identity.nameUsed);
  values.set(u"Birth"_s, std::optional(identity.birth));
  values.set(u"Sex"_s, sex);
  for (std::size_t i = 0; i < guardiansAsked && i < identity.guardians.size(); ++i) {
    const auto end = QString::number(i + 1);
    const auto& guardian = identity.guardians[i];
    values.set(u"Guardian"_s + end, guardian.name);
    values.set(u"Relation"_s + end, guardian.relation);
    values.set(u"Phone"_s + end, guardian.phone);
    values.set(u"Language"_s + end, guardian.language);
  }
  values.set(u"Teacher"_s, identity.teacher);
  values.set(u"Note"_s, identity.note);
  values.set(u"StudentId"_s, identity.studentId);
  return values;
}

session::StudentDetails personFrom(const Values& values, session::Identity identity) {
  identity.first = values.text(u"First"_s);
  identity.middle = values.text(u"Middle"_s);
  identity.last = values.text(u"Last"_s);
  identity.nameUsed = values.text(u"Used"_s);
  identity.birth = *values.date(u"Birth"_s);
  identity.teacher = values.text(u"Teacher"_s);
  identity.note = values.text(u"Note"_s);
  identity.studentId = values.text(u"StudentId"_s);
  std::vector<session::Guardian> guardians;
  for (std::size_t i = 0; i < guardiansAsked; ++i) {
    const auto end = QString::number(i + 1);
    const session::Guardian asked{values.text(u"Guardian"_s + end),
                                  values.text(u"Relation"_s + end), values.text(u"Phone"_s + end),
                                  values.text(u"Language"_s + end)};
    if (asked != session::Guardian()) guardians.push_back(asked);
  }
  for (std::size_t i = guardiansAsked; i < identity.guardians.size(); ++i)
    guardians.push_back(identity.guardians[i]);
  identity.guardians = std::move(guardians);
  return {std::move(identity), values.choice<dentition::Sex>(u"Sex"_s)};
}

std::int64_t placeOf(const std::vector<base::Recorded<roster::School>>& schools,
                     roster::SchoolId school) {
  const auto at = std::ranges::find(schools, school, &base::Recorded<roster::School>::id);
  return at - schools.begin();
}

std::vector<Field> placeFields(Context& context) {
  return {schoolField(context, u"School"_s, u"School"_s),
          {.key = u"Grade"_s, .words = u"Grade"_s, .hint = u"K, 1 to 12"_s, .isNeeded = true},
          {.key = u"Room"_s, .words = u"Room"_s}};
}

Result<roster::SchoolId> schoolOf(session::Session& book, const Values& values) {
  const auto schools = book.schools();
  if (!schools) return schools.error();
  const auto place = static_cast<std::size_t>(values.number(u"School"_s).value_or(-1));
  if (place >= schools->size())
    return base::Error{ErrorCode::notFound,
                       "there is no school yet; enter it first, under Schools"};
  return schools->at(place).id;
}

/// Asks what the session asks; none where the person backed out.
template <class Act>
auto asking(Prompter& prompter, Act act)
    -> std::optional<decltype(act(Confirmed::no, Confirmed::no))> {
  auto age = Confirmed::no;
  auto another = Confirmed::no;
  while (true) {
    auto done = act(age, another);
    if (done) return done;
    const auto code = done.error().code;
    auto* const confirmed = code == ErrorCode::ruleBirthDate && age == Confirmed::no ? &age
                            : code == ErrorCode::ruleSameChild && another == Confirmed::no
                                ? &another
                                : nullptr;
    if (!confirmed) return done;
    const auto question = code == ErrorCode::ruleBirthDate
                              ? u". Does the school confirm the birth date?"_s
                              : u". Is it a different student?"_s;
    if (!prompter.confirm(capital(toQt(done.error().detail)) + question)) return std::nullopt;
    *confirmed = Confirmed::yes;
  }
}

Result<QString> addStudent(Context& context, By by, const Values& values) {
  auto& book = context.session;
  const auto school = schoolOf(book, values);
  if (!school) return school.error();
  auto number = values.text(u"Number"_s);
  if (number.empty()) {
    auto next = book.nextNumber();
    if (!next) return next.error();
    number = std::move(*next);
  }
  auto details = personFrom(values, {.birth = *values.date(u"Birth"_s)});
  details.identity.room = values.text(u"Room"_s);
  const auto& birth = details.identity.birth;
  const session::NewChild entering{{.number = number,
                                    .birth = {birth.year(), birth.month()},
                                    .sex = details.sex,
                                    .school = *school,
                                    .grade = values.text(u"Grade"_s),
                                    .room = values.text(u"Room"_s),
                                    .provisional = values.tick(u"Provisional"_s),
                                    .note = {}},
                                   details.identity};
  const auto done = asking(context.prompter, [&](Confirmed age, Confirmed another) {
    return book.enrollChild(by, entering, age, another);
  });
  if (!done) return QString();
  return saidIf(*done, u"Student %1 is saved."_s.arg(toQt(number)));
}

AreaForm addingStudent(Context& context) {
  return {.name = u"Add"_s,
          .words = u"Add a student"_s,
          .key = Qt::Key_N,
          .isOfThing = false,
          .columns = 4,
          .save = u"Save student"_s,
          .note = u"Consent forms that came back are entered at the form desk (Ctrl+F)."_s,
          .fields =
              [&context](const Thing&) {
                auto fields = personFields();
                const auto places = placeFields(context);
                fields.insert(fields.begin() + ofPerson, places.begin(), places.end());
                fields.insert(fields.begin() + ofPerson + std::ssize(places),
                              {.key = u"Number"_s,
                               .words = u"Number"_s,
                               .hint = u"From the slip; blank for the next free number"_s,
                               .takesScan = true});
                fields.push_back({.key = u"Provisional"_s,
                                  .words = u"Not on the school's roster yet"_s,
                                  .hint = u"Confirm later with the school"_s,
                                  .kind = FieldKind::tick});
                return fields;
              },
          .values = [](const Thing&) -> Result<Values> {
            Values values;
            values.set(u"Sex"_s, dentition::Sex::notStated);
            return values;
          },
          .act = [&context](By by, const Thing&,
                            const Values& values) { return addStudent(context, by, values); },
          .refusedAt = {{ErrorCode::ruleBirthDate, u"Birth"_s},
                        {ErrorCode::callMalformed, u"First"_s}}};
}

AreaForm correctingStudent(Context& context) {
  auto& book = context.session;
  return {.name = u"Correct"_s,
          .words = u"Correct details"_s,
          .key = Qt::Key_E,
          .columns = 4,
          .asksReason = true,
          .save = u"Save details"_s,
          .note = u"Give the reason without a name: it is not encrypted."_s,
          .changes = changesSaid(book, session::Area::rosters),
          .fields = [](const Thing&) { return personFields(); },
          .values = [&book](const Thing& id) -> Result<Values> {
            const roster::ChildId child(*id);
            const auto card = book.child(child);
            if (!card) return card.error();
            const auto identity = book.identity(child);
            // What cannot be read is entered again.
            if (!identity && identity.error().code == ErrorCode::vaultDamaged) return Values();
            if (!identity) return identity.error();
            return valuesOfPerson(*identity, card->value.sex);
          },
          .act = [&context](By by, const Thing& id, const Values& values) -> Result<QString> {
            const roster::ChildId child(*id);
            auto before = context.session.identity(child);
            if (!before && before.error().code == ErrorCode::vaultDamaged)
              before = session::Identity{.birth = *values.date(u"Birth"_s)};
            if (!before) return before.error();
            const auto details = personFrom(values, *before);
            const auto done = asking(context.prompter, [&](Confirmed age, Confirmed another) {
              return context.session.correctStudent(by, child, details, values.text(reasonKey), age,
                                                    another);
            });
            if (!done) return QString();
            if (!*done) return done->error();
            return u"The details are saved. The earlier ones stay in the history, encrypted."_s +
                   phoneOfSiblings(context, by, child, *before, details.identity,
                                   values.text(reasonKey));
          },
          .refusedAt = {{ErrorCode::textMalformed, reasonKey},
                        {ErrorCode::ruleBirthDate, u"Birth"_s},
                        {ErrorCode::callMalformed, u"First"_s}}};
}

AreaForm movingStudent(Context& context) {
  auto& book = context.session;
  return {.name = u"Move"_s,
          .words = u"Move"_s,
          .key = Qt::Key_M,
          .asksReason = true,
          .save = u"Move student"_s,
          .note = u"To another school, grade or room. Consent and history move too; the student "
                  "is expected at the new school."_s,
          .changes = changesSaid(book, session::Area::rosters),
          .fields = [&context](const Thing&) { return placeFields(context); },
          .values = [&book](const Thing& id) -> Result<Values> {
            const auto card = book.child(roster::ChildId(*id));
            if (!card) return card.error();
            const auto schools = book.schools();
            if (!schools) return schools.error();
            Values values;
            values.set(u"School"_s, placeOf(*schools, card->value.school));
            values.set(u"Grade"_s, card->value.grade);
            values.set(u"Room"_s, card->value.room);
            return values;
          },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto school = schoolOf(book, values);
            if (!school) return school.error();
            return saidIf(book.moveChild(by, roster::ChildId(*id), *school, values.text(u"Grade"_s),
                                         values.text(u"Room"_s), values.text(reasonKey)),
                          u"The student is moved. The earlier place stays in the history."_s);
          },
          .refusedAt = {{ErrorCode::textMalformed, u"Grade"_s}}};
}

AreaForm confirmingStudent(session::Session& book) {
  return {.name = u"Confirm"_s,
          .words = u"Confirm"_s,
          .key = Qt::Key_C,
          .asksReason = true,
          .save = u"Confirm student"_s,
          .note = u"For a student known only from a form: how did the school confirm?"_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.confirmProvisional(by, roster::ChildId(*id), values.text(reasonKey)),
                          u"The student is on the roster."_s);
          }};
}

std::string statusOf(const roster::Child& card) {
  if (card.left)
    return "left " + card.left->from.shortWords() + ": " +
           std::string(base::displayName(card.left->why));
  return card.provisional ? "NOT CONFIRMED" : "on the roster";
}

Result<std::vector<AreaRow>> foundStudents(session::Session& book, const QString& wanted) {
  std::vector<AreaRow> rows;
  if (wanted.trimmed().isEmpty()) return rows;
  const auto found = book.findChildren(toStd(wanted.trimmed()), mostFound);
  if (!found) return found.error();
  const auto schools = book.schools();
  if (!schools) return schools.error();
  for (const auto& one : *found) {
    const auto card = book.child(one.child);
    if (!card) return card.error();
    std::string school;
    for (const auto& each : *schools)
      if (each.id == card->value.school) school = roster::shownAmong(each.value, *schools);
    rows.push_back(
        {one.child.uuid(),
         {one.number, one.name, school, card->value.grade, one.room, statusOf(card->value)}});
  }
  return rows;
}

/// Who the student was said to be and where the student was, at every moment that changed either.
Result<std::vector<Revision>> studentHistory(session::Session& book, const base::Uuid& id) {
  const roster::ChildId child(id);
  const auto identities = book.identityRevisions(child);
  if (!identities) return identities.error();
  const auto cards = book.revisions<roster::Child>(child);
  if (!cards) return cards.error();
  const auto schools = book.schools();
  if (!schools) return schools.error();
  std::vector<base::Stamp> moments;
  for (const auto& identity : *identities)
    moments.push_back(identity.stamp);
  for (const auto& card : *cards)
    moments.push_back(card.stamp);
  std::ranges::sort(moments, {}, &base::Stamp::entry);
  std::vector<Revision> revisions;
  for (std::size_t i = 0; i < moments.size(); ++i) {
    // Card and identity of one act are one moment.
    if (i + 1 < moments.size() && moments[i + 1].at == moments[i].at &&
        moments[i + 1].reason == moments[i].reason)
      continue;
    const auto now = moments[i].entry;
    const session::IdentityRevision* identity = nullptr;
    const base::Recorded<roster::Child>* card = nullptr;
    for (const auto& one : *identities)
      if (one.stamp.entry <= now) identity = &one;
    for (const auto& one : *cards)
      if (one.stamp.entry <= now) card = &one;
    if (!identity || !card) continue;
    auto values = valuesOfPerson(identity->identity, card->value.sex);
    values.set(u"School"_s, placeOf(*schools, card->value.school));
    values.set(u"Grade"_s, card->value.grade);
    values.set(u"Room"_s, card->value.room);
    values.set(u"Provisional"_s, std::int64_t{card->value.provisional});
    setLeaving(values, card->value.left);
    revisions.push_back({moments[i], values});
  }
  return revisions;
}

} // namespace

AreaSpec studentsArea(Context& context, const ShowList& show) {
  auto& book = context.session;
  return {.name = u"Students"_s,
          .title = u"Students"_s,
          .station = base::Station::rosters,
          .area = session::Area::rosters,
          .search = u"Find a student by name or number, or scan the slip"_s,
          .columns = {{"Number"}, {"Name"}, {"School"}, {"Grade"}, {"Room"}, {"Status"}},
          .rows = [&book](const QString& wanted) { return foundStudents(book, wanted); },
          .history = [&book](const base::Uuid& id) { return studentHistory(book, id); },
          .forms = {addingStudent(context), importingRoster(context, show),
                    correctingStudent(context), movingStudent(context), leavingStudent(context),
                    returningStudent(book), confirmingStudent(book), joiningCards(context),
                    partingCards(context), takingImportBack(book), erasingStudent(context)}};
}

} // namespace gk::ui
