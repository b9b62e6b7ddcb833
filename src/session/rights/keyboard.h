#pragma once

#include "session/rights/confirmation.h"
#include "session/rights/pin_tries.h"

#include <memory>

namespace gk::vault {
class Vault;
}

namespace gk::session {

/// Who is at this laptop's keyboard, what wrong PINs were given at it, and the book key while it
/// waits for one. None of it is in the book.
class Keyboard {
 public:
  Keyboard();
  Keyboard(Keyboard&& other) noexcept;
  ~Keyboard();

  /// How long one is good.
  static constexpr base::Seconds confirmationLasts{120};

  PinTries tries{};
  std::optional<base::MemberId> signedIn{};
  std::unique_ptr<vault::Vault> asleep; ///< unreadable until a PIN is given
  base::Milliseconds slept{};           ///< by the laptop, when that was looked at last

  Confirmation confirm(base::MemberId who, base::Milliseconds now);
  /// Whether it is the newest one, hers, not used and not stale.
  [[nodiscard]] bool isGood(const Confirmation& given, base::MemberId who,
                            base::Milliseconds now) const;
  void use() { isUsed_ = true; }

 private:
  std::uint64_t newest_ = 0;
  base::Milliseconds at_{};
  bool isUsed_ = true;
};

} // namespace gk::session
