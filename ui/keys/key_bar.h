#pragma once

#include "ui/keys/icons.h"

#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

class QKeyEvent;

namespace gk::ui {

class CapButton;

/// Alarm is a line for what stops; filled is for contamination alone.
enum class KeyLook { plain, main, alarm, filled };

/// One thing that can be done now: what a key, a pedal or a finger does, and the words for it.
struct KeyAction {
  int key; ///< Qt::Key; Key_Return stands for both Enter keys; 0 for none of its own
  QString label;
  QString name; ///< of the button, for tests
  std::function<void()> act;
  KeyLook look = KeyLook::plain;
  bool enabled = true;
  QString sub{}; ///< a second line, such as what is used now
  std::optional<Icon> sign{};
};

/// The hint that is printed for a key: "W", "Space", "Enter"; empty for none.
QString keyHint(int key);

/// Shows its actions as buttons with their keys; what is shown is what the keys do.
class KeyBar final : public QWidget {
  Q_OBJECT

 public:
  /// Every button is a target for a glove, with room to the next.
  explicit KeyBar(int columns, QWidget* parent = nullptr);
  /// As many as there is room for, up to this.
  void setColumns(int columns) { columns_ = columns; }
  /// Letters of so many pixels; 0: as the sheet has them.
  void setLetters(int pixels);
  /// Of the words on the keys now.
  [[nodiscard]] int letters() const;
  /// All in one row with the cap above the words, whatever the width: what needs more gets more.
  /// Their places depend on the words alone and not on what can be done now.
  void setOneRow();

  void setActions(std::vector<KeyAction> actions);
  /// Whether the key meant one of the actions; a disabled one swallows its key.
  bool press(const QKeyEvent& event);

  [[nodiscard]] bool hasHeightForWidth() const override { return true; }
  [[nodiscard]] int heightForWidth(int width) const override;
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void place();
  /// As many columns as wished, or as few as it takes that no words are cut.
  [[nodiscard]] int columnsIn(int width) const;
  [[nodiscard]] int rowHeight() const;
  [[nodiscard]] int rowHeightIn(int columns, int width) const;
  /// Of a bar in one row.
  [[nodiscard]] std::vector<int> widths(int width) const;
  void act(std::size_t place);
  CapButton* button(std::size_t place);

  int columns_;
  bool oneRow_ = false;
  std::vector<KeyAction> actions_;
  std::vector<CapButton*> buttons_;
};

} // namespace gk::ui
