#pragma once

#include "roster/consent/consent.h"
#include "roster/consent/form_handout.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// What the form desk counts, and how it reads what is typed in haste.
namespace gk::roster {

/// A signing date as it is typed from a form: "1120" and "11/20" are the latest November 20 that is
/// not after `notAfter`, since no one signs after a form came back; "112026" and "11/20/26" name
/// the year. All else is `dateMalformed`, for the face to read as any date.
base::Result<base::Date> readSignedDate(std::string_view text, base::Date notAfter);

/// What the forms of one child say for a term, seen on `on`: as `standing` says of the screening,
/// or of a form of the term whose first valid day is still to come, on that day.
ConsentState formState(std::span<const base::Recorded<Consent>> forms, TermId term, base::Date on);

/// A child as the form desk counts it.
struct FormOfChild {
  ChildId child;
  SchoolId school;
  std::string room;
  ConsentState state = ConsentState::notReturned;
  bool hasLeft = false; ///< since the form came back
};

/// One room of a school.
struct FormCount {
  SchoolId school;
  std::string room;
  int children = 0;               ///< who are expected still
  std::optional<int> handedOut{}; ///< none: no one entered any
  int yes = 0;
  int yesWithLimits = 0;
  int no = 0;
  int incomplete = 0;
  int withdrawn = 0;
  int onHold = 0;
  int left = 0; ///< forms that came back, whatever they say, of who has left since

  /// Papers, as those handed out: a form that came back stays back.
  [[nodiscard]] int back() const {
    return yes + yesWithLimits + no + incomplete + withdrawn + onHold + left;
  }
  [[nodiscard]] int missing() const { return children + left - back(); }
  void add(const FormCount& other);
};

/// A line for each room that has children or got forms, by school in the order of `schools`, then
/// by room. Forms that went to a school as a whole are of its room "". Of who has left, the form
/// that came back counts and nothing else.
std::vector<FormCount> countForms(std::span<const FormOfChild> children,
                                  std::span<const base::Recorded<FormHandout>> handouts,
                                  std::span<const SchoolId> schools);

/// Whom to chase: no form, or one that does not count yet.
bool isToChase(ConsentState state);

} // namespace gk::roster
