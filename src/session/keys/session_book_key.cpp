#include "base/text/text.h"
#include "followup/copies/backup_note.h"
#include "session/part.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/values/short_laptop.h"

#include <algorithm>
#include <map>

// Another key of the names in the place of one that is known to a person who must not know it.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::BookKey;
using roster::RecoveryCode;

namespace {

roster::Bytes bytesOf(const base::Uuid& name) {
  return {name.bytes.begin(), name.bytes.end()};
}

base::Uuid newName(base::Random& random) {
  base::Uuid name;
  random.fill(name.bytes);
  return name;
}

} // namespace

std::string KeyLine::words() const {
  return "The key of the names was replaced on " + record.stamp.at.date().words() +
         (by.empty() ? "" : " by " + by) + " (" + record.value.reason + ")";
}

Result<std::vector<std::string>> KeyVerbs::copiesBefore(const std::optional<base::Stamp>& stamp) {
  const auto notes = book_.history<followup::BackupNote>(store::everything());
  if (!notes) return notes.error();
  const auto laptops = book_.hands();
  if (!laptops) return laptops.error();
  std::vector<std::string> copies;
  for (const auto& note : *notes)
    if (!stamp || note.stamp.entry < stamp->entry) // identities begin with the time
      copies.push_back("the backup " + note.value.file +
                       (note.value.papers.empty() ? "" : " with the papers " + note.value.papers) +
                       " of " + note.stamp.at.words());
  const auto own = stamp ? stamp->laptop : book_.laptop();
  for (const auto& laptop : *laptops)
    if (laptop.laptop != own)
      copies.push_back("the logbook of the laptop ..." + session::shortName(laptop.laptop) +
                       ", last merged " + laptop.last.words());
  return copies;
}

Result<std::vector<std::string>> KeyVerbs::knownCopies() {
  return copiesBefore({});
}

Result<std::vector<KeyLine>> KeyVerbs::keyReplacements() {
  auto keys = book_.current<BookKey>(store::everything());
  if (!keys) return keys.error();
  std::vector<KeyLine> lines;
  for (auto& key : *keys) {
    KeyLine line{std::move(key), {}, {}};
    const auto& stamp = line.record.stamp;
    if (stamp.by.author)
      if (const auto member = only<roster::Member>(store::subjectIs(*stamp.by.author), "member"))
        line.by = member->value.initials;
    auto copies = copiesBefore(stamp);
    if (!copies) return copies.error();
    line.copies = std::move(*copies);
    lines.push_back(std::move(line));
  }
  return lines;
}

Result<bool> KeyVerbs::hasOtherKey() {
  const auto keys = book_.current<BookKey>(store::everything());
  if (!keys) return keys.error();
  return vault_ && std::ranges::any_of(*keys, [&](const auto& key) {
           return !vault_->holds(roster::uuidOf(key.value.name));
         });
}

/// What another laptop set meanwhile comes in under the new key as well.
Result<base::Done> KeyVerbs::takeOther(vault::Vault& vault, std::string passphrase) {
  const auto secret = crypto::Secret::taking(passphrase);
  if (secret.size() == 0) return base::Done{};
  const auto wraps = book_.wraps();
  if (!wraps) return wraps.error();
  auto rows = *wraps;
  std::erase_if(rows, [](const auto& row) { return row.opener != store::Opener::passphrase; });
  const auto present = book_.key();
  if (!present) return present.error();
  rows.push_back({store::Opener::passphrase, *present}); // where the other one unlocked it
  constexpr std::size_t mostTries = 4;
  if (rows.size() > mostTries) rows.erase(rows.begin(), rows.end() - mostTries);
  for (const auto& row : rows) {
    if (vault.holds(row.key.name)) continue;
    auto other = vault::Vault::open(secret, wrappedOf(row.key), {book_.identity(), row.key.name});
    if (!other) continue;
    if (const auto learned = learnEarlier(*other); !learned) return learned.error();
    vault.take(*other);
    return base::Done{};
  }
  return Error{ErrorCode::vaultWrongPassphrase,
               "that is not the passphrase of a key that another laptop set; nothing was changed"};
}

Result<KeyReplaced> KeyVerbs::replaceBookKey(By by, KeyReplacing how, const OwnPin& pin,
                                             const base::Progress& progress) {
  progress.at(base::Stage::checking); // each passphrase takes a good part of a second, on purpose
  const auto next = crypto::Secret::taking(how.passphrase);
  const auto may = admit(Verb::replaceBookKey, by, {.reason = how.reason, .pin = pin});
  if (!may) return may.error();
  if (const auto whole = needsWhole(*this, "the key of the names is replaced"); !whole)
    return whole.error();
  const auto& author = may->author();
  if (!roster::keepsTeam(author.value))
    return Error{ErrorCode::ruleCredential,
                 author.value.name + " is not a signer or a manager, so another member must "
                                     "replace the key of the names"};
  if (by.recorder && by.recorder != by.author)
    return Error{ErrorCode::ruleSignature,
                 "this is confirmed with one's own passphrase; choose your own name first"};
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook first"};
  const auto standing = keyStanding(author.id);
  if (!standing) return standing.error();
  const bool hasKey = *standing == KeyStanding::stands || *standing == KeyStanding::open;
  const auto confirmed =
      hasKey ? openKey(author.id, std::move(how.confirmation)) : isOpenedBy(how.confirmation);
  if (!confirmed) return confirmed.error();

  auto present = vault_->twin();
  if (const auto taken = takeOther(present, std::move(how.other)); !taken) return taken.error();
  const auto old = book_.key();
  if (!old) return old.error();
  if (!present.holds(old->name))
    return Error{ErrorCode::vaultReplaced,
                 "this logbook's own key was not unlocked; give its passphrase as that of the "
                 "other key as well; nothing was changed"};
  if (vault::Vault::open(next, wrappedOf(*old), {book_.identity(), old->name}))
    return Error{ErrorCode::callMalformed,
                 "the new passphrase is the present one, which whoever left may know; choose "
                 "another"};
  const auto stopped = [&]() -> Result<base::Done> {
    if (progress.isStopped())
      return Error{ErrorCode::workCanceled, "the key of the names was not replaced"};
    return base::Done{};
  };
  if (const auto on = stopped(); !on) return on.error();
  progress.at(base::Stage::writing);
  const vault::KeyName name{book_.identity(), newName(world_.random)};
  auto made = present.replaced(name, world_.random);
  const auto wrapped = made.vault.rewrap(next, costOf(kind_), world_.random);
  if (!wrapped) return wrapped.error();

  auto codes = book_.current<RecoveryCode>(store::everything());
  if (!codes) return codes.error();
  KeyReplaced done;
  std::optional<store::KeyRow> recovery;
  if (std::ranges::any_of(*codes, [](const auto& code) { return !code.value.withdrawn; })) {
    done.recoveryCode = newRecoveryCode(world_.random);
    const auto byCode = made.vault.wrapForRecovery(crypto::Secret::copyOf(done.recoveryCode),
                                                   costOf(kind_), world_.random);
    if (!byCode) return byCode.error();
    recovery = keyRowOf(*byCode, name.key);
  }
  const auto people = whoOpens();
  if (!people) return people.error();
  std::vector<store::KeyWrap> wraps;
  for (const auto& person : *people) {
    const auto key = newestKey(person.id);
    if (!key) return key.error();
    const auto open = held_->keys.find(person.id);
    const auto isOpen = keyStanding(person.id);
    if (isOpen && *isOpen == KeyStanding::open && *key && !open->second.isAsleep)
      wraps.push_back(
          wrapFor((*key)->value, (*key)->stamp.entry, open->second.opening, made.vault));
    else
      done.toEnter.push_back(person.value.name);
  }

  if (const auto on = stopped(); !on) return on.error();
  BookKey record{bytesOf(name.key), how.reason, {}};
  for (auto& one : made.earlier)
    record.earlier.push_back(
        {bytesOf(one.name), std::move(one.sealed.nonce), std::move(one.sealed.box)});
  const auto written = write(*may, {}, [&](store::Act& act) {
    act.add(record);
    if (recovery) replaceAll(act, *codes, RecoveryCode{}, "a new key of the names");
    const auto openers = act.openers();
    openers.present(keyRowOf(*wrapped, name.key), recovery);
    for (const auto& wrap : wraps)
      openers.add(wrap);
    return base::Done{};
  });
  if (!written) return written.error();
  *vault_ = std::move(made.vault);
  return done;
}

} // namespace gk::session
