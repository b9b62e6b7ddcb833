#pragma once

#include "store/digest/act_digest.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace gk::store {

/// An act as its rows are now.
struct SweptAct {
  std::int64_t first; ///< key of its first row
  crypto::Hash digest;
  std::optional<crypto::Hash> kept; ///< what `act` says
  bool isFlawed;                    ///< something of it was heard as a flaw already
};

enum class FlawKind : std::uint8_t {
  rowMissing,  ///< an entry without its row in `table`
  rowLoose,    ///< a row of `table` without its entry
  sequenceGap, ///< not the next of its laptop
  actBroken,   ///< an entry of no act of its laptop, or an act without one of its entries
  actMissing,  ///< entries without their row of `act`
  actLoose,    ///< a row of `act` without its entries
  handLoose,   ///< a laptop that wrote nothing
  erasedKept,  ///< an erased entry with content
  textUnsound, ///< a text of the act has a sign that no program of ours lets in
  teethWrong,  ///< a field without teeth, or with one twice
  timeWrong,   ///< with an identity later than any entry up to it was made
  lineWrong,   ///< not called as the line that it is, or not where it says that it parts
};

struct Flaw {
  FlawKind kind;
  std::int64_t entry; ///< as the file has it; or the first of the act, or the number of the hand
  std::string table{};
};

/// Who hears what a sweep finds.
struct SweepEars {
  /// Gives back what the laptop's next act goes on from.
  std::function<crypto::Hash(const SweptAct&)> act;
  std::function<void(const Flaw&)> flaw;
};

/// Reads every entry, every row that hangs on one and every act once, in the order in which they
/// lie in the file. Throws Trouble where a key itself is damaged.
void sweep(Connection& book, std::string_view database, const OwnSchema& own,
           const SweepEars& ears);

} // namespace gk::store
