#pragma once

#include "roster/consent/consent.h"

#include <QFrame>

#include <vector>

class QCheckBox;
class QLabel;
class QPushButton;

namespace gk::ui {

/// What a form answers, by single keys: Y, L, N and I for the form as a whole, a digit for each
/// service, H for the health history. One key is one act; a mouse reaches all of it too.
class AnswerPanel final : public QFrame {
  Q_OBJECT

 public:
  explicit AnswerPanel(QWidget* parent);

  /// An empty form: no answer yet, nothing checked, the health history as on most forms.
  void clear();
  void show(const roster::Consent& form);
  /// What Y checks: the services that this version of the form asks for.
  void setOffered(roster::ServiceSet offered) { offered_ = offered; }
  [[nodiscard]] roster::ServiceSet offered() const { return offered_; }

  /// None until a key was pressed: a form is never a yes by default.
  [[nodiscard]] std::optional<roster::ConsentState> state() const { return state_; }
  [[nodiscard]] roster::ServiceSet allowed() const;
  [[nodiscard]] roster::HistoryAnswered history() const { return history_; }

 Q_SIGNALS:
  /// Enter: the answers are given, the dates come next.
  void done();
  void changed();
  /// A digit that is no service's: the signing date begins with it.
  void dateBegun(const QString& digit);

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void answer(roster::ConsentState state);
  void check(roster::ServiceSet services);
  void showAll();

  std::optional<roster::ConsentState> state_;
  roster::HistoryAnswered history_ = roster::HistoryAnswered::yes;
  roster::ServiceSet offered_ = roster::ServiceSet::all();
  std::vector<std::pair<roster::ConsentState, QPushButton*>> states_;
  std::vector<QCheckBox*> services_;
  QPushButton* historyKey_ = nullptr;
};

} // namespace gk::ui
