#pragma once

#include "ui/asking/context.h"
#include "ui/support/message.h"

#include <QWidget>

namespace gk::ui {

/// A page around the chair. It shows what it read from the book and reads again after every
/// change: at once when it is seen, else when it is shown next.
class Page : public QWidget {
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

  /// False, and says so, when it failed.
  template <class T>
  bool went(const base::Result<T>& result) {
    if (!result) Q_EMIT failed(describe(result.error()));
    return result.has_value();
  }
  /// As `went`, after an act that stays: the message says `done`, not that nothing was written.
  template <class T>
  bool wentAfter(const QString& done, const base::Result<T>& result) {
    if (result) return true;
    auto message = describe(result.error());
    message.lost = done;
    Q_EMIT failed(message);
    return false;
  }

 private:
  void noteChange();

  Context& context_;
  bool stale_ = true;
  bool wasSeen_ = false; ///< since names were locked last, so it may hold some
  base::Subscription changes_;
};

} // namespace gk::ui
