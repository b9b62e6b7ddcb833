#pragma once

#include <QCoreApplication>
#include <QPointer>
#include <QThreadPool>

#include <memory>
#include <type_traits>
#include <utility>

namespace gk::ui {

/// Runs a pure function over values away from the window and hands what it gives to `then`, back
/// in the window's thread; when the owner is gone by then, to no one. Call it from that thread.
/// Neither QFuture::then with a context (on Qt 6.4.2 it aborts when the context dies first) nor
/// QFutureWatcher with takeResult (its future was found invalid now and then).
template <class Work, class Then>
void inBackground(QObject* owner, Work work, Then then) {
  using Value = std::invoke_result_t<Work>;
  // The application outlives the pool's threads: it waits for them before it goes.
  auto* app = QCoreApplication::instance();
  QThreadPool::globalInstance()->start(
      [app, guard = QPointer<QObject>(owner), work = std::move(work), then = std::move(then)] {
        auto value = std::make_shared<Value>(work());
        QMetaObject::invokeMethod(
            app,
            [guard, value, then] {
              if (guard) then(std::move(*value));
            },
            Qt::QueuedConnection);
      });
}

} // namespace gk::ui
