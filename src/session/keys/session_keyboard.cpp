#include "base/text/printed_code.h"
#include "crypto/secret.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "vault/vault.h"

#include <algorithm>
#include <utility>

// Who is at the keyboard: signing in, the lock that a PIN opens, and what she confirms.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Milliseconds;

namespace {

/// The two clocks are read one after the other; a real sleep takes longer (ours).
constexpr base::Seconds noSleep{2};

vault::SealedPin sealedOf(const roster::MemberPin& pin) {
  return {pin.salt, pin.opsLimit, pin.memoryBytes, pin.nonce, pin.box};
}

Error spent() {
  return {ErrorCode::pinSpent,
          "five wrong PINs; enter the logbook's passphrase, then PINs work again"};
}

std::string inSeconds(Milliseconds wait) {
  const auto seconds = std::chrono::ceil<base::Seconds>(wait).count();
  return std::to_string(seconds) + (seconds == 1 ? " second" : " seconds");
}

} // namespace

Result<std::optional<roster::MemberPin>> Door::newestPin(base::MemberId who) {
  auto rows = book_.current<roster::MemberPin>(store::rowsOf("member", who));
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<roster::MemberPin>();
  // Two laptops may each have one; both say the same of which is the newest.
  const auto newest = std::ranges::max_element(
      *rows, {}, [](const auto& row) { return std::pair(row.stamp.at.at, row.stamp.entry); });
  return std::optional(std::move(newest->value));
}

Result<base::Done> Door::isHerself(Admission& admission, const VerbRule& rule, const About& about) {
  const auto by = admission.by();
  if (!by.author) return base::Done{};
  const auto typist = by.recorder.value_or(*by.author);
  if (typist != keyboard_.signedIn) {
    const auto pin = newestPin(typist);
    if (!pin) return pin.error();
    if (*pin && !(*pin)->isReset())
      return Error{ErrorCode::pinNeeded,
                   "the person typing has a PIN and is not signed in; sign in with it"};
  }
  bool isAsked = rule.pin == PinAsked::yes;
  if (rule.pin == PinAsked::onSigned && about.day) {
    const auto closed = isSigned(*about.day);
    if (!closed) return closed.error();
    isAsked = *closed;
  }
  if (!isAsked) return base::Done{};
  const auto pin = newestPin(*by.author);
  if (!pin) return pin.error();
  if (!*pin || (*pin)->isReset()) return base::Done{};
  if (!about.pin || !keyboard_.isGood(*about.pin, *by.author, world_.clock.steady()))
    return Error{ErrorCode::pinNeeded,
                 admission.author().value.name +
                     " must confirm this with their own PIN; no one else can"};
  admission.usesPin_ = true;
  return base::Done{};
}

Milliseconds PeopleVerbs::sleptSoFar() {
  return world_.clock.steady() - world_.clock.awake();
}

void PeopleVerbs::beginKeyboard() {
  keyboard_.tries.forget();
  keyboard_.signedIn.reset();
  keyboard_.asleep.reset();
  keyboard_.slept = sleptSoFar();
}

void PeopleVerbs::lockNames() {
  vault_.reset();
  held_->keys.clear();
  held_->shown.clear();
  held_->openedBy.reset();
  keyboard_.asleep.reset();
  forgetRoll();
  changed_.emit(Change{}); // faces let go of what they show
  crypto::wipeStack();
}

Result<base::Done> PeopleVerbs::mayTry(base::MemberId who) {
  if (keyboard_.tries.isSpent(who)) return spent();
  const auto wait = keyboard_.tries.wait(who, world_.clock.steady());
  if (wait > Milliseconds(0))
    return Error{ErrorCode::pinWait,
                 "after a wrong PIN, the next one is accepted in " + inSeconds(wait)};
  return base::Done{};
}

Result<base::Done> PeopleVerbs::judge(base::MemberId who, std::string& pin,
                                      const vault::Vault& vault) {
  const auto given = crypto::Secret::taking(pin);
  const auto kept = pinThatCounts(book_, vault, who);
  if (!kept) return kept.error();
  if (!*kept || (*kept)->isReset())
    return Error{ErrorCode::pinNeeded, "this member has no PIN yet; choose one at the desk, Team"};
  const auto isRight = vault.isPin(book_.enteredAs(who.uuid()), given, sealedOf(**kept));
  if (!isRight) return isRight.error();
  auto& tries = keyboard_.tries;
  if (*isRight) {
    tries.noteRight(who);
    return base::Done{};
  }
  tries.noteWrong(who, world_.clock.steady());
  if (tries.isSpent(who)) return spent();
  return Error{ErrorCode::pinWrong, "the next PIN is accepted in " +
                                        inSeconds(tries.wait(who, world_.clock.steady())) + "; " +
                                        std::to_string(tries.left(who)) +
                                        " more before the passphrase is needed"};
}

Result<Confirmation> PeopleVerbs::confirm(base::MemberId who, std::string pin) {
  const auto may = mayTry(who);
  if (!may) return may.error();
  if (!vault_)
    return Error{ErrorCode::vaultLocked, "unlock the names first: a PIN is checked with them"};
  const auto right = judge(who, pin, *vault_);
  if (!right) {
    if (right.error().code == ErrorCode::pinSpent) lockNames();
    return right.error();
  }
  return keyboard_.confirm(who, world_.clock.steady());
}

Result<OwnPin> PeopleVerbs::signIn(base::MemberId who, std::string pin) {
  const auto member = entitled(who, roster::Task::type, world_.clock.now().date());
  if (!member) return member.error();
  const auto state = pinOf(who);
  if (!state) return state.error();
  OwnPin own;
  if (*state == roster::PinState::set) {
    const auto given = confirm(who, std::move(pin));
    if (!given) return given.error();
    own = *given;
  }
  keyboard_.signedIn = who;
  return own;
}

OpenedBy PeopleVerbs::lockByPin() {
  if (keyboard_.asleep) return OpenedBy::pin;
  const auto anyone = hasPins();
  if (!vault_ || !anyone || !*anyone || keyboard_.tries.isAnySpent()) {
    lockNames();
    return OpenedBy::passphrase;
  }
  keyboard_.asleep = std::make_unique<vault::Vault>(std::move(*vault_));
  keyboard_.asleep->sleep();
  held_->shown.clear();
  for (auto& [who, open] : held_->keys)
    open.sleep();
  keyboard_.slept = sleptSoFar();
  vault_.reset();
  forgetRoll();
  changed_.emit(Change{}); // faces let go of what they show
  crypto::wipeStack();
  return OpenedBy::pin;
}

Result<base::Done> PeopleVerbs::unlockByPin(base::MemberId who, std::string pin) {
  if (noticeSleep() || !keyboard_.asleep)
    return Error{ErrorCode::pinSpent,
                 "after a start, a laptop sleep or five wrong PINs, the logbook's passphrase "
                 "is needed"};
  const auto member = entitled(who, roster::Task::type, world_.clock.now().date());
  if (!member) return member.error();
  const auto may = mayTry(who);
  if (!may) {
    if (may.error().code == ErrorCode::pinSpent) lockNames();
    return may.error();
  }
  auto& vault = *keyboard_.asleep;
  vault.awaken();
  const auto right = judge(who, pin, vault);
  if (!right) {
    vault.sleep();
    if (right.error().code == ErrorCode::pinSpent) lockNames();
    return right.error();
  }
  vault_.emplace(std::move(vault));
  keyboard_.asleep.reset();
  keyboard_.signedIn = who;
  forgetRoll();
  changed_.emit(Change{});
  return base::Done{};
}

bool PeopleVerbs::noticeSleep() {
  const auto slept = sleptSoFar();
  const bool isLong = slept - keyboard_.slept > noSleep;
  keyboard_.slept = slept;
  if (isLong && (vault_ || keyboard_.asleep)) lockNames();
  return isLong;
}

Result<base::Done> PeopleVerbs::isOpenedBy(std::string& passphrase, OrCode orCode) {
  std::optional<crypto::Secret> printed;
  if (orCode == OrCode::yes)
    if (auto code = base::readCode(passphrase, base::recoveryCodeShape))
      printed = crypto::Secret::taking(*code);
  const auto secret = crypto::Secret::taking(passphrase);
  const auto now = world_.clock.steady();
  if (const auto may = held_->bookMisses.mayTry(now); !may) return may.error();
  const auto key = book_.key();
  if (!key) return key.error();
  auto opened = vault::Vault::open(secret, wrappedOf(*key), {book_.identity(), key->name});
  if (!opened && printed) {
    const auto recovery = book_.recovery();
    if (!recovery) return recovery.error();
    if (const auto& row = *recovery)
      opened = vault::Vault::recover(*printed, wrappedOf(*row), {book_.identity(), row->name});
  }
  if (!opened) {
    if (opened.error().code == ErrorCode::vaultWrongPassphrase) held_->bookMisses.noteWrong(now);
    return opened.error();
  }
  held_->bookMisses = {};
  return base::Done{};
}

} // namespace gk::session
