#include "base/text.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "vault/signer.h"

#include <algorithm>

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

/// Nobody types a passphrase for another.
Result<base::Done> typesForHerself(const Admission& may) {
  const auto by = may.by();
  if (by.recorder && by.recorder != by.author)
    return Error{ErrorCode::ruleSignature,
                 "a passphrase is typed by the person whose it is; choose your own name first"};
  return base::Done{};
}

} // namespace

Result<std::optional<Recorded<PersonalKey>>> KeyVerbs::newestKey(base::MemberId who) {
  auto rows = book_.current<PersonalKey>(store::rowsOf("member", who));
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<Recorded<PersonalKey>>();
  // One that stands before one that was revoked: a new one may be from another laptop.
  const auto stands =
      std::ranges::find_if(*rows, [](const auto& row) { return !row.value.revoked; });
  return std::optional(stands == rows->end() ? std::move(rows->back()) : std::move(*stands));
}

void KeyVerbs::revoke(store::Act& act, const Recorded<PersonalKey>& key,
                      const std::string& reason) {
  auto revoked = key.value;
  revoked.revoked = true;
  act.correct(key, revoked, reason);
}

void KeyVerbs::forgetKey(base::MemberId who) {
  held_->keys.erase(who);
  held_->misses.erase(who);
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

Result<roster::PersonalKeyId> KeyVerbs::enterKey(By by, std::string passphrase) {
  const auto secret = crypto::Secret::taking(passphrase);
  const auto may = admit(Verb::enterKey, by);
  if (!may) return may.error();
  if (const auto herself = typesForHerself(*may); !herself) return herself.error();
  const auto who = may->author().id;
  const auto old = newestKey(who);
  if (!old) return old.error();
  if (*old && !(*old)->value.revoked)
    return Error{ErrorCode::ruleSignature,
                 may->author().value.name +
                     " has a passphrase already; change it with the old one, or have the key "
                     "revoked when it is forgotten"};
  const auto book = book_.key();
  if (!book) return book.error();
  const auto key = crypto::SigningKey::random(world_.random);
  // As dear to guess at as the logbook's own.
  auto wrapped =
      vault::wrapSigner(key, who, secret, {book->passes, book->memoryBytes}, world_.random);
  if (!wrapped) return wrapped.error();
  const auto record = keyRecord(who, key.publicKey(), std::move(*wrapped));
  return write(*may, {}, [&](store::Act& act) { return act.add(record); });
}

Result<base::Done> KeyVerbs::openAs(const Recorded<PersonalKey>& key, std::string passphrase) {
  const auto secret = crypto::Secret::taking(passphrase);
  const auto who = key.value.member;
  auto& misses = held_->misses[who];
  const auto now = world_.clock.steady();
  if (now < misses.until)
    return Error{ErrorCode::vaultWait,
                 "wait " +
                     base::counted(std::chrono::ceil<base::Seconds>(misses.until - now).count(),
                                   "second", "seconds") +
                     " before the next try"};
  auto opened = vault::unwrapSigner(wrappedOf(key.value), who, key.value.publicKey, secret);
  if (!opened) {
    if (opened.error().code == ErrorCode::vaultWrongPassphrase)
      misses.until = now + waitAfter(++misses.count);
    return opened.error();
  }
  held_->misses.erase(who);
  held_->keys.insert_or_assign(
      who, Held::OpenKey{std::move(*opened), key.id, world_.clock.now().date()});
  return base::Done{};
}

Result<base::Done> KeyVerbs::openKey(base::MemberId who, std::string passphrase) {
  const auto key = newestKey(who);
  if (!key) return key.error();
  if (!*key || (*key)->value.revoked)
    return Error{ErrorCode::notFound, "this person has no passphrase; it is set on the Team page"};
  return openAs(**key, std::move(passphrase));
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
  const auto book = book_.key();
  if (!book) return book.error();
  auto wrapped = vault::wrapSigner(held_->keys.at(who).key, who, next,
                                   {book->passes, book->memoryBytes}, world_.random);
  if (!wrapped) return wrapped.error();
  const auto record = keyRecord(who, (*key)->value.publicKey, std::move(*wrapped));
  return write(*may, {}, [&](store::Act& act) {
    act.correct(**key, record, "another passphrase");
    return base::Done{};
  });
}

Result<base::Done> KeyVerbs::revokeKey(By by, base::MemberId whose, const std::string& reason) {
  const auto may = admit(Verb::revokeKey, by, {.reason = reason});
  if (!may) return may.error();
  if (may->author().id != whose && !roster::keepsTeam(may->author().value))
    return Error{ErrorCode::ruleCredential,
                 may->author().value.name + " does not sign and is no manager, so another member "
                                            "revokes that key"};
  auto rows = book_.current<PersonalKey>(store::rowsOf("member", whose));
  if (!rows) return rows.error();
  std::erase_if(*rows, [](const auto& row) { return row.value.revoked; });
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
    if (day.value.cancelled) continue;
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
