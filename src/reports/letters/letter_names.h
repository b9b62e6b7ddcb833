#pragma once

#include <string_view>
#include <vector>

namespace gk::reports {

/// A name that a letter's template may use. A placeholder with guards has something to say only
/// where one of those questions was answered with yes.
struct LetterName {
  std::string_view name;
  bool needed; ///< a template without it would leave out what a letter must say
  std::vector<std::string_view> guards{};
};

const std::vector<LetterName>& letterPlaceholders();
const std::vector<LetterName>& letterQuestions();

/// None when nothing is called so.
const LetterName* findName(const std::vector<LetterName>& names, std::string_view name);

} // namespace gk::reports
