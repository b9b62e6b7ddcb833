#pragma once

#include "reports/records/term_view.h"

#include <optional>

namespace gk::reports {

/// What one school, or all of them, come to in a term. Children are counted once each, by the
/// school they are in now; teeth once each, whatever was placed on them twice.
struct Participation {
  std::string school;                   ///< as shown; of a grade, the grade
  std::optional<roster::SchoolId> id{}; ///< none of a sum or a grade
  std::optional<int> enrolled; ///< none where no one has said; then there is no consent rate
  int formsBack = 0;           ///< children with a form that is more than "not returned"
  /// Children with a form of this term that says yes and stands on a day of it, or screened in it.
  /// Withdrawn before any care does not count and stays in `formsBack`; nor does a recheck under
  /// last year's form alone.
  int consented = 0;
  int underOverride = 0; ///< of consented: screened on a clinician's override alone
  int screened = 0;

  /// Consented and not screened, by the last outcome; with `screened` they add up to `consented`.
  int absent = 0;
  int declined = 0;
  int left = 0;
  int withdrawn = 0;
  int onHold = 0;
  int notReached = 0;
  int seenOnly = 0;   ///< rechecked, or treated on an earlier term's screening
  int stillToSee = 0; ///< no outcome yet

  /// Of screened: a tooth to seal, repair, reseal or cover at any screening of the term, or sealed
  /// without one, as a recheck found.
  int needing = 0;
  int sealed = 0; ///< with at least one complete sealant
  /// Of sealed: not screened this term, such as resealed at a recheck. Need is a finding about the
  /// children screened, so these are in neither part of that share.
  int sealedUnscreened = 0;
  int unfinished = 0; ///< of sealed: the last outcome says so
  int firstMolars = 0;
  int secondMolars = 0;
  int otherTeeth = 0;
  int surfaces = 0;
  int varnish = 0;           ///< children
  int varnishUnscreened = 0; ///< of varnish: not screened this term

  int untreated = 0;    ///< untreated decay at any screening
  int couldNotTell = 0; ///< screened, and no screening could tell whether there is any
  int early = 0;        ///< by the most urgent screening
  int urgent = 0;

  int days = 0;   ///< held up to now; two teams on one date are two days
  int visits = 0; ///< a child on a day; a child seen twice has two

  /// Sealed of those needing.
  [[nodiscard]] int sealedInNeed() const { return sealed - sealedUnscreened; }
  [[nodiscard]] int varnishScreened() const { return varnish - varnishUnscreened; }
  [[nodiscard]] int teeth() const { return firstMolars + secondMolars + otherTeeth; }
  /// Screened children for each day; none without a day.
  [[nodiscard]] std::optional<double> childrenPerDay() const;
  /// Those for whom untreated decay was recorded as there or not: its share is of them.
  [[nodiscard]] int decayKnown() const { return screened - couldNotTell; }
  /// Teeth for each sealed child; none without one.
  [[nodiscard]] std::optional<double> teethPerChild() const;
};

/// What one child adds to its school's counts: zero or one, but for teeth, surfaces and visits.
struct ChildShare {
  roster::ChildId child;
  roster::SchoolId school;
  Participation counts;
};

/// One for each child of the records; the schools' counts are their sums, so that every number can
/// show whom it counts.
std::vector<ChildShare> participationByChild(const TermView& view);

/// The sum; its enrollment is unknown when any school's is.
Participation sumOf(const std::vector<Participation>& schools);

/// One for each school of `records`, by name, also where no one consented.
std::vector<Participation> participation(const TermView& view);

} // namespace gk::reports
