#include "ui/prints/prints_page.h"

#include "base/files/files.h"
#include "base/text/text.h"
#include "ui/asking/read_date.h"
#include "ui/files/named_file.h"
#include "ui/files/save_report.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/paper/print_letters.h"
#include "ui/support/retired.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr std::array printWords{
    u"Consent forms, one for each student", u"Blank consent forms",
    u"Labels and slips with the code",      u"Room lists",
    u"Day list: who may be seen",           u"Paper sheets, if the laptop fails"};

} // namespace

PrintsPage::PrintsPage(Context& context, QWidget* parent) : Page(context, parent) {
  setObjectName(u"printsPage"_s);
  layOut();
}

void PrintsPage::layOut() {
  auto* head =
      new PageHead(wordsLabel(u"Printing"_s, u"title"_s, u"printsTitle"_s, this), nullptr, this);
  what_ = new QListWidget(this);
  what_->setObjectName(u"printsWhat"_s);
  what_->setAccessibleName(u"What to print"_s);
  what_->setWordWrap(true);
  what_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  for (const auto* words : printWords)
    what_->addItem(QStringView(words).toString());
  const auto combo = [this](const QString& words, const QString& name, const QStringList& options) {
    auto* made = new ChoiceBox(this);
    made->setObjectName(name);
    made->setAccessibleName(words);
    made->addItems(options);
    connect(made, &QComboBox::currentIndexChanged, this, [this] {
      if (!reading_) showPreview();
    });
    return made;
  };
  const auto line = [this](const QString& words, const QString& name) {
    auto* made = new QLineEdit(this);
    made->setObjectName(name);
    made->setAccessibleName(words);
    made->setPlaceholderText(words);
    connect(made, &QLineEdit::editingFinished, this, &PrintsPage::showPreview);
    return made;
  };
  reading_ = true;
  school_ = combo(u"School"_s, u"printsSchool"_s, {u"All schools"_s});
  room_ = line(u"Room, blank: all rooms"_s, u"printsRoom"_s);
  student_ = line(u"Student: number or name, blank: all"_s, u"printsStudent"_s);
  day_ = line(u"For the day, blank: today"_s, u"printsDay"_s);
  who_ = combo(u"Which students"_s, u"printsWho"_s,
               {u"All students"_s, u"No form yet, or incomplete"_s, u"Form says yes"_s});
  language_ = combo(u"Language"_s, u"printsLanguage"_s,
                    {u"Each in the family's language"_s, u"English"_s, u"Spanish"_s});
  QStringList measures;
  for (const auto& sheet : reports::labelSheets)
    measures += toQt(sheet.name);
  labelSheet_ = combo(u"Sheet of labels, by measure"_s, u"printsSheet"_s, measures);
  firstLabel_ = line(u"Start at label, blank: a whole sheet"_s, u"printsFirstLabel"_s);
  copies_ = line(u"How many blank forms"_s, u"printsCopies"_s);
  reading_ = false;
  needed_ = {{room_, {What::forms, What::labels, What::rooms, What::day, What::sheets}},
             {student_, {What::forms, What::labels, What::sheets}},
             {day_, {What::day, What::sheets}},
             {who_, {What::forms, What::labels, What::rooms}},
             {language_, {What::forms, What::blankForms}},
             {labelSheet_, {What::labels}},
             {firstLabel_, {What::labels}},
             {copies_, {What::blankForms}}};
  auto* print = keyButton(u"Print"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"printsPrint"_s, this);
  auto* save =
      keyButton(u"Save as PDF"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"printsSave"_s, this);
  connect(print, &QPushButton::clicked, this, &PrintsPage::print);
  connect(save, &QPushButton::clicked, this, &PrintsPage::save);
  words_ = wordsLabel({}, u"field"_s, u"printsWords"_s, this);
  preview_ = new QLabel(this);
  preview_->setObjectName(u"printsPreview"_s);
  preview_->setAlignment(Qt::AlignTop | Qt::AlignHCenter);
  preview_->setMinimumSize(1, 1);
  auto* keys = new QHBoxLayout;
  keys->addWidget(print);
  keys->addWidget(save);
  keys->addStretch(1);
  auto* left = new QVBoxLayout;
  left->setSpacing(8);
  left->addWidget(what_, 1);
  for (auto* field : std::initializer_list<QWidget*>{school_, room_, student_, day_, who_,
                                                     language_, labelSheet_, firstLabel_, copies_})
    left->addWidget(field);
  left->addLayout(keys);
  left->addWidget(words_);
  auto* body = new QHBoxLayout;
  body->setSpacing(14);
  body->addLayout(left, 3);
  body->addWidget(preview_, 4);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(18, 4, 18, 6);
  whole->addWidget(head);
  whole->addLayout(body, 1);
  connect(what_, &QListWidget::currentRowChanged, this, [this] {
    showNeeded();
    showPreview();
  });
  what_->setCurrentRow(0);
  setFocusProxy(what_);
}

PrintsPage::What PrintsPage::what() const {
  return static_cast<What>(std::max(what_->currentRow(), 0));
}

void PrintsPage::choose(What what) {
  what_->setCurrentRow(static_cast<int>(what));
}

std::optional<roster::SchoolId> PrintsPage::school() const {
  const auto at = school_->currentIndex();
  if (at <= 0 || at > static_cast<int>(schools_.size())) return std::nullopt;
  return schools_[static_cast<std::size_t>(at) - 1];
}

std::string PrintsPage::schoolName(roster::SchoolId school) {
  const auto at = std::ranges::find(schools_, school);
  return at == schools_.end()
             ? std::string()
             : toStd(school_->itemText(static_cast<int>(at - schools_.begin()) + 1));
}

std::optional<base::Date> PrintsPage::printedFor() {
  const auto typed = day_->text().trimmed();
  if ((what() == What::day || what() == What::sheets) && !typed.isEmpty()) {
    const auto day = readDate(typed, context().prompter);
    if (day) return *day;
    words_->setText(u"No such day. Type it like 11/24/2026."_s);
    return std::nullopt;
  }
  const auto care = book().careDate();
  return care ? *care : context().clock.now().date();
}

void PrintsPage::refresh() {
  readChoices();
  showNeeded();
  showPreview();
}

/// The sheet on the screen names a child.
void PrintsPage::letGo() {
  preview_->clear();
  words_->clear();
  student_->clear(); // a name may be in it
}

void PrintsPage::readChoices() {
  const auto schools = book().schools();
  if (!went(schools)) return;
  const auto kept = school();
  reading_ = true;
  schools_.clear();
  school_->clear();
  school_->addItem(u"All schools"_s);
  for (const auto& one : *schools) {
    schools_.push_back(one.id);
    school_->addItem(toQt(roster::shownAmong(one.value, *schools)));
    if (kept == one.id) school_->setCurrentIndex(school_->count() - 1);
  }
  retireOthers(*school_, *schools, book().openSchools(context().clock.now().date()), 1);
  if (const auto part = book().oneSchool(); part && *part) retire(*school_, 0); // it is not all
  reading_ = false;
}

void PrintsPage::showNeeded() {
  for (const auto& [field, whats] : needed_)
    field->setVisible(std::ranges::find(whats, what()) != whats.end());
}

void PrintsPage::showPreview() {
  if (!isVisible()) return;
  preview_->clear();
  const auto ready = prepare();
  if (!ready) return;
  words_->setText(ready->words + u"."_s);
  if (ready->pages == 0) return;
  const auto size = ready->report ? ready->report->size() : sizeOf(context().acting.habits().paper);
  const auto room = preview_->size() - QSize(4, 4);
  const double scale = std::min(room.width() / size.width(), room.height() / size.height());
  if (scale <= 0) return;
  const double sharp = devicePixelRatioF();
  QPixmap picture((size * scale * sharp).toSize());
  picture.setDevicePixelRatio(sharp);
  picture.fill(Qt::white);
  QPainter painter(&picture);
  painter.setRenderHint(QPainter::TextAntialiasing);
  painter.scale(scale, scale);
  painter.setPen(Qt::black);
  if (ready->report)
    ready->report->paint(painter, 0);
  else
    ready->paint(painter, 0);
  if (ready->marks) ready->marks(painter);
  painter.end();
  preview_->setPixmap(picture);
}

void PrintsPage::print() {
  const auto ready = prepare();
  if (!ready) return;
  if (ready->pages == 0) return Q_EMIT said(u"There is nothing to print."_s);
  const auto printer = context().prompter.printer();
  if (!printer) return;
  const auto paper = context().acting.habits().paper;
  const auto draw = [printer, ready = *ready,
                     paper](const base::Progress& progress) -> base::Result<base::Done> {
    if (ready.report)
      ready.report->print(*printer, progress);
    else
      printPages(*printer, paper, ready.pages, ready.paint, progress);
    return base::Done{};
  };
  context().work.run(
      LongKind::report, this, draw, [this, ready = *ready](const base::Result<base::Done>& done) {
        if (!went(done)) return;
        Q_EMIT said(u"Printed: %1. Shred pages that name students after use."_s.arg(ready.words));
        // The next sheet is whole, until someone says that it is not.
        if (what() == What::labels && !firstLabel_->text().isEmpty()) {
          firstLabel_->clear();
          showPreview();
        }
        countHandedOut(ready);
      });
}

void PrintsPage::save() {
  const auto ready = prepare();
  if (!ready) return;
  if (ready->pages == 0) return Q_EMIT said(u"There is nothing to save."_s);
  const auto paper = context().acting.habits().paper;
  const auto bytes = [ready = *ready, paper](const QString&, const base::Progress& progress) {
    return asPdf(ready.name,
                 [&](QPagedPaintDevice& device) {
                   if (ready.report)
                     ready.report->print(device, progress);
                   else
                     printPages(device, paper, ready.pages, ready.paint, progress);
                 })
        .toStdString();
  };
  const auto filter = u"Pages to print (*.pdf)"_s;
  const auto title = u"Save pages: %1"_s.arg(ready->name);
  if (what() != What::blankForms) {
    saveNamed(context(), LongKind::report, this,
              {.name = fileName(toStd(ready->name)), .filter = filter, .title = title}, bytes,
              [this](const base::Result<QString>& saved) {
                if (went(saved)) Q_EMIT said(savedWords(*saved));
              });
    return;
  }
  auto path = context().prompter.saveFile(title, fileName(toStd(ready->name)) + u".pdf"_s, filter,
                                          FileHolds::noNames);
  if (!path) return;
  if (!path->endsWith(u".pdf"_s, Qt::CaseInsensitive)) *path += u".pdf"_s;
  const auto write = [bytes,
                      path = *path](const base::Progress& progress) -> base::Result<QString> {
    const auto pages = bytes(u".pdf"_s, progress);
    if (progress.isStopped())
      return base::Error{base::ErrorCode::workCanceled, "nothing was saved"};
    if (const auto written = base::replaceFile(toStd(path), pages); !written)
      return written.error();
    return path;
  };
  context().work.run(LongKind::report, this, write, [this](const base::Result<QString>& saved) {
    if (went(saved)) Q_EMIT said(u"Saved: "_s + *saved);
  });
}

/// The count of what went out, where one school was printed for.
void PrintsPage::countHandedOut(const Ready& ready) {
  const auto of = school();
  const auto terms = book().terms();
  if (ready.forms == 0 || !of || !went(terms)) return;
  const auto today = context().clock.now().date();
  const auto term = std::ranges::find_if(
      *terms, [&](const auto& one) { return one.value.start <= today && today <= one.value.end; });
  if (term == terms->end() || !context().prompter.confirm(u"Count %1 as handed out today?"_s.arg(
                                  gk::ui::counted(ready.forms, "form", "forms"))))
    return;
  if (went(
          book().enterHandout(context().acting.by(base::Station::consent),
                              {term->id, *of, toStd(room_->text().trimmed()), today, ready.forms})))
    Q_EMIT said(u"%1 counted as handed out."_s.arg(gk::ui::counted(ready.forms, "form", "forms")));
}

} // namespace gk::ui
