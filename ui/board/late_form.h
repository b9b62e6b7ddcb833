#pragma once

#include "session/cards/new_child.h"
#include "ui/widgets/page.h"

#include <vector>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace gk::ui {

/// A consent form that comes back in a child's hand: the form, and the child as well when it is
/// not in the logbook yet.
class LateForm final : public Page {
  Q_OBJECT

 public:
  LateForm(Context& context, QWidget* parent);

  /// Starts over for the school of that day, with the next free number.
  void begin(const base::Recorded<roster::ClinicDay>& day);
  void refresh() override {}

 Q_SIGNALS:
  void entered(gk::roster::ChildId child);
  void backedOut();

 private:
  QLineEdit* line(QFormLayout* into, const QString& words, const QString& name);
  QComboBox* choice(QFormLayout* into, const QString& words, const QString& name,
                    const QStringList& options);
  void layOutChild(QFormLayout* into);
  void layOutForm(QFormLayout* into);

  /// Knows a child of the logbook by the number typed.
  void lookUp();
  void knowChild(const std::optional<roster::ChildId>& child, const QString& words);
  void know(const session::Found& child);
  [[nodiscard]] std::string nextNumber();
  void save();
  /// As typed, asked about where it is unusual; none when something is missing or backed out.
  struct Newcomer {
    session::NewChild child;
    session::Confirmed schoolConfirmsAge = session::Confirmed::no;
    session::Confirmed isAnother = session::Confirmed::no;
  };
  [[nodiscard]] std::optional<Newcomer> newcomer();
  /// Asks whether it is one of these after all: yes makes the form that child's. False when backed
  /// out.
  [[nodiscard]] bool askWhichChild(const std::vector<session::NearMatch>& near);
  [[nodiscard]] std::optional<roster::Consent> consentFor(const roster::ChildId& child);
  [[nodiscard]] std::optional<roster::MedicalFlag> alertOf(const roster::ChildId& child) const;
  void enterFor(const roster::ChildId& child);

  QLabel* known_;
  QLineEdit* number_ = nullptr;
  QLineEdit* first_ = nullptr;
  QLineEdit* last_ = nullptr;
  QLineEdit* used_ = nullptr;
  QLineEdit* birth_ = nullptr;
  QComboBox* sex_ = nullptr;
  QLineEdit* grade_ = nullptr;
  QLineEdit* room_ = nullptr;
  QLineEdit* guardian_ = nullptr;
  QLineEdit* phone_ = nullptr;
  QLineEdit* language_ = nullptr;
  QCheckBox* provisional_ = nullptr;
  QComboBox* state_ = nullptr;
  QComboBox* signer_ = nullptr;
  QCheckBox* reviewed_ = nullptr;
  QLineEdit* signed_ = nullptr;
  QLineEdit* from_ = nullptr;
  QLineEdit* until_ = nullptr;
  QComboBox* history_ = nullptr;
  std::vector<QCheckBox*> services_;
  QComboBox* flag_ = nullptr;
  QComboBox* action_ = nullptr;
  QLineEdit* note_ = nullptr;
  std::vector<QWidget*> ofNewChild_;

  std::optional<base::Recorded<roster::ClinicDay>> day_;
  std::optional<roster::ChildId> child_; ///< in the logbook already
};

} // namespace gk::ui
