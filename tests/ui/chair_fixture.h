#pragma once

#include "scripted_prompter.h"
#include "support/clinic.h"
#include "ui/pages/chair_page.h"
#include "ui/support/text.h"
#include "ui/widgets/timer_view.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>

#include <algorithm>
#include <memory>

namespace gk::test {

/// A clinic day and its chair page, driven by keys. Counts every key and pedal press.
class Chair {
 public:
  Clinic clinic;
  ScriptedPrompter prompter;
  ui::Acting acting;
  ui::LongWork work{ui::LongWork::Where::here};
  ui::Context context{clinic.session, clinic.clock, prompter, acting, work};
  std::unique_ptr<ui::ChairPage> page;
  int keys = 0;
  int pedals = 0;

  explicit Chair(bool primaryTeeth = false) : clinic(primaryTeeth) { setUp(); }
  explicit Chair(roster::Supervision supervision) : clinic(supervision) { setUp(); }

  void setUp() {
    ui::Setup setup;
    setup.author = clinic.hygienist;
    setup.recorder = clinic.assistant;
    setup.assistant = clinic.assistant;
    setup.sealant = clinic.resin;
    setup.etchant = clinic.etchant;
    setup.varnish = clinic.varnish;
    setup.light = clinic.light;
    acting.change(setup);
    open();
  }

  /// As after a start: a new page on the same book.
  void open() {
    page = std::make_unique<ui::ChairPage>(context);
    page->resize(1366, 690);
    page->show();
    page->openDay(clinic.day);
  }

  void press(Qt::Key key) {
    ++(key == Qt::Key_Space ? pedals : keys);
    QTest::keyClick(page.get(), key);
  }
  void press(const char* letters) {
    for (const char* letter = letters; *letter != 0; ++letter)
      press(static_cast<Qt::Key>(*letter));
  }
  void type(const QString& words) {
    auto* line = page->findChild<QLineEdit*>(QStringLiteral("askLine"));
    REQUIRE(line->isVisible());
    line->setText(words);
    press(Qt::Key_Return);
  }

  /// Lets the clock run with a look at it every second.
  void run(int seconds) {
    auto* timer = page->findChild<ui::TimerView*>();
    for (int i = 0; i < seconds; ++i) {
      clinic.clock.advance(std::chrono::seconds(1));
      timer->tick();
    }
  }

  [[nodiscard]] bool shows(const char* name) const {
    return std::ranges::any_of(page->findChildren<QWidget*>(QString::fromLatin1(name)),
                               &QWidget::isVisible);
  }
  /// Of the label that is seen, where a card stands on two pages.
  [[nodiscard]] QString text(const char* name) const {
    const auto labels = page->findChildren<QLabel*>(QString::fromLatin1(name));
    REQUIRE_FALSE(labels.empty());
    const auto seen = std::ranges::find_if(labels, &QLabel::isVisible);
    return seen == labels.end() ? labels.front()->text() : (*seen)->text();
  }
  [[nodiscard]] QString message() const { return text("messageText"); }

  void seat(roster::ChildId child) {
    REQUIRE(page->take(child, clinic.day));
    ++keys; // chosen on the day board
    if (shows("alertButton")) press(Qt::Key_PageDown);
    press(Qt::Key_Left);
    press(Qt::Key_Return);
  }
  /// Second molars not up, four first molars sound, no decay, nothing urgent.
  void screenFour() {
    press("ZSSSS444");
    press(Qt::Key_Return);
  }
  /// The rinse ends by itself after its ten seconds.
  void etchToFrosty() {
    press(Qt::Key_Space);
    run(20);
    press(Qt::Key_Space);
    run(10);
    press(Qt::Key_5);
  }
  void cure() {
    press(Qt::Key_Space);
    run(20);
  }
  /// Isolates and seals two teeth of two surfaces each.
  void sealHalf() {
    press(Qt::Key_Return);
    etchToFrosty();
    for (int exposure = 0; exposure < 4; ++exposure)
      cure();
    press("55");
  }
};

} // namespace gk::test
