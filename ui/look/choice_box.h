#pragma once

#include <QComboBox>

namespace gk::ui {

/// A choice whose words are read whole: it asks for the width of its longest line. What is longer
/// than a line of a form should be (a school may have any name) ends in dots, and is whole in the
/// list that opens and under the pointer.
class ChoiceBox : public QComboBox {
  Q_OBJECT

 public:
  explicit ChoiceBox(QWidget* parent = nullptr);

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;
  void showPopup() override;

  /// Whether `words` stand whole in it as wide as it is now.
  [[nodiscard]] bool hasRoomFor(const QString& words) const;
  /// Whether words so long may end in dots here.
  [[nodiscard]] bool isTooLong(const QString& words) const;

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;

 private:
  [[nodiscard]] int roomForWords() const;
  [[nodiscard]] int mostForWords() const;
};

} // namespace gk::ui
