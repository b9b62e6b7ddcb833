#include "ui/desk/desk_page.h"

#include "reports/display_names.h"
#include "ui/desk/area_delegate.h"
#include "ui/desk/list_page.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/setup/first_day_page.h"
#include "ui/setup/laptop_area.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

using session::AreaStanding;

constexpr int listWidth = 340;
constexpr int largeListWidth = 430; ///< where the letters are large

/// A shape and a word for each, since a color alone says nothing.
QString markOf(AreaStanding standing) {
  switch (standing) {
  case AreaStanding::ready:
    return u"✔ "_s;
  case AreaStanding::ask:
    return u"▲ "_s;
  case AreaStanding::missing:
    return u"✖ "_s;
  }
  return {};
}

AreaDelegate::Sign signOf(AreaStanding standing) {
  switch (standing) {
  case AreaStanding::ready:
    return AreaDelegate::Sign::ready;
  case AreaStanding::ask:
    return AreaDelegate::Sign::ask;
  case AreaStanding::missing:
    return AreaDelegate::Sign::missing;
  }
  return AreaDelegate::Sign::none;
}

void showIn(QListWidgetItem& item, AreaDelegate::Sign sign, const QString& title,
            const QString& key, const QString& state) {
  item.setData(AreaDelegate::sign, static_cast<int>(sign));
  item.setData(AreaDelegate::title, title);
  item.setData(AreaDelegate::key, key);
  item.setData(AreaDelegate::state, state);
}

/// Alt+1 to Alt+9, then letters that no form of an area has.
QKeyCombination keyOfPlace(int place) {
  constexpr std::array later{Qt::Key_H, Qt::Key_F, Qt::Key_Comma};
  return Qt::ALT | (place < 9 ? static_cast<Qt::Key>(Qt::Key_1 + place)
                              : later.at(static_cast<std::size_t>(place - 9)));
}

QString keyWordsOf(int place) {
  return QKeySequence(keyOfPlace(place)).toString(QKeySequence::PortableText);
}

} // namespace

DeskPage::DeskPage(Context& context, QWidget* parent)
    : Page(context, parent), program_(wordsLabel({}, u"title"_s, u"deskProgram"_s, this)),
      guide_(wordsLabel({}, u"counts"_s, u"deskGuide"_s, this)), who_(new ChoiceBox(this)),
      forms_(new CapButton(this)), prints_(new CapButton(this)), calendar_(new CapButton(this)),
      settings_(new CapButton(this)), safety_(new CapButton(this)), areas_(new QListWidget(this)),
      stack_(new QStackedWidget(this)) {
  setObjectName(u"deskPage"_s);
  layOut();
  const Telling telling{this, [this](const Result<QString>& done) {
                          if (went(done)) Q_EMIT said(*done);
                        }};
  for (auto& spec :
       {programArea(context), schoolsArea(context), termsArea(context), teamArea(context),
        lightsArea(context), lotsArea(context),
        studentsArea(context, [this](ChosenList list) { showList(std::move(list)); }),
        yearsArea(context, telling), templatesArea(context), laptopArea(context, telling)})
    addArea(spec);
  addList();
  addFirstDay();
  connect(&context.acting, &Acting::changed, this, [this] {
    if (isVisible()) readMembers();
  });
  connect(areas_, &QListWidget::currentRowChanged, this, [this](int row) {
    if (row < 0) return;
    if (row >= std::ssize(pages_)) return ui::turnTo(*stack_, *firstDay_);
    auto* page = pages_[static_cast<std::size_t>(row)];
    // A list that is being looked at stays until it is imported or left.
    const bool isList = page->spec().area == session::Area::rosters && list_->isOpen();
    ui::turnTo(*stack_, isList ? static_cast<QWidget&>(*list_) : *page);
  });
  areas_->setCurrentRow(0);
  setFocusProxy(areas_);
}

void DeskPage::layOut() {
  who_->setObjectName(u"deskWho"_s);
  who_->setAccessibleName(u"Entered by"_s);
  connect(who_, &QComboBox::currentIndexChanged, this, [this](int place) {
    if (reading_) return;
    author_ =
        place > 0 ? std::optional(members_.at(static_cast<std::size_t>(place) - 1)) : std::nullopt;
    this->context().acting.enterAtDesk(author_);
  });
  next_ = keyButton(u"Next"_s, QKeySequence(Qt::ALT | Qt::Key_G), u"deskNext"_s, this);
  connect(next_, &QPushButton::clicked, this, &DeskPage::next);
  toFirstDay_ =
      keyButton(u"Check list"_s, QKeySequence(Qt::ALT | Qt::Key_0), u"deskFirstDay"_s, this);
  connect(toFirstDay_, &QPushButton::clicked, this, &DeskPage::showFirstDay);
  auto* by = wordsLabel(u"Entered by"_s, u"field"_s, {}, this);
  by->setWordWrap(false);
  auto* head = new PageHead(program_, nullptr, this);
  auto* enters = new QWidget(head);
  auto* entering = new QHBoxLayout(enters);
  entering->setContentsMargins(0, 4, 0, 0);
  entering->addWidget(by);
  entering->addWidget(who_);
  head->add(enters);
  auto* guiding = new QHBoxLayout;
  guiding->addWidget(guide_, 1);
  guiding->addWidget(toFirstDay_);
  guiding->addWidget(next_);
  areas_->setObjectName(u"deskAreas"_s);
  areas_->setAccessibleName(u"Desk areas"_s);
  areas_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  areas_->setItemDelegate(new AreaDelegate(areas_));
  forms_->setWords(u"Ctrl+F"_s, u"Form desk"_s);
  forms_->setObjectName(u"toForms"_s);
  prints_->setWords(u"Ctrl+P"_s, u"Printing"_s);
  prints_->setObjectName(u"toPrints"_s);
  calendar_->setWords(u"Ctrl+T"_s, u"Calendar"_s);
  calendar_->setObjectName(u"toCalendar"_s);
  settings_->setWords(u"F10"_s, u"Settings for this laptop"_s);
  settings_->setObjectName(u"toLaptop"_s);
  safety_->setWords(u"F6"_s, u"Safety"_s);
  safety_->setObjectName(u"toCautions"_s);
  for (auto* key : {forms_, prints_, calendar_, settings_, safety_})
    key->setProperty("look", u"quiet"_s);
  auto* list = new QVBoxLayout;
  list->setSpacing(4);
  list->addWidget(areas_, 1);
  // In pairs where the letters let them, so that every area has room above.
  auto* others = new FlowLayout(4);
  for (auto* key : {forms_, prints_, calendar_, safety_, settings_})
    others->addWidget(key);
  list->addLayout(others);
  auto* below = new QHBoxLayout;
  below->setSpacing(12);
  below->addLayout(list);
  // What is next stands over the area that it is about, so that the list keeps its room.
  auto* area = new QVBoxLayout;
  area->setSpacing(6);
  area->addLayout(guiding);
  area->addWidget(stack_, 1);
  below->addLayout(area, 1);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(18, 4, 18, 0);
  whole->setSpacing(6);
  whole->addWidget(head);
  whole->addLayout(below, 1);
  style::whenDressed(areas_, [this] {
    areas_->setFixedWidth(lookNow().percent > 120 ? largeListWidth : listWidth);
  });
}

void DeskPage::addArea(AreaSpec spec) {
  const auto place = static_cast<int>(pages_.size());
  const auto title = spec.title;
  auto* page = new AreaPage(
      context(), std::move(spec), [this](base::Station station) { return by(station); }, stack_);
  connect(page, &Page::failed, this, &Page::failed);
  connect(page, &Page::said, this, &Page::said);
  stack_->addWidget(page);
  pages_.push_back(page);
  areas_->addItem(title);
  auto* shortcut = new QShortcut(QKeySequence(keyOfPlace(place)), this);
  shortcut->setWhatsThis(title);
  connect(shortcut, &QShortcut::activated, this, [this, place] {
    areas_->setCurrentRow(place);
    pages_[static_cast<std::size_t>(place)]->begin();
  });
}

void DeskPage::addList() {
  list_ = new ListPage(
      context(), [this] { return by(base::Station::rosters); }, stack_);
  connect(list_, &Page::failed, this, &Page::failed);
  connect(list_, &Page::said, this, &Page::said);
  connect(list_, &ListPage::closed, this, [this] {
    auto* students = pageOf(session::Area::rosters);
    if (stack_->currentWidget() == list_) ui::turnTo(*stack_, *students);
    students->refresh();
  });
  list_->setMinimumWidth(1); // its tables scroll, and no other page is wider for it
  stack_->addWidget(list_);
}

void DeskPage::addFirstDay() {
  firstDay_ = new FirstDayPage(context(), stack_);
  connect(firstDay_, &Page::failed, this, &Page::failed);
  connect(firstDay_, &FirstDayPage::wanted, this, &DeskPage::openItem);
  firstDay_->setMinimumWidth(1);
  stack_->addWidget(firstDay_);
  areas_->addItem(u"Check list"_s);
  // Where the button of it is not shown.
  firstDayKey_ = new QShortcut(QKeySequence(Qt::ALT | Qt::Key_0), this);
  firstDayKey_->setWhatsThis(u"Check list"_s);
  connect(firstDayKey_, &QShortcut::activated, this, &DeskPage::showFirstDay);
}

void DeskPage::showFirstDay() {
  areas_->setCurrentRow(areas_->count() - 1);
  firstDay_->refresh();
  firstDay_->pointAtNext();
  firstDay_->setFocus();
}

/// To where it is entered, with its form open.
void DeskPage::openItem(session::FirstDayItem item) {
  const auto area = session::areaOf(item);
  if (!area) return settings_->click();
  turnTo(*area);
  if (item == session::FirstDayItem::pins) pageOf(*area)->begin(u"Pin"_s);
  if (item == session::FirstDayItem::recoveryCode) pageOf(*area)->begin(u"Recovery"_s);
}

void DeskPage::showList(ChosenList list) {
  list_->open(std::move(list));
  ui::turnTo(*stack_, *list_);
  list_->setFocus();
}

base::By DeskPage::by(base::Station station) const {
  const auto& typing = context().acting.signedIn();
  return {author_, author_ && typing != author_ ? typing : std::nullopt, station};
}

AreaPage* DeskPage::pageOf(session::Area area) const {
  const auto at = std::ranges::find(pages_, std::optional(area),
                                    [](const AreaPage* page) { return page->spec().area; });
  return at == pages_.end() ? nullptr : *at;
}

void DeskPage::refresh() {
  const auto program = book().program();
  program_->setText(u"Desk"_s + (program ? u": "_s + toQt(program->value.name) : QString()));
  readMembers();
  readStates();
}

void DeskPage::readMembers() {
  const auto members = book().members();
  if (!went(members)) return;
  author_ = context().acting.entersAtDesk();
  reading_ = true;
  members_.clear();
  who_->clear();
  who_->addItem(u"none yet"_s);
  for (const auto& member : *members) {
    if (member.value.may.isEmpty()) continue;
    members_.push_back(member.id);
    who_->addItem(toQt(member.value.initials + "  " + member.value.name));
    if (author_ == member.id) who_->setCurrentIndex(who_->count() - 1);
  }
  if (who_->currentIndex() == 0) author_.reset(); // gone from the team
  reading_ = false;
}

void DeskPage::readStates() {
  auto states = book().setup(context().clock.now().date());
  if (!went(states)) return;
  states_ = std::move(*states);
  qsizetype ready = 0;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    auto* item = areas_->item(static_cast<int>(i));
    const auto& title = pages_[i]->spec().title;
    if (!pages_[i]->spec().area) {
      item->setText(u"     %1  %2"_s.arg(title, keyWordsOf(static_cast<int>(i))));
      showIn(*item, AreaDelegate::Sign::none, title, keyWordsOf(static_cast<int>(i)), {});
      continue;
    }
    const auto& state = states_.at(static_cast<std::size_t>(*pages_[i]->spec().area));
    pages_[i]->say(state);
    if (state.standing != AreaStanding::missing) ++ready;
    item->setText(u"%1%2  %3\n      %4"_s.arg(markOf(state.standing), title,
                                              keyWordsOf(static_cast<int>(i)), toQt(state.words)));
    showIn(*item, signOf(state.standing), title, keyWordsOf(static_cast<int>(i)),
           toQt(state.words));
    item->setData(Qt::AccessibleTextRole, title + u", "_s +
                                              toQt(base::displayName(state.standing)) + u", "_s +
                                              toQt(state.words));
  }
  const auto wanted =
      std::ranges::find(states_, AreaStanding::missing, &session::AreaState::standing);
  const bool isReady = wanted == states_.end();
  guide_->setText(
      isReady ? u"Ready for a clinic day. Select staff (F5), then open the day (F1, Alt+O)."_s
              : u"%1 of %2 areas are ready for a day. %3"_s.arg(ready)
                    .arg(states_.size())
                    .arg(toQt(wanted->open.front())));
  // A program that works needs the room more.
  const bool isGuided = !isReady || book().isSettingUp().value_or(false);
  guide_->setVisible(isGuided);
  next_->setVisible(isGuided);
  toFirstDay_->setVisible(isGuided);
  firstDayKey_->setEnabled(!isGuided);
  areas_->item(areas_->count() - 1)
      ->setText(u"%1Ready for the first day  Alt+0"_s.arg(isReady ? u"✔ "_s : u"✖ "_s));
  showIn(*areas_->item(areas_->count() - 1),
         signOf(isReady ? AreaStanding::ready : AreaStanding::missing),
         u"Ready for the first day"_s, u"Alt+0"_s, {});
  areas_->doItemsLayout(); // a text may have another number of lines now
}

bool DeskPage::lead() {
  if (states_.empty()) refresh();
  if (session::isSetUp(states_)) return false;
  showFirstDay();
  return true;
}

void DeskPage::turnTo(session::Area area) {
  auto* page = pageOf(area);
  areas_->setCurrentRow(stack_->indexOf(page));
  page->begin();
}

void DeskPage::next() {
  if (states_.empty()) refresh();
  const auto wanted =
      std::ranges::find(states_, AreaStanding::missing, &session::AreaState::standing);
  if (wanted == states_.end()) return void(Q_EMIT boardWanted());
  turnTo(wanted->area);
}

void DeskPage::scanned(const QString& code) {
  const auto row = areas_->currentRow();
  if (stack_->currentWidget() == list_ || row < 0 || row >= std::ssize(pages_)) return;
  pages_[static_cast<std::size_t>(row)]->scanned(code);
}

} // namespace gk::ui
