#pragma once

#include "base/result.h"

#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gk::base {

/// Specialize beside an enum, values 0..n-1 in order:
///   template <> inline constexpr std::array enumNames<Role> =
///   std::to_array<std::string_view>({...});
/// The names are the words of the file, of JSON and of CSV; a person reads displayName.
template <class E>
inline constexpr std::array<std::string_view, 0> enumNames{};

template <class E>
constexpr std::size_t enumCount = enumNames<E>.size();

template <class E>
constexpr std::string_view nameOf(E value) {
  static_assert(enumCount<E> > 0, "this enum has no names");
  return enumNames<E>.at(static_cast<std::size_t>(value));
}

/// Specialize in the module's display_names.h: what a person reads, one table for each kind, values
/// in the order of the enumeration. A stored name is never shown.
template <class E>
inline constexpr std::array<std::string_view, 0> displayNames{};

template <class E>
constexpr std::string_view displayName(E value) {
  static_assert(!displayNames<E>.empty() && displayNames<E>.size() == enumCount<E>,
                "this enum has no display names; include the module's display_names.h");
  return displayNames<E>.at(static_cast<std::size_t>(value));
}

/// All of them, in the order of the enumeration.
template <class E>
constexpr const auto& displayNamesOf() {
  static_assert(!displayNames<E>.empty() && displayNames<E>.size() == enumCount<E>,
                "this enum has no display names; include the module's display_names.h");
  return displayNames<E>;
}

template <class E>
constexpr std::optional<E> fromName(std::string_view name) {
  static_assert(enumCount<E> > 0, "this enum has no names");
  for (std::size_t i = 0; i < enumCount<E>; ++i)
    if (enumNames<E>[i] == name) return static_cast<E>(i);
  return std::nullopt;
}

/// As fromName, else `code` with the words that would have been right.
template <class E>
Result<E> parseName(std::string_view name, ErrorCode code = ErrorCode::textMalformed) {
  if (const auto found = fromName<E>(name)) return *found;
  std::string words;
  for (auto word : enumNames<E>)
    words += (words.empty() ? "" : ", ") + std::string(word);
  return Error{code, "\"" + std::string(name) + "\" is none of: " + words};
}

/// A set over an enum of at most 62 values.
template <class E>
class EnumSet {
 public:
  constexpr EnumSet() = default;
  constexpr EnumSet(std::initializer_list<E> values) {
    for (E value : values)
      add(value);
  }
  static constexpr std::optional<EnumSet> fromBits(std::int64_t bits) {
    if (bits < 0 || bits >= (std::int64_t{1} << enumCount<E>)) return std::nullopt;
    EnumSet set;
    set.bits_ = static_cast<std::uint64_t>(bits);
    return set;
  }
  static constexpr EnumSet all() { return *fromBits((std::int64_t{1} << enumCount<E>)-1); }

  constexpr EnumSet& add(E value) {
    bits_ |= bit(value);
    return *this;
  }
  constexpr EnumSet& remove(E value) {
    bits_ &= ~bit(value);
    return *this;
  }
  [[nodiscard]] constexpr bool has(E value) const { return (bits_ & bit(value)) != 0; }
  [[nodiscard]] constexpr bool hasAll(EnumSet other) const {
    return (bits_ & other.bits_) == other.bits_;
  }
  [[nodiscard]] constexpr bool isEmpty() const { return bits_ == 0; }
  [[nodiscard]] constexpr std::int64_t bits() const { return static_cast<std::int64_t>(bits_); }
  [[nodiscard]] constexpr EnumSet with(EnumSet other) const {
    EnumSet sum = *this;
    sum.bits_ |= other.bits_;
    return sum;
  }
  [[nodiscard]] constexpr EnumSet without(EnumSet other) const {
    EnumSet rest = *this;
    rest.bits_ &= ~other.bits_;
    return rest;
  }
  [[nodiscard]] std::vector<E> values() const {
    std::vector<E> out;
    for (std::size_t i = 0; i < enumCount<E>; ++i)
      if (has(static_cast<E>(i))) out.push_back(static_cast<E>(i));
    return out;
  }
  [[nodiscard]] std::size_t size() const { return values().size(); }

  constexpr bool operator==(const EnumSet&) const = default;

 private:
  static constexpr std::uint64_t bit(E value) {
    return std::uint64_t{1} << static_cast<std::size_t>(value);
  }
  std::uint64_t bits_ = 0;
};

} // namespace gk::base
