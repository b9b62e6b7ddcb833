#pragma once

#include <QTimer>

#include <algorithm>
#include <chrono>
#include <fstream>

namespace gk::test {

/// How long the window's thread at most left its events waiting. What it waited for a processor,
/// as Linux counts that (/proc/thread-self/schedstat, proc(5)), is the machine's and not counted.
class Stalls {
 public:
  Stalls() {
    QObject::connect(&beat_, &QTimer::timeout, &beat_, [this] { look(); });
    beat_.start(1);
  }
  void end() { beat_.stop(); }
  /// What goes with this.
  [[nodiscard]] QObject* beat() { return &beat_; }
  [[nodiscard]] std::chrono::milliseconds longest() const {
    return std::chrono::duration_cast<std::chrono::milliseconds>(longest_);
  }

 private:
  using Nanoseconds = std::chrono::nanoseconds;

  static Nanoseconds queued() {
    std::ifstream file("/proc/thread-self/schedstat");
    std::int64_t ran = 0;
    std::int64_t waited = 0;
    file >> ran >> waited;
    return Nanoseconds(waited);
  }
  void look() {
    const auto now = std::chrono::steady_clock::now();
    const auto waited = queued();
    longest_ = std::max<Nanoseconds>(longest_, (now - last_) - (waited - lastWaited_));
    last_ = now;
    lastWaited_ = waited;
  }

  QTimer beat_;
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
  Nanoseconds lastWaited_ = queued();
  Nanoseconds longest_{0};
};

} // namespace gk::test
