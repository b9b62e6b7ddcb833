#include "ui/board/board_card.h"

#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/models/board_model.h"
#include "ui/support/text.h"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QStyle>
#include <QVBoxLayout>

namespace gk::ui {

namespace {

constexpr int cardWidth = 400; ///< pixels, beside the table
constexpr int cardSides = 46;  ///< its margins, and what is between two keys

bool hasLargeLetters() {
  return lookNow().percent > 120;
}

} // namespace

BoardCard::BoardCard(QWidget* parent)
    : QFrame(parent), name_(wordsLabel({}, u"cardName"_s, u"boardCardName"_s, this)),
      facts_(wordsLabel({}, u"note"_s, u"boardCardFacts"_s, this)),
      alerts_(wordsLabel({}, u"cardAlert"_s, u"boardCardAlerts"_s, this)),
      outcome_(wordsLabel({}, u"note"_s, u"boardCardOutcome"_s, this)),
      orOutcome_(wordsLabel(u"Or record an outcome"_s, u"note"_s, {}, this)),
      theList_(wordsLabel(u"The list"_s, u"note"_s, {}, this)), keys_(new QWidget(this)) {
  setObjectName(u"boardCard"_s);
  setProperty("look", u"card"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 14, 18, 14);
  column->setSpacing(4);
  for (auto* label : {name_, facts_, alerts_, outcome_})
    column->addWidget(label);
  column->addWidget(keys_);
  column->addStretch(1);
}

void BoardCard::setKeys(QPushButton* main, std::vector<QPushButton*> outcomes,
                        std::vector<QPushButton*> list) {
  main_ = main;
  outcomes_ = std::move(outcomes);
  list_ = std::move(list);
  for (auto* button : list_)
    button->setProperty("look", u"quiet"_s);
  style::whenDressed(this, [this] { arrange(); });
}

void BoardCard::arrange() {
  delete keys_->layout();
  const bool large = hasLargeLetters();
  for (auto* words : {name_, facts_, alerts_, outcome_})
    words->setHidden(large || words->text().isEmpty());
  for (auto* words : {orOutcome_, theList_}) {
    words->setParent(keys_);
    words->setVisible(!large);
  }
  setMaximumWidth(large ? QWIDGETSIZE_MAX : cardWidth);
  setMinimumWidth(large ? 0 : cardWidth);
  if (large) {
    auto* flow = new FlowLayout(5, keys_);
    flow->addWidget(main_);
    for (const auto& group : {outcomes_, list_})
      for (auto* button : group)
        flow->addWidget(button);
    return;
  }
  auto* grid = new QGridLayout(keys_);
  grid->setContentsMargins(0, 8, 0, 0);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(6);
  grid->addWidget(main_, 0, 0, 1, 2);
  int row = 1;
  const auto pairs = [&](QLabel* heading, const std::vector<QPushButton*>& buttons) {
    grid->addWidget(heading, row++, 0, 1, 2);
    int place = 0;
    for (auto* button : buttons) {
      // Words that need both places get a row.
      const bool isWide = button->sizeHint().width() > (cardWidth - cardSides) / 2;
      if (isWide && place % 2 == 1) ++place;
      grid->addWidget(button, row + place / 2, place % 2, 1, isWide ? 2 : 1);
      place += isWide ? 2 : 1;
    }
    row += (place + 1) / 2;
  };
  pairs(orOutcome_, outcomes_);
  pairs(theList_, list_);
}

void BoardCard::show(const std::optional<session::BoardLine>& line) {
  const bool large = hasLargeLetters();
  const auto say = [&](QLabel* label, const QString& words) {
    label->setText(words);
    label->setHidden(large || words.isEmpty());
  };
  if (!line) {
    say(name_, {});
    say(facts_, u"No student is chosen."_s);
    say(alerts_, {});
    say(outcome_, {});
    return;
  }
  say(name_, line->name.empty() ? toQt(line->number) : toQt(line->name));
  auto facts = line->number + " \u00b7 room " + line->room + " \u00b7 grade " + line->grade;
  if (line->age) facts += " \u00b7 age " + std::to_string(*line->age);
  facts += line->lastSeen.empty() ? "\nFirst visit" : "\nLast seen " + line->lastSeen;
  if (!line->plan.empty()) facts += "\nPlan: " + line->plan;
  say(facts_, toQt(facts));
  say(alerts_, alertWords(*line));
  alerts_->setProperty("stop", line->stopFlag);
  alerts_->style()->unpolish(alerts_);
  alerts_->style()->polish(alerts_);
  say(outcome_, toQt(line->outcome));
}

} // namespace gk::ui
