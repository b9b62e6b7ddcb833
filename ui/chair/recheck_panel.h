#pragma once

#include "ui/drafts/recheck_draft.h"
#include "ui/visit/chair_panel.h"

class QLabel;

namespace gk::ui {

/// Looks again at sealants of earlier days, tooth by tooth: 5 whole, 6 part, 4 lost, 0 cannot
/// assess, each for the surface that is asked; 8 for the whole tooth.
class RecheckPanel final : public ChairPanel {
  Q_OBJECT

 public:
  RecheckPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  bool press(const QKeyEvent& event) override { return keys_->press(event); }
  std::vector<TileFace> faces() const override;
  void stopChild() override;
  bool undo() override;

  /// Whether something is to be looked at, may be, and was not passed over.
  [[nodiscard]] bool hasWork() const;

 private:
  void next();
  void openDraft(const session::EarlierPlacement& earlier);
  void startOver();
  void turnReported();
  void answer(followup::Held held);
  void wholeTooth();
  void follow();
  void record();
  void askWhy();
  void askLift();
  void askKind();
  void askPrompt();

  QLabel* title_;
  QLabel* story_;
  QLabel* answers_;
  KeyBar* keys_;
  std::optional<RecheckDraft> draft_;
  QString prompted_; ///< what prompted the check before, offered again
  /// Of this visit: who comes because one sealant fell out is looked at whole for it.
  bool isReported_ = false;
  bool skipped_ = false;
};

} // namespace gk::ui
