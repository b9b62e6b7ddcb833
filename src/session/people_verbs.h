#pragma once

#include "session/door.h"

#include <set>

namespace gk::session {

/// What opens the names again after `lockByPin`.
enum class OpenedBy { pin, passphrase };

/// A placement of an operator's own, as she is shown it before she confirms it.
struct PlacementToConfirm {
  std::string child; ///< the number; no name is asked for
  dentition::Tooth tooth;
  std::string what; ///< "new, chewing surface", "stopped before cure"
};

/// A day of hers with something that she has not confirmed, or corrected since.
struct DayToConfirm {
  roster::DayId day;
  base::Date on;
  std::string school;
  std::size_t all; ///< of hers that day
  std::vector<PlacementToConfirm> waiting{};
};

/// Who is at the keyboard, and what is hers alone to do: her PIN, the lock, her own placements.
/// A member without a PIN is believed, as her name is chosen; one who has a PIN is not.
/// A wrong PIN fails with `pinWrong`; one given before the wait after it is over with `pinWait`,
/// and is not looked at; after PinTries::most of them the names are locked and it is `pinSpent`
/// until the passphrase was given.
class PeopleVerbs : public Door {
 public:
  [[nodiscard]] Result<roster::PinState> pinOf(base::MemberId who);
  /// Whether anyone who may type has one: only then are people asked who they are.
  [[nodiscard]] Result<bool> hasPins();
  /// By herself; her first one also by a member who keeps the team. Fails with `pinMalformed`, and
  /// `vaultLocked` while names are.
  Result<base::Done> setPin(By by, base::MemberId whose, std::string pin, const OwnPin& own = {});
  /// By another who keeps the team. From then on she has none, and chooses a new one.
  Result<base::Done> resetPin(By by, base::MemberId whose, const std::string& reason,
                              const OwnPin& own = {});
  /// Her own, forgotten, where no other member keeps the team: the passphrase stands for them.
  Result<base::Done> resetOwnPin(base::MemberId whose, std::string passphrase,
                                 const std::string& reason);

  /// From now on what is typed is typed by her; the PIN is passed over where she has none. It is
  /// also good for one act, such as confirming her placements.
  Result<OwnPin> signIn(base::MemberId who, std::string pin = {});
  /// None before anyone was, and after the passphrase was given.
  [[nodiscard]] std::optional<base::MemberId> signedIn() const { return keyboard_.signedIn; }
  Result<Confirmation> confirm(base::MemberId who, std::string pin);

  /// Locks the names so that a PIN opens them, where anyone has one and none was guessed at too
  /// often; else as Session::lock. Whoever is signed in stays so: a timer that runs goes on.
  OpenedBy lockByPin();
  /// Opens them, and signs her in. After a sleep of the laptop the passphrase is asked for.
  Result<base::Done> unlockByPin(base::MemberId who, std::string pin);
  /// True when the laptop slept since it was last looked at; then the names are locked, and the
  /// passphrase is asked for.
  bool noticeSleep();

  /// The days of the term in which she has not confirmed all of her own, oldest first.
  [[nodiscard]] Result<std::vector<DayToConfirm>> placementsToConfirm(base::MemberId who);
  /// All of the author's own of that day, as they are now; also after the day is signed. Fails with
  /// `notFound` where nothing of hers waits.
  Result<base::Done> confirmPlacements(By by, roster::DayId day, const OwnPin& own = {});

 protected:
  using Door::Door;

  /// As Session::lock.
  void lockNames();
  /// After the passphrase was right.
  void beginKeyboard();
  enum class OrCode { no, yes };
  /// By the logbook's passphrase, which is wiped, or by its recovery code where that may stand in;
  /// `vaultWrongPassphrase`, with the waits of `KeyVerbs::openKey`.
  Result<base::Done> isOpenedBy(std::string& passphrase, OrCode orCode = OrCode::no);

  BookKind kind_ = BookKind::real; ///< what a guess at a PIN costs

 private:
  /// Fails as a wrong PIN does; whether it may be looked at is asked first.
  Result<base::Done> mayTry(base::MemberId who);
  Result<base::Done> judge(base::MemberId who, std::string& pin, const vault::Vault& vault);
  Result<base::Done> addReset(const Admission& may, base::MemberId whose,
                              const std::string& reason);
  /// Of every row of the day, in whatever word.
  Result<std::set<base::EntryId>> confirmedPlacements(roster::DayId day);
  [[nodiscard]] base::Milliseconds sleptSoFar();
};

} // namespace gk::session
