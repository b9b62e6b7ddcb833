#pragma once

#include "ui/asking/context.h"
#include "ui/support/message.h"

#include <QObject>

namespace gk::ui {

/// For whoever has the signals `said` and `failed`: what came of an act is told by them.
template <class Self>
class Tells {
 protected:
  /// False, and says so, when it failed.
  template <class T>
  bool went(const base::Result<T>& result) {
    if (!result) Q_EMIT static_cast<Self*>(this)->failed(describe(result.error()));
    return result.has_value();
  }
  /// As `went`, after an act that stays: the message says `done`, not that nothing was written.
  template <class T>
  bool wentAfter(const QString& done, const base::Result<T>& result) {
    if (result) return true;
    auto message = describe(result.error());
    message.lost = done;
    Q_EMIT static_cast<Self*>(this)->failed(message);
    return false;
  }
};

/// Acts of one kind that a page offers; they know no page (Page::tellOf).
class PageActs : public QObject, public Tells<PageActs> {
  Q_OBJECT

 public:
  PageActs(Context& context, QObject* parent) : QObject(parent), context_(context) {}

 Q_SIGNALS:
  void failed(const gk::ui::Message& message);
  void said(const QString& words);

 protected:
  [[nodiscard]] Context& context() const { return context_; }
  [[nodiscard]] session::Session& book() const { return context_.session; }

 private:
  Context& context_;
};

} // namespace gk::ui
