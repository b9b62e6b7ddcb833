#include "store/closing_rows.h"
#include "store/consent_rows.h"
#include "store/people_rows.h"
#include "store/record_io.h"
#include "store/roster_rows.h"
#include "store/year_rows.h"

namespace gk::store {

GK_RECORD(roster::Program)
GK_RECORD(roster::Term)
GK_RECORD(roster::School)
GK_RECORD(roster::Enrollment)
GK_RECORD(roster::MealEligibility)
GK_RECORD(roster::ClinicDay)
GK_RECORD(roster::DayEffort)
GK_RECORD(roster::DayClosure)
GK_RECORD(roster::Addendum)
GK_RECORD(roster::Reopening)
GK_RECORD(roster::AgreementOverride)
GK_RECORD(roster::Member)
GK_RECORD(roster::Child)
GK_RECORD(roster::Background)
GK_RECORD(SealedIdentity)
GK_RECORD(roster::Consent)
GK_RECORD(roster::ConsentOverride)
GK_RECORD(roster::MedicalFlag)
GK_RECORD(roster::Erasure)
GK_RECORD(roster::MemberPin)
GK_RECORD(followup::PlacementsConfirmed)
GK_RECORD(roster::ProgramYear)
GK_RECORD(roster::DayCost)
GK_RECORD(roster::ListColumns)
GK_RECORD(roster::CardJoin)
GK_RECORD(roster::FormHandout)
GK_RECORD(roster::PlannedDay)
GK_RECORD(followup::DayEnvelope)

} // namespace gk::store
