#pragma once

#include "ui/support/cues.h"
#include "ui/widgets/page.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace gk::ui {

/// What is set for this laptop alone: pedal, scanner, sound, sides. Each choice stands at once.
class LaptopPage final : public Page {
  Q_OBJECT

 public:
  LaptopPage(Context& context, QWidget* parent);

  void refresh() override;
  /// Shows what a scanner sent and what it was taken for.
  void showScan(const QString& code);

 Q_SIGNALS:
  void soundWanted(gk::ui::Cue what);
  /// Which closes this book first.
  void restoreWanted();

 protected:
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QComboBox* choice(QFormLayout* into, const QString& words, const QString& name,
                    const QStringList& options);
  void buildBackups(QFormLayout* into);
  void backUp();
  void check();
  void teach(bool on);
  void learn(const QKeyEvent& event);
  void choose();
  void showPedal();

  // First: making a child already sends this page an event, which asks it.
  bool teaching_ = false;
  QLabel* pedal_;
  QPushButton* teachButton_;
  QPushButton* forget_;
  QLineEdit* prefix_;
  QLabel* scan_;
  QComboBox* volume_;
  QCheckBox* flash_;
  QComboBox* strip_;
  QComboBox* order_;
  QComboBox* colors_;
  QComboBox* text_;
  QComboBox* paper_;
  QLabel* place_ = nullptr; ///< of the backups
  bool reading_ = false;    ///< the choices are being shown, no one chooses
};

} // namespace gk::ui
