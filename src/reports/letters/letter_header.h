#pragma once

#include "base/result.h"
#include "base/time/date.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace gk::reports {

/// The upper half of a letter's template: what a program sets once for a language.
struct LetterHeader {
  std::string language{};            ///< "Spanish", as on the child's card
  std::vector<std::string> alsoAs{}; ///< other names of it
  bool rightToLeft = false;
  std::string approvedBy{}; ///< empty: a draft, and every letter says so
  std::optional<base::Date> approvedOn{};
  std::string draftMark{};
  std::array<std::string, 12> months{};
  std::string datePattern{}; ///< with {day}, {month} and {year}
  std::string upperRight{};
  std::string upperLeft{};
  std::string lowerLeft{};
  std::string lowerRight{};
  std::string pagePattern{}; ///< with {page} and {pages}
  std::string roomPattern{}; ///< with {room}

  [[nodiscard]] bool isDraft() const { return approvedBy.empty(); }
  [[nodiscard]] std::string dateWords(base::Date date) const;
  [[nodiscard]] std::string pageWords(int page, int pages) const;
  [[nodiscard]] std::string roomWords(const std::string& room) const;
};

/// Every key there is; all but "also" and "direction" are needed.
const std::vector<std::string_view>& headerKeys();

/// Takes one line "key: value" in. Fails with `letterTemplate` and says why, without the place.
base::Result<base::Done> readHeaderLine(std::string_view key, const std::string& value,
                                        LetterHeader& header);

} // namespace gk::reports
