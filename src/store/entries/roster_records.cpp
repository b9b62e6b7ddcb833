#include "store/entries/record_io.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/people_rows.h"
#include "store/records/roster_rows.h"
#include "store/records/year_rows.h"
#include "store/rows/book_queries.h"

#include <algorithm>

namespace gk::store {

/// A card with two words is where the word that counts has it, once.
base::Result<std::vector<roster::ChildId>> Book::childrenToExpect(roster::SchoolId school,
                                                                  base::Date on) {
  return guarded([&] {
    std::vector<roster::ChildId> children;
    auto statement = connection_.prepare(childrenToExpectSql);
    statement.bind(1, school).bind(2, on);
    while (statement.step())
      children.push_back(statement.column<roster::ChildId>(0));
    for (const auto& thing : knownRivals()) {
      if (thing.kind != Rows<roster::Child>::table) continue;
      const roster::ChildId child(thing.subject);
      const auto first = std::ranges::find(children, child);
      if (first == children.end()) continue;
      auto words = selectRows<roster::Child>(connection_, subjectIs(child), Which::current);
      keepWhatCounts(words);
      const bool isHere = std::ranges::any_of(words, [&](const auto& word) {
        return word.value.school == school && !roster::hasLeft(word.value, on);
      });
      children.erase(std::remove(isHere ? std::next(first) : first, children.end(), child),
                     children.end());
    }
    return children;
  });
}

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
