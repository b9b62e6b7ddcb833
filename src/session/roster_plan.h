#pragma once

#include "roster/roster_csv.h"
#include "session/session.h"

namespace gk::session {

/// A form of a roster line that waits for its child.
struct PlannedForm {
  roster::TermId term;
  roster::ConsentState state;
  roster::RosterConsent from;
  roster::Relation signer;
  std::optional<base::Date> validUntil;
  std::string note;

  [[nodiscard]] roster::Consent of(roster::ChildId child) const;
};

struct PlannedChild {
  std::size_t line; ///< in the file
  roster::Child child;
  Identity identity;
  std::optional<PlannedForm> form; ///< none when nothing came back
  roster::EthnicitySet groups{};
  roster::Payer payer = roster::Payer::unknown;
  std::string incompleteBecause; ///< why a yes is entered as incomplete, else empty
};

struct RosterAim {
  base::Recorded<roster::Term> term;
  roster::SchoolId school;
  base::Date today;
  bool agesConfirmed = false;
  bool othersConfirmed = false; ///< those who are like a child here are other children
};

/// What the lines of a roster would enter, with nothing written. Children without a number get the
/// next free ones. A form holds from the day it was signed to its last day, or the end of the term
/// when it names none. Fails with `csvMalformed` when a line cannot be entered, naming line and
/// column of the first five: a number that is in the book already, a child who may be one of the
/// book or the file (roster::isTooAlike) and whom nobody said to be another, an age unusual for the
/// grade that nobody confirmed, dates out of order. Names are never repeated. Precondition: the
/// session is unlocked.
base::Result<std::vector<PlannedChild>>
planRoster(Session& session, const std::vector<roster::RosterLine>& lines, const RosterAim& aim);

/// As enrolRoster takes them.
std::vector<NewChild> newChildren(const std::vector<PlannedChild>& plan);

} // namespace gk::session
