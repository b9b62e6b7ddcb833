#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "base/text/text.h"
#include "dentition/surfaces.h"
#include "kit/light.h"
#include "store/sqlite/statement.h"
#include "store/sqlite/trouble.h"

#include <type_traits>

namespace gk::store {

/// The one place that every text of a record passes on its way into the book.
inline std::string_view soundOr(const std::string& text) {
  if (const auto sound = base::soundText(text); !sound)
    throw Trouble({sound.error().code, "a text cannot be kept: " + sound.error().detail});
  return text;
}

/// Binds the values of one record in the order of its columns.
class RowWriter {
 public:
  RowWriter(Statement& statement, int next) : statement_(statement), next_(next) {}

  template <class T>
  RowWriter& operator<<(const T& value) {
    if constexpr (std::is_enum_v<T>) {
      statement_.bind(next_++, base::nameOf(value));
    } else if constexpr (requires { value.bits(); }) {
      statement_.bind(next_++, value.bits());
    } else if constexpr (std::is_same_v<T, dentition::Tooth>) {
      statement_.bind(next_++, value.iso());
    } else if constexpr (std::is_same_v<T, kit::MilliwattPerSquareCm>) {
      statement_.bind(next_++, value.value);
    } else if constexpr (std::is_same_v<T, base::Seconds>) {
      statement_.bind(next_++, value.count());
    } else if constexpr (std::is_same_v<T, std::string>) {
      statement_.bind(next_++, soundOr(value));
    } else if constexpr (std::is_same_v<T, std::optional<std::string>> ||
                         std::is_same_v<T, std::optional<base::Seconds>>) {
      if (value) return *this << *value;
      statement_.bind(next_++, std::nullopt);
    } else if constexpr (std::is_same_v<T, std::vector<std::uint8_t>>) {
      statement_.bind(next_++, std::span<const std::uint8_t>(value));
    } else {
      statement_.bind(next_++, value);
    }
    return *this;
  }

 private:
  Statement& statement_;
  int next_;
};

/// Takes the columns of one record in order, turning each into whatever it is assigned to.
class RowReader {
 public:
  RowReader(const Statement& statement, int next) : statement_(statement), next_(next) {}

  template <class T>
  T take() {
    if constexpr (std::is_enum_v<T>) {
      const auto word = take<std::string>();
      const auto value = base::fromName<T>(word);
      if (!value) damaged("a word that its column does not have");
      return *value;
    } else if constexpr (requires(T set) { T::fromBits(set.bits()); }) {
      const auto set = T::fromBits(take<std::int64_t>());
      if (!set) damaged("a set with bits of no meaning");
      return *set;
    } else if constexpr (std::is_same_v<T, dentition::Tooth>) {
      const auto tooth = dentition::Tooth::fromIso(take<int>());
      if (!tooth) damaged(tooth.error().detail);
      return *tooth;
    } else if constexpr (std::is_same_v<T, kit::MilliwattPerSquareCm>) {
      return {take<int>()};
    } else if constexpr (std::is_same_v<T, base::Seconds>) {
      return base::Seconds(take<std::int64_t>());
    } else if constexpr (std::is_same_v<T, std::optional<base::Seconds>>) {
      const auto count = take<std::optional<std::int64_t>>();
      return count ? T(base::Seconds(*count)) : T();
    } else {
      return statement_.column<T>(next_++);
    }
  }

  /// The laptop whose number in this file comes next.
  base::LaptopId hand() { return statement_.hand(next_++); }

  /// What may be NULL: `.assistant = row.maybe()`.
  class Maybe {
   public:
    explicit Maybe(RowReader& row) : row_(row) {}
    template <class T>
    operator std::optional<T>() const { // NOLINT(google-explicit-constructor): the point of it
      return row_.take<std::optional<T>>();
    }

   private:
    RowReader& row_;
  };
  Maybe maybe() { return Maybe(*this); }

  /// `.day = row` reads as whatever `day` is.
  template <class T>
  operator T() { // NOLINT(google-explicit-constructor): the point of it
    return take<T>();
  }

 private:
  /// Never the value itself: it is of someone's record.
  [[noreturn]] static void damaged(const std::string& what) {
    throw Trouble({base::ErrorCode::storeDamaged, "the book holds what it cannot: " + what});
  }

  const Statement& statement_;
  int next_;
};

} // namespace gk::store
