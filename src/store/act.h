#pragma once

#include "base/identity/entry.h"
#include "store/digest/act_digest.h"
#include "store/digest/position.h"
#include "store/keys/key_wraps.h"
#include "store/keys/recovery_key.h"
#include "store/sqlite/connection.h"
#include "store/values/act_stamp.h"
#include "store/values/where.h"

#include <optional>
#include <string>
#include <string_view>

namespace gk::store {

/// The rows of one act, while its transaction is open. Throws Trouble; lives only inside
/// Book::act.
class Act {
 public:
  Act(Connection& connection, const Hand& hand, const ActStamp& stamp, const Position& position);

  /// A new thing: its identity is that of this first row.
  template <class T>
  typename T::Key add(const T& value);

  /// A newer word on `old.id`, and which row it is; `reason` must not be empty.
  template <class T>
  base::EntryId correct(const base::Recorded<T>& old, const T& value, const std::string& reason);

  /// An earlier word once more, by its own author, typed by whoever acts now.
  template <class T>
  void restate(const base::Recorded<T>& old, const T& value, const std::string& reason);

  /// Takes back a row; it stays in the history.
  void retract(base::EntryId entry, const std::string& reason);

  /// What the row `source` says becomes current again, in place of `replaced`: of whatever kind, by
  /// its own author.
  void restate(base::EntryId source, base::EntryId replaced, const std::string& reason);

  /// What the recovery code opens; none takes it away. No row: it is gone from the file then.
  void keepRecovery(const std::optional<KeyRow>& key) { keepRecoveryKey(connection_, key); }
  /// The same of whatever opens the names (store/keys/key_wraps.h).
  [[nodiscard]] Openers openers() { return Openers(connection_); }

  /// Writes what its rows have in common, with their digest; where the hand stands then.
  [[nodiscard]] Position sealed();
  [[nodiscard]] base::LocalInstant at() const { return stamp_.at; }

 private:
  base::EntryId insertEntry(std::string_view kind, const std::optional<Replaced>& replaced);
  /// The rows that the question finds, once more as these words.
  template <class T>
  void insertAgain(const Where& source, const Replaced& as);
  void addSalt(base::EntryId child);
  /// Rows are `author`'s words from here on, typed by whoever acts. Gives back who acted before.
  base::By quoting(const std::optional<base::MemberId>& author);

  Connection& connection_;
  const Hand& hand_;
  ActStamp stamp_;
  base::By by_; ///< whose words the next row is
  Position position_;
  HandMark mark_;
  std::optional<base::EntryId> first_;
  std::int64_t count_ = 0;
};

} // namespace gk::store
