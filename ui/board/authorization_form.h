#pragma once

#include "ui/widgets/page.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace gk::ui {

/// What a dentist authorizes for one child, written down by whoever sits at the keyboard.
class AuthorizationForm final : public Page {
  Q_OBJECT

 public:
  AuthorizationForm(Context& context, QWidget* parent);

  void begin(const session::BoardLine& child, base::Date on);
  void refresh() override;

 Q_SIGNALS:
  void backedOut();

 private:
  QLineEdit* line(QFormLayout* into, const QString& words, const QString& name);
  QComboBox* choice(QFormLayout* into, const QString& words, const QString& name);
  void save();
  void withdraw();

  QLabel* title_;
  QLabel* known_;
  QLineEdit* teeth_ = nullptr;
  QComboBox* dentist_ = nullptr;
  QComboBox* how_ = nullptr;
  QLineEdit* given_ = nullptr;
  QLineEdit* until_ = nullptr;
  QLineEdit* note_ = nullptr;

  std::optional<session::BoardLine> child_;
  std::optional<base::Date> on_; ///< the school day that is looked at
  std::vector<base::MemberId> dentists_;
};

} // namespace gk::ui
