#pragma once

#include "base/enum_names.h"
#include "base/time/date.h"
#include "estimates/shares/proportion.h"
#include "reports/records/nothing.h"

#include <chrono>
#include <compare>
#include <concepts>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace gk::reports {

/// There is no figure: nothing was counted that it could be of.
struct Missing {
  bool operator==(const Missing&) const = default;
};
/// There is one, but no one has said it.
struct Unknown {
  bool operator==(const Unknown&) const = default;
};
/// A small count, or what would reveal one: "fewer than 10", or "suppressed" without a bound.
struct Withheld {
  std::optional<int> under{};
  bool operator==(const Withheld&) const = default;
};
struct Count {
  std::int64_t value;
  bool operator==(const Count&) const = default;
};
/// "12 of 30"
struct OutOf {
  int part;
  int whole;
  bool operator==(const OutOf&) const = default;
};
/// 0 to 1, printed in percent.
struct Share {
  double value;
  int decimals = 1;
  bool isUnstable = false; ///< of fewer than `fewest`
  /// As the page has it, with so many decimals.
  [[nodiscard]] double printed() const;
  bool operator==(const Share&) const = default;
};
/// Infinity has no bound.
struct Number {
  double value;
  int decimals;
  [[nodiscard]] double printed() const;
  bool operator==(const Number&) const = default;
};
/// Of shares or of numbers; "84.3-89.7".
struct Range {
  double low;
  double high;
  std::optional<int> decimals{}; ///< none: of shares
  std::string_view between = "-";
  std::string remark{};
  bool operator==(const Range&) const = default;
};
/// "87.1 (84.3-89.7)"
struct Estimate {
  std::variant<Share, Number> value;
  std::optional<Range> range;
  bool operator==(const Estimate&) const = default;
};
/// "yes", and "NO", which stands out.
struct YesNo {
  bool isYes;
  bool operator==(const YesNo&) const = default;
};
/// As stored, for files, and as a person reads it: one of a list of words, or teeth.
struct Word {
  std::string stored;
  std::string shown;
  bool operator==(const Word&) const = default;
};
/// What the row is of; files never have the identity.
struct Named {
  std::string shown;
  std::string id;
  bool operator==(const Named&) const = default;
};

/// One value of a report. What a person reads is made of it, never the other way round.
class Cell {
 public:
  using Value = std::variant<std::string, Missing, Unknown, Withheld, Count, OutOf, Share, Number,
                             Range, Estimate, YesNo, Word, Named, base::Date>;

  /// Words; the dash is no words, but a figure that is missing.
  Cell(std::string text);
  Cell(const char* text) : Cell(std::string(text)) {}
  Cell(std::string_view text) : Cell(std::string(text)) {}
  template <std::integral I>
  requires(!std::same_as<I, bool>) Cell(I count)
      : value_(Count{static_cast<std::int64_t>(count)}) {}
  Cell(std::same_as<bool> auto isYes) : value_(YesNo{isYes}) {}
  template <class E>
  requires std::is_enum_v<E> Cell(E word)
      : value_(Word{std::string(base::nameOf(word)), std::string(base::displayName(word))}) {}
  template <class T>
  requires std::constructible_from<Value, T> &&
      (!std::is_arithmetic_v<T> && !std::is_pointer_v<T>)Cell(T value)
      : value_(std::move(value)) {}
  template <class T>
  Cell(const std::optional<T>& value) : Cell(value ? Cell(*value) : Cell(Missing{})) {}

  /// With a remark behind the value: ", few children".
  [[nodiscard]] Cell with(std::string remark) const;

  [[nodiscard]] const Value& value() const { return value_; }
  template <class T>
  [[nodiscard]] const T* as() const {
    return std::get_if<T>(&value_);
  }
  [[nodiscard]] const std::string& remark() const { return remark_; }
  [[nodiscard]] bool isWithheld() const { return as<Withheld>() != nullptr; }
  [[nodiscard]] bool isEmpty() const;

  /// As printed; dates as 2026-11-17.
  [[nodiscard]] std::string text() const;

  bool operator==(const Cell&) const = default;
  /// In the order of what is printed.
  std::weak_ordering operator<=>(const Cell& other) const { return text() <=> other.text(); }
  bool operator==(const char* words) const { return text() == words; }
  bool operator==(const std::string& words) const { return text() == words; }
  friend std::ostream& operator<<(std::ostream& out, const Cell& cell);

 private:
  Value value_;
  std::string remark_;
};

inline constexpr Missing noFigure{};

/// "1,234" of a count or a number, else as the cell is printed: for use in a sentence.
std::string toRead(const Cell& cell);

// How counts become cells.

/// No one has said it.
template <class T>
Cell orUnknown(const std::optional<T>& value) {
  return value ? Cell(*value) : Cell(Unknown{});
}
inline Cell outOf(int part, int whole) {
  return OutOf{part, whole};
}

/// Missing when whole is 0 or less than part, so that no share is made up.
Cell shareOf(int part, int whole);
Cell shareOf(const std::optional<double>& share);
Cell numberOf(const std::optional<double>& value, int decimals);
/// "under 0.001", "0.032".
Cell pValueOf(const std::optional<double>& p);
Cell rangeOf(const std::optional<estimates::Interval>& shares);
/// "5.5" hours, with as few decimals as say the time.
Cell hoursOf(std::chrono::minutes time);
/// How many for each of `whole`; missing where there is none.
Cell numberPer(double count, double whole, int decimals);

} // namespace gk::reports
