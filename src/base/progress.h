#pragma once

#include <cstdint>
#include <functional>
#include <utility>

namespace gk::base {

/// What long work is at. A face has the words for it.
enum class Stage : std::uint8_t {
  copying,   ///< the logbook, so that it can be read while it is written on
  checking,  ///< each page and each act against its digest
  writing,   ///< a copy
  verifying, ///< a copy that was written
  reading,
  counting,
  drawing, ///< pages to print
  merging,
  updating ///< a logbook of an older version
};

/// Long work says how far it is and asks whether it is still wanted. Passed in, and used in the
/// thread that works; what it was made of must bear that. Made of nothing, no one hears of it and
/// nothing stops it. Work that is stopped fails with `workCanceled` and has changed nothing.
class Progress {
 public:
  using Ask = std::function<bool()>;
  using Tell = std::function<void(Stage stage, std::int64_t done, std::int64_t whole)>;

  Progress() = default;
  Progress(Ask isStopped, Tell tell) : isStopped_(std::move(isStopped)), tell_(std::move(tell)) {}

  /// `whole` is 0 where no one knows how much there is.
  void at(Stage stage, std::int64_t done = 0, std::int64_t whole = 0) const {
    if (tell_) tell_(stage, done, whole);
  }
  [[nodiscard]] bool isStopped() const { return isStopped_ && isStopped_(); }
  /// Whether counting how much there is serves anybody.
  [[nodiscard]] bool isHeard() const { return tell_ != nullptr; }

 private:
  Ask isStopped_;
  Tell tell_;
};

} // namespace gk::base
