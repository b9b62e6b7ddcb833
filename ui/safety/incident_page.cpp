#include "ui/safety/incident_page.h"

#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/keys/ask_bar.h"
#include "ui/keys/key_bar.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/support/text.h"

#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

using followup::Incident;
using followup::IncidentType;

namespace {

const QString helpFirst = u"Help first. In an emergency, call 911 first and record later."_s;

/// In the order of `continueWith`.
enum GoOn { isSettled, moreDone, stillToDo, whoWasTold };

QString labelOf(IncidentType type) {
  const auto words = capital(toQt(base::displayName(type)));
  return type == IncidentType::privacy ? words + u": lost laptop, paper"_s : words;
}

QString lineOf(const Incident& incident) {
  auto words = toQt(incident.happened.words()) + u"  "_s +
               capital(toQt(base::displayName(incident.type))) + u": "_s + toQt(incident.done);
  if (!incident.told.empty()) words += u"; told "_s + toQt(incident.told);
  if (followup::isOpen(incident)) return u"▲ "_s + words + u"; OPEN: "_s + toQt(incident.followUp);
  return u"✔ "_s + words + (incident.settled ? u"; resolved "_s + toQt(incident.followUp) : u""_s);
}

} // namespace

IncidentPage::IncidentPage(Context& context, QWidget* parent)
    : Page(context, parent), about_(wordsLabel({}, u"big"_s, u"incidentAbout"_s, this)),
      aid_(wordsLabel(helpFirst, u"counts"_s, u"incidentAid"_s, this)), keys_(new KeyBar(4, this)),
      ask_(new AskBar(this)), list_(new QListWidget(this)),
      none_(
          wordsLabel(u"No incidents recorded on this day."_s, u"note"_s, u"incidentNone"_s, this)) {
  setObjectName(u"incidentPage"_s);
  setFocusPolicy(Qt::StrongFocus);
  list_->setObjectName(u"incidentList"_s);
  list_->setAccessibleName(u"Incidents of the day and open ones"_s);
  list_->setFocusPolicy(Qt::NoFocus);
  list_->setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 4, 18, 0);
  column->addWidget(
      new PageHead(wordsLabel(u"Incident: what happened?"_s, u"title"_s, {}, this), nullptr, this));
  column->addWidget(aid_);
  column->addWidget(about_);
  column->addWidget(keys_);
  column->addWidget(ask_);
  column->addWidget(list_, 1);
  column->addWidget(none_);
  column->addStretch();
  ask_->hide();
  connect(ask_, &AskBar::opened, this, [this] {
    keys_->hide();
    ask_->show();
  });
  connect(ask_, &AskBar::closed, this, [this] {
    ask_->hide();
    keys_->show();
    setFocus();
  });
}

void IncidentPage::begin(const std::optional<roster::DayId>& day,
                         const std::optional<roster::ChildId>& child) {
  ask_->backOut();
  day_.reset();
  if (day) {
    const auto found = book().day(*day);
    if (went(found)) day_ = *found;
  }
  isOpenDay_ = day_.has_value();
  if (!day_)
    if (const auto recent = recentDays(); !recent.empty()) day_ = recent.front();
  child_ = child;
  aid_->setText(helpFirst);
  refresh();
  setFocus();
}

void IncidentPage::refresh() {
  incidents_.clear();
  if (day_) {
    const auto incidents = book().incidents(day_->id);
    if (went(incidents)) incidents_ = *incidents;
  }
  show();
}

void IncidentPage::show() {
  const auto dayNamed = day_ && !isOpenDay_
                            ? u"On the day "_s + dayWords(day_->value) + u"; D chooses another.\n"_s
                            : QString();
  if (!day_) {
    about_->setText(u"This logbook has no school day yet: open one on the day board, F1."_s);
  } else if (!child_) {
    about_->setText(dayNamed + u"No child selected. C selects one by number."_s);
  } else {
    const auto child = book().child(*child_);
    const auto identity = book().identity(*child_);
    const auto name = identity ? toQt(identity->shownName()) + u", "_s : QString();
    about_->setText(dayNamed + u"About "_s + name +
                    (child ? toQt(child->value.number) : QString()) +
                    u". C selects another, or none."_s);
  }
  const bool on = day_.has_value();
  std::vector<KeyAction> actions;
  for (std::size_t i = 0; i < base::enumCount<IncidentType>; ++i) {
    const auto type = static_cast<IncidentType>(i);
    actions.push_back({Qt::Key_1 + static_cast<int>(i), labelOf(type), u"incident%1"_s.arg(i + 1),
                       [this, type] { askTime(type); }, KeyLook::plain, on});
  }
  actions.push_back({Qt::Key_C, u"Which child"_s, u"incidentChild"_s, [this] { askChild(); },
                     KeyLook::plain, on});
  actions.push_back(
      {Qt::Key_D, u"Which day"_s, u"incidentDay"_s, [this] { askDay(); }, KeyLook::plain, on});
  actions.push_back({Qt::Key_M, u"Continue selected incident"_s, u"incidentGoOn"_s,
                     [this] { goOn(); }, KeyLook::plain, !incidents_.empty()});
  actions.push_back({Qt::Key_Escape, u"Back"_s, u"incidentBack"_s, [this] { Q_EMIT finished({}); },
                     KeyLook::plain});
  keys_->setActions(std::move(actions));

  const int row = list_->currentRow();
  shown_ = incidents_;
  std::ranges::stable_sort(shown_, [](const auto& one, const auto& two) {
    return std::pair(!followup::isOpen(one.value), one.value.happened.at) <
           std::pair(!followup::isOpen(two.value), two.value.happened.at);
  });
  list_->clear();
  for (const auto& one : shown_)
    list_->addItem(lineOf(one.value));
  // What is recorded is read here; where nothing is, a line says so in place of an empty box.
  list_->setVisible(!shown_.empty());
  none_->setVisible(shown_.empty() && day_.has_value());
  if (!shown_.empty())
    list_->setCurrentRow(std::clamp(row, 0, static_cast<int>(shown_.size()) - 1));
}

void IncidentPage::askTime(IncidentType type) {
  const auto aid = toQt(followup::firstAid(type));
  aid_->setText(aid.isEmpty() ? helpFirst : aid + u"   "_s + helpFirst);
  const auto now = context().clock.now();
  const bool isToday = now.date() == day_->value.date;
  // Without a day of today it has its own date, which may be later than the day's.
  const auto suggestion = toQt(isToday ? now.clockWords() : now.words());
  const auto question =
      isToday ? u": when, by the clock?"_s : u": when? Date and time, or the time on that day."_s;
  ask_->write(capital(toQt(base::displayName(type))) + question, suggestion,
              [this, type](const QString& text) {
                const auto at = timeFrom(text);
                if (!went(at)) return;
                askDone(
                    {.day = day_->id, .child = child_, .type = type, .happened = *at, .done = {}});
              });
}

base::Result<base::LocalInstant> IncidentPage::timeFrom(const QString& text) const {
  auto words = text.simplified().split(u' ');
  const auto half = words.back().toUpper();
  const bool isHalf = words.size() > 1 && (half == u"AM"_s || half == u"PM"_s);
  if (isHalf) words.removeLast();
  const auto time = base::parseClock(toStd(words.back()) + (isHalf ? toStd(u' ' + half) : ""));
  if (!time) return time.error();
  words.removeLast();
  auto date = day_->value.date;
  if (!words.isEmpty()) {
    const auto own = base::parsePlainDate(toStd(words.join(u' ')));
    if (!own) return own.error();
    date = *own;
  }
  return base::atLocal(date, *time, context().clock.now().offset);
}

void IncidentPage::askDone(const Incident& incident) {
  ask_->write(u"What happened and what was done? No names."_s, {},
              [this, incident](const QString& text) {
                auto said = incident;
                said.done = toStd(text);
                askTold(said);
              });
}

void IncidentPage::askTold(const Incident& incident) {
  const QStringList people{u"nurse and guardian"_s, u"nurse"_s,           u"guardian"_s,
                           u"school office"_s,      u"program manager"_s, u"no one yet"_s};
  ask_->choose(u"Who was told?"_s, QStringList(people) << u"Someone else: type"_s,
               [this, incident, people](int chosen) {
                 auto said = incident;
                 if (chosen < people.size()) {
                   said.told = toStd(people[chosen]);
                   return askOpen(said);
                 }
                 ask_->write(u"Who was told, by role? No child's name."_s, {},
                             [this, said](const QString& text) {
                               auto told = said;
                               told.told = toStd(text);
                               askOpen(told);
                             });
               });
}

void IncidentPage::askOpen(const Incident& incident) {
  const QStringList what{u"No further action"_s, u"Follow up with doctor/dentist"_s,
                         u"Reach the guardian"_s, u"Report to the program manager"_s,
                         u"Something else: type"_s};
  ask_->choose(u"What follow-up is needed?"_s, what, [this, incident, what](int chosen) {
    auto said = incident;
    if (chosen == 0) return enter(said);
    if (chosen + 1 < what.size()) {
      said.followUp = toStd(what[chosen].toLower());
      return enter(said);
    }
    ask_->write(u"What follow-up is needed?"_s, {}, [this, said](const QString& text) {
      auto open = said;
      open.followUp = toStd(text);
      enter(open);
    });
  });
}

void IncidentPage::enter(const Incident& incident) {
  if (!went(book().enterIncident(context().acting.by(), incident))) return;
  Q_EMIT finished(
      capital(toQt(base::displayName(incident.type))) + u" is recorded."_s +
      (followup::isOpen(incident) ? u" It stays open until it is resolved: F7."_s : QString()));
}

void IncidentPage::askChild() {
  ask_->write(u"The child's number; - for no child."_s, {}, [this](const QString& text) {
    if (text == u"-"_s) {
      child_.reset();
      return show();
    }
    const auto found = book().findChildren(toStd(text), 2);
    if (!went(found)) return;
    if (found->size() != 1)
      return Q_EMIT said(found->empty() ? u"No child with that number or name."_s
                                        : u"Several match: type the full number."_s);
    child_ = found->front().child;
    show();
  });
}

std::vector<base::Recorded<roster::ClinicDay>> IncidentPage::recentDays() {
  std::vector<base::Recorded<roster::ClinicDay>> all;
  const auto terms = book().terms();
  if (!went(terms)) return all;
  const auto today = context().clock.now().date();
  for (const auto& term : *terms) {
    const auto days = book().days(term.id);
    if (!went(days)) return {};
    for (const auto& day : *days)
      if (!day.value.canceled && day.value.date <= today) all.push_back(day);
  }
  std::ranges::stable_sort(all, std::greater(), [](const auto& day) { return day.value.date; });
  return all;
}

QString IncidentPage::dayWords(const roster::ClinicDay& day) const {
  const auto schools = book().schools();
  QString words = toQt(day.date.words());
  if (!schools) return words;
  const auto school = std::ranges::find(*schools, day.school, &base::Recorded<roster::School>::id);
  if (school != schools->end()) words += u", "_s + toQt(school->value.name);
  return day.team > 1 ? words + u", team %1"_s.arg(day.team) : words;
}

void IncidentPage::askDay() {
  auto recent = recentDays();
  constexpr std::size_t most = 9; // each with a digit of its own
  if (recent.size() > most) recent.erase(recent.begin() + most, recent.end());
  if (recent.empty()) return;
  QStringList options;
  for (const auto& day : recent)
    options += dayWords(day.value);
  ask_->choose(u"Which day is it about? A signed one is fine."_s, options,
               [this, recent](int chosen) {
                 day_ = recent[static_cast<std::size_t>(chosen)];
                 isOpenDay_ = false;
                 refresh();
               });
}

void IncidentPage::goOn() {
  if (list_->currentRow() < 0) return;
  ask_->choose(u"What is new?"_s,
               {u"Resolved"_s, u"More was done"_s, u"Follow-up needed"_s, u"Someone was told"_s},
               [this](int what) {
                 ask_->write(u"In a few words, no names:"_s, {},
                             [this, what](const QString& text) { continueWith(what, text); });
               });
}

void IncidentPage::continueWith(int what, const QString& words) {
  const auto old = shown_.at(static_cast<std::size_t>(list_->currentRow()));
  auto incident = old.value;
  const auto add = [&](std::string& to) { to += (to.empty() ? "" : "; ") + toStd(words); };
  switch (what) {
  case isSettled:
    add(incident.followUp);
    incident.settled = true;
    break;
  case moreDone:
    add(incident.done);
    break;
  case stillToDo:
    add(incident.followUp);
    incident.settled = false;
    break;
  case whoWasTold:
    add(incident.told);
    break;
  default:
    base::fail("no such choice");
  }
  if (went(book().correctIncident(context().acting.by(), old, incident, "update")))
    Q_EMIT said(u"Saved. The previous entry stays in the history."_s);
}

void IncidentPage::keyPressEvent(QKeyEvent* event) {
  event->accept();
  if (ask_->isAsking()) return ask_->press(*event);
  if (keys_->press(*event)) return;
  const int by = event->key() == Qt::Key_Up ? -1 : event->key() == Qt::Key_Down ? 1 : 0;
  if (by != 0 && list_->count() > 0)
    return list_->setCurrentRow(std::clamp(list_->currentRow() + by, 0, list_->count() - 1));
  event->ignore();
  Page::keyPressEvent(event);
}

} // namespace gk::ui
