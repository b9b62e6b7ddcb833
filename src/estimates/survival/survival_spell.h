#pragma once

#include "base/enum_names.h"
#include "base/result.h"

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace gk::estimates {

/// What is known of one sealant's life: it was whole at `left` and failed by `right`, that is
/// within (left, right]. Times from its own placement, in any one unit.
struct Spell {
  double left;                 ///< last seen whole; 0 when no check found it whole
  std::optional<double> right; ///< first seen failed; empty while it has not been
  std::size_t child = 0;       ///< any label that joins the teeth of one child
  double teeth = 1;            ///< how many teeth share this spell and child
  std::size_t school = 0;      ///< any label of where it was placed; read by the band alone
};

/// What a check found, by the definition of failure in use. Whether a partly retained sealant is
/// whole or failed is the caller's choice.
enum class SpellState {
  whole,
  failed,
  cannotTell,   ///< child absent, covered by gum: the check says nothing
  replaced,     ///< a new sealant was put over one not failed; the new one is another placement
  restoredOver, ///< filled over
  crowned,
  extracted,
  shed,
  leftProgram,
};

struct SpellCheck {
  double time; ///< since placement
  SpellState state;
};

/// How a sealant that ended before it was seen to fail is read: from `replaced` to `leftProgram`.
enum class EndReading {
  /// As not yet failed when last seen whole. The usual reading; see docs/methods.md for what it
  /// assumes.
  lastWhole,
  /// As failed between the last check that found it whole and its end, for teeth restored over,
  /// crowned, extracted or shed. `replaced` and `leftProgram` stay as above. The worst case, to
  /// show
  /// beside the usual reading.
  failedByThen,
};

struct PlacementSpell {
  Spell spell;
  /// What ended the spell: `failed`, one of the ends, `whole` when it is under observation still,
  /// `cannotTell` when no check ever judged it.
  SpellState end;
  /// A check after the end found it whole: most likely a reseal entered under the old placement.
  /// The end stands and the later checks are passed over.
  bool wholeAfterEnd;
};

/// The spell of one placement from its checks, in any order. Placement counts as a check at 0 that
/// found it whole. Of checks at one time a failure rules, then an end. A failure at 0 is exact:
/// left = right = 0. Fails with `estimateInput`, naming the check by its place from 1, for a time
/// that is negative, not finite or above a thousand million.
base::Result<PlacementSpell> spellOf(std::span<const SpellCheck> checks, std::size_t child,
                                     EndReading reading = EndReading::lastWhole);

} // namespace gk::estimates

template <>
inline constexpr auto gk::base::enumNames<gk::estimates::SpellState> =
    std::to_array<std::string_view>({"whole", "failed", "cannot tell", "replaced", "restored over",
                                     "crowned", "extracted", "shed", "left program"});

namespace gk::estimates {

/// How many placements ended in each way, to be printed beside the curve.
class SpellTally {
 public:
  void add(const PlacementSpell& spell);
  [[nodiscard]] std::size_t count(SpellState end) const;
  [[nodiscard]] std::size_t wholeAfterEnd() const { return wholeAfterEnd_; }

 private:
  std::array<std::size_t, base::enumCount<SpellState>> counts_{};
  std::size_t wholeAfterEnd_ = 0;
};

} // namespace gk::estimates
