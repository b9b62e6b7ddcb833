#pragma once

#include "base/files/files.h"
#include "ui/asking/prompter.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;

namespace gk::ui {

/// Before a logbook is open: the last one, another, or a new one.
class StartPage final : public QWidget {
  Q_OBJECT

 public:
  StartPage(Prompter& prompter, const base::Path& recent, QWidget* parent);

  void refuse(const QString& words);
  /// The invented logbook is offered as well.
  void offerDemo();

 Q_SIGNALS:
  void openWanted(const QString& path);
  void newWanted(const QString& passphrase);
  void demoWanted();
  void restoreWanted();
  void envelopeWanted();

 private:
  void open();
  void create();

  Prompter& prompter_;
  QPushButton* recent_;
  QPushButton* demo_;
  QLineEdit* passphrase_;
  QLineEdit* again_;
  QLabel* trouble_;
};

} // namespace gk::ui
