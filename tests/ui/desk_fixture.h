#pragma once

#include "scripted_prompter.h"
#include "support/clinic.h"
#include "ui/support/context.h"
#include "ui/support/message.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTest>

template <>
struct Catch::StringMaker<QString> {
  static std::string convert(const QString& text) { return text.toStdString(); }
};

namespace gk::test {

using namespace Qt::Literals::StringLiterals;

/// Shortcuts reach a window only when it is the active one.
inline void showActive(QWidget& widget) {
  widget.resize(1366, 740);
  widget.show();
  widget.activateWindow();
  REQUIRE(QTest::qWaitForWindowActive(&widget));
}

/// A key goes where the keyboard is.
inline void press(QWidget& window, Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
  auto* focus = window.focusWidget();
  QTest::keyClick(focus ? focus : &window, key, with);
}

template <class T>
T& part(const QWidget& in, const QString& name) {
  auto* found = in.findChild<T*>(name);
  INFO(name.toStdString());
  REQUIRE(found != nullptr);
  return *found;
}

inline QString words(const QWidget& in, const QString& label) {
  return part<QLabel>(in, label).text();
}

/// What the list says of a part of a report, wherever the list has it: as "Fix before signing  2 to
/// do". The section is its place among the tables.
inline QString partText(const QWidget& page, int section) {
  const auto& names = part<QListWidget>(page, u"reportNames"_s);
  for (int row = 0; row < names.count(); ++row)
    if (names.item(row)->data(Qt::UserRole).toInt() == section) return names.item(row)->text();
  return {};
}

/// A clinic day with someone at work, and what the pages stand on.
class Desk {
 public:
  Clinic clinic;
  ScriptedPrompter prompter;
  ui::Acting acting;
  ui::LongWork work{ui::LongWork::Where::here};
  ui::Context context{clinic.session, clinic.clock, prompter, acting, work};
  QStringList troubles; ///< what happened, and the core's sentence
  QString news;

  Desk() {
    ui::Setup setup;
    setup.author = clinic.hygienist;
    acting.change(setup);
  }

  template <class Page>
  void listen(Page& page) {
    QObject::connect(&page, &Page::failed, &page, [this](const ui::Message& message) {
      troubles += message.happened + u' ' + message.detail;
    });
    QObject::connect(&page, &Page::said, &page, [this](const QString& said) { news = said; });
  }
};

} // namespace gk::test
