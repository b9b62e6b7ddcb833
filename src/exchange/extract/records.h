#pragma once

#include "base/identity/entry.h"
#include "chairside/authorization.h"
#include "followup/referral.h"
#include "followup/retention_check.h"
#include "kit/light.h"
#include "kit/material.h"
#include "roster/team/team.h"

#include <map>
#include <string>
#include <vector>

namespace gk::exchange {

template <class T>
using Rows = std::vector<base::Recorded<T>>;

/// What an export is made of: the current rows of one clinic day or of one term, whoever gathers
/// them. Rows of children, days or schools that are not here are passed over.
struct Records {
  std::string program;
  std::string county;
  roster::TermId termId;
  roster::Term term;
  Rows<roster::School> schools{};
  Rows<roster::ClinicDay> days{};        ///< those of the export
  Rows<roster::ClinicDay> earlierDays{}; ///< of older placements
  Rows<roster::Child> children{};
  Rows<roster::Consent> consents{}; ///< all forms of those children, of whatever term
  Rows<chairside::Authorization> authorizations{}; ///< that hold on a day of the export
  Rows<chairside::Screening> screenings{}; ///< rows of days that are not here are passed over
  Rows<chairside::Placement> placements{}; ///< also older ones that a check here speaks of
  Rows<chairside::Varnish> varnishes{};
  Rows<chairside::DayOutcome> outcomes{};
  Rows<followup::RetentionCheck> checks{};
  Rows<followup::Referral> referrals{};
  Rows<kit::Lot> lots{};
  Rows<kit::Light> lights{};
  Rows<roster::Member> members{};
};

/// What only an open vault can tell of a child.
struct Person {
  std::string given;
  std::string family;
  base::Date birth;
};
/// Of the children who may be named; the others go by an identifier.
using People = std::map<roster::ChildId, Person>;

} // namespace gk::exchange
