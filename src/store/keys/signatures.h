#pragma once

#include "base/identity/entry.h"
#include "roster/keys/keys.h"
#include "store/sqlite/connection.h"
#include "store/values/fault.h"

#include <optional>
#include <vector>

namespace gk::store {

/// How far the history goes now, for a signature to be over.
struct ChainState {
  base::Uuid book;
  int schema;
  std::vector<roster::ChainHead> heads; ///< by laptop
};

ChainState chainState(Connection& book);

/// A signature, held against what the book says now.
struct JudgedSignature {
  base::Recorded<roster::DaySignature> row;
  std::string flaw;    ///< a clause that says why it does not match; empty when it does
  std::string revoked; ///< a clause, where the key had been revoked on another laptop by then
};

/// Of one day, or all.
std::vector<JudgedSignature> judgeSignatures(Connection& book, std::optional<base::DayId> day = {});

/// The signatures that do not match what the book says, those that are missing, since a day is
/// signed by two, and keys that this program does not write so.
std::vector<Fault> signatureFaults(Connection& book);

} // namespace gk::store
