#pragma once

#include "desk_fixture.h"
#include "ui/support/laptop.h"
#include "ui/support/look.h"
#include "ui/windows/book_view.h"
#include "ui/windows/main_window.h"

#include <algorithm>
#include <memory>

namespace gk::test {

/// The whole window on a book of its own.
class Window {
 public:
  Scratch folder;
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-17"), std::chrono::hours(10),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{5};
  store::HandMemory laptop{folder.path(), {"this computer", "this start"}, random};
  ScriptedPrompter* prompter = nullptr;
  std::chrono::milliseconds idle{std::chrono::minutes(2)};
  std::unique_ptr<ui::MainWindow> window;

  void open() {
    ui::dress();
    window = std::make_unique<ui::MainWindow>(
        ui::Machine{clock, random, laptop, folder.path(), idle, session::BookKind::throwaway},
        [this](QWidget*) {
          auto made = std::make_unique<ScriptedPrompter>();
          prompter = made.get();
          return made;
        });
    showActive(*window);
  }
  [[nodiscard]] base::Path book() const { return folder / "day.gkbook"; }
  /// A clinic's book with one child waiting and, when wished, one in the chair.
  void fill(bool seated = false) const {
    Clinic clinic(book(), session::BookKind::throwaway);
    clinic.child("Mina", "Tolliver-Reed");
    if (seated) clinic.seat(clinic.child("Lupe", "Saltmarsh"));
    must(clinic.session.finish());
  }
  void openAndUnlock() {
    open();
    window->openBook(ui::toQt(book().string()));
    give(Clinic::passphrase);
  }
  void give(const char* passphrase) const {
    auto& line = part<QLineEdit>(*window, u"coverPassphrase"_s);
    line.setText(QString::fromLatin1(passphrase));
    QTest::keyClick(&line, Qt::Key_Return);
  }
  [[nodiscard]] bool isCovered() const {
    return part<QWidget>(*window, u"coverPage"_s).isVisible();
  }
  [[nodiscard]] bool shows(const QString& name) const {
    return part<QWidget>(*window, name).isVisible();
  }
  /// Whether any label or table on the screen holds these words.
  [[nodiscard]] bool reads(const QString& text) const {
    const auto labels = window->findChildren<QLabel*>();
    return std::ranges::any_of(labels, [&](const QLabel* label) {
      return label->isVisible() && label->text().contains(text);
    });
  }
};

} // namespace gk::test
