#pragma once

#include "ui/keys/icons.h"

#include <QAbstractButton>
#include <QWidget>

#include <vector>

namespace gk::ui {

/// A place to go to: its icon, its key in a cap, and the word below.
class NavButton final : public QAbstractButton {
  Q_OBJECT

 public:
  NavButton(Icon icon, const QString& words, const QString& key, QWidget* parent);
  ~NavButton() override;

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Icon icon_;
  QString key_;
};

/// The places of the program down the left side, and what hides or locks them at its foot.
class NavRail final : public QWidget {
  Q_OBJECT

 public:
  enum class Part { places, foot };

  explicit NavRail(QWidget* parent);

  NavButton* add(Part part, Icon icon, const QString& words, const QString& key,
                 const QString& name);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::vector<NavButton*> places_;
  std::vector<NavButton*> foot_;
};

} // namespace gk::ui
