#pragma once

#include "base/result.h"
#include "base/time/date.h"

#include <compare>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gk::vault {

/// An adult who may be told, and in which language.
struct Guardian {
  std::string name{};
  std::string relation{};
  std::string phone{};
  std::string language{};

  auto operator<=>(const Guardian&) const = default;
};

/// All that says who a child is, and nothing clinical.
struct Identity {
  std::string first{};
  std::string middle{};
  std::string last{};
  std::string nameUsed{}; ///< empty when the child goes by `first`
  base::Date birth;
  std::string room{};
  std::string teacher{};
  std::vector<Guardian> guardians{};
  std::string note{};      ///< of identity only, such as "twin sister in room 7"
  std::string studentId{}; ///< the school's own, by which next year's list is known again

  auto operator<=>(const Identity&) const = default;

  /// The name used, else the first, and the last: "Mina Tolliver-Reed".
  [[nodiscard]] std::string shownName() const;
  /// First, middle and last as on the form, those there are.
  [[nodiscard]] std::string legalName() const;
  /// For a screen others can see: "Mina T."; an only name is shown whole.
  [[nodiscard]] std::string headerName() const;
};

constexpr std::size_t maxTextBytes = 4000;
constexpr std::size_t maxGuardians = 16;

/// What may be sealed. Fails with `callMalformed` when both first and last name are blank, a text
/// is longer than `maxTextBytes` or there are more than `maxGuardians`; with `textMalformed` when
/// a text is not UTF-8.
base::Result<base::Done> checkIdentity(const Identity& identity);

/// The first letter of each word, with its accents: "Rosa Saltmarsh" gives "RS".
std::string initials(std::string_view name);

} // namespace gk::vault
