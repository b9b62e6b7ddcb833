#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/values/short_laptop.h"

#include <algorithm>

// What was sealed and does not open: a failing disk, or a row that was written past this program.
namespace gk::session {

using base::Error;
using base::ErrorCode;

Result<std::optional<UnreadableName>>
unreadableName(store::Book& book, roster::ChildId child,
               const std::function<bool(const crypto::Sealed&)>& opens) {
  const auto rows = book.current<store::SealedIdentity>(store::rowsOf("child", child));
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<UnreadableName>();
  const auto& newest = rows->back();
  if (opens({newest.value.nonce, newest.value.box})) return std::optional<UnreadableName>();
  const auto team = book.history<roster::Member>(store::everything());
  if (!team) return team.error();
  std::string who = "a person not on the team";
  for (const auto& one : *team)
    if (newest.stamp.by.author && one.id == *newest.stamp.by.author) who = one.value.name;
  return std::optional(
      UnreadableName{newest.stamp,
                     "what was entered on " + newest.stamp.at.words() + " by " + who +
                         " on laptop ..." + shortName(newest.stamp.laptop) + " does not open",
                     "enter the name again at the desk, Students, Correct details"});
}

Result<std::optional<roster::MemberPin>> pinThatCounts(store::Book& book, const vault::Vault& vault,
                                                       base::MemberId who) {
  auto rows = book.current<roster::MemberPin>(store::rowsOf("member", who));
  if (!rows) return rows.error();
  if (rows->empty()) return std::optional<roster::MemberPin>();
  // Two laptops may each have one; both say the same of which is the newest.
  std::ranges::sort(*rows, std::ranges::greater(),
                    [](const auto& row) { return std::pair(row.stamp.at.at, row.stamp.entry); });
  const auto keys = book.current<roster::BookKey>(store::everything());
  if (!keys) return keys.error();
  const bool hasAll = std::ranges::all_of(
      *keys, [&](const auto& key) { return vault.holds(roster::uuidOf(key.value.name)); });
  for (auto& row : *rows) {
    const auto& pin = row.value;
    if (pin.isReset()) return std::optional(std::move(row.value));
    const auto opens = vault.opensPin(
        book.enteredAs(who.uuid()), {pin.salt, pin.opsLimit, pin.memoryBytes, pin.nonce, pin.box});
    if (opens) return std::optional(std::move(row.value));
    // It may be newer than an earlier one, under a key that another laptop has.
    if (!hasAll) return opens.error();
  }
  return Error{ErrorCode::vaultDamaged,
               "the PIN of this member in the logbook does not open, so none can be checked; have "
               "it reset at the desk, Team"};
}

} // namespace gk::session
