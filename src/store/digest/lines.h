#pragma once

#include "store/digest/act_digest.h"

#include <optional>
#include <vector>

namespace gk::store {

// Where two copies of one laptop's disk, or of its logbook, were both written on under one hand,
// the hand's history parts. Each line from there on has a name of its own, made from the laptop and
// the digest of its first act, so that every file gives it the same; its acts keep the digests they
// were written with (docs/decisions/0013-hands-and-erasure.md).

/// What the line is called that begins with the act of this digest.
base::LaptopId lineName(base::LaptopId origin, const crypto::Hash& firstAct);

/// A row of `hand_branch`.
struct Branch {
  std::int64_t first;                ///< of its first act
  std::optional<std::int64_t> after; ///< the act before; none where not even the first was shared
  int origin;                        ///< the number of the hand that it is copied from
  base::LaptopId name;
};

/// Who writes in `database`, "main" or "other", by the numbers of that file.
Hands handsOf(Connection& book, std::string_view database);
std::vector<Branch> branchesOf(Connection& book, std::string_view database);
void writeBranch(Connection& book, const Branch& branch);

/// Rows of one hand of another file, from a key on: here they are the hand `number`'s.
struct Piece {
  int theirs;
  std::int64_t since;
  int number;
};

/// Where two histories of one hand part and no file has said so yet: its number in each file, and
/// the first row that differs.
struct ForkPoint {
  int here;
  int there;
  std::int64_t sequence;
  bool isChanged; ///< both begin with one act by its identity, header and kinds: one was changed
};

/// How the hands of the file attached as "other" stand in this one, act by act.
struct Lines {
  Hands hands; ///< of this file, with those that the merge brings
  std::vector<int> fresh;
  std::vector<Piece> pieces;    ///< by hand of the other file and key
  std::vector<Branch> branches; ///< to be written once the acts are here
  std::vector<ForkPoint> forks;
};

/// Both files have been found whole. Throws Trouble.
Lines linesOf(Connection& book);

} // namespace gk::store
