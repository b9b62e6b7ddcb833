#include "store/book.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/followup_rows.h"
#include "store/records/key_rows.h"
#include "store/records/kit_rows.h"
#include "store/records/people_rows.h"
#include "store/records/record_list.h"
#include "store/records/roster_rows.h"
#include "store/records/year_rows.h"
#include "store/sqlite/trouble.h"

namespace gk::store {

namespace {

using MaybeChild = std::optional<roster::ChildId>;
using MaybeDay = std::optional<base::DayId>;

template <class T>
MaybeChild childIn(Connection& connection, const base::Recorded<T>& row) {
  if constexpr (std::is_same_v<T, roster::Child>) {
    return row.id;
  } else if constexpr (requires { MaybeChild(row.value.child); }) {
    return MaybeChild(row.value.child);
  } else if constexpr (requires { chairside::FieldId(row.value.field); }) {
    const auto fields =
        selectRows<chairside::Field>(connection, subjectIs(row.value.field), Which::ever);
    return fields.empty() ? MaybeChild() : MaybeChild(fields.front().value.child);
  } else {
    return std::nullopt;
  }
}

template <class T>
MaybeDay dayIn(Connection& connection, const base::Recorded<T>& row) {
  if constexpr (std::is_same_v<T, roster::ClinicDay>) {
    return row.id;
  } else if constexpr (requires { MaybeDay(row.value.day); }) {
    return MaybeDay(row.value.day);
  } else if constexpr (requires { chairside::FieldId(row.value.field); }) {
    const auto fields =
        selectRows<chairside::Field>(connection, subjectIs(row.value.field), Which::ever);
    return fields.empty() ? MaybeDay() : MaybeDay(fields.front().value.day);
  } else {
    return std::nullopt;
  }
}

/// The record that the row is, whatever its kind.
template <class Take>
void withRecord(Connection& connection, Book& book, base::EntryId entry, Take take) {
  auto statement = connection.prepare("SELECT k.name FROM entry AS e CROSS JOIN entry_kind AS k "
                                      "ON k.number = e.kind WHERE e.id = ?1");
  statement.bind(1, entry);
  if (!statement.step()) return;
  const auto kind = statement.column<std::string>(0);
  forEachRecord([&]<class T>() {
    if (Rows<T>::table != kind) return;
    const auto rows = book.history<T>(rowsOf("e.id", entry));
    if (!rows) throw Trouble(rows.error());
    for (const auto& row : *rows)
      take(row);
  });
}

} // namespace

base::Result<MaybeChild> Book::childOf(base::EntryId entry) {
  return guarded([&] {
    MaybeChild child;
    withRecord(connection_, *this, entry,
               [&](const auto& row) { child = childIn(connection_, row); });
    return child;
  });
}

base::Result<MaybeDay> Book::dayOf(base::EntryId entry) {
  return guarded([&] {
    MaybeDay day;
    withRecord(connection_, *this, entry, [&](const auto& row) { day = dayIn(connection_, row); });
    return day;
  });
}

base::Result<std::vector<base::EntryId>> Book::entriesAbout(roster::ChildId child) {
  return guarded([&] {
    std::vector<base::EntryId> entries;
    forEachRecord([&]<class T>() {
      Where where;
      if constexpr (std::is_same_v<T, roster::Child>)
        where = subjectIs(child);
      else if constexpr (requires(const T& value) { MaybeChild(value.child); })
        where = rowsOf("child", child);
      else
        return;
      std::ranges::copy(selectEntries(connection_, Rows<T>::table, where, Which::current),
                        std::back_inserter(entries));
    });
    return entries;
  });
}

} // namespace gk::store
