#pragma once

#include "store/act_digest.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace gk::store {

/// An act as its rows are now.
struct SweptAct {
  base::Uuid act;
  crypto::Hash digest;
  std::optional<crypto::Hash> kept; ///< what act_digest says
  bool isFlawed;                    ///< something of it was heard as a flaw already
};

enum class FlawKind : std::uint8_t {
  rowMissing,    ///< an entry without its row in `table`
  rowLoose,      ///< a row of `table` without its entry
  sequenceGap,   ///< not the next of its laptop
  actBroken,     ///< an entry of no act of its laptop
  digestMissing, ///< an act without a digest
  digestLoose,   ///< a digest without its act
};

struct Flaw {
  FlawKind kind;
  base::Uuid entry; ///< or the act
  std::string table{};
};

/// Who hears what a sweep finds.
struct SweepEars {
  /// Gives back what the laptop's next act goes on from.
  std::function<crypto::Hash(const SweptAct&)> act;
  std::function<void(const Flaw&)> flaw;
};

/// Reads every entry, every row that hangs on one and every digest once, in the order in which they
/// lie in the file. `database` is "main" or "other". Throws Trouble where a key itself is damaged.
void sweep(Connection& book, std::string_view database, const OwnSchema& own,
           const SweepEars& ears);

/// Gives each act of a book from before there were digests the one of its rows as they are now.
void digestAll(Connection& book);

} // namespace gk::store
