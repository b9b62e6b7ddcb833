#pragma once

#include "base/identity/id.h"
#include "base/time/clock.h"
#include "base/time/date.h"
#include "store/sqlite/cell.h"

#include <chrono>
#include <concepts>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

struct sqlite3_stmt;

namespace gk::store {

class StatementCache;

namespace detail {

template <class T>
inline constexpr bool isOptional = false;
template <class T>
inline constexpr bool isOptional<std::optional<T>> = true;
template <class T>
inline constexpr bool isId = false;
template <class Tag>
inline constexpr bool isId<base::Id<Tag>> = true;
template <class T>
inline constexpr bool isUnread = false;

template <class T>
concept Whole = std::integral<T> && !(std::unsigned_integral<T> && sizeof(T) == 8);

} // namespace detail

/// A prepared statement on loan from its connection, which must outlive it. On return it is reset
/// and its bindings cleared. Parameters count from 1 and columns from 0, as in SQLite. A wrong
/// index is a bug; everything else that fails throws Trouble. One thread at a time.
class Statement {
 public:
  Statement(Statement&& other) noexcept;
  Statement& operator=(Statement&&) = delete;
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement();

  // Every bind copies. Identities of rows are whole numbers (store/sqlite/hands.h), those of
  // laptops blobs of 16 bytes, dates ISO text, moments UTC milliseconds.
  Statement& bind(int index, std::int64_t value);
  template <detail::Whole T>
  Statement& bind(int index, T value) {
    return bind(index, static_cast<std::int64_t>(value));
  }
  Statement& bind(int index, double value);
  Statement& bind(int index, std::string_view text);
  Statement& bind(int index, std::span<const std::uint8_t> blob);
  /// Of what? An EntryId lies otherwise in the file than a LaptopId.
  Statement& bind(int index, const base::Uuid& uuid) = delete;
  Statement& bind(int index, base::LaptopId laptop);
  Statement& bind(int index, const base::Date& date);
  Statement& bind(int index, base::Instant at) { return bind(index, at.utc); }
  Statement& bind(int index, base::Milliseconds value) { return bind(index, value.count()); }
  /// Seconds or minutes would be stored as milliseconds unseen: bind `.count()` instead.
  template <class Rep, class Period>
  Statement& bind(int index, std::chrono::duration<Rep, Period> value) = delete;
  template <class Tag>
  Statement& bind(int index, const base::Id<Tag>& id) {
    return bind(index, keyOf(id.uuid()));
  }
  Statement& bind(int index, std::nullopt_t);
  template <class T>
  Statement& bind(int index, const std::optional<T>& value) {
    return value ? bind(index, *value) : bind(index, std::nullopt);
  }

  /// Binds 1, 2, 3... in order; giving more or fewer than the statement has is a bug.
  template <class... T>
  Statement& bindAll(const T&... values) {
    requireParameters(sizeof...(T));
    int index = 0;
    (bind(++index, values), ...);
    return *this;
  }

  /// Goes to the next row; false when there is none.
  bool step();
  /// For statements that give no row; leaves it ready to bind and run again.
  void run();
  /// Ready to run again, bindings kept.
  void reset();

  [[nodiscard]] bool isNull(int index) const;
  /// Whatever it holds.
  [[nodiscard]] CellView cell(int index) const;

  /// Reads a column of the row stepped to. A value of another storage class, out of T's range, or
  /// not a date or identity is a damaged book (`storeDamaged`). T: bool (0 or 1), any integer,
  /// double, std::string, std::vector<std::uint8_t>, Id<Tag>, Date, Instant, Milliseconds, or
  /// std::optional of these for NULL.
  template <class T>
  [[nodiscard]] T column(int index) const {
    if constexpr (detail::isOptional<T>) {
      if (isNull(index)) return std::nullopt;
      return column<typename T::value_type>(index);
    } else if constexpr (std::same_as<T, bool>) {
      return boolean(index);
    } else if constexpr (std::integral<T>) {
      const std::int64_t value = integer(index);
      if (!std::in_range<T>(value)) damaged(index, "a smaller number");
      return static_cast<T>(value);
    } else if constexpr (std::same_as<T, double>) {
      return real(index);
    } else if constexpr (std::same_as<T, std::string>) {
      return text(index);
    } else if constexpr (std::same_as<T, std::vector<std::uint8_t>>) {
      return blob(index);
    } else if constexpr (std::same_as<T, base::LaptopId>) {
      return T(bytes16(index));
    } else if constexpr (detail::isId<T>) {
      return T(identity(index));
    } else if constexpr (std::same_as<T, base::Date>) {
      return date(index);
    } else if constexpr (std::same_as<T, base::Instant>) {
      return instant(index);
    } else if constexpr (std::same_as<T, base::Milliseconds>) {
      return base::Milliseconds(integer(index));
    } else {
      static_assert(detail::isUnread<T>, "no column is read as this type");
    }
  }

  /// The laptop whose number in this file the column holds.
  [[nodiscard]] base::LaptopId hand(int index) const;
  /// An identity that is neither a row's nor a laptop's.
  [[nodiscard]] base::Uuid bytes16(int index) const;

  /// The whole row, left to right; another number of columns is a bug.
  template <class... T>
  [[nodiscard]] std::tuple<T...> columns() const {
    requireColumns(sizeof...(T));
    return [this]<int... index>(std::integer_sequence<int, index...>) {
      return std::tuple<T...>{this->template column<T>(index)...};
    }
    (std::make_integer_sequence<int, static_cast<int>(sizeof...(T))>());
  }

 private:
  friend class Connection;
  friend class StatementCache;
  Statement(StatementCache& cache, std::string sql, sqlite3_stmt* handle);

  void check(int code) const;
  void requireParameters(std::size_t count) const;
  void requireColumns(std::size_t count) const;
  void requireType(int index, int type, std::string_view expected) const;
  [[noreturn]] void damaged(int index, std::string_view expected) const;

  [[nodiscard]] std::int64_t integer(int index) const;
  [[nodiscard]] bool boolean(int index) const;
  [[nodiscard]] double real(int index) const;
  [[nodiscard]] std::string text(int index) const;
  [[nodiscard]] std::vector<std::uint8_t> blob(int index) const;
  [[nodiscard]] std::int64_t keyOf(const base::Uuid& identity) const;
  [[nodiscard]] base::Uuid identity(int index) const;
  [[nodiscard]] base::Date date(int index) const;
  [[nodiscard]] base::Instant instant(int index) const;

  StatementCache* cache_;
  std::string sql_;
  sqlite3_stmt* handle_;
};

} // namespace gk::store
