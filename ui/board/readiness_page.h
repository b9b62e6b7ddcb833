#pragma once

#include "ui/keys/key_bar.h"
#include "ui/widgets/page.h"

#include <array>

class QLabel;

namespace gk::ui {

class AskBar;

/// The morning's readiness, item by item and in order, one key for each. Nothing here blocks care.
class ReadinessPage final : public Page {
  Q_OBJECT

 public:
  ReadinessPage(Context& context, QWidget* parent);

  void refresh() override;
  /// Of this day from now on.
  void chooseDay(const std::optional<roster::DayId>& day);

 Q_SIGNALS:
  /// All items are answered; who came here on the way to the chair may go on.
  void answered();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  bool focusNextPrevChild(bool) override { return false; } // the arrows move, Tab has no other stop

 private:
  static constexpr std::size_t items = base::enumCount<kit::ReadinessItem>;

  [[nodiscard]] std::optional<kit::ReadinessCheck> answerTo(std::size_t item) const;
  void move(int by);
  void done();
  void doneLight();
  /// Today's choice; says so when there is none.
  [[nodiscard]] std::optional<base::Recorded<kit::Light>> chosenLight();
  void readAgain();
  void readLight(const base::Recorded<kit::Light>& light);
  void enterReading(const base::Recorded<kit::Light>& light, const kit::MeterReading& reading,
                    session::Confirmed confirmed);
  void noteLight(const kit::Light& light, const kit::MeterReading& reading);
  void doneLots();
  void doneSterilizer();
  void askWhy(kit::ReadinessAnswer answer);
  void answer(kit::ReadinessAnswer answer, const QString& reason, const QString& detail);
  void show();
  [[nodiscard]] QString nowWords() const;
  /// What the check is of: the open day's date, which need not be today's.
  [[nodiscard]] base::Date careDate();

  std::optional<roster::DayId> day_;
  std::vector<base::Recorded<kit::ReadinessCheck>> answers_;
  std::size_t at_ = 0;
  QLabel* state_;
  QLabel* question_;
  std::array<QLabel*, items> lines_{};
  KeyBar* keys_;
  AskBar* ask_;
};

} // namespace gk::ui
