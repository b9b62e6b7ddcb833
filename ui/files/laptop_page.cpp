#include "ui/files/laptop_page.h"

#include "reports/display_names.h"
#include "ui/asking/pedal.h"
#include "ui/files/backing_up.h"
#include "ui/files/day_envelope.h"
#include "ui/files/office_pack.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_bar.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

constexpr std::array volumes{0, 25, 50, 70, 100};
constexpr std::array percents{100, 125, 150, 175, 200};

template <class Values>
int nearest(const Values& values, int wanted) {
  const auto at =
      std::ranges::min_element(values, {}, [&](int value) { return std::abs(value - wanted); });
  return static_cast<int>(at - values.begin());
}

template <class E>
QStringList names() {
  QStringList all;
  for (const auto name : base::displayNamesOf<E>())
    all += capital(toQt(name));
  return all;
}

QString nameOf(const TaughtKey& pedal) {
  const auto name = keyHint(pedal.key);
  return pedal.key == 0 || pedal.key == Qt::Key_unknown || name.isEmpty()
             ? u"key at place %1"_s.arg(pedal.scanCode)
             : name;
}

} // namespace

LaptopPage::LaptopPage(Context& context, QWidget* parent)
    : Page(context, parent), pedal_(wordsLabel({}, u"big"_s, u"pedalState"_s, this)),
      teachButton_(
          keyButton(u"Set up pedal"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"pedalTeach"_s, this)),
      forget_(
          keyButton(u"Remove pedal"_s, QKeySequence(Qt::ALT | Qt::Key_F), u"pedalForget"_s, this)),
      prefix_(new QLineEdit(this)), scan_(wordsLabel(u"Scan anything here to test the scanner."_s,
                                                     u"big"_s, u"lastScan"_s, this)),
      flash_(new QCheckBox(u"The timer flas&hes as well"_s, this)) {
  setObjectName(u"laptopPage"_s);
  setFocusPolicy(Qt::StrongFocus);
  auto* form = new QFormLayout(this);
  form->setContentsMargins(18, 4, 18, 0);
  form->setHorizontalSpacing(12);
  form->addRow(
      new PageHead(wordsLabel(u"Settings for this laptop"_s, u"title"_s, {}, this), nullptr, this));
  auto* pedals = new QHBoxLayout;
  pedals->setSpacing(8);
  pedals->addWidget(teachButton_);
  pedals->addWidget(forget_);
  pedals->addStretch();
  form->addRow(u"Pedal"_s, pedal_);
  form->addRow(QString(), pedals);
  prefix_->setObjectName(u"scannerPrefix"_s);
  prefix_->setAccessibleName(u"Scanner's prefix"_s);
  prefix_->setMaxLength(4);
  prefix_->setMaximumWidth(720);
  prefix_->setPlaceholderText(u"blank: a scanner is recognized by its speed"_s);
  form->addRow(u"Scanner &begins with"_s, prefix_);
  form->addRow(QString(), scan_);
  QStringList loud;
  for (const auto volume : volumes)
    loud += volume == 0 ? u"Off: flash only"_s : u"%1%"_s.arg(volume);
  volume_ = choice(form, u"Timer's &volume"_s, u"timerVolume"_s, loud);
  flash_->setObjectName(u"timerFlash"_s);
  auto* hear = keyButton(u"Test sound"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"hearIt"_s, this);
  style::whenDressed(hear, [hear] { hear->setMaximumWidth(style::px(300)); });
  form->addRow(QString(), flash_);
  form->addRow(QString(), hear);
  strip_ = choice(form, u"&Keys at the chair"_s, u"stripSide"_s, names<Side>());
  order_ = choice(form, u"&Order of work"_s, u"workOrder"_s, names<WorkOrder>());
  colors_ = choice(form, u"&Colors"_s, u"colors"_s, names<Scheme>());
  QStringList sizes;
  for (const auto percent : percents)
    sizes += u"%1%"_s.arg(percent);
  text_ = choice(form, u"Text si&ze"_s, u"textSize"_s, sizes);
  paper_ = choice(form, u"Pape&r"_s, u"paper"_s, names<PaperSize>());
  buildBackups(form);

  connect(teachButton_, &QPushButton::clicked, this, [this] { teach(true); });
  connect(forget_, &QPushButton::clicked, this, [this] {
    teach(false);
    auto habits = this->context().acting.habits();
    habits.pedal.reset();
    this->context().acting.keep(habits);
  });
  connect(prefix_, &QLineEdit::editingFinished, this, &LaptopPage::choose);
  connect(flash_, &QCheckBox::toggled, this, &LaptopPage::choose);
  connect(hear, &QPushButton::clicked, this, [this] { Q_EMIT soundWanted(Cue::target); });
  connect(&this->context().acting, &Acting::habitsChanged, this, &LaptopPage::refresh);
  setFocusProxy(nullptr);
}

void LaptopPage::buildBackups(QFormLayout* into) {
  place_ = wordsLabel({}, {}, u"backupPlace"_s, this);
  into->addRow(u"Backups go to"_s, place_);
  auto* acts = new FlowLayout(6);
  const auto button = [&](const QString& words, Qt::Key key, const QString& name, auto act) {
    auto* made = keyButton(words, QKeySequence(Qt::ALT | key), name, this);
    connect(made, &QPushButton::clicked, this, act);
    acts->addWidget(made);
  };
  button(u"Choose place"_s, Qt::Key_D, u"backupChoose"_s, [this] { chooseBackupPlace(context()); });
  button(u"Back up now"_s, Qt::Key_U, u"backupNow"_s, [this] { backUp(); });
  button(u"Check logbook"_s, Qt::Key_L, u"checkBook"_s, [this] { check(); });
  button(u"Restore backup"_s, Qt::Key_T, u"restoreBackup"_s, [this] { Q_EMIT restoreWanted(); });
  button(u"Open papers"_s, Qt::Key_A, u"openPapers"_s, [this] {
    const auto folder = unpackPapers(context());
    if (went(folder) && *folder)
      Q_EMIT said(u"The papers are in %1. They name students and are no longer sealed: delete the "
                  "folder when you are done."_s.arg(toQt((*folder)->string())));
  });
  const auto told = [this](const base::Result<QString>& done) {
    if (went(done)) Q_EMIT said(*done);
  };
  button(u"Seal day envelope"_s, Qt::Key_E, u"sealDay"_s,
         [this, told] { sealDayEnvelope(context(), this, context().acting.by(), told); });
  button(u"Merge day envelope"_s, Qt::Key_M, u"mergeDay"_s,
         [this, told] { mergeDayEnvelope(context(), this, context().acting.by(), told); });
  into->addRow(QString(), acts);
}

void LaptopPage::backUp() {
  if (context().acting.habits().backup.folder.empty() && !chooseBackupPlace(context())) return;
  backUpToPlace(context(), this, [this](const base::Result<session::MadeBackup>& made) {
    if (went(made)) Q_EMIT said(backedUpWords(made->path, made->sameDisk));
  });
}

void LaptopPage::check() {
  context().work.runOnCopy(
      LongKind::check, this, book(),
      [](session::Snapshot& copy, const base::Progress& progress) {
        return copy.findings(progress);
      },
      [this](const base::Result<std::vector<session::Fault>>& faults) {
        if (!went(faults)) return;
        if (faults->empty())
          return void(Q_EMIT said(u"Checked: the logbook is complete and unchanged."_s));
        const auto more = std::ssize(*faults) - 1;
        Q_EMIT failed(describe(
            {base::ErrorCode::storeDamaged,
             sentence(faults->front()) +
                 (more > 0 ? " (and " + base::counted(more, "more fault", "more faults") + ")"
                           : std::string())}));
      });
}

QComboBox* LaptopPage::choice(QFormLayout* into, const QString& words, const QString& name,
                              const QStringList& options) {
  auto* box = new ChoiceBox(this);
  box->setObjectName(name);
  box->setAccessibleName(QString(words).remove(u'&'));
  box->setMaximumWidth(720);
  box->addItems(options);
  into->addRow(words, box);
  connect(box, &QComboBox::currentIndexChanged, this, &LaptopPage::choose);
  return box;
}

void LaptopPage::refresh() {
  const auto& habits = context().acting.habits();
  reading_ = true;
  prefix_->setText(toQt(habits.scannerPrefix));
  volume_->setCurrentIndex(nearest(volumes, habits.volume));
  flash_->setChecked(habits.flash || habits.volume == 0);
  flash_->setEnabled(habits.volume != 0);
  strip_->setCurrentIndex(static_cast<int>(habits.strip));
  order_->setCurrentIndex(static_cast<int>(habits.order));
  colors_->setCurrentIndex(static_cast<int>(habits.look.scheme));
  text_->setCurrentIndex(nearest(percents, habits.look.percent));
  paper_->setCurrentIndex(static_cast<int>(habits.paper));
  const auto& backup = habits.backup;
  const auto last = lastBackup(context());
  place_->setText((backup.folder.empty()
                       ? u"No place chosen: no automatic backups."_s
                       : toQt(backup.folder) + u", at each signing and on closing."_s) +
                  (last ? u" Last good backup: %1."_s.arg(toQt(last->words())) : QString()));
  reading_ = false;
  showPedal();
}

void LaptopPage::showPedal() {
  const auto& pedal = context().acting.habits().pedal;
  forget_->setEnabled(pedal.has_value());
  pedal_->setText(teaching_ ? u"▶ Press the pedal once. Esc: cancel."_s
                  : pedal   ? u"Space, and the pedal: "_s + nameOf(*pedal)
                            : u"Space. No pedal is set up yet."_s);
}

void LaptopPage::teach(bool on) {
  teaching_ = on;
  if (on) setFocus();
  showPedal();
}

/// What else would be a shortcut goes to the pedal while it is taught.
bool LaptopPage::event(QEvent* event) {
  if (teaching_ && event->type() == QEvent::ShortcutOverride) {
    event->accept();
    return true;
  }
  return Page::event(event);
}

void LaptopPage::keyPressEvent(QKeyEvent* event) {
  if (!teaching_) return Page::keyPressEvent(event);
  event->accept();
  if (!event->isAutoRepeat()) learn(*event);
}

void LaptopPage::learn(const QKeyEvent& event) {
  if (event.key() == Qt::Key_Escape) return teach(false);
  if (meansSomething(chairKey(event))) {
    Q_EMIT said(keyHint(event.key()) +
                u" is already used at the chair. Set the pedal to Space, F13 or another "
                "unused key, and press it again."_s);
    return;
  }
  auto habits = context().acting.habits();
  // Space always starts the timer, so a pedal that sends it needs no teaching.
  if (event.key() == Qt::Key_Space)
    habits.pedal.reset();
  else
    habits.pedal = TaughtKey{event.key(), event.nativeScanCode()};
  teach(false);
  context().acting.keep(habits);
  Q_EMIT said(event.key() == Qt::Key_Space ? u"The pedal sends Space: it works without setup."_s
                                           : u"Pedal set up: "_s + nameOf(*habits.pedal));
}

void LaptopPage::choose() {
  if (reading_) return;
  auto habits = context().acting.habits();
  habits.scannerPrefix = toStd(prefix_->text());
  habits.volume = volumes[static_cast<std::size_t>(volume_->currentIndex())];
  if (habits.volume != 0 && flash_->isEnabled()) habits.flash = flash_->isChecked();
  habits.strip = static_cast<Side>(strip_->currentIndex());
  habits.order = static_cast<WorkOrder>(order_->currentIndex());
  habits.look = {static_cast<Scheme>(colors_->currentIndex()),
                 percents[static_cast<std::size_t>(text_->currentIndex())]};
  habits.paper = static_cast<PaperSize>(paper_->currentIndex());
  context().acting.keep(habits);
}

void LaptopPage::showScan(const QString& code) {
  const auto text = toStd(code);
  QString what = u"not a child's number or a lot in this logbook"_s;
  if (roster::parseChildNumber(text)) {
    what = u"a child's number"_s;
  } else if (const auto lots = book().lots()) {
    for (const auto& lot : *lots)
      if (toQt(lot.value.lot).compare(code, Qt::CaseInsensitive) == 0)
        what = u"a lot, "_s + toQt(kit::shown(lot.value));
  }
  scan_->setText(u"Scanned "_s + code + u": "_s + what);
}

} // namespace gk::ui
