#pragma once

#include "store/schema/own_schema.h"
#include "store/values/fault.h"

#include <vector>

namespace gk::store {

/// What is wrong with the history: each act against its digest and each digest against the one
/// before it on its laptop, each entry with its rows and each row with its entry, sequences without
/// gaps, and the key. `database` is "main" or "other". At most `most` are listed; the last says how
/// many more there are.
std::vector<Fault> historyFaults(Connection& book, std::string_view database, const OwnSchema& own,
                                 std::size_t most = 200);

/// The newest acts alone: for opening a book without waiting for all of it.
std::vector<Fault> newestFaults(Connection& book, const OwnSchema& own, int acts);

/// What SQLite itself finds: pages, indexes, the CHECKs of each row, and references.
std::vector<Fault> pageFaults(Connection& book);

/// Throws `storeDamaged` with the first thing that is wrong with pages, indexes or CHECKs of
/// `database`, "main" or "other".
void checkPages(Connection& book, std::string_view database, const base::Path& file);

/// Throws `storeDamaged` with the first of them, if there is one.
void requireNone(const std::vector<Fault>& faults, const base::Path& file);

} // namespace gk::store
