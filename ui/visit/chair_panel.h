#pragma once

#include "ui/keys/key_bar.h"
#include "ui/visit/chair_visit.h"

#include <QWidget>

namespace gk::ui {

/// One stage of a visit. It shows the visit's file and offers keys; the page gives it the keyboard.
class ChairPanel : public QWidget {
  Q_OBJECT

 public:
  ChairPanel(ChairVisit& visit, QWidget* parent) : QWidget(parent), visit_(visit) {}

  /// A child sat down: forget what was keyed for the one before.
  virtual void begin() {}
  /// Shows the file again. Precondition: a visit is on.
  virtual void refresh() = 0;
  /// Whether the key means something at this stage, besides those that always do.
  virtual bool press(const QKeyEvent& event) = 0;
  /// What the mouth map shows at this stage.
  [[nodiscard]] virtual std::vector<TileFace> faces() const { return {}; }
  /// What has to be in sight now, such as a line to read aloud; none when nothing has.
  [[nodiscard]] virtual QWidget* mustSee() const { return nullptr; }
  /// The child refuses or is unwell.
  virtual void stopChild() = 0;
  virtual void wet();
  /// Space or the pedal went down; false when nothing is armed for it.
  virtual bool pedal() { return false; }
  virtual void pedalUp() {}
  /// A finger was put on this surface of the tooth under the cursor.
  virtual void pick(dentition::Surface) {}
  virtual void addNote();
  /// Takes back the last key where nothing of it is in the book yet; false when there is none.
  virtual bool undo() { return false; }

 Q_SIGNALS:
  void finished(); ///< this stage is over; the page looks what comes next

 protected:
  [[nodiscard]] ChairVisit& visit() const { return visit_; }
  [[nodiscard]] const ChairFile& file() const { return visit_.file(); }

 private:
  ChairVisit& visit_;
};

} // namespace gk::ui
