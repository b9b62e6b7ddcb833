#pragma once

#include "ui/widgets/page_acts.h"

#include <QWidget>

namespace gk::ui {

/// A page around the chair. It shows what it read from the book and reads again after every
/// change: at once when it is seen, else when it is shown next.
class Page : public QWidget, public Tells<Page> {
  Q_OBJECT

 public:
  Page(Context& context, QWidget* parent);

  virtual void refresh() = 0;
  /// The names are locked and the page is behind another: it holds none of them from now on.
  virtual void letGo() { refresh(); }
  /// None behind another page: Qt's stack is as high as its highest.
  [[nodiscard]] int heightForWidth(int width) const override {
    return isHidden() ? -1 : QWidget::heightForWidth(width);
  }

 Q_SIGNALS:
  void failed(const gk::ui::Message& message);
  void said(const QString& words);

 protected:
  void showEvent(QShowEvent* event) override;

  [[nodiscard]] Context& context() const { return context_; }
  [[nodiscard]] session::Session& book() const { return context_.session; }
  /// What these acts tell is told as the page's own.
  void tellOf(std::initializer_list<const PageActs*> acts) const;

 private:
  void noteChange();

  Context& context_;
  bool stale_ = true;
  bool wasSeen_ = false; ///< since names were locked last, so it may hold some
  base::Subscription changes_;
};

} // namespace gk::ui
