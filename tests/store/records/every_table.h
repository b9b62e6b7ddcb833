#pragma once

#include "base/files/files.h"
#include "store/book.h"

#include <string>

namespace gk::test {

/// A book with at least two rows in every table of the schema (of `book` the one it has), entered
/// by two laptops in turns, three entries an act, with a correction and a retraction. A test fails
/// when the schema has a table that is not in it. It is a part, with two students left out, unless
/// it is to be merged into a logbook that has nothing of them.
enum class Holds { part, everyone };
void makeEveryTable(const base::Path& path, Holds holds = Holds::part);

/// All rows of all tables, as text: what a book says, however its pages lie.
std::string contentOf(store::Connection& book);

std::string contentAt(const base::Path& path);

/// Everything a person can do to see whether a file is whole: opening it and `check`.
bool looksWhole(const base::Path& path);

/// Runs SQL with every guard off, as another program may.
void runUnguarded(const base::Path& path, const std::string& sql);

/// Whoever only looks.
inline const base::LaptopId nobodysLaptop{base::Uuid{}};

} // namespace gk::test
