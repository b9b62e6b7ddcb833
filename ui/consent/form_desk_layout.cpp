#include "reports/display_names.h"
#include "ui/consent/answer_panel.h"
#include "ui/consent/form_count_page.h"
#include "ui/consent/form_desk_page.h"
#include "ui/consent/handouts_page.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

// How the form desk looks: what a stack shares on top, the form below, what is in the logbook last.
namespace gk::ui {

namespace {

constexpr int rowsOfForms = 3;

template <class E>
QStringList shownNamesOf() {
  QStringList names;
  for (const auto name : base::displayNamesOf<E>())
    names += capital(toQt(name));
  return names;
}

/// Words above what they name.
QVBoxLayout* named(const QString& words, QWidget* field, QWidget* parent) {
  auto* column = new QVBoxLayout;
  column->setSpacing(2);
  auto* label = wordsLabel(words, u"field"_s, {}, parent);
  label->setWordWrap(false);
  label->setBuddy(field);
  column->addWidget(label);
  column->addWidget(field);
  return column;
}

} // namespace

QLineEdit* FormDeskPage::line(const QString& words, const QString& name) {
  auto* made = new QLineEdit(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  return made;
}

QComboBox* FormDeskPage::choice(const QString& words, const QString& name,
                                const QStringList& options) {
  auto* made = new ChoiceBox(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  made->addItems(options);
  return made;
}

QWidget* FormDeskPage::batchPart() {
  auto* part = new QFrame(this);
  part->setProperty("look", u"card"_s);
  auto* grid = new QGridLayout(part);
  grid->setContentsMargins(12, 6, 12, 8);
  grid->setHorizontalSpacing(10);
  grid->setVerticalSpacing(4);
  who_ = choice(u"Entered by"_s, u"formWho"_s, {});
  school_ = choice(u"School of these forms"_s, u"formSchool"_s, {});
  term_ = choice(u"Term"_s, u"formTerm"_s, {});
  received_ = line(u"Received on"_s, u"formReceived"_s);
  until_ = line(u"Valid through"_s, u"formUntil"_s);
  version_ = line(u"Form version"_s, u"formVersion"_s);
  language_ = choice(u"Form language"_s, u"formLanguage"_s, {u"English"_s, u"Spanish"_s});
  language_->setEditable(true);
  const std::vector<std::pair<QString, QWidget*>> fields{
      {u"Entered by"_s, who_},        {u"School"_s, school_},       {u"Term"_s, term_},
      {u"Received on"_s, received_},  {u"Valid through"_s, until_}, {u"Form version"_s, version_},
      {u"Form language"_s, language_}};
  std::vector<QVBoxLayout*> columns;
  for (const auto& [words, field] : fields)
    columns.push_back(named(words, field, part));
  // In large letters two rows.
  style::whenDressed(part, [grid, columns] {
    const int across = lookNow().percent > 120 ? 3 : static_cast<int>(columns.size());
    for (std::size_t i = 0; i < columns.size(); ++i) {
      grid->removeItem(columns[i]);
      grid->addLayout(columns[i], static_cast<int>(i) / across, static_cast<int>(i) % across);
    }
    for (int column = 0; column < 7; ++column)
      grid->setColumnStretch(column, column < across ? 1 : 0);
  });
  return part;
}

QWidget* FormDeskPage::findPart() {
  auto* part = new QWidget(this);
  auto* column = new QVBoxLayout(part);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  find_ = line(u"Number or name on the form"_s, u"formFind"_s);
  find_->setPlaceholderText(u"Number or name on the form, then Enter; or scan its code"_s);
  find_->setProperty("look", u"search"_s);
  find_->setClearButtonEnabled(true);
  known_ = wordsLabel({}, u"counts"_s, u"formKnown"_s, part);
  column->addWidget(find_);
  column->addWidget(known_);
  return part;
}

QWidget* FormDeskPage::datesPart() {
  auto* part = new QFrame(this);
  part->setProperty("look", u"card"_s);
  auto* grid = new QGridLayout(part);
  grid->setContentsMargins(12, 6, 12, 8);
  grid->setHorizontalSpacing(10);
  grid->setVerticalSpacing(4);
  signed_ = line(u"Signed on"_s, u"formSigned"_s);
  signed_->setPlaceholderText(u"1120 or 11/20/2026"_s);
  signer_ = choice(u"Signed by"_s, u"formSigner"_s, shownNamesOf<roster::Relation>());
  from_ = line(u"Valid from, if not from signing"_s, u"formFrom"_s);
  note_ = line(u"Limits or remarks, no names"_s, u"formNote"_s);
  reviewed_ = new QCheckBox(u"An \"other\" signer was reviewed"_s, part);
  reviewed_->setObjectName(u"formReviewed"_s);
  grid->addLayout(named(u"Signed on"_s, signed_, part), 0, 0);
  grid->addLayout(named(u"Signed by"_s, signer_, part), 0, 1);
  grid->addLayout(named(u"Valid from, if later"_s, from_, part), 1, 0);
  grid->addLayout(named(u"Limits or remarks, no names"_s, note_, part), 1, 1);
  grid->addWidget(reviewed_, 2, 0, 1, 2);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(1, 1);
  grid->setRowStretch(3, 1);
  return part;
}

QWidget* FormDeskPage::guardiansPart() {
  auto* part = new QFrame(this);
  part->setProperty("look", u"card"_s);
  auto* grid = new QGridLayout(part);
  grid->setContentsMargins(12, 6, 12, 8);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(3);
  const std::array heads{u"Who is told, as on the form"_s, u"Relation"_s, u"Phone"_s,
                         u"Letters in"_s};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    auto* head = wordsLabel(heads[i], u"field"_s, {}, part);
    head->setWordWrap(false);
    grid->addWidget(head, 0, static_cast<int>(i));
  }
  for (std::size_t i = 0; i < guardians_.size(); ++i) {
    const auto which = i == 0 ? u"First adult: "_s : u"Second adult: "_s;
    const auto end = QString::number(i + 1);
    auto& adult = guardians_[i];
    adult = {line(which + u"name"_s, u"formGuardian"_s + end),
             line(which + u"relation"_s, u"formRelation"_s + end),
             line(which + u"phone"_s, u"formPhone"_s + end),
             line(which + u"language for letters"_s, u"formTongue"_s + end)};
    const auto row = static_cast<int>(i) + 1;
    int at = 0;
    for (auto* field : {adult.name, adult.relation, adult.phone, adult.language}) {
      field->setMinimumWidth(1);
      grid->addWidget(field, row, at++);
    }
  }
  for (int column = 0; column < 4; ++column)
    grid->setColumnStretch(column, column == 0 ? 4 : column == 2 ? 3 : 2);
  grid->setRowStretch(3, 1);
  return part;
}

QWidget* FormDeskPage::alertsPart() {
  auto* part = new QFrame(this);
  part->setProperty("look", u"card"_s);
  auto* grid = new QGridLayout(part);
  grid->setContentsMargins(12, 6, 12, 8);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(4);
  flag_ = choice(u"Health alert on the form"_s, u"formFlag"_s, shownNamesOf<roster::FlagKind>());
  action_ = choice(u"What the alert asks for"_s, u"formAction"_s,
                   {u"Stop: a clinician decides"_s, u"Ask at the chair"_s, u"Note"_s});
  // What must not touch the child stops its material; another action is the typist's choice.
  const auto suggest = [this] {
    using roster::FlagKind;
    const auto kind = static_cast<FlagKind>(flag_->currentIndex());
    const bool stops = kind == FlagKind::acrylateAllergy || kind == FlagKind::latexAllergy ||
                       kind == FlagKind::rosinReaction;
    action_->setCurrentIndex(
        static_cast<int>(stops ? roster::FlagAction::stop : roster::FlagAction::ask));
  };
  suggest();
  connect(flag_, &QComboBox::currentIndexChanged, this, suggest);
  detail_ = line(u"Details of the alert, no names"_s, u"formDetail"_s);
  detail_->setPlaceholderText(u"Details, no names; Enter adds the alert"_s);
  auto* add = keyButton(u"Add alert"_s, QKeySequence(Qt::ALT | Qt::Key_A), u"formAddAlert"_s, part);
  auto* drop =
      keyButton(u"Remove last"_s, QKeySequence(Qt::ALT | Qt::Key_R), u"formDropAlert"_s, part);
  connect(add, &QPushButton::clicked, this, &FormDeskPage::addAlert);
  connect(drop, &QPushButton::clicked, this, &FormDeskPage::dropAlert);
  connect(detail_, &QLineEdit::returnPressed, this, &FormDeskPage::addAlert);
  alertList_ = wordsLabel(u"No health alert on this form."_s, u"note"_s, u"formAlerts"_s, part);
  grid->addLayout(named(u"Health alert"_s, flag_, part), 0, 0);
  grid->addLayout(named(u"Action"_s, action_, part), 0, 1);
  grid->addWidget(detail_, 1, 0, 1, 2);
  auto* keys = new QHBoxLayout;
  keys->addWidget(add);
  keys->addWidget(drop);
  keys->addWidget(alertList_, 1);
  grid->addLayout(keys, 2, 0, 1, 2);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(1, 1);
  return part;
}

QWidget* FormDeskPage::earlierPart() {
  earlier_ = new QWidget(this);
  auto* column = new QVBoxLayout(earlier_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  forms_ = new QTableView(earlier_);
  forms_->setObjectName(u"formsKnown"_s);
  forms_->setAccessibleName(u"Forms of this student in the logbook"_s);
  model_ = new TableModel(this);
  forms_->setModel(model_);
  forms_->setItemDelegate(new CellDelegate(forms_));
  forms_->setSelectionBehavior(QAbstractItemView::SelectRows);
  forms_->setSelectionMode(QAbstractItemView::SingleSelection);
  forms_->setTabKeyNavigation(false);
  forms_->verticalHeader()->hide();
  new LastColumn(*forms_);
  style::whenDressed(forms_, [this] {
    forms_->verticalHeader()->setDefaultSectionSize(style::px(28));
    forms_->horizontalHeader()->setDefaultSectionSize(style::px(140));
    forms_->setFixedHeight(style::px(28) * rowsOfForms + style::px(36));
  });
  connect(forms_->selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this] { showHistory(); });
  history_ = wordsLabel({}, u"note"_s, u"formHistory"_s, earlier_);
  column->addWidget(wordsLabel(u"In the logbook for this student"_s, u"section"_s, {}, earlier_));
  column->addWidget(forms_);
  column->addWidget(history_);
  earlier_->hide();
  return earlier_;
}

QWidget* FormDeskPage::keysPart() {
  auto* part = new QWidget(this);
  auto* keys = new FlowLayout(6, part);
  keys->setContentsMargins(0, 0, 0, 0);
  const auto key = [&](const QString& words, const QKeySequence& hint, const QString& name,
                       auto act) {
    auto* made = keyButton(words, hint, name, part);
    connect(made, &QPushButton::clicked, this, act);
    keys->addWidget(made);
    return made;
  };
  save_ = static_cast<CapButton*>(key(u"Save form"_s, QKeySequence(Qt::CTRL | Qt::Key_Return),
                                      u"formSave"_s, [this] { save(); }));
  save_->setProperty("look", u"main"_s);
  key(u"Start over"_s, QKeySequence(Qt::Key_Escape), u"formClear"_s, [this] { startOver(); });
  key(u"Undo form"_s, QKeySequence(Qt::ALT | Qt::Key_Z), u"formUndo"_s, [this] { undo(); });
  key(u"Correct form"_s, QKeySequence(Qt::ALT | Qt::Key_K), u"formCorrect"_s,
      [this] { correct(); });
  key(u"Y checks these"_s, QKeySequence(Qt::ALT | Qt::Key_Y), u"formOffer"_s,
      [this] { offerThese(); });
  key(u"Count and chase"_s, QKeySequence(Qt::ALT | Qt::Key_C), u"formCount"_s, [this] {
    counts_->begin(term());
    ui::turnTo(*stack_, *stack_->widget(1));
  });
  return part;
}

void FormDeskPage::layOut() {
  tally_ = wordsLabel({}, u"note"_s, u"formTally"_s, this);
  auto* head =
      new PageHead(wordsLabel(u"Form desk"_s, u"title"_s, u"formTitle"_s, this), tally_, this);
  stack_ = new QStackedWidget(this);
  auto* entry = new QWidget(stack_);
  auto* column = new QVBoxLayout(entry);
  column->setContentsMargins(0, 0, 6, 0);
  column->setSpacing(8);
  // Made in the order in which Tab comes to them.
  auto* find = findPart();
  answers_ = new AnswerPanel(this);
  auto* dates = datesPart();
  auto* guardians = guardiansPart();
  auto* alerts = alertsPart();
  reasonPart_ = new QWidget(this);
  auto* reason = new QVBoxLayout(reasonPart_);
  reason->setContentsMargins(0, 0, 0, 0);
  reason_ = line(u"Reason for the correction"_s, u"formReason"_s);
  reason->addLayout(named(u"Reason for the correction, kept with what the form said before"_s,
                          reason_, reasonPart_));
  reasonPart_->hide();
  auto* keys = keysPart();
  auto* earlier = earlierPart();
  auto* batch = batchPart();
  column->addWidget(batch);
  column->addWidget(find);
  // Beside each other, and below each other in large letters.
  for (const auto& [left, right] :
       {std::pair<QWidget*, QWidget*>(answers_, dates), {guardians, alerts}}) {
    auto* row = new QBoxLayout(QBoxLayout::LeftToRight);
    row->setSpacing(8);
    row->addWidget(left, 1);
    row->addWidget(right, 1);
    column->addLayout(row);
    style::whenDressed(right, [row] {
      row->setDirection(lookNow().percent > 120 ? QBoxLayout::TopToBottom
                                                : QBoxLayout::LeftToRight);
    });
  }
  column->addWidget(reasonPart_);
  column->addWidget(earlier);
  column->addStretch(1);
  auto* scroll = new QScrollArea(stack_);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setWidget(entry);
  counts_ = new FormCountPage(
      context(), [this] { return by(); }, stack_);
  auto* typing = new QWidget(stack_); // what saves stays in sight
  auto* below = new QVBoxLayout(typing);
  below->setContentsMargins(0, 0, 0, 0);
  below->addWidget(scroll, 1);
  below->addWidget(keys);
  auto* counting = new QScrollArea(stack_);
  counting->setWidgetResizable(true);
  counting->setFrameShape(QFrame::NoFrame);
  counting->setFocusPolicy(Qt::NoFocus);
  counting->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  counting->setWidget(counts_);
  // Keys that jump show where they went.
  connect(qApp, &QApplication::focusChanged, scroll, [scroll](QWidget*, QWidget* now) {
    if (now && scroll->widget()->isAncestorOf(now)) scroll->ensureWidgetVisible(now, 10, 40);
  });
  stack_->addWidget(typing);
  stack_->addWidget(counting);
  connect(counts_, &Page::failed, this, &Page::failed);
  connect(counts_, &Page::said, this, &Page::said);
  auto* handouts = new HandoutsPage(
      context(), [this] { return by(); }, [this] { return term(); }, stack_);
  handouts->setMinimumWidth(1); // its list scrolls, and no other page is wider for it
  stack_->addWidget(handouts);
  connect(handouts, &Page::failed, this, &Page::failed);
  connect(handouts, &Page::said, this, &Page::said);
  connect(counts_, &FormCountPage::handoutsWanted, this, [this, handouts] {
    ui::turnTo(*stack_, *handouts);
    handouts->begin();
  });
  connect(handouts, &HandoutsPage::backedOut, this, [this, counting] {
    ui::turnTo(*stack_, *counting);
    counts_->begin(term());
  });
  connect(counts_, &FormCountPage::backedOut, this, &FormDeskPage::toForms);
  ui::turnTo(*stack_, *typing);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(18, 4, 18, 0);
  whole->setSpacing(6);
  whole->addWidget(head);
  whole->addWidget(stack_, 1);
  setFocusProxy(find_);
}

} // namespace gk::ui
