#pragma once

#include <QFutureWatcher>
#include <QPromise>
#include <QThreadPool>

#include <memory>
#include <type_traits>

namespace gk::ui {

/// Runs a pure function over values away from the window and hands what it gives to `then`, back
/// in the owner's thread; when the owner is gone by then, to nobody. Not `QFuture::then` with a
/// context: on Qt 6.4.2 that aborts when the context dies first.
template <class Work, class Then>
void inBackground(QObject* owner, Work work, Then then) {
  using Value = std::invoke_result_t<Work>;
  auto promise = std::make_shared<QPromise<Value>>();
  auto* watcher = new QFutureWatcher<Value>(owner);
  QObject::connect(watcher, &QFutureWatcherBase::finished, owner, [watcher, then] {
    then(watcher->future().takeResult());
    watcher->deleteLater();
  });
  watcher->setFuture(promise->future());
  QThreadPool::globalInstance()->start([promise, work = std::move(work)] {
    promise->start();
    promise->addResult(work());
    promise->finish();
  });
}

} // namespace gk::ui
