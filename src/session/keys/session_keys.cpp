#include "base/text/text.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "vault/signer.h"

#include <algorithm>
#include <utility>

// People's own signing keys.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::PersonalKey;

namespace {

// A person mistypes now and then; a guesser types thousands. Own choice: three are free, then 10 s,
// twice as long each time, at most a quarter of an hour.
constexpr int freeMisses = 3;
constexpr base::Milliseconds firstWait{10'000};
constexpr base::Milliseconds longestWait{15 * 60'000};

base::Milliseconds waitAfter(int misses) {
  if (misses < freeMisses) return base::Milliseconds{0};
  auto wait = firstWait;
  for (int i = freeMisses; i < misses && wait < longestWait; ++i)
    wait *= 2;
  return std::min(wait, longestWait);
}

vault::WrappedKey wrappedOf(const PersonalKey& key) {
  return {key.salt, key.passes, key.memoryBytes, key.nonce, key.box};
}

PersonalKey keyRecord(base::MemberId member, const crypto::Bytes& publicKey,
                      vault::WrappedKey wrapped) {
  return {.member = member,
          .publicKey = publicKey,
          .salt = std::move(wrapped.salt),
          .passes = wrapped.opsLimit,
          .memoryBytes = wrapped.memoryBytes,
          .nonce = std::move(wrapped.nonce),
          .box = std::move(wrapped.box)};
}

/// No one types a passphrase for another.
Result<base::Done> typesForHerself(const Admission& may) {
  const auto by = may.by();
  if (by.recorder && by.recorder != by.author)
    return Error{ErrorCode::ruleSignature,
                 "each person types their own passphrase; choose your own name first"};
  return base::Done{};
}

} // namespace

Result<base::Done> Reader::Held::Misses::mayTry(base::Milliseconds now) const {
  if (now >= until) return base::Done{};
  return Error{ErrorCode::vaultWait,
               "wait " +
                   base::counted(std::chrono::ceil<base::Seconds>(until - now).count(), "second",
                                 "seconds") +
                   " before the next try"};
}

void Reader::Held::Misses::noteWrong(base::Milliseconds now) {
  until = now + waitAfter(++count);
}

Result<std::optional<Recorded<PersonalKey>>> KeyVerbs::newestKey(base::MemberId who) {
  auto rows = book_.current<PersonalKey>(store::rowsOf("member", who));
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<Recorded<PersonalKey>>();
  // One that stands before one that was revoked: a new one may be from another laptop.
  const auto stands =
      std::ranges::find_if(*rows, [](const auto& row) { return !row.value.revoked; });
  return std::optional(stands == rows->end() ? std::move(rows->back()) : std::move(*stands));
}

Result<std::vector<Recorded<PersonalKey>>> KeyVerbs::standingKeys(base::MemberId who) {
  auto rows = book_.current<PersonalKey>(store::rowsOf("member", who));
  if (rows) std::erase_if(*rows, [](const auto& row) { return row.value.revoked; });
  return rows;
}

Result<std::size_t> KeyVerbs::keyCount(base::MemberId who) {
  const auto keys = standingKeys(who);
  if (!keys) return keys.error();
  return keys->size();
}

void KeyVerbs::revoke(store::Act& act, const Recorded<PersonalKey>& key,
                      const std::string& reason) {
  auto revoked = key.value;
  revoked.revoked = true;
  act.correct(key, revoked, reason);
  act.openers().prune();
}

void KeyVerbs::forgetKey(base::MemberId who) {
  held_->keys.erase(who);
  held_->misses.erase(who);
  held_->shown.erase(who);
}

Result<KeyStanding> KeyVerbs::keyStanding(base::MemberId who) {
  const auto key = newestKey(who);
  if (!key) return key.error();
  if (!*key) return KeyStanding::never;
  if ((*key)->value.revoked) return KeyStanding::revoked;
  const auto open = held_->keys.find(who);
  if (open == held_->keys.end() || open->second.id != (*key)->id) return KeyStanding::stands;
  if (open->second.on != world_.clock.now().date()) {
    held_->keys.erase(open);
    return KeyStanding::stands;
  }
  return KeyStanding::open;
}

Result<roster::PersonalKeyId> KeyVerbs::enterKey(By by, std::string passphrase, const OwnPin& pin) {
  const auto secret = crypto::Secret::taking(passphrase);
  const auto may = admit(Verb::enterKey, by, {.pin = pin});
  if (!may) return may.error();
  if (const auto herself = typesForHerself(*may); !herself) return herself.error();
  const auto who = may->author().id;
  const auto old = newestKey(who);
  if (!old) return old.error();
  if (*old && !(*old)->value.revoked)
    return Error{ErrorCode::ruleSignature,
                 may->author().value.name +
                     " already has a passphrase; change it with the old one, or have the key "
                     "revoked if it is forgotten"};
  const auto key = crypto::SigningKey::random(world_.random);
  // Never at the cost that the file names: whoever has the file could have made it cheap.
  auto made = vault::wrapSigner(key, asEntered(who), secret, costOf(kind_), world_.random);
  if (!made) return made.error();
  const auto record = keyRecord(who, key.publicKey(), std::move(made->wrapped));
  const bool opensNames = vault_ && sealsWithNewest();
  return write(*may, {}, [&](store::Act& act) {
    const auto id = act.add(record);
    if (opensNames)
      act.openers().add(wrapFor(record, base::EntryId(id.uuid()), made->opening, *vault_));
    return id;
  });
}

Result<base::Done> KeyVerbs::tryKey(const Recorded<PersonalKey>& key,
                                    const crypto::Secret& secret) {
  const auto who = key.value.member;
  auto& misses = held_->misses[who];
  const auto now = world_.clock.steady();
  if (const auto may = misses.mayTry(now); !may) return may.error();
  auto opened =
      vault::unwrapSigner(wrappedOf(key.value), asEntered(who), key.value.publicKey, secret);
  if (!opened) {
    if (opened.error().code == ErrorCode::vaultWrongPassphrase) misses.noteWrong(now);
    return opened.error();
  }
  held_->misses.erase(who);
  held_->keys.insert_or_assign(who,
                               Held::OpenKey{std::move(opened->key), std::move(opened->opening),
                                             key.id, world_.clock.now().date()});
  return base::Done{};
}

Result<base::Done> KeyVerbs::openKey(base::MemberId who, std::string passphrase) {
  const auto key = newestKey(who);
  if (!key) return key.error();
  if (!*key || (*key)->value.revoked)
    return Error{ErrorCode::notFound, "this person has no passphrase; it is set on the Team page"};
  if (auto right = tryKey(**key, crypto::Secret::taking(passphrase)); !right) return right;
  held_->shown.insert_or_assign(who, world_.clock.steady());
  enrollAgain(**key);
  return base::Done{};
}

Result<SignerGives> KeyVerbs::asksToSign(base::MemberId who) {
  const auto standing = keyStanding(who);
  if (!standing) return standing.error();
  if (*standing == KeyStanding::revoked) return SignerGives::newPassphrase;
  if (*standing == KeyStanding::stands) return SignerGives::passphrase;
  const auto pin = pinOf(who);
  if (!pin) return pin.error();
  const bool hasPin = *pin == roster::PinState::set;
  const auto shown = held_->shown.find(who);
  if (shown != held_->shown.end() && world_.clock.steady() - shown->second <= signingLasts)
    return SignerGives::nothing;
  if (hasPin) return SignerGives::pin;
  return *standing == KeyStanding::open ? SignerGives::passphrase : SignerGives::nothing;
}

Result<base::Done> KeyVerbs::showSigner(base::MemberId who, std::string pin) {
  const auto right = confirm(who, std::move(pin));
  if (!right) return right.error();
  keyboard_.use(); // for this alone
  held_->shown.insert_or_assign(who, world_.clock.steady());
  if (const auto open = held_->keys.find(who); open != held_->keys.end()) open->second.awaken();
  return base::Done{};
}

Result<base::Done> KeyVerbs::changeKey(By by, std::string passphrase, std::string to) {
  const auto next = crypto::Secret::taking(to);
  const auto may = admit(Verb::changeKey, by);
  if (!may) return may.error();
  if (const auto herself = typesForHerself(*may); !herself) return herself.error();
  const auto who = may->author().id;
  if (const auto open = openKey(who, std::move(passphrase)); !open) return open.error();
  const auto key = newestKey(who);
  if (!key) return key.error();
  auto& open = held_->keys.at(who);
  auto made = vault::wrapSigner(open.key, asEntered(who), next, costOf(kind_), world_.random);
  if (!made) return made.error();
  const auto record = keyRecord(who, (*key)->value.publicKey, std::move(made->wrapped));
  const bool opensNames = vault_ && sealsWithNewest();
  auto written = write(*may, {}, [&](store::Act& act) {
    const auto entry = act.correct(**key, record, "another passphrase");
    act.openers().prune();
    if (opensNames) act.openers().add(wrapFor(record, entry, made->opening, *vault_));
    return base::Done{};
  });
  if (written) open.opening = std::move(made->opening);
  return written;
}

Result<base::Done> KeyVerbs::revokeKey(By by, base::MemberId whose, const std::string& reason,
                                       const OwnPin& pin) {
  const auto may = admit(Verb::revokeKey, by, {.reason = reason, .pin = pin});
  if (!may) return may.error();
  if (may->author().id != whose && !roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential, may->author().value.name +
                                                " is not a signer or a manager, so another member "
                                                "must revoke that key"};
  const auto rows = standingKeys(whose);
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "this person has no key to revoke"};
  auto revoked = write(*may, {}, [&](store::Act& act) {
    for (const auto& row : *rows)
      revoke(act, row, reason);
    return base::Done{};
  });
  if (revoked) forgetKey(whose);
  return revoked;
}

Result<std::vector<UnsignedDay>> KeyVerbs::unsignedDays(base::MemberId who) {
  auto days = book_.current<roster::ClinicDay>(store::everything());
  if (!days) return days.error();
  std::vector<UnsignedDay> found;
  for (const auto& day : *days) {
    if (day.value.canceled) continue;
    const auto closed = isSigned(day.id);
    if (!closed) return closed.error();
    if (*closed) continue;
    const auto isHers = [&](const auto& row) {
      if constexpr (requires { row.value.placedBy; })
        if (row.value.placedBy == who || row.value.assistant == who) return true;
      return row.stamp.by.author == who || row.stamp.by.recorder == who;
    };
    bool worked = false;
    std::optional<Error> failure;
    const auto look = [&]<class T>() {
      if (worked || failure) return;
      const auto rows = book_.current<T>(store::rowsOf("day", day.id));
      if (rows)
        worked = std::ranges::any_of(*rows, isHers);
      else
        failure = rows.error();
    };
    look.template operator()<chairside::Seating>();
    look.template operator()<chairside::Screening>();
    look.template operator()<chairside::Field>();
    look.template operator()<chairside::Placement>();
    look.template operator()<chairside::Varnish>();
    look.template operator()<chairside::DayOutcome>();
    look.template operator()<followup::RetentionCheck>();
    if (failure) return *failure;
    if (!worked) continue;
    const auto school = only<roster::School>(store::subjectIs(day.value.school), "school");
    if (!school) return school.error();
    found.push_back({day.id, day.value.date, school->value.name});
  }
  std::ranges::sort(found, {}, &UnsignedDay::date);
  return found;
}

} // namespace gk::session
