#include "session/rights/keyboard.h"

#include "vault/vault.h"

namespace gk::session {

Keyboard::Keyboard() = default;
Keyboard::Keyboard(Keyboard&&) noexcept = default;
Keyboard::~Keyboard() = default;

Confirmation Keyboard::confirm(base::MemberId who, base::Milliseconds now) {
  at_ = now;
  isUsed_ = false;
  return {who, ++newest_};
}

bool Keyboard::isGood(const Confirmation& given, base::MemberId who, base::Milliseconds now) const {
  return given.number_ == newest_ && given.who_ == who && !isUsed_ &&
         now - at_ <= confirmationLasts;
}

} // namespace gk::session
