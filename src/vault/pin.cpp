#include "vault/pin.h"

#include "vault/vault.h"

#include <algorithm>
#include <iterator>
#include <string_view>

namespace gk::vault {

namespace {

/// Mixed in as associated data, so that no box of another purpose or member opens as a PIN.
constexpr std::string_view pinPurpose = "groovekeeper pin 1 ";

crypto::Bytes boundToMember(const base::Uuid& member) {
  crypto::Bytes associated(pinPurpose.begin(), pinPurpose.end());
  std::ranges::copy(member.bytes, std::back_inserter(associated));
  return associated;
}

bool isDigit(std::uint8_t sign) {
  return sign >= '0' && sign <= '9';
}

/// 1111, 1234, 4321, 9012, 1212, 123123: what is tried first.
bool isTrivial(std::span<const std::uint8_t> digits) {
  for (const int step : {0, 1, 9}) { // the same again, one up, one down; 0 follows 9
    bool isRun = true;
    for (std::size_t i = 1; i < digits.size(); ++i)
      isRun = isRun && (digits[i - 1] - '0' + step) % 10 == digits[i] - '0';
    if (isRun) return true;
  }
  for (const std::size_t length : {2U, 3U}) {
    if (digits.size() % length != 0 || digits.size() == length) continue;
    bool isRepeated = true;
    for (std::size_t i = length; i < digits.size(); ++i)
      isRepeated = isRepeated && digits[i] == digits[i - length];
    if (isRepeated) return true;
  }
  return false;
}

} // namespace

base::Result<base::Done> checkPin(const crypto::Secret& pin) {
  const auto digits = pin.bytes();
  if (digits.size() < shortestPin || digits.size() > longestPin ||
      !std::ranges::all_of(digits, isDigit))
    return base::Error{base::ErrorCode::pinMalformed, "a PIN is 4 to 6 digits"};
  if (isTrivial(digits))
    return base::Error{base::ErrorCode::pinMalformed,
                       "that PIN is among the first to be guessed, as 1111, 1234 and 1212 are; "
                       "choose another"};
  return base::Done{};
}

base::Result<SealedPin> Vault::sealPin(const base::Uuid& member, const crypto::Secret& pin,
                                       crypto::KdfCost cost, base::Random& random) const {
  if (const auto sound = checkPin(pin); !sound) return sound.error();
  crypto::Bytes salt(crypto::saltSize);
  random.fill(salt);
  const auto derived = crypto::deriveKey(pin, salt, cost);
  if (!derived) return derived.error();
  auto sealed = crypto::seal(seals(), derived->bytes(), boundToMember(member), random);
  return SealedPin{std::move(salt), cost.opsLimit, cost.memoryBytes, std::move(sealed.nonce),
                   std::move(sealed.box)};
}

base::Result<base::Done> Vault::opensPin(const base::Uuid& member, const SealedPin& sealed) const {
  const auto kept = openPin(member, sealed);
  if (!kept) return kept.error();
  return base::Done{};
}

base::Result<crypto::Secret> Vault::openPin(const base::Uuid& member,
                                            const SealedPin& sealed) const {
  if (sealed.opsLimit > SealedPin::mostOps || sealed.memoryBytes > SealedPin::mostMemory)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a PIN of this logbook costs more to look at than this program writes; have "
                       "it reset"};
  return openBox({.nonce = sealed.nonce, .box = sealed.box}, boundToMember(member));
}

base::Result<bool> Vault::isPin(const base::Uuid& member, const crypto::Secret& pin,
                                const SealedPin& sealed) const {
  // The box first: it tells a forged row from a wrong PIN, and costs nothing.
  const auto kept = openPin(member, sealed);
  if (!kept) return kept.error();
  const auto derived = crypto::deriveKey(
      pin, sealed.salt, {.opsLimit = sealed.opsLimit, .memoryBytes = sealed.memoryBytes});
  if (!derived) return derived.error();
  return crypto::isSame(derived->bytes(), kept->bytes());
}

} // namespace gk::vault
