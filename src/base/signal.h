#pragma once

#include <functional>
#include <list>
#include <memory>
#include <utility>

namespace gk::base {

/// Keeps a listener connected; letting it go disconnects. May outlive the signal.
class Subscription {
 public:
  Subscription() = default;
  explicit Subscription(std::shared_ptr<void> keep) : keep_(std::move(keep)) {}

 private:
  std::shared_ptr<void> keep_;
};

/// Calls its listeners in the order in which they came. One thread.
template <class... Args>
class Signal {
 public:
  using Listener = std::function<void(const Args&...)>;

  [[nodiscard]] Subscription connect(Listener listener) {
    auto kept = std::make_shared<Listener>(std::move(listener));
    listeners_.push_back(kept);
    return Subscription(kept);
  }

  /// Until `release` nothing is emitted: what is told of may happen in another thread meanwhile.
  void hold() { isHeld_ = true; }
  /// Whether anything was to be told since.
  [[nodiscard]] bool release() {
    isHeld_ = false;
    return std::exchange(isMissed_, false);
  }
  void emit(const Args&... args) {
    if (isHeld_) {
      isMissed_ = true;
      return;
    }
    listeners_.remove_if([](const auto& weak) { return weak.expired(); });
    const auto now = listeners_; // a listener may connect others
    for (const auto& weak : now)
      if (const auto listener = weak.lock()) (*listener)(args...);
  }

 private:
  std::list<std::weak_ptr<Listener>> listeners_;
  bool isHeld_ = false;
  bool isMissed_ = false;
};

} // namespace gk::base
