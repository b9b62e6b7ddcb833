#pragma once

#include "reports/decay/prevention.h"

#include <QWidget>

class QLabel;
class QLineEdit;

namespace gk::ui {

/// What a manager may change on the way to teeth spared; a blank stands for the measured value.
class WhatIfPanel final : public QWidget {
  Q_OBJECT

 public:
  explicit WhatIfPanel(QWidget* parent = nullptr);

  /// What stands there; text that is no number within its limits counts as blank.
  [[nodiscard]] reports::WhatIf whatIf() const;

 Q_SIGNALS:
  void changed();

 private:
  QLineEdit* field(const QString& words, const QString& name, const QString& hint);
  /// Says what does not count.
  void note();

  QLineEdit* attack_;
  QLineEdit* retention_;
  QLineEdit* years_;
  QLineEdit* programCost_;
  QLineEdit* cavityCost_;
  QLabel* refused_;
};

} // namespace gk::ui
