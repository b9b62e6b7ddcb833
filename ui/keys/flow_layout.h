#pragma once

#include <QLayout>

#include <memory>
#include <vector>

namespace gk::ui {

/// Lays out from left to right and goes on in a next row where the width ends, so that large
/// letters cut nothing off.
class FlowLayout final : public QLayout {
 public:
  FlowLayout(int spacing, QWidget* parent = nullptr);
  ~FlowLayout() override;

  void addItem(QLayoutItem* item) override;
  [[nodiscard]] int count() const override { return static_cast<int>(items_.size()); }
  [[nodiscard]] QLayoutItem* itemAt(int index) const override;
  QLayoutItem* takeAt(int index) override;
  [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
  [[nodiscard]] bool hasHeightForWidth() const override { return true; }
  [[nodiscard]] int heightForWidth(int width) const override;
  void setGeometry(const QRect& rect) override;
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSize() const override;

 private:
  /// The height that it takes; moves the items only when `move`.
  int arrange(const QRect& rect, bool move) const;

  int spacing_;
  std::vector<std::unique_ptr<QLayoutItem>> items_;
};

} // namespace gk::ui
