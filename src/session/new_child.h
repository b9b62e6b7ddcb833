#pragma once

#include "roster/background.h"
#include "roster/consent.h"
#include "session/identity.h"

#include <functional>

namespace gk::session {

/// A child to be taken onto the roster, with the form that came back, if one did.
struct NewChild {
  roster::Child child;
  Identity identity;
  std::function<roster::Consent(roster::ChildId)> form{};      ///< empty when there is no form
  std::function<roster::MedicalFlag(roster::ChildId)> alert{}; ///< empty when there is none
  /// Empty when the form says nothing of it.
  std::function<roster::Background(roster::ChildId)> background{};
};

/// What a correction of a person says, all of it.
struct StudentDetails {
  Identity identity;
  dentition::Sex sex = dentition::Sex::notStated;
};

} // namespace gk::session
