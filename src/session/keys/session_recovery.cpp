#include "base/text/printed_code.h"
#include "session/reader_held.h"
#include "session/session_write.h"

// The printed code that opens the names when the passphrase is lost.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::RecoveryCode;

std::string newRecoveryCode(base::Random& random) {
  auto secret = crypto::Secret::ofSize(crypto::Key::size);
  random.fill(secret.bytes());
  return base::printedCode(secret.bytes(), base::recoveryCodeShape);
}

Result<bool> KeyVerbs::hasRecoveryCode() {
  const auto kept = book_.recovery();
  if (!kept) return kept.error();
  return kept->has_value();
}

Result<std::string> KeyVerbs::makeRecoveryCode(By by, const OwnPin& pin) {
  const auto may = admit(Verb::makeRecoveryCode, by, {.pin = pin});
  if (!may) return may.error();
  if (!roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential, may->author().value.name +
                                                " is not a signer or a manager, so another "
                                                "member must make the recovery code"};
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook first"};
  auto code = newRecoveryCode(world_.random);
  if (const auto own = opensPresentKey(); !own) return own.error();
  const auto wrapped =
      vault_->wrapForRecovery(crypto::Secret::copyOf(code), costOf(kind_), world_.random);
  if (!wrapped) return wrapped.error();
  auto rows = book_.current<RecoveryCode>(store::everything());
  if (!rows) return rows.error();
  const auto made = write(*may, {}, [&](store::Act& act) {
    act.keepRecovery(store::KeyRow{wrapped->salt, wrapped->opsLimit, wrapped->memoryBytes,
                                   wrapped->nonce, wrapped->box, vault_->name().key});
    return replaceAll(act, *rows, RecoveryCode{}, "a new code");
  });
  if (!made) return made.error();
  return code;
}

Result<base::Done> KeyVerbs::withdrawRecoveryCode(By by, const std::string& reason,
                                                  const OwnPin& pin) {
  const auto may = admit(Verb::withdrawRecoveryCode, by, {.reason = reason, .pin = pin});
  if (!may) return may.error();
  if (!roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential, may->author().value.name +
                                                " is not a signer or a manager, so another "
                                                "member must withdraw the recovery code"};
  const auto has = hasRecoveryCode();
  if (!has) return has.error();
  if (!*has) return Error{ErrorCode::notFound, "this logbook has no recovery code"};
  auto rows = book_.current<RecoveryCode>(store::everything());
  if (!rows) return rows.error();
  return write(*may, {}, [&](store::Act& act) {
    act.keepRecovery({});
    replaceAll(act, *rows, RecoveryCode{.withdrawn = true}, reason);
    act.openers().prune();
    return base::Done{};
  });
}

} // namespace gk::session
