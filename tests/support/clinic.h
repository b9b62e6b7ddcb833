#pragma once

#include "session/session.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <optional>

namespace gk::test {

/// The value, or a failed test that says why not.
template <class T>
T must(base::Result<T> result) {
  if (!result) FAIL(base::errorName(result.error().code) << ": " << result.error().detail);
  return std::move(*result);
}

/// The code of a failure; a failed test when there is none.
template <class T>
base::ErrorCode codeOf(const base::Result<T>& result) {
  REQUIRE_FALSE(result.has_value());
  return result.error().code;
}

/// A small invented program on Tuesday November 17, 2026, 09:00, one open day, with the kit of the
/// morning. Everything is entered through the session's own verbs.
class Clinic {
 public:
  /// `primaryTeeth`: the program offers primary teeth and premolars as well.
  explicit Clinic(bool primaryTeeth = false);
  /// One whose program works under this supervision.
  explicit Clinic(roster::Supervision supervision);
  /// A book of this kind at this place; the folder is the caller's.
  Clinic(const base::Path& book, session::BookKind kind,
         roster::Supervision supervision = roster::Supervision::general);

  /// A second-grader with a full consent, not yet seated.
  roster::ChildId child(const std::string& first, const std::string& last = "Hollowell");
  roster::ChildId childWithoutForm(const std::string& first, const std::string& last = "Hollowell");
  [[nodiscard]] roster::Consent form(roster::ChildId child) const;
  /// What the dentist found at the school the week before may be done on these teeth.
  [[nodiscard]] chairside::Authorization authorization(roster::ChildId child,
                                                       const std::vector<int>& isoTeeth) const;
  void seat(roster::ChildId child);
  /// The four first molars sound and to be sealed.
  void screenFour(roster::ChildId child);
  [[nodiscard]] chairside::Screening fourSound(roster::ChildId child) const;
  [[nodiscard]] chairside::Field field(roster::ChildId child, std::vector<int> isoTeeth) const;

  [[nodiscard]] chairside::StepRun run(chairside::FieldId field, chairside::Step step,
                                       std::vector<int> isoTeeth, int seconds = 0) const;
  /// All steps from etch to the check for these teeth.
  void sealAll(chairside::FieldId field, const std::vector<int>& isoTeeth);
  void etchToFlow(chairside::FieldId field, const std::vector<int>& isoTeeth);
  /// Seats, screens and seals the four first molars in two half mouths, and ends the visit.
  void standardVisit(roster::ChildId child);
  chairside::OutcomeId end(roster::ChildId child, chairside::DayEnd end, std::string reason = {});

  std::optional<Scratch> folder;
  base::ManualClock clock;
  base::SeededRandom random{20261117};
  base::LaptopId laptop;
  session::Session session;

  base::MemberId hygienist;
  base::MemberId assistant;
  base::MemberId coordinator;
  std::optional<base::MemberId> dentist; ///< where the program waits for one
  roster::TermId term;
  roster::SchoolId school;
  kit::LotId resin;
  kit::LotId selfCure;
  kit::LotId ionomer;
  kit::LotId etchant;
  kit::LotId varnish;
  kit::LightId light;
  kit::LightId spare;
  roster::DayId day;
  base::By by;

  static constexpr const char* passphrase = "quiet gym floor";

 private:
  Clinic(std::optional<Scratch>&& folder, const base::Path& book, session::BookKind kind,
         bool primaryTeeth, roster::Supervision supervision);
  base::Date today() { return clock.now().date(); }
  roster::Child newChild();
  int children_ = 0;
};

} // namespace gk::test
