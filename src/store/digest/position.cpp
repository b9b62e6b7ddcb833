#include "store/digest/position.h"

#include "store/rows/book_queries.h"

namespace gk::store {

Position readPosition(Connection& book, base::LaptopId laptop) {
  Position position;
  auto newest = book.prepare(newestEntrySql);
  // By a laptop that is not listed, in a damaged book: that is for its check to say.
  if (newest.step())
    position.last = book.hands().identityOf(newest.column<std::int64_t>(0)).value_or(base::Uuid{});
  auto own = book.prepare(lastActSql);
  own.bind(1, book.hands().numberOf(laptop));
  if (!own.step()) return position;
  position.sequence = own.column<std::int64_t>(0);
  position.digest = hashIn(own, 1).value_or(crypto::Hash{});
  return position;
}

} // namespace gk::store
