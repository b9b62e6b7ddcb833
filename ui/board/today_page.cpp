#include "ui/board/today_page.h"

#include "reports/display_names.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/choice_box.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QStandardItemModel>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr int nobody = -1;

/// Empties the list but for "no one", or for what stands for no choice.
void begin(QComboBox* box, const QString& none) {
  box->clear();
  box->addItem(none, nobody);
}

/// What may not be used stays in the list with the reason, and cannot be chosen.
void add(QComboBox* box, const QString& words, std::size_t place, bool usable) {
  box->addItem(words, static_cast<int>(place));
  if (usable) return;
  auto* items = qobject_cast<QStandardItemModel*>(box->model());
  items->item(box->count() - 1)->setEnabled(false);
}

template <class Id>
void select(QComboBox* box, const std::vector<Id>& ids, const std::optional<Id>& wanted) {
  const auto at = wanted ? std::ranges::find(ids, *wanted) : ids.end();
  const auto place = at == ids.end() ? nobody : static_cast<int>(at - ids.begin());
  box->setCurrentIndex(std::max(box->findData(place), 0));
}

template <class Id>
std::optional<Id> selected(const QComboBox* box, const std::vector<Id>& ids) {
  const auto place = box->currentData().toInt();
  if (place < 0 || place >= static_cast<int>(ids.size())) return std::nullopt;
  return ids[static_cast<std::size_t>(place)];
}

template <class E>
void addNames(QComboBox* box) {
  for (const auto name : base::displayNamesOf<E>())
    box->addItem(capital(toQt(name)));
}

QString memberWords(const roster::Member& member) {
  return toQt(member.initials + "  " + member.name + ", " +
              std::string(base::displayName(member.role)));
}

} // namespace

TodayPage::TodayPage(Context& context, QWidget* parent)
    : Page(context, parent), fourHanded_(new QCheckBox(u"Four-handed: assistant &helps"_s, this)),
      summary_(wordsLabel({}, u"counts"_s, u"todaySummary"_s, this)) {
  setObjectName(u"todayPage"_s);
  auto* form = new QFormLayout(this);
  form->setContentsMargins(18, 4, 18, 0);
  form->setHorizontalSpacing(12);
  form->addRow(
      new PageHead(wordsLabel(u"Team and supplies"_s, u"title"_s, {}, this), nullptr, this));
  operator_ = choice(form, u"&Operator"_s, u"todayOperator"_s);
  assistant_ = choice(form, u"&Assistant"_s, u"todayAssistant"_s);
  recorder_ = choice(form, u"Who &types"_s, u"todayRecorder"_s);
  light_ = choice(form, u"Curing &light"_s, u"todayLight"_s);
  sealant_ = choice(form, u"&Sealant lot"_s, u"todaySealant"_s);
  etchant_ = choice(form, u"&Etchant lot"_s, u"todayEtchant"_s);
  varnish_ = choice(form, u"&Varnish lot"_s, u"todayVarnish"_s);
  isolation_ = choice(form, u"&Isolation"_s, u"todayIsolation"_s);
  cheek_ = choice(form, u"&Cheek retracted by"_s, u"todayCheek"_s);
  tongue_ = choice(form, u"To&ngue retracted by"_s, u"todayTongue"_s);
  addNames<chairside::Isolation>(isolation_);
  addNames<chairside::Holder>(cheek_);
  addNames<chairside::Holder>(tongue_);
  fourHanded_->setObjectName(u"todayFourHanded"_s);
  form->addRow(fourHanded_);
  form->addRow(summary_);
  connect(fourHanded_, &QCheckBox::toggled, this, &TodayPage::choose);
  setFocusProxy(operator_);
}

QComboBox* TodayPage::choice(QFormLayout* into, const QString& words, const QString& name) {
  auto* box = new ChoiceBox(this);
  box->setObjectName(name);
  box->setAccessibleName(QString(words).remove(u'&'));
  box->setMaximumWidth(720);
  into->addRow(words, box);
  connect(box, &QComboBox::currentIndexChanged, this, &TodayPage::choose);
  return box;
}

void TodayPage::refresh() {
  const auto care = book().careDate();
  if (!went(care)) return;
  const auto on = *care;
  reading_ = true;
  readMembers(on);
  readLots(on);
  readLights(on);
  const auto& now = context().acting.now();
  isolation_->setCurrentIndex(static_cast<int>(now.isolation));
  cheek_->setCurrentIndex(static_cast<int>(now.cheek));
  tongue_->setCurrentIndex(static_cast<int>(now.tongue));
  fourHanded_->setChecked(now.fourHanded);
  reading_ = false;
  showSummary();
}

void TodayPage::readMembers(base::Date on) {
  const auto members = book().members();
  if (!went(members)) return;
  members_.clear();
  begin(operator_, u"none yet"_s);
  begin(assistant_, u"no one"_s);
  begin(recorder_, u"the operator"_s);
  for (const auto& [id, stamp, member] : *members) {
    const auto place = members_.size();
    members_.push_back(id);
    const bool lapsed = member.licenseUntil && *member.licenseUntil < on;
    const auto words =
        memberWords(member) +
        (lapsed ? u", license ended "_s + toQt(member.licenseUntil->shortWords()) : QString());
    add(operator_, words, place, !lapsed);
    add(assistant_, words, place, true);
    add(recorder_, words, place, true);
  }
  const auto& now = context().acting.now();
  select(operator_, members_, now.author);
  select(assistant_, members_, now.assistant);
  const auto& signedIn = context().acting.signedIn();
  select(recorder_, members_, signedIn ? signedIn : now.recorder);
  recorder_->setEnabled(!signedIn);
  recorder_->setToolTip(signedIn ? u"Signed in now. Lock (F12) to change."_s : QString());
}

void TodayPage::readLots(base::Date on) {
  const auto lots = book().lots();
  if (!went(lots)) return;
  lots_.clear();
  for (auto* box : {sealant_, etchant_, varnish_})
    begin(box, u"none yet"_s);
  for (const auto& [id, stamp, lot] : *lots) {
    const auto place = lots_.size();
    lots_.push_back(id);
    auto* box = kit::isSealant(lot.kind)                 ? sealant_
                : lot.kind == kit::MaterialKind::etchant ? etchant_
                : lot.kind == kit::MaterialKind::varnish ? varnish_
                                                         : nullptr;
    if (!box) continue;
    const auto refusal = kit::refusalOf(lot, on);
    auto words = toQt(kit::shown(lot) + ", expires " + lot.expiry.shortWords());
    if (refusal) words += u", "_s + toQt(base::displayName(*refusal)).toUpper();
    add(box, words, place, !refusal);
  }
  const auto& now = context().acting.now();
  select(sealant_, lots_, now.sealant);
  select(etchant_, lots_, now.etchant);
  select(varnish_, lots_, now.varnish);
}

void TodayPage::readLights(base::Date on) {
  const auto lights = book().lights();
  if (!went(lights)) return;
  lights_.clear();
  begin(light_, u"none yet"_s);
  for (const auto& [id, stamp, light] : *lights) {
    const auto place = lights_.size();
    lights_.push_back(id);
    const auto readings = book().readings(id);
    if (!went(readings)) return;
    auto words = toQt(light.tag);
    QString reading = u", not read today"_s;
    for (const auto& one : *readings)
      if (one.value.on == on) reading = u", %1 mW/cm², NOT COMPARABLE"_s.arg(one.value.value.value);
    if (const auto* newest = kit::newestOn(light, *readings, on))
      reading = u", %1 mW/cm², %2"_s.arg(newest->value.value.value)
                    .arg(toQt(base::displayName(kit::grade(light, newest->value))).toUpper());
    words += light.inService ? reading : u", OUT OF SERVICE"_s;
    add(light_, words, place, light.inService);
  }
  select(light_, lights_, context().acting.now().light);
}

void TodayPage::choose() {
  if (reading_) return;
  auto setup = context().acting.now();
  setup.author = selected(operator_, members_);
  setup.assistant = selected(assistant_, members_);
  if (!context().acting.signedIn()) setup.recorder = selected(recorder_, members_);
  setup.sealant = selected(sealant_, lots_);
  setup.etchant = selected(etchant_, lots_);
  setup.varnish = selected(varnish_, lots_);
  setup.light = selected(light_, lights_);
  setup.isolation = static_cast<chairside::Isolation>(isolation_->currentIndex());
  setup.cheek = static_cast<chairside::Holder>(cheek_->currentIndex());
  setup.tongue = static_cast<chairside::Holder>(tongue_->currentIndex());
  setup.fourHanded = fourHanded_->isChecked();
  context().acting.change(setup);
  showSummary();
}

void TodayPage::showSummary() {
  summary_->setText(setupWords(book(), context().acting.now()));
}

QString setupWords(session::Session& book, const Setup& setup) {
  QStringList words;
  if (const auto members = book.members())
    for (const auto& [what, who] :
         {std::pair(u"operator"_s, setup.author),
          {u"assistant"_s, setup.assistant},
          {u"typing"_s, book.signedIn() ? book.signedIn() : setup.recorder}})
      for (const auto& member : *members)
        if (who == member.id) words += what + u' ' + toQt(member.value.initials);
  if (!setup.author) words.prepend(u"▲ No provider selected (F5)"_s);
  if (const auto kit = kitWords(book, setup); !kit.isEmpty()) words += kit;
  return words.join(u", "_s);
}

QString kitWords(session::Session& book, const Setup& setup) {
  QStringList words;
  if (const auto lights = book.lights())
    for (const auto& light : *lights)
      if (setup.light == light.id) words += u"light "_s + toQt(light.value.tag);
  if (const auto lots = book.lots())
    for (const auto& lot : *lots)
      if (setup.sealant == lot.id) words += u"sealant "_s + toQt(lot.value.lot);
  return words.join(u", "_s);
}

QString teamWords(session::Session& book, const Setup& setup) {
  const auto members = book.members();
  if (!members || !setup.author) return {};
  QStringList words;
  for (const auto& who : {setup.author, setup.fourHanded ? setup.assistant : std::nullopt})
    for (const auto& member : *members)
      if (who == member.id) {
        const auto names = toQt(member.value.name).split(u' ');
        words += names.size() < 2 ? names.front() : names.front() + u' ' + names.back()[0] + u'.';
      }
  return words.join(u" + "_s);
}

} // namespace gk::ui
