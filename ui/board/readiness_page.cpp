#include "ui/board/readiness_page.h"

#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/asking/read_date.h"
#include "ui/keys/ask_bar.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/models/readiness_words.h"
#include "ui/support/text.h"

#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

using kit::ReadinessAnswer;
using kit::ReadinessItem;

namespace {

/// A spore test is run at least weekly, also by a program that works one day a week.
constexpr int daysOfSporeTest = 7;

QString mark(const std::optional<kit::ReadinessCheck>& answer) {
  if (!answer) return u"…"_s;
  switch (answer->answer) {
  case ReadinessAnswer::done:
    return u"✔ done"_s;
  case ReadinessAnswer::failed:
    return u"✖ FAILED"_s;
  case ReadinessAnswer::notApplicable:
    return u"– not applicable"_s;
  case ReadinessAnswer::passedOver:
    return u"▲ SKIPPED"_s;
  }
  return {};
}

} // namespace

ReadinessPage::ReadinessPage(Context& context, QWidget* parent)
    : Page(context, parent), state_(wordsLabel({}, u"counts"_s, u"readinessState"_s, this)),
      question_(wordsLabel({}, u"title"_s, u"readinessQuestion"_s, this)),
      keys_(new KeyBar(4, this)), ask_(new AskBar(this)) {
  setObjectName(u"readinessPage"_s);
  setFocusPolicy(Qt::StrongFocus);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 4, 18, 0);
  column->addWidget(
      new PageHead(wordsLabel(u"Equipment check, before the first child"_s, u"title"_s, {}, this),
                   nullptr, this));
  column->addWidget(state_);
  for (std::size_t item = 0; item < items; ++item) {
    lines_[item] = wordsLabel({}, u"big"_s, u"readinessLine%1"_s.arg(item + 1), this);
    column->addWidget(lines_[item]);
  }
  column->addWidget(question_);
  column->addWidget(keys_);
  column->addWidget(ask_);
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

void ReadinessPage::chooseDay(const std::optional<roster::DayId>& day) {
  ask_->backOut();
  day_ = day;
  refresh();
  at_ = 0;
  while (at_ + 1 < items && answerTo(at_))
    ++at_;
  show();
}

void ReadinessPage::refresh() {
  answers_.clear();
  if (day_) {
    const auto answers = book().readiness(*day_);
    if (went(answers)) answers_ = *answers;
  }
  show();
}

std::optional<kit::ReadinessCheck> ReadinessPage::answerTo(std::size_t item) const {
  const auto found = std::ranges::find_if(answers_, [&](const auto& row) {
    return row.value.item == static_cast<ReadinessItem>(item);
  });
  return found == answers_.end() ? std::nullopt : std::optional(found->value);
}

base::Date ReadinessPage::careDate() {
  const auto day = day_ ? book().day(*day_)
                        : base::Result<base::Recorded<roster::ClinicDay>>(
                              base::Error{base::ErrorCode::notFound, {}});
  return day ? day->value.date : context().clock.now().date();
}

QString ReadinessPage::nowWords() const {
  const auto now = context().clock.now();
  return toQt(now.clockWords() + " on " + now.date().weekday() + ", " + now.date().words());
}

void ReadinessPage::show() {
  const auto words = readinessWords(answers_);
  state_->setText(!day_             ? u"No school day is open: open one on the day board, F1."_s
                  : words.isEmpty() ? u"✔ Ready."_s
                                    : u"▲ "_s + words);
  for (std::size_t item = 0; item < items; ++item) {
    const auto answer = answerTo(item);
    auto line = (item == at_ ? u"▶ "_s : u"    "_s) + QString::number(item + 1) + u"  "_s +
                capital(toQt(base::displayName(static_cast<ReadinessItem>(item)))) + u"   "_s +
                mark(answer);
    if (answer)
      for (const auto& part :
           {base::datesToRead(answer->detail), base::datesToRead(answer->reason)})
        if (!part.empty()) line += u", "_s + toQt(part);
    lines_[item]->setText(line);
    auto font = lines_[item]->font();
    font.setBold(item == at_);
    lines_[item]->setFont(font);
  }
  auto question = readinessQuestion(static_cast<ReadinessItem>(at_));
  if (static_cast<ReadinessItem>(at_) == ReadinessItem::clock)
    question += u" It is "_s + nowWords() + u'.';
  question_->setText(question);
  const auto why = [this](ReadinessAnswer answer) { return [this, answer] { askWhy(answer); }; };
  const bool on = day_.has_value();
  keys_->setActions(
      {{Qt::Key_Return, u"Done"_s, u"readinessDone"_s, [this] { done(); }, KeyLook::main, on},
       {Qt::Key_X, u"Failed"_s, u"readinessFailed"_s, why(ReadinessAnswer::failed), KeyLook::alarm,
        on},
       {Qt::Key_N, u"Not applicable"_s, u"readinessNone"_s, why(ReadinessAnswer::notApplicable),
        KeyLook::plain, on},
       {Qt::Key_P, u"Skip (reason)"_s, u"readinessOver"_s, why(ReadinessAnswer::passedOver),
        KeyLook::plain, on},
       {Qt::Key_R, u"Read the light again"_s, u"readAgain"_s, [this] { readAgain(); },
        KeyLook::plain, on}});
}

void ReadinessPage::move(int by) {
  const auto last = static_cast<int>(items) - 1;
  at_ = static_cast<std::size_t>(std::clamp(static_cast<int>(at_) + by, 0, last));
  show();
}

void ReadinessPage::done() {
  const auto item = static_cast<ReadinessItem>(at_);
  if (item == ReadinessItem::light) return doneLight();
  if (item == ReadinessItem::lots) return doneLots();
  if (item == ReadinessItem::sterilizer) return doneSterilizer();
  answer(ReadinessAnswer::done, {}, item == ReadinessItem::clock ? nowWords() : QString());
}

std::optional<base::Recorded<kit::Light>> ReadinessPage::chosenLight() {
  const auto lights = book().lights();
  if (!went(lights)) return std::nullopt;
  const auto chosen = context().acting.now().light;
  const auto light =
      std::ranges::find_if(*lights, [&](const auto& one) { return chosen == one.id; });
  if (light != lights->end()) return *light;
  Q_EMIT said(u"Choose today's light first: F5. Or skip it with a reason."_s);
  return std::nullopt;
}

/// The light of today's choice: a reading of this morning counts, else its number is asked for.
void ReadinessPage::doneLight() {
  const auto light = chosenLight();
  if (!light) return;
  const auto readings = book().readings(light->id);
  if (!went(readings)) return;
  if (const auto* newest = kit::newestOn(light->value, *readings, careDate()))
    noteLight(light->value, newest->value);
  else
    readLight(*light);
}

/// At any time of the day: the newest number counts from then on.
void ReadinessPage::readAgain() {
  const auto light = chosenLight();
  if (!light) return;
  at_ = static_cast<std::size_t>(ReadinessItem::light);
  show();
  readLight(*light);
}

void ReadinessPage::readLight(const base::Recorded<kit::Light>& light) {
  const auto question = u"Light %1: what does meter %2 read, in mW/cm²? Baseline %3."_s
                            .arg(toQt(light.value.tag), toQt(light.value.meter))
                            .arg(light.value.baseline.value);
  ask_->write(question, {}, [this, light](const QString& text) {
    const auto value = base::parseInt(toStd(text));
    if (!went(value)) return;
    if (*value < 0 || *value > 5000)
      return Q_EMIT said(u"A meter reads 0 to 5000 mW/cm². Type it again."_s);
    enterReading(light,
                 {.light = light.id,
                  .on = careDate(),
                  .value = {static_cast<int>(*value)},
                  .withSleeve = light.value.baselineWithSleeve,
                  .meter = light.value.meter},
                 session::Confirmed::no);
  });
}

void ReadinessPage::enterReading(const base::Recorded<kit::Light>& light,
                                 const kit::MeterReading& reading, session::Confirmed confirmed) {
  const auto entered = book().enterReading(context().acting.by(), reading, confirmed);
  const bool isAsked = !entered && entered.error().code == base::ErrorCode::ruleLight &&
                       confirmed == session::Confirmed::no;
  if (!isAsked) {
    if (went(entered)) noteLight(light.value, reading);
    return;
  }
  ask_->choose(
      capital(toQt(entered.error().detail)) + u'.',
      {u"Read it again"_s, u"The meter shows %1"_s.arg(reading.value.value)},
      [this, light, reading](int chosen) {
        if (chosen == 0)
          readLight(light);
        else
          enterReading(light, reading, session::Confirmed::yes);
      },
      {}, AskKeys::marked);
}

void ReadinessPage::noteLight(const kit::Light& light, const kit::MeterReading& reading) {
  const auto grade = kit::grade(light, reading);
  const auto detail = u"%1 reads %2 of %3 mW/cm², %4"_s.arg(toQt(light.tag))
                          .arg(reading.value.value)
                          .arg(light.baseline.value)
                          .arg(toQt(base::displayName(grade)).toUpper());
  if (grade == kit::LightGrade::red)
    answer(ReadinessAnswer::failed, u"the light is too weak: use another, or a self-cure sealant"_s,
           detail);
  else
    answer(ReadinessAnswer::done, {}, detail);
}

void ReadinessPage::doneLots() {
  const auto lots = book().lots();
  if (!went(lots)) return;
  const auto& setup = context().acting.now();
  QStringList words;
  for (const auto& chosen : {setup.sealant, setup.etchant, setup.varnish})
    for (const auto& lot : *lots) {
      if (chosen != lot.id) continue;
      if (const auto usable = kit::checkUsable(lot.value, careDate()); !usable)
        return Q_EMIT said(toQt(usable.error().detail) + u" Choose another: F5."_s);
      words += toQt(kit::shown(lot.value) + ", expires " + lot.value.expiry.shortWords());
    }
  if (words.isEmpty())
    return Q_EMIT said(u"Choose today's lots first: F5. Or skip it with a reason."_s);
  answer(ReadinessAnswer::done, {}, words.join(u", "_s));
}

void ReadinessPage::doneSterilizer() {
  ask_->write(
      u"Date of the last spore test, such as 11/13/2026?"_s, {}, [this](const QString& text) {
        const auto date = readDate(text, context().prompter, {.until = careDate()});
        if (!went(date)) return;
        const auto age = careDate().days() - date->days();
        if (age.count() < 0) return Q_EMIT said(u"That is in the future. Type it again."_s);
        const auto detail = u"spore test of "_s + toQt(date->iso());
        ask_->choose(u"Result?"_s, {u"Passed"_s, u"Failed"_s, u"No result yet"_s},
                     [this, detail, age](int chosen) {
                       if (chosen == 1)
                         return answer(ReadinessAnswer::failed, u"the spore test failed"_s, detail);
                       if (chosen == 2)
                         return answer(ReadinessAnswer::passedOver, u"no result yet"_s, detail);
                       if (age.count() > daysOfSporeTest)
                         return answer(ReadinessAnswer::failed,
                                       u"the last spore test is %1 old"_s.arg(
                                           counted(age.count(), "day", "days")),
                                       detail + u" passed"_s);
                       answer(ReadinessAnswer::done, {}, detail + u" passed"_s);
                     });
      });
}

void ReadinessPage::askWhy(ReadinessAnswer how) {
  ask_->write(capital(toQt(base::displayName(static_cast<ReadinessItem>(at_)))) + u' ' +
                  toQt(base::displayName(how)) + u": why?"_s,
              {}, [this, how](const QString& why) { answer(how, why, {}); });
}

void ReadinessPage::answer(ReadinessAnswer how, const QString& reason, const QString& detail) {
  const auto item = static_cast<ReadinessItem>(at_);
  if (!went(book().answerReadiness(context().acting.by(),
                                   {*day_, item, how, toStd(reason), toStd(detail)})))
    return;
  if (at_ + 1 < items) ++at_;
  show();
  if (answers_.size() == items) Q_EMIT answered();
}

void ReadinessPage::keyPressEvent(QKeyEvent* event) {
  event->accept();
  if (ask_->isAsking()) return ask_->press(*event);
  if (keys_->press(*event)) return;
  if (event->key() == Qt::Key_Up) return move(-1);
  if (event->key() == Qt::Key_Down) return move(1);
  event->ignore();
  Page::keyPressEvent(event);
}

} // namespace gk::ui
