#pragma once

#include "ui/visit/chair_panel.h"

class QLabel;
class QScrollArea;

namespace gk::ui {

class IdentityView;

/// Fills the page until two identifiers agree, one of them the name that the child spoke, and the
/// child said yes. Cannot be skipped. What confirms is keys that no scanner sends, the arrows; the
/// signs of a code gather in a line, which Enter looks up, and confirm nothing at any speed.
class IdentityPanel final : public ChairPanel {
  Q_OBJECT

 public:
  IdentityPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  bool press(const QKeyEvent& event) override;
  /// Ends the day for a child who does not sit down: declined, absent, left.
  void stopChild() override;
  /// What large letters push out of sight is in here.
  [[nodiscard]] QScrollArea* cardScroll() const { return scroll_; }
  /// Another number or slip came up: what was confirmed before it may have been of that child.
  void startOver();

 Q_SIGNALS:
  void sentAway();
  void codeTyped(const QString& code);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fitWords();
  void confirm(chairside::Identifier second);
  void mismatch();
  void seat();
  /// What is kept away from this child, from the first glove on; empty where nothing is.
  [[nodiscard]] QStringList alertLines() const;
  void readAlerts();
  void askChange();
  void noteChange(const QString& what, const QString& said, std::optional<roster::FlagKind> kind,
                  roster::FlagAction action);
  void overrideConsent();
  [[nodiscard]] bool gather(const QKeyEvent& event);

  QScrollArea* scroll_ = nullptr; ///< about the card
  IdentityView* view_;
  QLabel* asked_;
  KeyBar* keys_;
  QLabel* lookUp_;
  QString typed_; ///< of a number or code, until Enter looks it up
  chairside::IdentifierSet confirmed_;
  std::vector<roster::FlagId> heard_;        ///< alerts that were read
  std::string changed_;                      ///< since the form
  std::vector<roster::MedicalFlag> flagged_; ///< what of it is an alert or a question
};

} // namespace gk::ui
