#include "roster/consent/form_desk.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

namespace gk::roster {

using base::Error;
using base::ErrorCode;

namespace {

constexpr int century = 100;

/// "1120", "112026", "11/20", "11-20-26": month, day and, if it is there, year.
std::optional<std::vector<int>> monthDayYear(std::string_view text) {
  const bool isDigits =
      std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; }) && !text.empty();
  std::vector<std::string> words;
  if (isDigits) {
    if (text.size() != 4 && text.size() != 6 && text.size() != 8) return std::nullopt;
    words = {std::string(text.substr(0, 2)), std::string(text.substr(2, 2))};
    if (text.size() > 4) words.emplace_back(text.substr(4));
  } else {
    std::string plain(text);
    std::ranges::replace(plain, '-', '/');
    for (const auto part : base::split(plain, '/'))
      words.emplace_back(part);
  }
  if (words.size() < 2 || words.size() > 3) return std::nullopt;
  std::vector<int> parts;
  for (const auto& word : words) {
    const auto number = base::parseInt(word);
    if (!number || *number < 0 || *number > 9999 || word.size() > 4) return std::nullopt;
    parts.push_back(static_cast<int>(*number));
  }
  return parts;
}

} // namespace

base::Result<base::Date> readSignedDate(std::string_view text, base::Date notAfter) {
  const Error malformed{ErrorCode::dateMalformed,
                        "a signing date is month and day, such as 1120 or 11/20"};
  const auto parts = monthDayYear(base::trim(text));
  if (!parts) return malformed;
  const auto month = static_cast<unsigned>((*parts)[0]);
  const auto day = static_cast<unsigned>((*parts)[1]);
  if (parts->size() == 3) {
    auto year = (*parts)[2];
    if (year < century) year += notAfter.year() - notAfter.year() % century;
    auto date = base::Date::of(year, month, day);
    if (!date) return malformed;
    return *date;
  }
  // February 29 may be some years back.
  for (int year = notAfter.year(); year > notAfter.year() - 8; --year)
    if (const auto date = base::Date::of(year, month, day); date && *date <= notAfter) return *date;
  return malformed;
}

ConsentState formState(std::span<const base::Recorded<Consent>> forms, TermId term, base::Date on) {
  const auto now = standing(forms, Service::screening, on).state;
  if (now != ConsentState::notReturned) return now;
  for (const auto& form : forms)
    if (form.value.term == term && form.value.validFrom && *form.value.validFrom > on)
      return standing(forms, Service::screening, *form.value.validFrom).state;
  return now;
}

void FormCount::add(const FormCount& other) {
  children += other.children;
  if (other.handedOut) handedOut = handedOut.value_or(0) + *other.handedOut;
  yes += other.yes;
  yesWithLimits += other.yesWithLimits;
  no += other.no;
  incomplete += other.incomplete;
  withdrawn += other.withdrawn;
  onHold += other.onHold;
  left += other.left;
}

std::vector<FormCount> countForms(std::span<const FormOfChild> children,
                                  std::span<const base::Recorded<FormHandout>> handouts,
                                  std::span<const SchoolId> schools) {
  using Place = std::tuple<std::ptrdiff_t, std::tuple<bool, std::int64_t, std::string>>;
  std::map<Place, FormCount> lines;
  const auto lineOf = [&](SchoolId school, const std::string& room) -> FormCount& {
    const auto at = std::ranges::find(schools, school) - schools.begin();
    return lines.try_emplace({at, base::numberedPlace(room)}, FormCount{school, room})
        .first->second;
  };
  for (const auto& child : children) {
    if (child.hasLeft && child.state == ConsentState::notReturned) continue;
    auto& line = lineOf(child.school, child.room);
    if (child.hasLeft) {
      ++line.left;
      continue;
    }
    ++line.children;
    switch (child.state) {
    case ConsentState::yes:
      ++line.yes;
      break;
    case ConsentState::yesWithLimits:
      ++line.yesWithLimits;
      break;
    case ConsentState::no:
      ++line.no;
      break;
    case ConsentState::incomplete:
      ++line.incomplete;
      break;
    case ConsentState::withdrawn:
      ++line.withdrawn;
      break;
    case ConsentState::onHold:
      ++line.onHold;
      break;
    case ConsentState::notReturned:
      break;
    }
  }
  for (const auto& handout : handouts) {
    if (handout.value.copies == 0) continue;
    auto& line = lineOf(handout.value.school, handout.value.room);
    line.handedOut = line.handedOut.value_or(0) + handout.value.copies;
  }
  std::vector<FormCount> counts;
  for (auto& [place, line] : lines)
    counts.push_back(std::move(line));
  return counts;
}

bool isToChase(ConsentState state) {
  return state == ConsentState::notReturned || state == ConsentState::incomplete ||
         state == ConsentState::onHold;
}

} // namespace gk::roster
