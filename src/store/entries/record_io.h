#pragma once

#include "store/book.h"
#include "store/records/record_list.h"
#include "store/rows/rows.h"
#include "store/sqlite/trouble.h"
#include "store/values/rival_rule.h"

// How the records of a book are written and read, for the files that say it once for each type of a
// family (GK_RECORD). No one but those includes it: instantiating is what costs time.

namespace gk::store {

template <class T>
typename T::Key Act::add(const T& value) {
  const auto entry = insertEntry(Rows<T>::table, {});
  insertRow(connection_, entry, value);
  return typename T::Key(entry.uuid());
}

template <class T>
base::EntryId Act::correct(const base::Recorded<T>& old, const T& value,
                           const std::string& reason) {
  base::require(!reason.empty(), "a correction needs a reason");
  const auto entry =
      insertEntry(Rows<T>::table, Replaced{base::EntryId(old.id.uuid()), old.stamp.entry, reason});
  insertRow(connection_, entry, value);
  return entry;
}

template <class T>
void Act::restate(const base::Recorded<T>& old, const T& value, const std::string& reason) {
  const auto now = quoting(old.stamp.by.author);
  correct(old, value, reason);
  by_ = now;
}

template <class T>
void Act::insertAgain(const Where& source, const Replaced& as) {
  for (const auto& row : selectRows<T>(connection_, source, Which::ever))
    insertRow(connection_, insertEntry(Rows<T>::table, as), row.value);
}

template <class T>
base::Result<std::vector<base::Recorded<T>>> Book::current(const Where& where) {
  return guarded([&] {
    auto rows = selectRows<T>(connection_, where, Which::current);
    keepWhatCounts(rows);
    return rows;
  });
}

/// Its rivals need not be among the rows, such as where one of them names another child.
template <class T>
void Book::keepWhatCounts(std::vector<base::Recorded<T>>& rows) {
  for (const auto& thing : knownRivals()) {
    if (thing.kind != Rows<T>::table) continue;
    const auto isOne = [&](const auto& row) { return row.id.uuid() == thing.subject; };
    if (std::ranges::none_of(rows, isOne)) continue;
    auto words =
        selectRows<T>(connection_, subjectIs(typename T::Key(thing.subject)), Which::current);
    // What is no word of it took one back.
    const bool isTakenBack = std::ranges::any_of(thing.words, [&](const auto& entry) {
      return std::ranges::none_of(words, [&](const auto& row) { return row.stamp.entry == entry; });
    });
    std::erase_if(rows, [&](const auto& row) {
      if (isOutMeanwhile<T> && isTakenBack && isOne(row)) return true;
      return isOne(row) &&
             std::ranges::any_of(words, [&](const auto& other) { return outranks(other, row); });
    });
    if constexpr (isNarrowedMeanwhile<T>) {
      keepMostCareful(words);
      for (auto& row : rows)
        for (const auto& other : words)
          if (isOne(row) && other.stamp.entry != row.stamp.entry)
            allowOnlyWhat(other.value, row.value);
    }
  }
}

template <class T>
base::Result<std::vector<base::Recorded<T>>> Book::history(const Where& where) {
  return guarded([&] { return selectRows<T>(connection_, where, Which::ever); });
}

// A record type of the book; each stands in one family's file.
#define GK_RECORD(T)                                                                               \
  static_assert(isListed<T, RecordTypes>,                                                          \
                "a record type that is not in store/records/record_list.h");                       \
  template T::Key Act::add(const T&);                                                              \
  template base::EntryId Act::correct(const base::Recorded<T>&, const T&, const std::string&);     \
  template void Act::restate(const base::Recorded<T>&, const T&, const std::string&);              \
  template void Act::insertAgain<T>(const Where&, const Replaced&);                                \
  template base::Result<std::vector<base::Recorded<T>>> Book::current(const Where&);               \
  template base::Result<std::vector<base::Recorded<T>>> Book::history(const Where&);

} // namespace gk::store
