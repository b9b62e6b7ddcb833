#pragma once

#include "base/files/files.h"
#include "base/files/machine.h"
#include "base/identity/id.h"
#include "base/random.h"
#include "base/time/clock.h"
#include "crypto/digest.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace gk::store {

/// Where a hand stands: its last row, and the digest of its last act.
struct HandEnd {
  std::int64_t sequence = 0;
  crypto::Hash digest{};

  auto operator<=>(const HandEnd&) const = default;
};

/// What a logbook has of a hand.
struct HandInBook {
  HandEnd end{};
  bool hasRemembered = false; ///< the last act that this laptop remembers of it
  bool isParted = false;      ///< copies of its disk were both written on
};

/// What the laptop remembered of a logbook, held against what is in it.
enum class HandNews {
  same,            ///< just where this laptop left it
  firstHere,       ///< nothing is remembered of it
  earlierCopy,     ///< acts that this laptop wrote are not in it: a restored backup
  otherMachine,    ///< remembered by another computer: the disk was copied
  wentOnElsewhere, ///< this laptop's hand wrote acts of which this laptop knows nothing
  notClosed        ///< the laptop went off while the logbook was open
};

/// How a logbook was found when it was opened.
struct HandNotice {
  HandNews news = HandNews::same;
  std::optional<base::LocalInstant> newest{}; ///< what it has last of a hand that it lacks acts of
};

/// A hand while a logbook is open for writing with it. It is remembered as closed when this ends,
/// which must be before the logbook's lock is given up.
class HeldHand {
 public:
  HeldHand(base::Path file, std::string others, std::string machine, base::LaptopId hand,
           HandEnd end);
  ~HeldHand();
  HeldHand(const HeldHand&) = delete;
  HeldHand& operator=(const HeldHand&) = delete;

  /// False where the disk would not take it; the hand is then not to be written with.
  bool begin(const std::optional<std::string>& boot);
  /// After each act. Not synced, since an act waits for one disk and not for two: it outlives a
  /// killed program, and what a power cut leaves of it is not believed.
  void wrote(const HandEnd& end);

 private:
  [[nodiscard]] std::string text(const std::string& state) const;

  base::Path file_;
  std::string others_;
  std::string machine_;
  base::LaptopId hand_;
  HandEnd end_;
  int now_ = -1;
  bool began_ = false;
};

/// What a laptop remembers outside of every logbook of the hands it wrote with, so that no two
/// copies of a logbook are ever written with one hand (docs/decisions/0013-hands-and-erasure.md).
/// One file for each logbook in the folder "hands"; a file that is not there, or not as it was
/// written, is nothing remembered, which costs a new hand and nothing else.
class HandMemory {
 public:
  /// Looks in the logbook for a hand, as this laptop remembers it to end.
  using Look = std::function<HandInBook(base::LaptopId, const HandEnd& remembered)>;
  struct Taken {
    base::LaptopId hand;
    HandNews news = HandNews::same;
    std::unique_ptr<HeldHand> held{};     ///< none: the hand is not remembered
    std::optional<base::LaptopId> lost{}; ///< the hand whose acts are missing
  };

  /// One hand and no memory: for whoever only reads, and for what is built in one go.
  HandMemory(base::LaptopId hand) : fixed_(hand) {} // NOLINT(google-explicit-constructor)
  /// `folder` is where the laptop keeps what is its own; `random` outlives this.
  HandMemory(base::Path folder, base::Machine machine, base::Random& random);

  /// The hand that the laptop may go on with in this logbook, or a new one. Where the folder cannot
  /// be written it is a new one for this opening alone.
  [[nodiscard]] Taken take(const base::Uuid& book, const Look& look, base::Instant now) const;

 private:
  std::optional<base::LaptopId> fixed_{};
  base::Path folder_{};
  base::Machine machine_{};
  base::Random* random_ = nullptr;
};

} // namespace gk::store
