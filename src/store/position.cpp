#include "store/position.h"

#include "store/book_queries.h"

namespace gk::store {

Position readPosition(Connection& book, base::LaptopId laptop) {
  auto statement = book.prepare(positionSql);
  statement.bind(1, laptop);
  statement.step();
  using MaybeUuid = std::optional<base::Uuid>;
  const auto [sequence, last, act] = statement.columns<std::int64_t, MaybeUuid, MaybeUuid>();
  return {sequence, last.value_or(base::Uuid{}), act ? keptDigest(book, *act) : crypto::Hash{}};
}

Position sealed(Connection& book, const Hand& hand, const Position& before, Position after) {
  if (after.sequence > before.sequence)
    after.digest = sealAct(book, newestSchema(), hand, before.sequence, before.digest);
  return after;
}

} // namespace gk::store
