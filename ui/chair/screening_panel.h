#pragma once

#include "ui/drafts/screening_draft.h"
#include "ui/visit/chair_panel.h"

class QLabel;

namespace gk::ui {

/// Findings by keyboard: a cursor on the mouth map, one key for each state, 4 5 6 for the answers
/// about the whole child, and the line to read aloud before the first etch.
class ScreeningPanel final : public ChairPanel {
  Q_OBJECT

 public:
  ScreeningPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  bool press(const QKeyEvent& event) override;
  std::vector<TileFace> faces() const override;
  [[nodiscard]] QWidget* mustSee() const override;
  /// Everything chosen and not begun is left as declined, once a screening is recorded.
  void stopChild() override;
  void addNote() override;
  bool undo() override;
  /// All is charted and asked: the plan is read aloud.
  [[nodiscard]] bool isAtPlan() const { return draft_ && draft_->openQuestion() >= 3; }
  /// As the key "One surface"; the same one again is the whole tooth.
  void pick(dentition::Surface surface) override;

 private:
  /// What a key takes the place of; undo goes back to it, at the tooth where it was pressed.
  struct Before {
    ScreeningDraft draft;
    dentition::Tooth tooth;
    std::optional<dentition::ToothSurfaces> part;
  };

  void arrange();
  void showKeys(bool asks, bool hasAges);
  [[nodiscard]] KeyAction stateKey(int key, const QString& words, ToothState state);
  void set(ToothState state);
  void more();
  void addTooth();
  void askWhatStands();
  void nextPart();
  void answer(int choice);
  void record();
  void askReseal(const dentition::Tooth& tooth);
  void load();
  /// Changes the draft, after keeping the one before for undo.
  void change(const std::function<void()>& how);
  void keep();
  /// Of teeth that are up outside their age, what to ask; a question that was read is asked no
  /// more.
  [[nodiscard]] std::vector<std::pair<dentition::Tooth, QString>> ageQuestions() const;
  void readAges();
  [[nodiscard]] QString questionText(int question) const;
  [[nodiscard]] std::optional<dentition::Surface> partNow() const;

  QLabel* cursor_;
  QLabel* questions_;
  QLabel* age_;     ///< teeth that are up sooner than they should be, until that was read
  QLabel* dentist_; ///< found and authorized, side by side
  QLabel* pause_;
  KeyBar* keys_;    ///< what is found
  KeyBar* changes_; ///< of what is found, and what ends the panel
  KeyBar* answers_; ///< to the questions about the child
  bool planFirst_ = false;
  std::optional<ScreeningDraft> draft_;
  std::vector<Before> before_;                   ///< for undo, newest last
  std::optional<dentition::ToothSurfaces> part_; ///< one surface; none: the whole tooth
  std::vector<dentition::Tooth> read_;           ///< whose question about the age was read
};

} // namespace gk::ui
