#pragma once

#include "ui/widgets/page.h"

#include <vector>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;

namespace gk::ui {

/// Who is at work today and with what. Each choice stands at once and is carried until changed.
class TodayPage final : public Page {
  Q_OBJECT

 public:
  TodayPage(Context& context, QWidget* parent);

  void refresh() override;

 private:
  QComboBox* choice(QFormLayout* into, const QString& words, const QString& name);
  void readMembers(base::Date on);
  void readLots(base::Date on);
  void readLights(base::Date on);
  void choose();
  void showSummary();

  QComboBox* operator_;
  QComboBox* assistant_;
  QComboBox* recorder_;
  QComboBox* sealant_;
  QComboBox* etchant_;
  QComboBox* varnish_;
  QComboBox* light_;
  QComboBox* isolation_;
  QComboBox* cheek_;
  QComboBox* tongue_;
  QCheckBox* fourHanded_;
  QLabel* summary_;
  std::vector<base::MemberId> members_;
  std::vector<kit::LotId> lots_;
  std::vector<kit::LightId> lights_;
  bool reading_ = true; ///< the lists are being filled, no one chooses
};

/// "OF, assistant BO, light L-1": what the window shows at all times; says so when no one is.
QString setupWords(session::Session& book, const Setup& setup);
/// "Tess Q. + Ben O.": the operator and who assists; nothing while there is no operator.
QString teamWords(session::Session& book, const Setup& setup);
/// "light L-1, sealant RF-2609".
QString kitWords(session::Session& book, const Setup& setup);

} // namespace gk::ui
