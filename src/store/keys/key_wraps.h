#pragma once

#include "store/sqlite/connection.h"
#include "store/values/key_row.h"

#include <vector>

namespace gk::store {

// What opens the key of the names is no record: it must go from the file when it ends. The history
// decides what may be there (the view `ended_wrap`), and a digest over all of it tells a change.
// These throw Trouble.

/// What may be done with it inside a transaction, an act's or one of its own.
class Openers {
 public:
  explicit Openers(Connection& book) : book_(book) {}
  /// The present key's passphrase from now on, and its recovery code; what opened an earlier key
  /// goes.
  void present(const KeyRow& key, const std::optional<KeyRow>& recovery) const;
  /// Unless there is one for that opener, key and person.
  void add(const KeyWrap& wrap) const;
  /// Takes out what the history ended: people's whose key was changed or revoked, what opens a key
  /// that the present one took the place of, a withdrawn code.
  void prune() const;

 private:
  Connection& book_;
};

/// By key of the names, the oldest first.
std::vector<KeyWrap> keyWraps(Connection& book);
/// What the file attached as "other" has of people and of newer keys, once its records are here.
/// `personalKey` gives a column of it as it is here. Throws `storeDamaged` where it is not as it
/// was written.
void takeWraps(Connection& book, const std::string& personalKey, const base::Path& other);

/// Whether they are as they were written.
bool areWrapsWhole(Connection& book);
/// Whether the history knows of each: of the person's key that stands, and of the key of the names.
bool areWrapsKnown(Connection& book);
/// Whether the present key is one that another took the place of, with nothing that opens that one:
/// then it was put back.
bool isKeyPutBack(Connection& book);

} // namespace gk::store
