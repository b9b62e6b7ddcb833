#pragma once

#include "base/identity/entry.h"
#include "roster/child/background.h"
#include "roster/list/roster_list.h"
#include "session/cards/identity.h"

#include <functional>
#include <set>

namespace gk::session {

/// A child to be taken onto the roster, with the form that came back, if one did.
struct NewChild {
  roster::Child child;
  Identity identity;
  std::function<roster::Consent(roster::ChildId)> form{};      ///< empty when there is no form
  std::function<roster::MedicalFlag(roster::ChildId)> alert{}; ///< empty when there is none
  /// Empty when the form says nothing of it.
  std::function<roster::Background(roster::ChildId)> background{};
  /// What a school's list says of health, to be confirmed with the family.
  std::vector<roster::RosterAlert> alerts{};
  /// Children of the logbook who are like this one and whom a person said to be others.
  std::vector<roster::ChildId> others{};
};

/// What a school's list changes of a child of the logbook, as one word of its whole.
struct ChangedChild {
  base::Recorded<roster::Child> was; ///< as it was when that was planned
  roster::Child card;
  std::optional<Identity> identity{};                     ///< none where nothing of it changes
  std::function<roster::Consent(roster::ChildId)> form{}; ///< empty when there is no new one
  std::function<roster::Background(roster::ChildId)> background{}; ///< as of NewChild
  std::vector<roster::RosterAlert> alerts{};                       ///< those that are new
};

/// A school's list as it is written: all of it as one act, or none.
struct RosterImport {
  roster::SchoolId school;
  std::vector<NewChild> entering{};
  std::vector<ChangedChild> changed{};
  std::set<roster::ChildId> matched{}; ///< children of the logbook who are on the list
  std::string columns{};               ///< how its lists are read from now on; empty: as before
  bool agesConfirmed = false;          ///< the school confirms unusual ages
  bool othersConfirmed = false;        ///< those of the list who are alike are different children
};

/// What a correction of a person says, all of it.
struct StudentDetails {
  Identity identity;
  dentition::Sex sex = dentition::Sex::notStated;
};

} // namespace gk::session
